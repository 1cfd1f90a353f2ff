package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"runtime"
	"strings"
	"syscall"
)

// plainly says a file's error in words.
func plainly(name string, err error) error {
	if words := inWords(runtime.GOOS, err); words != "" {
		return fmt.Errorf("%s: %s", name, words)
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

// inWords is an error of the system in words, "" for one that is not known.
func inWords(system string, err error) string {
	const full = "the disk is full, and this file is as it was; make room, or choose another disk with --out"
	var number syscall.Errno
	if errors.As(err, &number) && system == "windows" {
		// The numbers of winerror.h; other systems mean other things by them.
		switch number {
		case 5: // ERROR_ACCESS_DENIED
			return "it may not be read or written, or it is open in another program; close it there, or choose another folder with --out"
		case 32, 33: // ERROR_SHARING_VIOLATION, ERROR_LOCK_VIOLATION
			return "it is open in another program; close it there and try again"
		case 19: // ERROR_WRITE_PROTECT
			return "the disk is write-protected; choose another with --out"
		case 39, 112: // ERROR_HANDLE_DISK_FULL, ERROR_DISK_FULL
			return full
		case 123: // ERROR_INVALID_NAME
			return `this cannot be the name of a file; a name has none of the signs < > : " / \ | ? *`
		case 206: // ERROR_FILENAME_EXCED_RANGE
			return "the name is too long; give a shorter one"
		}
	}
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return "there is no such file or folder"
	case errors.Is(err, fs.ErrPermission):
		return "this folder or file may not be written or read; choose another with --out, or close the program that has it open"
	case errors.Is(err, syscall.ENOSPC), errors.Is(err, syscall.EDQUOT):
		return full
	case errors.Is(err, syscall.EROFS):
		return "the disk is write-protected; choose another with --out"
	case errors.Is(err, syscall.ENAMETOOLONG):
		return "the name is too long; give a shorter one"
	case errors.Is(err, syscall.ELOOP):
		return "it is a link that leads back to itself; give the name of the file itself"
	case errors.Is(err, syscall.ENOTDIR):
		return "a part of this name is a file where a folder is wanted"
	case errors.Is(err, syscall.EIO):
		return "the disk cannot be read or written; is it still connected?"
	}
	return ""
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
			return "it has a control sign"
		}
		if strings.ContainsRune(`<>:"/\|?*`, r) {
			return fmt.Sprintf("Windows has no %c in names", r)
		}
	}
	if strings.TrimRight(name, ". ") != name {
		return "Windows drops a dot or a space at the end of a name"
	}
	units := 0
	for _, r := range name {
		if units++; r > 0xFFFF {
			units++
		}
	}
	if units > 255 {
		return fmt.Sprintf("it has %d signs where 255 are the most", units)
	}
	// A device keeps its name whatever ending it is given.
	stem, _, _ := strings.Cut(name, ".")
	switch stem = strings.ToUpper(strings.TrimRight(stem, " ")); stem {
	case "CON", "PRN", "AUX", "NUL", "CONIN$", "CONOUT$":
		return fmt.Sprintf("%s is a device of Windows", stem)
	}
	if device, number, ok := strings.Cut(stem, "COM"); ok && device == "" && isPort(number) {
		return fmt.Sprintf("%s is a device of Windows", stem)
	}
	if device, number, ok := strings.Cut(stem, "LPT"); ok && device == "" && isPort(number) {
		return fmt.Sprintf("%s is a device of Windows", stem)
	}
	return ""
}

// isPort reports whether s is the number of a port, 1 to 9, of which the first
// three may be written raised.
func isPort(s string) bool {
	switch s {
	case "1", "2", "3", "4", "5", "6", "7", "8", "9", "¹", "²", "³":
		return true
	}
	return false
}
