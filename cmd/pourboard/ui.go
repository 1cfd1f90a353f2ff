package main

import (
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"time"

	"github.com/spf13/pflag"

	"pourboard/blend/spell"
	"pourboard/render/wording"
)

// ui is how the program speaks. Results go to standard output; warnings,
// notes and errors to standard error, in lower case, without a full stop. What
// is wrong in a file starts with its name and line, so that an editor can jump
// there.
type ui struct {
	out, err io.Writer
	command  string
	quiet    bool           // no notes and no warnings
	flags    *pflag.FlagSet // of the command that was called
}

// sink is where results go. It remembers that one could not be written, onto a
// disk that is full, say.
type sink struct {
	to  io.Writer
	err error
}

func (s *sink) Write(p []byte) (int, error) {
	if s.err != nil {
		return 0, s.err
	}
	n, err := s.to.Write(p)
	s.err = err
	return n, err
}

// failed is err, or that something could not be written.
func (s *sink) failed(err error) error {
	switch {
	case s.err == nil, err != nil && !errors.Is(err, s.err):
		return err
	case errors.Is(s.err, syscall.EPIPE):
		return s.err
	case errors.Is(s.err, syscall.ENOSPC), errors.Is(s.err, syscall.EDQUOT):
		return errors.New("pourboard: output incomplete: the disk is full (make room and run again)")
	}
	return fmt.Errorf("pourboard: output incomplete: %w", causeOnly(s.err))
}

// print writes a result.
func (u *ui) print(text string) { io.WriteString(u.out, text) }

// printf writes a result.
func (u *ui) printf(format string, args ...any) { fmt.Fprintf(u.out, format, args...) }

// note says something that is good to know.
func (u *ui) note(format string, args ...any) {
	if !u.quiet {
		fmt.Fprintf(u.err, format+"\n", args...)
	}
}

// progress says what the program is at if that takes more than a second. The
// function that it returns is called at the end.
func (u *ui) progress(what string) (done func()) {
	if u.quiet {
		return func() {}
	}
	timer := time.AfterFunc(time.Second, func() { fmt.Fprintf(u.err, "%s …\n", what) })
	return func() { timer.Stop() }
}

// warn prints notes, each once; where notes are off, those that are loud.
func (u *ui) warn(file string, warnings []wording.Line) {
	said := map[string]bool{}
	for _, w := range warnings {
		if text := w.String(); !said[text] && (w.Loud || !u.quiet) {
			said[text] = true
			fmt.Fprintf(u.err, "%s: note: %s\n", file, text)
		}
	}
}

// fail prints an error, if there is one, and returns the exit code.
func (u *ui) fail(err error) int {
	if err == nil {
		return exitDone
	}
	if errors.Is(err, syscall.EPIPE) {
		return exitUnread
	}
	var usage *usageError
	if errors.As(err, &usage) {
		fmt.Fprintf(u.err, "pourboard: %s\n", usage.text)
		if u.command != "" {
			fmt.Fprintf(u.err, "'pourboard %s --help' shows its options\n", u.command)
		} else {
			fmt.Fprintln(u.err, "'pourboard --help' lists the commands")
		}
		return exitUsage
	}
	fmt.Fprintf(u.err, "%s\n", err)
	return exitFile
}

// usageError is a command line that cannot be understood.
type usageError struct{ text string }

func (e *usageError) Error() string { return e.text }

func usagef(format string, args ...any) error { return &usageError{fmt.Sprintf(format, args...)} }

// flags is a command's flag set.
func flags(name string) *pflag.FlagSet {
	f := pflag.NewFlagSet(name, pflag.ContinueOnError)
	f.SetOutput(io.Discard)
	f.Usage = func() {}
	return f
}

// parse reads a command's flags and gives its arguments, of which there must
// be as many as there are names in want; a name in brackets may be left out.
func (u *ui) parse(f *pflag.FlagSet, args []string, want ...string) ([]string, error) {
	quiet := f.BoolP("quiet", "q", false, "")
	u.flags = f
	err := f.Parse(args)
	u.quiet = *quiet
	if errors.Is(err, pflag.ErrHelp) {
		return nil, err
	} else if err != nil {
		return nil, flagProblem(f, err)
	}
	if err := checkWords(f); err != nil {
		return nil, err
	}
	least := 0
	for _, name := range want {
		if !strings.HasPrefix(name, "[") {
			least++
		}
	}
	if n := f.NArg(); n < least {
		if want[n] == "a plan file" {
			return nil, usagef("name a plan file%s", plansHere())
		}
		return nil, usagef("name %s", want[n])
	} else if n > len(want) {
		return nil, usagef("unexpected argument %q%s", f.Arg(len(want)), tooMany(f, args, want))
	}
	return f.Args(), nil
}

// orMore is the names of what a command takes, for u.parse, and of as many more
// as there could be.
func orMore(args []string, more string, want ...string) []string {
	return append(want, slices.Repeat([]string{more}, len(args))...)
}

// plansHere lists the plans of the folder that the program is run in.
func plansHere() string {
	const most = 12
	files, err := filepath.Glob("*.toml")
	switch {
	case err != nil || len(files) == 0:
		return " (this folder has none; start with pourboard new line)"
	case len(files) > most:
		return fmt.Sprintf(" (here: %s and %d more)", strings.Join(files[:most], ", "), len(files)-most)
	}
	return " (here: " + strings.Join(files, ", ") + ")"
}

// nearestOrAll proposes the nearest of names or, where none is near, says what there
// is.
func nearestOrAll(name string, names []string, otherwise string) string {
	if near := didYouMean(name, names); near != "" {
		return near
	}
	return " (" + otherwise + " " + strings.Join(names, ", ") + ")"
}

// didYouMean proposes the nearest of names, or the first that begins as name
// does, or nothing.
func didYouMean(name string, names []string) string {
	near := spell.Nearest(name, names)
	if start := spell.Bare(name); near == "" && len(start) >= 3 {
		if i := slices.IndexFunc(names, func(n string) bool { return strings.HasPrefix(spell.Bare(n), start) }); i >= 0 {
			near = names[i]
		}
	}
	if near == "" {
		return ""
	}
	return fmt.Sprintf(" (did you mean %s?)", near)
}
