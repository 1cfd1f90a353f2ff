package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"time"
)

// How the commands that write files can write them elsewhere: what an
// error proposes.
const (
	byOut    = "choose another folder with --out"
	byOutput = "choose another name with -o"
	byPage   = "choose another name with --pdf"
	byFolder = "name another folder"
)

// writeFile makes body the content of the file name, whole or not at all.
func writeFile(name string, body []byte, elsewhere string) error {
	p, err := prepare(name, body, elsewhere)
	if err != nil {
		return err
	}
	defer p.drop()
	return p.replace()
}

// createFile is writeFile for a file that must not be there yet.
func createFile(name string, body []byte, elsewhere string) error {
	if _, err := os.Lstat(name); err == nil {
		return isKept(name, elsewhere)
	}
	p, err := prepare(name, body, elsewhere)
	if err != nil {
		return err
	}
	defer p.drop()
	return p.create()
}

// A prepared file lies, whole and synced, under a name of its own beside the
// place that it is for. Whoever prepares one drops it in the end.
type prepared struct {
	name      string // as it was asked for
	target    string // what that is a link to, or itself
	tmp       string // what it is called until then
	elsewhere string // what is proposed where it cannot be put there
}

// prepare writes body beside the file that name stands for. A link is followed,
// so that what it points at is replaced; a file's mode is kept. Another name of
// the same file (a hard link) keeps the old content.
func prepare(name string, body []byte, elsewhere string) (*prepared, error) {
	target, mode, err := replaceable(name, body, elsewhere)
	if err != nil {
		return nil, err
	}
	tmp, err := writeBeside(target, body, mode)
	if err != nil {
		return nil, notWritten(name, err, elsewhere)
	}
	return &prepared{name, target, tmp, elsewhere}, nil
}

// replace puts it in its place. The folder itself is not synced, which some
// systems cannot do: after a power cut the file is the old one or the new one.
func (p *prepared) replace() error {
	if err := os.Rename(p.tmp, p.target); err != nil {
		return notWritten(p.name, err, p.elsewhere)
	}
	return nil
}

// create puts it in its place if there is nothing.
func (p *prepared) create() error {
	// A second name, unlike a rename, never takes the place of a file that has
	// come since. Where a file system has no second names, a rename must do.
	switch err := os.Link(p.tmp, p.target); {
	case err == nil:
		return nil
	case errors.Is(err, fs.ErrExist):
		return isKept(p.name, p.elsewhere)
	}
	if _, err := os.Lstat(p.target); err == nil {
		return isKept(p.name, p.elsewhere)
	}
	return p.replace()
}

// drop removes what was not put in its place.
func (p *prepared) drop() {
	os.Remove(p.tmp)
	end(p.tmp)
}

func isKept(name, elsewhere string) error {
	return fmt.Errorf("%s exists; not overwritten (%s)", name, elsewhere)
}

// replaceable is the file that name stands for and the mode that it is to have,
// 0 for the usual one; an error says why it cannot be replaced by body.
func replaceable(name string, body []byte, elsewhere string) (target string, mode fs.FileMode, err error) {
	if runtime.GOOS == "windows" {
		if why := windowsName(filepath.Base(name)); why != "" {
			return "", 0, fmt.Errorf("%s cannot be a file name: %s (%s)", name, why, elsewhere)
		}
	}
	info, err := os.Stat(name)
	if errors.Is(err, fs.ErrNotExist) {
		if _, err := os.Lstat(name); err == nil {
			return "", 0, fmt.Errorf("%s is a link to a missing file (remove the link, or %s)", name, elsewhere)
		}
		return name, 0, nil
	}
	if err != nil {
		return "", 0, notWritten(name, err, elsewhere)
	}
	switch {
	case info.IsDir():
		return "", 0, fmt.Errorf("%s is a folder (rename or move it, or write elsewhere)", name)
	case !info.Mode().IsRegular():
		return "", 0, fmt.Errorf("%s is a device or a pipe (name a file)", name)
	case info.Mode()&0o200 == 0:
		return "", 0, fmt.Errorf("%s is read-only; not overwritten (allow writing to it, or %s)", name, elsewhere)
	}
	if target, err = filepath.EvalSymlinks(name); err != nil {
		return "", 0, notWritten(name, err, elsewhere)
	}
	if other, err := otherKind(target, body); err != nil {
		return "", 0, notWritten(name, err, elsewhere)
	} else if other {
		return "", 0, fmt.Errorf("%s exists and is another kind of file; not overwritten (%s)", name, elsewhere)
	}
	return target, info.Mode().Perm(), nil
}

