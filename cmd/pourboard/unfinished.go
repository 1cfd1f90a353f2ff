package main

import (
	"os"
	"os/signal"
	"sync"
	"syscall"
)

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
