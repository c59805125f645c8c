package main

import (
	"fmt"

	"github.com/spf13/cobra"
	"github.com/spf13/cobra/doc"
)

// manualCommand writes the manual pages; those who package the program run it.
func (p *program) manualCommand() *cobra.Command {
	return &cobra.Command{
		Use:    "man DIR",
		Short:  "Write the manual pages into a folder",
		Hidden: true,
		Args:   exactly(1, "a folder"),
		RunE:   func(cmd *cobra.Command, args []string) error { return p.manual(cmd.Root(), args[0]) },
	}
}

// manual writes one page for each command. The pages bear the date of the
// SOURCE_DATE_EPOCH variable, so that a release is the same bytes every day.
func (p *program) manual(root *cobra.Command, dir string) error {
	root.DisableAutoGenTag = true
	header := &doc.GenManHeader{Section: "1", Source: "plumbline " + versionText(), Manual: "Plumbline"}
	if err := doc.GenManTree(root, header, dir); err != nil {
		return systemFailed(fmt.Errorf("the manual pages cannot be written: %w", err))
	}
	return nil
}
