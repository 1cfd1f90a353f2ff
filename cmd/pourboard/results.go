package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"pourboard/blend/plan"
	"pourboard/blend/record"
	"pourboard/blend/results"
	"pourboard/render/pdf"
	"pourboard/render/text"
	"pourboard/render/wording"
)

func resultsCommand() command {
	return command{
		name: "results",
		line: "read a filled-in log: maps, best cups, models",
		help: `Usage:  pourboard results PLAN LOG [FLAGS]

Reads the log of the fired tiles, a workbook or CSV, prints what came out and
writes it as PLAN-results.pdf. Rows are known by their mark, so the log may have
been sorted, filtered or saved by another program. What cannot be read with
certainty is listed with its row and left out; the log itself is never changed.

  --out FOLDER      another folder for the PDF
` + measuredHelp + `
Where --quiet is given, what was left out is not listed either.

Example:

  pourboard results plan.toml plan-log.xlsx
`,
		run: runResults,
	}
}

func runResults(u *ui, args []string) error {
	f := flags("results")
	out := f.String("out", "", "")
	var o overrides
	o.add(f)
	args, err := u.parse(f, args, "the plan's file", "the log's file")
	if err != nil {
		return err
	}
	if looksLikeLog(args[0]) && !looksLikeLog(args[1]) {
		return usagef("%s looks like a log, and the plan comes first: pourboard results %s %s", args[0], args[1], args[0])
	}
	j, err := load(args[0], o)
	if err != nil {
		return err
	}
	log, amounts, err := j.readLog(u, args[1])
	if err != nil {
		return err
	}
	log.Notes = append(log.Notes, amounts...)
	if n, ok := j.test.Assumed(); ok {
		log.Notes = append(log.Notes, wording.LineOf(n).String())
	}
	if len(log.Readings) == 0 {
		return j.nothingRead(args[1], log)
	}
	u.tellLog(args[1], log)
	r := results.Evaluate(j.test, log)
	if err := text.Results(u.out, j.places.Scheme, r, j.file); err != nil {
		return err
	}
	folder := filepath.Dir(args[0])
	if *out != "" {
		folder = *out
		if err := os.MkdirAll(folder, 0o755); err != nil {
			return notWritten(folder, err, byOut)
		}
	}
	var body bytes.Buffer
	notes, err := pdf.Results(&body, j.places, r, j.tried)
	if err != nil {
		return fmt.Errorf("%s: %w", args[1], err)
	}
	file := filepath.Join(folder, j.name+"-results.pdf")
	if err := j.ofAnother(file); err != nil {
		return err
	}
	if err := writeFile(file, body.Bytes(), byOut); err != nil {
		return err
	}
	u.printf("\n%s is written\n", file)
	u.warn(args[0], notes)
	return nil
}

// looksLikeLog reports whether a file's name is that of a table and not of a
// plan.
func looksLikeLog(file string) bool {
	return slices.Contains([]string{".xlsx", ".xlsm", ".xls", ".ods", ".csv", ".tsv"}, strings.ToLower(filepath.Ext(file)))
}

// nothingRead says why a log gave nothing; the results that there are stay.
func (j *job) nothingRead(file string, log *record.Log) error {
	if log.Origin.Other {
		differ := plan.Differences(log.Origin.Outline, plan.Outline(j.plan))
		return fmt.Errorf("%s: is the log of another plan than %s, and no row in it with something written down is of a mark and mixture of this plan: %s", file, j.file, strings.Join(differ, "; "))
	}
	if len(log.Complaints) > 0 {
		return fmt.Errorf("%s: nothing could be read; the first thing that is wrong is in %s", file, log.Complaints[0])
	}
	return fmt.Errorf("%s: nothing is written down yet of any tile", file)
}
