package main

import (
	"cmp"
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"time"

	"github.com/spf13/pflag"

	"pourboard/blend/readable"
	"pourboard/blend/spell"
)

// ui is how the program speaks. Results go to standard output; warnings,
// notes and errors to standard error, in lower case, without a full stop. What
// is wrong in a file starts with its name and line, so that an editor can jump
// there.
type ui struct {
	out, err  io.Writer
	command   string
	elsewhere string // how the command's files can be written elsewhere
	quiet     bool   // no notes and no warnings
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

// warn prints notes on a file, each once.
func (u *ui) warn(file string, notes ...string) {
	for i, text := range notes {
		if !slices.Contains(notes[:i], text) {
			u.note("%s: note: %s", file, text)
		}
	}
}

// warnPlan prints the notes of a plan, under --quiet too where its cups shrink.
func (u *ui) warnPlan(j *job) {
	loud := *u
	loud.quiet = u.quiet && !j.shrunk
	loud.warn(j.file, j.notes...)
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
	var unwritten *unwritten
	if errors.As(err, &unwritten) {
		err = fmt.Errorf("%w (%s)", err, u.elsewhere)
	}
	fmt.Fprintf(u.err, "%s\n", err)
	return exitFile
}

// usageError is a command line that cannot be understood.
type usageError struct{ text string }

func (e *usageError) Error() string { return e.text }

func usagef(format string, args ...any) error { return &usageError{fmt.Sprintf(format, args...)} }

// parse reads a command's flags and gives its arguments, which command.args
// describes.
func (u *ui) parse(f *pflag.FlagSet, args, want []string) ([]string, error) {
	err := f.Parse(args)
	u.quiet, _ = f.GetBool("quiet")
	if errors.Is(err, pflag.ErrHelp) {
		return nil, err
	} else if err != nil {
		return nil, flagProblem(f, err)
	}
	if err := checkWords(f); err != nil {
		return nil, err
	}
	least := slices.IndexFunc(append(want, "["), func(name string) bool { return strings.HasPrefix(name, "[") })
	more := len(want) > 0 && strings.Contains(want[len(want)-1], "...")
	switch n := f.NArg(); {
	case n < least && want[n] == "a plan file":
		return nil, usagef("name a plan file%s", plansHere())
	case n < least:
		return nil, usagef("name %s", want[n])
	case n > len(want) && !more:
		return nil, tooMany(f, f.Arg(len(want)))
	}
	return f.Args(), nil
}

// plansHere lists the plans of the folder that the program is run in.
func plansHere() string {
	const most = 12
	files, _ := filepath.Glob("*.toml")
	switch more := len(files) - most; {
	case files == nil:
		return " (this folder has none; start with pourboard new line)"
	case more > 0:
		return fmt.Sprintf(" (here: %s and %d more)", strings.Join(files[:most], ", "), more)
	}
	return " (here: " + strings.Join(files, ", ") + ")"
}

// nearestOrAll proposes the nearest of names or, where none is near, says what there
// is.
func nearestOrAll(name string, names []string, otherwise string) string {
	return cmp.Or(didYouMean(name, names), " ("+otherwise+" "+strings.Join(names, ", ")+")")
}

// didYouMean proposes the nearest of names, or the first that begins as name
// does, or nothing.
func didYouMean(name string, names []string) string {
	near, start := spell.Nearest(name, names), spell.Bare(name)
	for _, n := range names {
		if near == "" && len(start) >= 3 && strings.HasPrefix(spell.Bare(n), start) {
			near = n
		}
	}
	if near == "" {
		return ""
	}
	return " (did you mean " + near + "?)"
}

// shown is where the program speaks: what plans, logs, file names and flags hold
// reaches no terminal as a control character. It remembers that something could not
// be written, onto a disk that is full, say.
type shown struct {
	to  io.Writer
	err error
}

// Write passes p, whole characters, on with its hidden characters written out.
func (s *shown) Write(p []byte) (int, error) {
	if s.err == nil {
		_, s.err = io.WriteString(s.to, readable.Text(string(p)))
	}
	return len(p), s.err
}

// failed is err, or that something could not be written.
func (s *shown) failed(err error) error {
	if s.err == nil || err != nil && !errors.Is(err, s.err) || errors.Is(s.err, syscall.EPIPE) {
		return cmp.Or(err, s.err)
	}
	return fmt.Errorf("pourboard: output incomplete: %s", reasonOf(s.err))
}
