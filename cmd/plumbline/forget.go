package main

import (
	"fmt"
	"os"

	"github.com/spf13/cobra"

	"example.com/plumbline/internal/store"
	"example.com/plumbline/internal/yamldoc"
)

func (p *program) forgetCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "forget [FILE ...]",
		Short: "Remove the answers that the program has stored",
		Long: `Removes each answers file named, or the one that the interview keeps when no
file is named, with its backups, and says what it removed. Nothing else is ever
removed.`,
		RunE: func(cmd *cobra.Command, args []string) error {
			for _, path := range args {
				if _, err := os.Lstat(path); err != nil {
					return systemFailed(fmt.Errorf("nothing was removed: %w", err))
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
			return nil
		},
	}
}
