package main

import (
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
	"pourboard/render/xlsx"
)

// output is one file of a command. When it is drawn it lies, whole and synced, under
// a name of its own beside its place.
type output struct {
	file   string
	about  string // what its notes are about
	render func(io.Writer) ([]string, error)
	// keeps reports whether a file of its name is not to be replaced; nil where any
	// is. It is asked before the output is drawn, and again before it is put in its
	// place.
	keeps func(file string) bool
	kept  func() // says that it was kept

	notes  []string
	target string // what file is a link to, or itself
	tmp    string // what it is called until it is in its place, "" while it is not drawn
	err    error
}

// prepare draws the output and writes it beside its place, unless a file there is
// kept. A link is followed, so that what it points at is replaced; a file's mode is
// kept. Another name of the same file (a hard link) keeps the old content.
func (o *output) prepare(elsewhere string) {
	if o.isKept() {
		return
	}
	target, mode, err := replaceable(o.file, elsewhere)
	if err != nil {
		o.err = err
		return
	}
	o.target = target
	o.tmp, err = writeBeside(target, mode, func(w io.Writer) (err error) {
		o.notes, err = o.render(w)
		return err
	})
	var ofFile *fs.PathError
	switch {
	case errors.As(err, &ofFile):
		o.err = notWritten(o.file, err, elsewhere)
	case err != nil: // of what is drawn
		o.err = fmt.Errorf("%s: %w", o.file, err)
	}
}

func (o *output) isKept() bool { return o.keeps != nil && o.keeps(o.file) }

// place puts what was drawn in its place; done is false where a file there is kept.
// Drawing takes a while: that may have been saved since, or be of another run. The
// folder itself is not synced, which some systems cannot do: after a power cut the
// file is the old one or the new one.
func (o *output) place(elsewhere string) (done bool, err error) {
	if o.tmp == "" || o.isKept() {
		return false, nil
	}
	// A second name, unlike a rename, never takes the place of a file that has come
	// since. Where a file system has no second names, a rename must do.
	if o.keeps != nil && !exists(o.target) {
		if os.Link(o.tmp, o.target) == nil {
			return true, nil
		}
		if o.isKept() {
			return false, nil
		}
	}
	if err := os.Rename(o.tmp, o.target); err != nil {
		return false, notWritten(o.file, err, elsewhere)
	}
	return true, nil
}

// drop removes what was not put in its place.
func (o *output) drop() {
	if o.tmp != "" {
		drop(o.tmp)
	}
}

// writeAll draws the outputs side by side, and puts them in their places one after
// the other when all are done, so that one that cannot be drawn, or a disk that is
// full, leaves everything as it was. notes are what the outputs have to tell.
func (u *ui) writeAll(elsewhere string, outputs ...*output) (notes []string, err error) {
	var wait sync.WaitGroup
	for _, o := range outputs {
		wait.Go(func() { o.prepare(elsewhere) })
		defer o.drop()
	}
	wait.Wait()
	for _, o := range outputs {
		if o.err != nil {
			return nil, o.err
		}
	}
	for _, o := range outputs {
		switch done, err := o.place(elsewhere); {
		case err != nil:
			return nil, err
		case !done:
			o.kept()
		default:
			u.printf("  %s\n", o.file)
		}
		for _, text := range o.notes {
			notes = append(notes, o.about+": "+text)
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
	if m.logAs != "" {
		log = filepath.Join(filepath.Dir(base), m.logAs+"-log.xlsx")
	}
	if exists(log) {
		f, _, err := openFile(log) // a folder or a pipe, say
		if err != nil {
			return nil, err
		}
		f.Close()
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
