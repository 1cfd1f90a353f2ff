package main

import (
	"cmp"
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/pflag"

	"pourboard/blend"
	"pourboard/blend/class"
	"pourboard/blend/quantity"
	"pourboard/blend/record"
	"pourboard/layout"
	"pourboard/render/logbook"
	"pourboard/render/pourbook"
	"pourboard/render/sheets"
	"pourboard/render/xlsx"
)

// makeOptions are what make is asked for beyond the plan.
type makeOptions struct {
	folder   string // "" for that of the plan
	only     []string
	also     []string
	measured float64 // of the printed bar, in mm
	free     []int
	logAs    string
	filled   *record.Log // what a new log is filled in with
}

func makeFlags(f *pflag.FlagSet) action {
	var o overrides
	o.add(f)
	var m makeOptions
	f.StringVar(&m.folder, "out", "", "print")
	f.StringSliceVar(&m.only, "only", nil, "board,pour")
	f.StringSliceVar(&m.also, "also", nil, "trays,labels")
	f.StringVar(&m.logAs, "log-as", "", "second")
	add(f, &m.measured, "measured", "97.4", positive(func(text string) (float64, error) {
		if mm, err := quantity.Length(text + " mm"); err == nil {
			return mm, nil
		}
		return quantity.Length(text)
	}))
	free := f.String("free", "", "3-7,20")
	return func(u *ui, args []string) error {
		err := cmp.Or(oneOf(f, "only", "also"), m.check(len(args), *free))
		if err != nil {
			return err
		}
		o.folder = m.folder
		jobs, err := loadAll(args, o)
		if err != nil {
			return err
		}
		if labels := jobs[0].plan.Labels; *free != "" && labels == nil {
			return usagef("--free needs labels (describe them in [labels] of the plan)")
		} else if *free != "" {
			if m.free, err = layout.ParseFree(*free, labels.Columns*labels.Rows); err != nil {
				return usagef("--free: %s", err)
			}
		}
		if len(jobs) > 1 {
			return u.makeClass(jobs, m)
		}
		return u.makeSheets(jobs[0], m)
	}
}

// check holds the flags against each other and reads their values, but for --free,
// which is about a plan.
func (m *makeOptions) check(plans int, free string) (err error) {
	logAs := m.logAs
	m.logAs = strings.TrimSuffix(strings.TrimSuffix(logAs, ".xlsx"), "-log")
	switch {
	case plans > 1 && (logAs != "" || free != ""):
		return usagef("--log-as and --free take one plan at a time")
	case logAs != "" && m.logAs != filepath.Base(m.logAs):
		return usagef("--log-as %q names a folder (use --out for the folder)", logAs)
	}
	if m.only, err = partNames("--only", m.only); err != nil {
		return err
	}
	m.also, err = partNames("--also", m.also)
	return err
}

// makeSheets makes the files of one plan and prints its notes.
func (u *ui) makeSheets(j *job, m makeOptions) error {
	if err := u.make(j, m); err != nil {
		return err
	}
	u.warnPlan(j)
	u.warnMark(j)
	return nil
}

// make writes the files of a plan, and adds their notes to its own.
func (u *ui) make(j *job, m makeOptions) error {
	defer u.progress("still at work on " + j.file)()
	advice, err := blend.Advise(j.test)
	if err != nil {
		return fmt.Errorf("%s: %w", j.file, err)
	}
	printed := sheets.Sheets{
		Test: j.test, Places: j.places, Advice: advice, Notes: j.notes,
		Only: m.only, Also: m.also, MeasuredMM: m.measured, Free: m.free, Tried: j.tried,
	}
	drawn, more, err := printed.Chosen()
	if err != nil {
		return fmt.Errorf("%s: %w", j.file, err)
	}
	base := filepath.Join(cmp.Or(m.folder, filepath.Dir(j.file)), j.name)
	outputs := []*output{{file: base + ".pdf", render: printed.Write}}
	if m.only == nil {
		outputs = append(outputs, u.workbooks(j, base, m)...)
	} else { // a part does not replace the whole, and is called by what is in it
		outputs[0].file = base + "-" + strings.Join(drawn, "-") + ".pdf"
	}
	notes, err := u.writeAll(outputs...)
	if err != nil {
		return err
	}
	if len(more) > 0 && m.only == nil && !u.quiet {
		u.printf("More on request: --also %s\n", strings.Join(more, ","))
	}
	j.notes = append(j.notes, notes...)
	return nil
}

