package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
)

// writeFile makes body the content of the file name, whole or not at all: it is
// written beside the file, synced and then renamed over it. A link is followed,
// so that what it points at is replaced; a file's mode is kept.
func writeFile(name string, body []byte) error {
	if target, err := filepath.EvalSymlinks(name); err == nil {
		name = target
	}
	mode := fs.FileMode(0o644)
	if info, err := os.Stat(name); err == nil {
		if info.IsDir() {
			return fmt.Errorf("%s is a folder, and a file of that name is to be written", name)
		}
		mode = info.Mode().Perm()
	}
	tmp, err := os.CreateTemp(filepath.Dir(name), "."+filepath.Base(name)+".*")
	if err != nil {
		return plainly(name, err)
	}
	defer os.Remove(tmp.Name()) // after the rename there is nothing left to remove
	_, err = tmp.Write(body)
	if err == nil {
		err = tmp.Chmod(mode)
	}
	if err == nil {
		err = tmp.Sync()
	}
	if closing := tmp.Close(); err == nil {
		err = closing
	}
	if err == nil {
		err = os.Rename(tmp.Name(), name)
	}
	if err != nil {
		return plainly(name, err)
	}
	return nil
}

// createFile is writeFile for a file that must not be there yet.
func createFile(name string, body []byte) error {
	if _, err := os.Lstat(name); err == nil {
		return fmt.Errorf("%s is there already and is kept; give another name", name)
	}
	return writeFile(name, body)
}

// readFile reads a file of at most limit bytes.
func readFile(name string, limit int64) ([]byte, error) {
	f, err := os.Open(name)
	if err != nil {
		return nil, plainly(name, err)
	}
	defer f.Close()
	text, err := io.ReadAll(io.LimitReader(f, limit+1))
	if err != nil {
		return nil, plainly(name, err)
	}
	if int64(len(text)) > limit {
		return nil, fmt.Errorf("%s is larger than %d KiB; is it the right file?", name, limit>>10)
	}
	return text, nil
}

// plainly says a file's error in words.
func plainly(name string, err error) error {
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return fmt.Errorf("%s: there is no such file or folder", name)
	case errors.Is(err, fs.ErrPermission):
		return fmt.Errorf("%s: this folder or file may not be written or read; choose another with --out, or close the program that has it open", name)
	}
	var path *fs.PathError
	if errors.As(err, &path) {
		err = path.Err
	}
	var link *os.LinkError
	if errors.As(err, &link) {
		err = link.Err
	}
	return fmt.Errorf("%s: %w", name, err)
}
