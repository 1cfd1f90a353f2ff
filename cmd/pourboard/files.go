package main

import (
	"cmp"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
	"runtime"
	"strconv"
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
	target, mode, err := replaceable(name, elsewhere)
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
	if os.Link(p.tmp, p.target) == nil {
		return nil
	}
	if _, err := os.Lstat(p.target); err == nil {
		return isKept(p.name, p.elsewhere)
	}
	return p.replace()
}

// drop removes what was not put in its place.
func (p *prepared) drop() { drop(p.tmp) }

func isKept(name, elsewhere string) error {
	return fmt.Errorf("%s exists; not overwritten (%s)", name, elsewhere)
}

// replaceable is the file that name stands for and the mode that it is to have,
// 0 for the usual one; an error says why it cannot be replaced.
func replaceable(name, elsewhere string) (target string, mode fs.FileMode, err error) {
	if runtime.GOOS == "windows" && notOnWindows.MatchString(filepath.Base(name)) {
		return "", 0, fmt.Errorf("%s cannot be a file name on Windows (%s)", name, elsewhere)
	}
	info, err := os.Stat(name)
	if errors.Is(err, fs.ErrNotExist) {
		if _, err := os.Lstat(name); err == nil {
			return "", 0, fmt.Errorf("%s is a link to a missing file (remove the link, or %s)", name, elsewhere)
		}
		return name, 0, nil
	}
	if err == nil {
		target, err = filepath.EvalSymlinks(name)
	}
	switch {
	case err != nil:
		return "", 0, notWritten(name, err, elsewhere)
	case info.IsDir():
		return "", 0, fmt.Errorf("%s is a folder (rename or move it, or write elsewhere)", name)
	case !info.Mode().IsRegular():
		return "", 0, fmt.Errorf("%s is a device or a pipe (name a file)", name)
	case info.Mode()&0o200 == 0:
		return "", 0, fmt.Errorf("%s is read-only; not overwritten (allow writing to it, or %s)", name, elsewhere)
	}
	return target, info.Mode().Perm(), nil
}

// makeFolder makes a folder for what is written, where it is not there.
func makeFolder(folder, elsewhere string) error {
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return notWritten(folder, err, elsewhere)
	}
	return nil
}

// unfinishedStart begins the names of files that are being written. It says whose
// they are to a person who finds one after a power cut.
const unfinishedStart = ".pourboard-unfinished-"

// writeBeside writes body to a new file in the folder of target.
func writeBeside(target string, body []byte, mode fs.FileMode) (name string, err error) {
	name = filepath.Join(filepath.Dir(target), unfinishedStart+strconv.FormatUint(rand.Uint64(), 36))
	f, err := begin(name)
	if err != nil {
		return "", err
	}
	_, err = f.Write(body)
	if err == nil && mode != 0 {
		err = f.Chmod(mode)
	}
	if err == nil {
		err = f.Sync()
	}
	if err = cmp.Or(err, f.Close()); err != nil {
		drop(name)
		return "", err
	}
	return name, nil
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
	if info.Size() == 0 { // so says Linux of what is under /proc, and some of that never ends
		return nil, nil
	}
	text, err := io.ReadAll(io.LimitReader(f, limit+1))
	switch {
	case err != nil:
		return nil, notRead(name, err)
	case int64(len(text)) > limit:
		return nil, tooLarge
	}
	return text, nil
}
