package main

import (
	"github.com/spf13/cobra"
	"github.com/spf13/cobra/doc"

	"example.com/plumbline/internal/words"
)

// manualCommand writes the manual pages; those who package the program run it.
func (p *program) manualCommand() *cobra.Command {
	return &cobra.Command{
		Use:    "man",
		Hidden: true,
		Args:   exactly(1, "folder"),
		RunE:   func(cmd *cobra.Command, args []string) error { return p.manual(cmd.Root(), args[0]) },
	}
}

// manual writes one page for each command. The pages bear the date of the
// SOURCE_DATE_EPOCH variable, so that a release is the same bytes every day.
func (p *program) manual(root *cobra.Command, dir string) error {
	p.wordHelp(root)
	root.DisableAutoGenTag = true
	header := &doc.GenManHeader{Section: "1", Source: "plumbline " + versionText(), Manual: "Plumbline"}
	if err := doc.GenManTree(root, header, dir); err != nil {
		return systemFailed(words.Fail("command.manual_failed", "why", p.errorText(err)))
	}
	return nil
}
