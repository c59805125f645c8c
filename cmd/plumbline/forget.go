package main

import (
	"fmt"
	"os"

	"github.com/spf13/cobra"

	"example.com/plumbline/internal/layout"
	"example.com/plumbline/internal/store"
	"example.com/plumbline/internal/words"
	"example.com/plumbline/internal/yamldoc"
)

func (p *program) forgetCommand() *cobra.Command {
	return &cobra.Command{
		Use: "forget",
		RunE: func(cmd *cobra.Command, args []string) error {
			for _, path := range args {
				if _, err := os.Lstat(path); err != nil {
					return systemFailed(words.Fail("command.not_removed", "why", p.errorText(err)))
				}
			}
			removed, err := store.Forget(args...)
			for _, path := range removed {
				fmt.Fprintln(p.stdout, yamldoc.Printable(p.say("files.removed", "file", path)))
			}
			if err != nil {
				return systemFailed(err)
			}
			if len(removed) == 0 {
				fmt.Fprintln(p.stdout, p.say("files.nothing"))
			}
			for _, line := range layout.Wrap(p.say("files.not_ours"), p.width()) {
				fmt.Fprintln(p.stdout, line)
			}
			return nil
		},
	}
}
