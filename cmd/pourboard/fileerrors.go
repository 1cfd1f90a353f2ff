package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"runtime"
	"strings"
	"syscall"
	"unicode/utf16"
)

// notRead says in words why a file was not read.
func notRead(name string, err error) error {
	if errors.Is(err, fs.ErrNotExist) {
		if _, err := os.Lstat(name); err == nil {
			return fmt.Errorf("%s is a link to a missing file (name the file itself)", name)
		}
		if folder := missingFolder(name); folder != "" {
			return fmt.Errorf("%s: folder %s does not exist", name, folder)
		}
		ending := filepath.Ext(name)
		if ending == "" {
			ending = ".toml" // a plan's, which is easily left out
		}
		whole := strings.TrimSuffix(filepath.Base(name), ending) + ending
		return fmt.Errorf("%s: file not found%s", name, didYouMean(whole, similarFiles(name, ending)))
	}
	return inPlain(name, err, "")
}

// notWritten says in words why a file or a folder was not written; elsewhere is
// what the command can do instead.
func notWritten(name string, err error, elsewhere string) error {
	if errors.Is(err, fs.ErrNotExist) {
		if folder := missingFolder(name); folder != "" {
			return fmt.Errorf("%s: folder %s does not exist (make it first, or %s)", name, folder, elsewhere)
		}
	}
	return inPlain(name, err, elsewhere)
}

// missingFolder is the first folder on the way to a file that is not there, or
// nothing.
func missingFolder(name string) string {
	missing := ""
	for folder := filepath.Dir(name); ; folder = filepath.Dir(folder) {
		if _, err := os.Stat(folder); !errors.Is(err, fs.ErrNotExist) || folder == filepath.Dir(folder) {
			return missing
		}
		missing = folder
	}
}

// similarFiles are the files beside one that is not there that have an ending.
func similarFiles(name, ending string) []string {
	var names []string
	entries, _ := os.ReadDir(filepath.Dir(name)) // where it cannot be read, nothing is proposed
	for _, e := range entries {
		if !e.IsDir() && strings.EqualFold(filepath.Ext(e.Name()), ending) {
			names = append(names, e.Name())
		}
	}
	return names
}

// inPlain is an error of the system with a file's name, in words where they are
// known.
func inPlain(name string, err error, elsewhere string) error {
	if words := inWords(runtime.GOOS, err, elsewhere); words != "" {
		return fmt.Errorf("%s: %s", name, words)
	}
	return fmt.Errorf("%s: %w", name, causeOnly(err))
}

// causeOnly is an error of the system without the name of the file and of the call.
func causeOnly(err error) error {
	var path *fs.PathError
	if errors.As(err, &path) {
		return path.Err
	}
	var link *os.LinkError
	if errors.As(err, &link) {
		return link.Err
	}
	return err
}

// inWords is an error of the system in words, "" for one that is not known.
// elsewhere is what is proposed in place of what could not be written, and
// nothing of what could not be read.
func inWords(system string, err error, elsewhere string) string {
	const tooLong = "the name is too long (choose a shorter one)"
	full := "the disk is full; this file is unchanged (make room, or " + elsewhere + ")"
	protected := "the disk is write-protected (" + elsewhere + ")"
	mayNot := "you may not write " + folderOf(err) + " (" + elsewhere + ")"
	if link := (*os.LinkError)(nil); errors.As(err, &link) { // the folder took the unfinished file
		mayNot = "you may not replace this file (" + elsewhere + ")"
	}
	denied := "you may not write it, or another program has it open (close it there, or " + elsewhere + ")"
	if elsewhere == "" {
		mayNot = "you may not read it (its owner can allow that)"
		denied = "you may not read it, or another program has it open (close it there and try again)"
	}
	const inUse = "it is open in another program (close it there and try again)"
	windows := map[syscall.Errno]string{ // the numbers of winerror.h; other systems mean other things by them
		5: denied, 32: inUse, 33: inUse, 19: protected, 39: full, 112: full, 206: tooLong,
		123: `not a file name (leave out < > : " / \ | ? *)`,
	}
	var number syscall.Errno
	if system == "windows" && errors.As(err, &number) && windows[number] != "" {
		return windows[number]
	}
	for _, known := range []struct {
		err   error
		words string
	}{
		{fs.ErrNotExist, "file or folder not found"},
		{fs.ErrExist, "a file or a broken link has this name (" + elsewhere + ")"}, // of a folder to be made
		{fs.ErrPermission, mayNot},
		{syscall.ENOSPC, full},
		{syscall.EDQUOT, full},
		{syscall.EFBIG, "the file is larger than you may write here (" + elsewhere + ")"},
		{syscall.EROFS, protected},
		{syscall.ENAMETOOLONG, tooLong},
		{syscall.ELOOP, "the link leads back to itself (name the file itself)"},
		{syscall.ENOTDIR, "one of the folders in this name is a file"},
		{syscall.EIO, "the disk cannot be read or written (is it still connected?)"},
	} {
		if errors.Is(err, known.err) {
			return known.words
		}
	}
	return ""
}

// folderOf is the folder that something could not be written into, as far as the
// error tells.
func folderOf(err error) string {
	name := ""
	var path *fs.PathError
	if errors.As(err, &path) {
		name = path.Path
	}
	if folder := filepath.Dir(name); folder != "." {
		return "into the folder " + folder
	}
	return "into this folder"
}

// windowsName says why Windows would not keep a file of this name, without its
// folder; "" when it does. (Naming Files, Paths, and Namespaces, Microsoft
// Learn, from memory.)
func windowsName(name string) string {
	if name == "" {
		return "it is empty"
	}
	for _, r := range name {
		if r < 0x20 {
			return "it has a control character"
		}
		if strings.ContainsRune(`<>:"/\|?*`, r) {
			return fmt.Sprintf("Windows does not allow %c in names", r)
		}
	}
	if strings.TrimRight(name, ". ") != name {
		return "Windows drops a dot or a space at the end of a name"
	}
	if units := len(utf16.Encode([]rune(name))); units > 255 {
		return fmt.Sprintf("it has %d characters (at most 255)", units)
	}
	// A device keeps its name whatever ending it is given.
	stem, _, _ := strings.Cut(name, ".")
	if stem = strings.ToUpper(strings.TrimRight(stem, " ")); device.MatchString(stem) {
		return fmt.Sprintf("%s is reserved for a Windows device", stem)
	}
	return ""
}

// device is the name of a device of Windows; the first three ports may be written
// raised.
var device = regexp.MustCompile(`^(CON|PRN|AUX|NUL|CONIN\$|CONOUT\$|(COM|LPT)[1-9¹²³])$`)
