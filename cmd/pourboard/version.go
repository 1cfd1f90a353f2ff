package main

import (
	_ "embed"
	"runtime/debug"

	"github.com/spf13/pflag"
)

// licences is written by .ci/licences.
//
//go:embed licences.txt
var licences string

func versionFlags(f *pflag.FlagSet) action {
	all := f.Bool("licences", false, "")
	return func(u *ui, _ []string) error {
		if *all {
			u.print(licences)
			return nil
		}
		u.printf("pourboard %s\n", version())
		return nil
	}
}

// version is what the build recorded: a release, or the commit it came from.
func version() string {
	info, ok := debug.ReadBuildInfo()
	if !ok || info.Main.Version == "" || info.Main.Version == "(devel)" {
		return "built from source"
	}
	return info.Main.Version
}
