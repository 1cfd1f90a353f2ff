package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"sync"
)

// output is one file of a command. When it is drawn it lies, whole and synced, under
// a name of its own beside its place.
type output struct {
	file   string
	render func(io.Writer) (notes []string, err error)
	// keeps reports whether a file of its name is not to be replaced; nil where any
	// is. It is asked before the output is drawn, and again before it is put in its
	// place.
	keeps func(file string) bool
	kept  func() // says that it was kept; nil where that is an error

	notes  []string
	target string // what file is a link to, or itself
	tmp    string // what it is called until it is in its place, "" while it is not drawn
}

// unwritten is why a file or a folder was not written. ui.fail adds what the command
// can do instead.
type unwritten struct{ text string }

func (e *unwritten) Error() string { return e.text }

func unwrittenf(format string, args ...any) error { return &unwritten{fmt.Sprintf(format, args...)} }

// isUnwritten is the error of a file for which the system gives err.
func isUnwritten(name string, err error) error {
	return unwrittenf("%s: not written: %s", name, reasonOf(err))
}

func exists(file string) bool {
	_, err := os.Lstat(file)
	return err == nil
}

// isFile reports whether name is a file, or a link to one. Of a folder, a pipe or a
// broken link in place of a file prepare says what it is.
func isFile(name string) bool {
	info, err := os.Stat(name)
	return err == nil && info.Mode().IsRegular()
}

// prepare draws the output and writes it beside its place, unless a file there is
// kept. A link is followed, so that what it points at is replaced; a file's mode is
// kept. Another name of the same file (a hard link) keeps the old content.
func (o *output) prepare() error {
	if o.isKept() {
		return o.giveWay()
	}
	folder := filepath.Dir(o.file)
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return isUnwritten(folder, err)
	}
	target, mode, err := replaceable(o.file)
	if err != nil {
		return err
	}
	o.target = target
	o.tmp, err = writeBeside(target, mode, func(w io.Writer) (err error) {
		o.notes, err = o.render(w)
		return err
	})
	var ofFile *fs.PathError
	switch {
	case errors.As(err, &ofFile):
		return isUnwritten(o.file, err)
	case err != nil: // of what is drawn
		return fmt.Errorf("%s: %w", o.file, err)
	}
	return nil
}

// replaceable is the file that name stands for and the mode that it is to have,
// 0 for the usual one; an error says why it cannot be replaced.
func replaceable(name string) (target string, mode fs.FileMode, err error) {
	if runtime.GOOS == "windows" && notOnWindows.MatchString(filepath.Base(name)) {
		return "", 0, unwrittenf("%s cannot be a file name on Windows", name)
	}
	info, err := os.Stat(name)
	if errors.Is(err, fs.ErrNotExist) {
		if exists(name) {
			return "", 0, unwrittenf("%s is a link to a missing file", name)
		}
		return name, 0, nil
	}
	if err == nil {
		target, err = filepath.EvalSymlinks(name)
	}
	switch {
	case err != nil:
		return "", 0, isUnwritten(name, err)
	case info.IsDir():
		return "", 0, unwrittenf("%s is a folder", name)
	case !info.Mode().IsRegular():
		return "", 0, unwrittenf("%s is a device or a pipe", name)
	case info.Mode()&0o200 == 0:
		return "", 0, unwrittenf("%s is read-only; not overwritten", name)
	}
	return target, info.Mode().Perm(), nil
}

func (o *output) isKept() bool { return o.keeps != nil && o.keeps(o.file) }

// place puts what was drawn in its place; done is false where a file there is kept.
// Drawing takes a while: that may have been saved since, or be of another run. The
// folder itself is not synced, which some systems cannot do: after a power cut the
// file is the old one or the new one.
func (o *output) place() (done bool, err error) {
	if o.tmp == "" || o.isKept() {
		return false, o.giveWay()
	}
	// A second name, unlike a rename, never takes the place of a file that has come
	// since. Where a file system has no second names, a rename must do.
	if o.keeps != nil && !exists(o.target) {
		if os.Link(o.tmp, o.target) == nil {
			return true, nil
		}
		if o.isKept() {
			return false, o.giveWay()
		}
	}
	if err := os.Rename(o.tmp, o.target); err != nil {
		return false, isUnwritten(o.file, err)
	}
	return true, nil
}

// giveWay is an error where a file that is kept was not expected.
func (o *output) giveWay() error {
	if o.kept == nil {
		return unwrittenf("%s exists; not overwritten", o.file)
	}
	return nil
}

// drop removes what was not put in its place.
func (o *output) drop() {
	if o.tmp != "" {
		drop(o.tmp)
	}
}

// createFile makes body the content of a file that must not be there yet, whole or
// not at all.
func createFile(name string, body []byte) error {
	o := &output{file: name, keeps: isFile, render: func(w io.Writer) ([]string, error) {
		_, err := w.Write(body)
		return nil, err
	}}
	defer o.drop()
	if err := o.prepare(); err != nil {
		return err
	}
	_, err := o.place()
	return err
}

// writeAll draws the outputs side by side, and puts them in their places one after
// the other when all are done, so that one that cannot be drawn, or a disk that is
// full, leaves everything as it was. notes are what the outputs have to tell.
func (u *ui) writeAll(outputs ...*output) (notes []string, err error) {
	var wait sync.WaitGroup
	errs := make([]error, len(outputs))
	for i, o := range outputs {
		wait.Go(func() { errs[i] = o.prepare() })
		defer o.drop()
	}
	wait.Wait()
	for _, err := range errs {
		if err != nil {
			return nil, err
		}
	}
	for _, o := range outputs {
		switch done, err := o.place(); {
		case err != nil:
			return nil, err
		case done:
			u.printf("  %s\n", o.file)
		default:
			o.kept()
		}
		about := "sheets: "
		if filepath.Ext(o.file) == ".xlsx" {
			about = "workbook: "
		}
		for _, text := range o.notes {
			notes = append(notes, about+text)
		}
	}
	return notes, nil
}
