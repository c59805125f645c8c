package main

import (
	"fmt"
	"runtime/debug"
	"strconv"

	"github.com/spf13/cobra"

	"example.com/plumbline/internal/tables"
	"example.com/plumbline/internal/words"
)

// version is set by the release build.
var version = ""

func (p *program) versionCommand() *cobra.Command {
	showLicenses := false
	cmd := &cobra.Command{
		Use:  "version",
		Args: exactly(0, "nothing"),
		RunE: func(cmd *cobra.Command, args []string) error {
			if showLicenses {
				fmt.Fprint(p.stdout, licenses)
				return nil
			}
			var years []string
			for _, year := range tables.Years(p.inside) {
				years = append(years, strconv.Itoa(year))
			}
			fmt.Fprintf(p.stdout, "plumbline %s\n%s\n", versionText(), p.language.Say(words.T("tables.inside", "years", years)))
			return nil
		},
	}
	cmd.Flags().BoolVar(&showLicenses, "licenses", false, "")
	return cmd
}

// versionText is the release, or what the Go tool knows of the source.
func versionText() string {
	if version != "" {
		return version
	}
	if info, ok := debug.ReadBuildInfo(); ok && info.Main.Version != "" {
		return info.Main.Version
	}
	return "(devel)"
}
