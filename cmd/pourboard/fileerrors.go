package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"syscall"
)

// notRead says in words why a file was not read.
func notRead(name string, err error) error {
	if !errors.Is(err, fs.ErrNotExist) {
		return fmt.Errorf("%s: %s", name, reasonOf(err))
	}
	if _, err := os.Lstat(name); err == nil {
		return fmt.Errorf("%s is a link to a missing file (name the file itself)", name)
	}
	folder, ending := filepath.Dir(name), filepath.Ext(name)
	entries, err := os.ReadDir(folder)
	if errors.Is(err, fs.ErrNotExist) {
		return fmt.Errorf("%s: folder %s does not exist", name, folder)
	}
	if ending == "" {
		ending = ".toml" // a plan's, which is easily left out
	}
	var near []string
	for _, e := range entries {
		if !e.IsDir() && strings.EqualFold(filepath.Ext(e.Name()), ending) {
			near = append(near, e.Name())
		}
	}
	whole := strings.TrimSuffix(filepath.Base(name), ending) + ending
	return fmt.Errorf("%s: file not found%s", name, didYouMean(whole, near))
}

// reasonOf returns the reason in an error of the system, in plain words for those that
// are listed.
func reasonOf(err error) string {
	for _, known := range []struct {
		err   error
		words string
	}{
		{fs.ErrPermission, "you have no permission, or another program has it open"},
		{fs.ErrExist, "a file or a broken link has this name"}, // of a folder to be made
		{syscall.ENOSPC, "the disk is full"},
		{syscall.EDQUOT, "the disk is full"},
		{syscall.EFBIG, "the file is larger than you may write here"},
		{syscall.EROFS, "the disk is write-protected"},
		{syscall.ENAMETOOLONG, "the name is too long"},
		{syscall.ELOOP, "the link leads back to itself"},
		{syscall.ENOTDIR, "one of the folders in this name is a file"},
	} {
		if errors.Is(err, known.err) {
			return known.words
		}
	}
	// Without the names of the file and of the call.
	var path *fs.PathError
	var link *os.LinkError
	switch {
	case errors.As(err, &path):
		err = path.Err
	case errors.As(err, &link):
		err = link.Err
	}
	return err.Error()
}

// notOnWindows matches names, without their folder, that Windows does not keep:
// with some characters, with a dot or a space at the end, or those of its devices,
// whatever their ending. (Naming Files, Paths, and Namespaces, Microsoft Learn, from
// memory.)
var notOnWindows = regexp.MustCompile(`^$|[\x00-\x1f<>:"/\\|?*]|[. ]$|` +
	`^(?i:CON|PRN|AUX|NUL|(COM|LPT)[1-9¹²³]) *(\.|$)`)
