package main

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"github.com/spf13/pflag"
)

// flagProblem says in words what pflag does not understand of a command line.
func flagProblem(f *pflag.FlagSet, err error) error {
	var unknown *pflag.NotExistError
	var bare *pflag.ValueRequiredError
	var invalid *pflag.InvalidValueError
	var syntax *pflag.InvalidSyntaxError
	switch {
	case errors.As(err, &unknown):
		var names []string
		f.VisitAll(func(flag *pflag.Flag) { names = append(names, "--"+flag.Name) })
		name, hyphens := unknown.GetSpecifiedName(), "--"
		if letters := unknown.GetSpecifiedShortnames(); letters != "" { // one hyphen where two are wanted
			name, hyphens = letters, "-"
		}
		switch {
		case name == "cell": // of earlier versions
			return usagef("--cell is now --cup")
		case name == "cup" && f.Lookup("cup-size") != nil:
			return usagef("unknown flag --cup (cup size: --cup-size; a cup by its number: --cup in show, batch and next)")
		}
		return usagef("unknown flag %s%s%s", hyphens, name, didYouMean("--"+name, names))
	case errors.As(err, &bare):
		return usagef("--%s needs a value%s", bare.GetFlag().Name, suchAs(bare.GetFlag()))
	case errors.As(err, &invalid) && invalid.GetFlag().Value.Type() == "bool":
		return usagef("--%s takes no value (leave out =%s)", invalid.GetFlag().Name, invalid.GetValue())
	case errors.As(err, &invalid):
		return usagef("--%s: %s", invalid.GetFlag().Name, errors.Unwrap(invalid))
	case errors.As(err, &syntax):
		return usagef("%s is not a flag", syntax.GetSpecifiedFlag())
	}
	return usagef("%s", err)
}

// value is a flag whose text is read into what it means.
type value[T any] struct {
	text string
	read func(string) (T, error)
	into *T
}

// add adds a flag to a command, with an example of its text. A flag that is given
// several times reads on.
func add[T any](f *pflag.FlagSet, into *T, name, example string, read func(string) (T, error)) {
	f.Var(&value[T]{read: read, into: into}, name, example)
}

func (v *value[T]) Set(text string) error {
	v.text = text
	if text == "" { // checkWords says so
		return nil
	}
	x, err := v.read(text)
	if err == nil {
		*v.into = x
	}
	return err
}

func (v *value[T]) String() string { return v.text }

func (v *value[T]) Type() string { return "value" }

// positive is a reader of amounts that takes no 0.
func positive(read func(string) (float64, error)) func(string) (float64, error) {
	return func(text string) (float64, error) {
		x, err := read(text)
		if err == nil && x <= 0 {
			err = fmt.Errorf("%q is too small (more than 0)", text)
		}
		return x, err
	}
}

// suchAs is an example of a flag's value. It stands where pflag has the text of its own
// help, which is not used: help is written by hand (help/).
func suchAs(flag *pflag.Flag) string {
	example := flag.Usage
	if strings.Contains(example, " ") {
		example = strconv.Quote(example)
	}
	return ", such as " + example
}

// oneOf is an error where more than one of some flags is given.
func oneOf(f *pflag.FlagSet, names ...string) error {
	names = slices.DeleteFunc(names, func(name string) bool { return !f.Changed(name) })
	if len(names) > 1 {
		return usagef("choose one of --%s", strings.Join(names, " and --"))
	}
	return nil
}

// checkWords is an error where a word or a flag's value is empty, as by quotes
// with nothing between them, or where the hyphens of a flag have become a dash.
func checkWords(f *pflag.FlagSet) error {
	for _, word := range f.Args() {
		if word == "" {
			return usagef("an argument is empty (nothing between its quotes)")
		}
		if name := strings.TrimLeft(word, "–—−"); name != word && name != "" {
			return usagef("%q begins with a dash (a flag begins with two hyphens: --%s)", word,
				strings.TrimLeft(name, "-"))
		}
	}
	var err error
	f.Visit(func(flag *pflag.Flag) {
		if value := flag.Value.String(); err == nil && (value == "" || value == "[]") {
			err = usagef("--%s is empty (give a value%s)", flag.Name, suchAs(flag))
		}
	})
	return err
}

// tooMany is the error for the first word more than a command takes: likely the rest
// of an amount or a name without its quotes, or a cup without its flag.
func tooMany(f *pflag.FlagSet, word string) error {
	if _, err := strconv.Atoi(word); err == nil && f.Lookup("near") != nil {
		return usagef("unexpected argument %q (name cups with --cup, such as --cup 12,13)", word)
	}
	return usagef(`unexpected argument %q (put quotes around a name or an amount with blanks, such as "5 kg")`, word)
}
