package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"sync"

	"pourboard/blend"
	"pourboard/render/logbook"
	"pourboard/render/pourbook"
	"pourboard/render/sheets"
	"pourboard/render/wording"
	"pourboard/render/xlsx"
)

// output is one file of a command that makes several.
type output struct {
	file   string
	about  string // what its notes are about
	render func(io.Writer) ([]string, error)
	// keeps reports whether a file of its name is not to be replaced; nil where any
	// is. It is asked before the output is drawn, and again before it is put in its
	// place.
	keeps func(file string) bool
	kept  func() // says that it was kept
	notes []string
	ready *prepared // nil for one that is not drawn
	err   error
}

// prepare draws the output and writes it beside its place, unless a file there is kept.
func (o *output) prepare(elsewhere string) {
	if o.keeps != nil && o.keeps(o.file) {
		return
	}
	var body bytes.Buffer
	if o.notes, o.err = o.render(&body); o.err != nil {
		o.err = fmt.Errorf("%s: %w", o.file, o.err)
		return
	}
	o.ready, o.err = prepare(o.file, body.Bytes(), elsewhere)
}

// writeAll draws the outputs, and puts them in their places one after the other when
// all are done, so that one that cannot be drawn, or a disk that is full, leaves
// everything as it was. notes are what the outputs have to tell.
func (u *ui) writeAll(elsewhere string, outputs ...*output) (notes []wording.Line, err error) {
	defer func() {
		for _, o := range outputs {
			if o.ready != nil {
				o.ready.drop()
			}
		}
	}()
	if err := draw(outputs, elsewhere); err != nil {
		return nil, err
	}
	if err := u.place(outputs); err != nil {
		return nil, err
	}
	for _, o := range outputs {
		for _, text := range o.notes {
			notes = append(notes, wording.Line{Place: o.about, What: text})
		}
	}
	return notes, nil
}

// folderFor is the folder that is asked for, made where it is not there, or the one
// beside.
func folderFor(asked, beside, elsewhere string) (string, error) {
	if asked == "" {
		return beside, nil
	}
	return asked, makeFolder(asked, elsewhere)
}

// draw draws outputs side by side; the first that failed is the error.
func draw(outputs []*output, elsewhere string) error {
	var wait sync.WaitGroup
	for _, o := range outputs {
		wait.Go(func() { o.prepare(elsewhere) })
	}
	wait.Wait()
	for _, o := range outputs {
		if o.err != nil {
			return o.err
		}
	}
	return nil
}

// place puts what was drawn in its places. Drawing takes a while: what a person has
// saved since, or another run has put there, is kept.
func (u *ui) place(outputs []*output) error {
	for _, o := range outputs {
		kept := func() bool { return o.keeps != nil && o.keeps(o.file) }
		err := errors.New("not drawn")
		if o.ready != nil && !kept() {
			if _, missing := os.Lstat(o.file); missing != nil && o.keeps != nil {
				err = o.ready.create()
			} else {
				err = o.ready.replace()
			}
		}
		switch {
		case err == nil:
			u.printf("  %s\n", o.file)
		case kept():
			o.kept()
		default:
			return err
		}
	}
	return nil
}

// make writes the files of a plan, and adds their notes to its own.
func (u *ui) make(j *job, m makeOptions) error {
	defer u.progress("still at work on " + j.file)()
	folder, err := folderFor(m.folder, filepath.Dir(j.file), m.elsewhere)
	if err != nil {
		return err
	}
	advice, err := blend.Advise(j.test)
	if err != nil {
		return fmt.Errorf("%s: %w", j.file, err)
	}
	printed := sheets.Sheets{
		Test: j.test, Places: j.places, Advice: advice, Notes: j.notes,
		Only: m.only, Also: m.also, MeasuredMM: m.measured, Free: m.free, Tried: j.tried,
	}
	base := filepath.Join(folder, j.name)
	outputs := []*output{{file: base + ".pdf", about: "sheets", render: printed.Write}}
	drawn, more, err := printed.Chosen()
	if err != nil {
		return fmt.Errorf("%s: %w", j.file, err)
	}
	if m.only == nil {
		if outputs, err = u.withWorkbooks(outputs, j, base, m); err != nil {
			return err
		}
	} else { // a part does not replace the whole, and is called by what is in it
		outputs[0].file = base + "-" + strings.Join(drawn, "-") + ".pdf"
	}
	notes, err := u.writeAll(m.elsewhere, outputs...)
	if err != nil {
		return err
	}
	if len(more) > 0 && m.only == nil && !u.quiet {
		u.printf("More on request: --also %s\n", strings.Join(more, ","))
	}
	j.notes = append(j.notes, notes...)
	return nil
}

// withWorkbooks adds the pour workbook, which gives way to one that a person saved,
// and the log, which is written once.
func (u *ui) withWorkbooks(outputs []*output, j *job, base string, m makeOptions) ([]*output, error) {
	pour, log := base+"-pour.xlsx", base+"-log.xlsx"
	exists := func(file string) bool { _, err := os.Lstat(file); return err == nil }
	if m.logAs != "" {
		log = filepath.Join(filepath.Dir(base), m.logAs+"-log.xlsx")
	}
	if exists(log) {
		if err := regular(log); err != nil {
			return nil, err
		}
		if m.logAs != "" {
			return nil, isKept(log, "choose another name with --log-as")
		}
	}
	return append(outputs, &output{
		file: pour, about: "workbook", keeps: func(file string) bool { return !mayReplace(file) },
		render: func(w io.Writer) ([]string, error) { return pourbook.Write(w, j.test) },
		kept: func() {
			u.printf("  %s kept; you saved it, so its amounts may differ from these sheets", pour)
			u.printf(" (for a new one, rename it and run make again)\n")
		},
	}, &output{
		file: log, about: "workbook", keeps: exists,
		render: func(w io.Writer) ([]string, error) { return logbook.Write(w, j.test, j.places, j.text, m.filled) },
		kept:   func() { u.keep(j, log) },
	}), nil
}

// mayReplace reports whether a pour workbook may be written: there is none, or
// it is as it was written, and nobody has typed the day's numbers into it. What
// is no file at all is for prepare to complain of.
func mayReplace(file string) bool {
	info, err := os.Stat(file)
	if err != nil || !info.Mode().IsRegular() {
		return true
	}
	f, err := os.Open(file)
	if err != nil {
		return errors.Is(err, fs.ErrNotExist)
	}
	defer f.Close()
	return xlsx.Untouched(f, info.Size())
}
