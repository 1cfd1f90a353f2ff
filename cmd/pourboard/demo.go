package main

import (
	"embed"
	"os"
	"path/filepath"

	"pourboard/render/text"
)

// demoFiles are the invented plans; the first is the one that is shown.
//
//go:embed demo/*.toml
var demoFiles embed.FS

var demoPlans = [...]string{"copper-series.toml", "ash-triaxial.toml"}

func demoCommand() command {
	return command{
		name: "demo",
		line: "make everything for two invented tests, to look at",
		help: `Usage:  pourboard demo [FOLDER]

Writes two invented plans into FOLDER (pourboard-demo when none is named), a
colourant series on three bodies and a triaxial of three glazes, and makes the
packet and the workbooks of each beside them. Plans that are there already
are kept, with whatever has been changed in them.

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
		return plainly(folder, err)
	}
	for i, name := range demoPlans {
		file := filepath.Join(folder, name)
		if _, err := os.Stat(file); err != nil {
			plan, err := demoFiles.ReadFile("demo/" + name)
			if err != nil {
				return err
			}
			if err := createFile(file, plan); err != nil {
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
		if err := u.make(j, makeOptions{folder: folder}); err != nil {
			return err
		}
	}
	u.printf("\nPrint the PDFs at 100 %%, or change a plan and run: pourboard make %s\n", filepath.Join(folder, demoPlans[0]))
	return nil
}
