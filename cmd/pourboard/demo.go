package main

import (
	"embed"
	"os"
	"path/filepath"

	"pourboard/render/text"
)

// demoFiles are the invented plans and, as CSV, logs with invented results.
//
//go:embed demo
var demoFiles embed.FS

// demoPlans are the plans' names; the first is the one that is shown.
var demoPlans = [...]string{"copper-series", "ash-triaxial"}

func demoCommand() command {
	return command{
		name: "demo",
		line: "make everything for two invented tests, to look at",
		help: `Usage:  pourboard demo [FOLDER]

Writes two invented plans into FOLDER (pourboard-demo when none is named), a
colourant series on three bodies and a triaxial of three glazes, and makes the
packet and the workbooks of each beside them, and a log with invented results.
Plans that are there already are kept, with whatever has been changed in them.

Example:

  pourboard demo
`,
		run: runDemo,
	}
}

func runDemo(u *ui, args []string) error {
	args, err := u.parse(flags("demo"), args, "[the folder]")
	if err != nil {
		return err
	}
	folder := "pourboard-demo"
	if len(args) > 0 {
		folder = args[0]
	}
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return notWritten(folder, err, byFolder)
	}
	for i, name := range demoPlans {
		file := filepath.Join(folder, name+".toml")
		for _, part := range []string{name + ".toml", name + "-fired.csv"} {
			if err := layDown(folder, part); err != nil {
				return err
			}
		}
		j, err := load(file, overrides{})
		if err != nil {
			return err
		}
		if i == 0 {
			if err := text.Table(u.out, j.test); err != nil {
				return err
			}
			u.printf("\n")
		}
		u.printf("%s\n", file)
		if err := u.make(j, makeOptions{folder: folder, elsewhere: byFolder}); err != nil {
			return err
		}
		u.printf("  %s\n", filepath.Join(folder, name+"-fired.csv"))
	}
	first := filepath.Join(folder, demoPlans[0])
	u.printf(`
Print the PDFs at 100 %%, or change a plan and run
  pourboard make %s.toml
The -fired.csv are logs with invented results, to see what comes after
  pourboard results %s.toml %s-fired.csv
`, first, first, first)
	return nil
}

// layDown writes a file of the demo unless it is there already.
func layDown(folder, name string) error {
	file := filepath.Join(folder, name)
	if _, err := os.Stat(file); err == nil {
		return nil
	}
	body, err := demoFiles.ReadFile("demo/" + name)
	if err != nil {
		return err
	}
	return createFile(file, body, byFolder)
}
