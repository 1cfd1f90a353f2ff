package main

import "runtime/debug"

func versionCommand() command {
	return command{
		name: "version",
		line: "print the version",
		help: `Usage:  pourboard version

Prints which pourboard this is.
`,
		run: func(u *ui, args []string) error {
			if _, err := u.parse(flags("version"), args); err != nil {
				return err
			}
			u.printf("pourboard %s\n", version())
			return nil
		},
	}
}

// version is what the build recorded: a release, or the commit it came from.
func version() string {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return "(not recorded)"
	}
	if v := info.Main.Version; v != "" && v != "(devel)" {
		return v
	}
	for _, s := range info.Settings {
		if s.Key == "vcs.revision" {
			return "built from " + s.Value
		}
	}
	return "built from source"
}