// workbooks are the pour workbook, which gives way to one that a person saved, and
// the log, which is written once.
func (u *ui) workbooks(j *job, base string, m makeOptions) []*output {
	pour := &output{file: base + "-pour.xlsx", keeps: func(file string) bool { return !mayReplace(file) },
		render: func(w io.Writer) ([]string, error) { return pourbook.Write(w, j.test) }}
	pour.kept = func() {
		u.printf("  %s kept; you saved it, so its amounts may differ from these sheets"+
			" (for a new one, rename it and run make again)\n", pour.file)
	}
	log := &output{file: base + "-log.xlsx", keeps: isFile,
		render: func(w io.Writer) ([]string, error) { return logbook.Write(w, j.test, j.places, j.text, m.filled) }}
	if m.logAs != "" {
		log.file = filepath.Join(filepath.Dir(base), m.logAs+"-log.xlsx")
	} else {
		log.kept = func() { u.keep(j, log.file) }
	}
	return []*output{pour, log}
}

// mayReplace reports whether a pour workbook may be written: there is none, or nobody
// has typed into the one that is there.
func mayReplace(file string) bool {
	if !isFile(file) {
		return true
	}
	f, info, err := openFile(file)
	if err != nil {
		return false
	}
	defer f.Close()
	return xlsx.Untouched(f, info.Size())
}

// loadAll works out every plan before anything is written.
func loadAll(files []string, o overrides) ([]*job, error) {
	var jobs []*job
	for i, file := range files {
		if slices.Contains(files[:i], file) {
			return nil, usagef("%s is named twice", file)
		}
		j, err := load(file, o)
		if err != nil {
			return nil, err
		}
		jobs = append(jobs, j)
	}
	return jobs, nil
}

// makeClass makes the sheets of several plans, and the class sheet.
func (u *ui) makeClass(jobs []*job, m makeOptions) error {
	var members []class.Member
	written := map[string]string{}
	for _, j := range jobs {
		base := filepath.Join(cmp.Or(m.folder, filepath.Dir(j.file)), j.name)
		if other, taken := written[base]; taken {
			return usagef("%s and %s would write the same files (rename one)", other, j.file)
		}
		if j.name == classSheet {
			return usagef("%s has the name of the class sheet (rename it)", j.file)
		}
		written[base] = j.file
		members = append(members, class.Member{Plan: j.file, Test: j.test})
	}
	for _, j := range jobs {
		u.printf("%s\n", j.file)
		if err := u.make(j, m); err != nil {
			return err
		}
		u.warnPlan(j)
	}
	sheet := class.Of(members)
	folder := cmp.Or(m.folder, filepath.Dir(jobs[0].file))
	_, err := u.writeAll(&output{file: filepath.Join(folder, classSheet+".pdf"),
		render: func(w io.Writer) ([]string, error) { return nil, sheets.WriteClass(w, sheet) }})
	if err != nil {
		return err
	}
	for _, c := range sheet.Clashes {
		u.note("note: %s and %s share the mark %s (give one of them another mark)", jobs[c.A].file, jobs[c.B].file,
			c.Mark)
	}
	return nil
}

// classSheet is the name of the class sheet's file, without its ending.
const classSheet = "class-sheet"

// partNames checks the names of parts given to a flag, and drops what is named
// twice and the nothing behind a last comma.
func partNames(flag string, names []string) ([]string, error) {
	var all []string
	for _, name := range names {
		name = strings.ToLower(strings.TrimSpace(name))
		if slices.Contains(all, name) || name == "" && all != nil {
			continue
		}
		if !slices.Contains(sheets.Parts(), name) {
			return nil, usagef("%s: unknown part %q%s", flag, name, nearestOrAll(name, sheets.Parts(), "choose from"))
		}
		all = append(all, name)
	}
	return all, nil
}
