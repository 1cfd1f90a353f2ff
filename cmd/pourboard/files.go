package main

import (
	"cmp"
	"fmt"
	"io"
	"io/fs"
	"math/rand/v2"
	"os"
	"os/signal"
	"path/filepath"
	"strconv"
	"sync"
	"syscall"
)

// unfinishedStart begins the names of files that are being written. It says whose
// they are to a person who finds one after a power cut.
const unfinishedStart = ".pourboard-unfinished-"

// writeBeside writes a new file in the folder of target.
func writeBeside(target string, mode fs.FileMode, write func(io.Writer) error) (name string, err error) {
	name = filepath.Join(filepath.Dir(target), unfinishedStart+strconv.FormatUint(rand.Uint64(), 36))
	f, err := begin(name)
	if err != nil {
		return "", err
	}
	err = write(f)
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

// unfinished are the files that are being written. A signal comes to the whole
// process, so this is the one thing that all of it shares.
var unfinished struct {
	sync.Mutex
	files map[string]bool
}

// begin creates a file and notes that it is being written. Both in one go: a file
// made after an interruption would stay.
func begin(file string) (*os.File, error) {
	unfinished.Lock()
	defer unfinished.Unlock()
	f, err := os.OpenFile(file, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666) // less what the system's mask takes
	if err != nil {
		return nil, err
	}
	if unfinished.files == nil {
		unfinished.files = map[string]bool{}
	}
	unfinished.files[file] = true
	return f, nil
}

// drop removes what of a file that was begun is not in its place.
func drop(file string) {
	os.Remove(file)
	unfinished.Lock()
	defer unfinished.Unlock()
	delete(unfinished.files, file)
}

// dropWhenInterrupted removes unfinished files when the program is told to stop,
// and ends it as that signal does.
func dropWhenInterrupted() {
	// A pipe that nobody reads any more (make PLAN | head) would end the program
	// between two of its files. Printing fails instead, and the files are finished.
	signal.Ignore(syscall.SIGPIPE)
	told := make(chan os.Signal, 1)
	signal.Notify(told, os.Interrupt, syscall.SIGTERM, syscall.SIGHUP, syscall.SIGQUIT)
	go func() {
		s := <-told
		unfinished.Lock() // nothing is begun any more
		for file := range unfinished.files {
			os.Remove(file)
		}
		code := 128
		if number, ok := s.(syscall.Signal); ok {
			code += int(number)
		}
		os.Exit(code)
	}()
}
