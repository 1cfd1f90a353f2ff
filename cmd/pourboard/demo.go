package main

import (
	"bytes"
	"embed"
	"path/filepath"

	"pourboard/blend/record"
	"pourboard/render/logbook"
)

// demoFiles are the invented plans and, as CSV, the tiles and firings of their logs, with invented results.
//
//go:embed demo
var demoFiles embed.FS

// demoPlans are the plans' names; the first is the one that is shown.
var demoPlans = [...]string{"copper-series", "ash-triaxial", "class-rows", "bucket-pairs", "iron-refired"}

func runDemo(u *ui, args []string) error {
	folder := "pourboard-demo"
	if len(args) > 0 {
		folder = args[0]
	}
	for i, name := range demoPlans {
		file := filepath.Join(folder, name+".toml")
		body, err := demoFiles.ReadFile("demo/" + name + ".toml")
		if err != nil {
			return err
		}
		// It is kept where it is there already, or comes from another run meanwhile.
		if err := createFile(file, body); err != nil && !isFile(file) {
			return err
		}
		j, err := load(file, overrides{})
		if err != nil {
			return err
		}
		u.printf("%s\n", file)
		filled, err := demoLog(j)
		if err != nil {
			return err
		}
		u.quiet = i > 0 // "More on request" is printed once
		if err := u.make(j, makeOptions{folder: folder, filled: filled}); err != nil {
			return err
		}
	}
	first := filepath.Join(folder, demoPlans[0])
	u.printf(`
Print the PDFs at 100 %%, or change a plan and run
  pourboard make %s.toml
The logs hold invented results. Look at them with
  pourboard results %s.toml %s-log.xlsx
  pourboard book %s
`, first, first, first, folder)
	return nil
}

// demoLog is the log of a plan of the demo, filled in with invented results; nil
// where the plan has been changed, for its marks may mean other cups.
func demoLog(j *job) (*record.Log, error) {
	if own, err := demoFiles.ReadFile("demo/" + j.name + ".toml"); err != nil || string(own) != j.text {
		return nil, err
	}
	var sheets []record.Sheet
	for _, part := range []string{"tiles", "firings"} {
		file := j.name + "-" + part + ".csv"
		body, err := demoFiles.ReadFile("demo/" + file)
		if err != nil {
			return nil, err
		}
		read, err := logbook.Read(file, bytes.NewReader(body), int64(len(body)), len(j.places.Tiles))
		if err != nil {
			return nil, err
		}
		read[0].Name = part
		sheets = append(sheets, read[0])
	}
	return record.Read(j.test, sheets)
}