// otherKind reports whether a file is a plan or a workbook where body is a PDF,
// or the other way round: the flag --pdf with the name of the plan, say.
func otherKind(name string, body []byte) (bool, error) {
	f, err := os.Open(name)
	if errors.Is(err, fs.ErrPermission) {
		return false, nil // it can be replaced, though not be looked at
	}
	if err != nil {
		return false, err
	}
	defer f.Close()
	start := make([]byte, 4)
	n, err := io.ReadFull(f, start)
	if n == 0 || err != nil && !errors.Is(err, io.ErrUnexpectedEOF) {
		return false, nil // what is empty is no loss
	}
	return !bytes.HasPrefix(body, start[:n]), nil
}

// makeFolder makes a folder for what is written, where it is not there.
func makeFolder(folder, elsewhere string) error {
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return notWritten(folder, err, elsewhere)
	}
	return nil
}

// Names of files that are being written. They say whose they are to a person
// who finds one after a power cut, and do not grow with the name of the file,
// which may be as long as names can be.
const (
	unfinishedStart = ".pourboard-unfinished-"
	unfinishedEnd   = ".tmp"
	// unfinishedFor is how long another run may be at work on one.
	unfinishedFor = time.Hour
)

// writeBeside writes body to a new file in the folder of target.
func writeBeside(target string, body []byte, mode fs.FileMode) (name string, err error) {
	folder := filepath.Dir(target)
	sweep(folder)
	var f *os.File
	for try := 0; ; try++ {
		name = filepath.Join(folder, fmt.Sprintf("%s%d-%d%s", unfinishedStart, os.Getpid(), try, unfinishedEnd))
		f, err = begin(name)
		if err == nil {
			break
		}
		if !errors.Is(err, fs.ErrExist) || try == 1000 {
			return "", err
		}
	}
	_, err = f.Write(body)
	if err == nil && mode != 0 {
		err = f.Chmod(mode)
	}
	if err == nil {
		err = f.Sync()
	}
	if closing := f.Close(); err == nil {
		err = closing
	}
	if err != nil {
		os.Remove(name)
		end(name)
		return "", err
	}
	return name, nil
}

// sweep removes what runs that were killed have left in a folder. It is no loss
// if that fails.
func sweep(folder string) {
	entries, err := os.ReadDir(folder)
	if err != nil {
		return
	}
	for _, e := range entries {
		if !strings.HasPrefix(e.Name(), unfinishedStart) || !strings.HasSuffix(e.Name(), unfinishedEnd) {
			continue
		}
		if info, err := e.Info(); err == nil && info.Mode().IsRegular() && time.Since(info.ModTime()) > unfinishedFor {
			os.Remove(filepath.Join(folder, e.Name()))
		}
	}
}

// openFile opens a file to be read, and nothing else: a pipe that nobody writes
// to would keep the program waiting, and a device may have no end.
func openFile(name string) (*os.File, fs.FileInfo, error) {
	info, err := os.Stat(name)
	if err != nil {
		return nil, nil, notRead(name, err)
	}
	switch {
	case info.IsDir():
		return nil, nil, fmt.Errorf("%s is a folder (name a file)", name)
	case !info.Mode().IsRegular():
		return nil, nil, fmt.Errorf("%s is a device or a pipe (save its content as a file first)", name)
	}
	f, err := os.Open(name)
	if err != nil {
		return nil, nil, notRead(name, err)
	}
	return f, info, nil
}

// regular is the error of openFile for what is no file that can be read.
func regular(name string) error {
	f, _, err := openFile(name)
	if err == nil {
		f.Close()
	}
	return err
}

// readFile reads a file of at most limit bytes.
func readFile(name string, limit int64) ([]byte, error) {
	f, info, err := openFile(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	tooLarge := fmt.Errorf("%s is larger than %d MB (is it the right file?)", name, limit>>20)
	switch size := info.Size(); {
	case size > limit:
		return nil, tooLarge
	case size == 0: // so says Linux of what is under /proc, and some of that never ends
		return nil, nil
	}
	text, err := io.ReadAll(io.LimitReader(f, limit+1))
	if err != nil {
		return nil, notRead(name, err)
	}
	if int64(len(text)) > limit { // it has grown since
		return nil, tooLarge
	}
	return text, nil
}
