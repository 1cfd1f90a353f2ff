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
		if renamed, ok := renamedFlags()[name]; ok {
			return usagef("--%s is now %s", name, renamed)
		}
		if name == "cup" && f.Lookup("cup-size") != nil {
			return usagef("unknown flag --cup (cup size: --cup-size; a cup by its number: --cup in show, batch and next)")
		}
		return usagef("unknown flag %s%s%s", hyphens, name, didYouMean("--"+name, names))
	case errors.As(err, &bare):
		return usagef("--%s needs a value", bare.GetFlag().Name)
	case errors.As(err, &invalid) && invalid.GetFlag().Value.Type() == "bool":
		return usagef("--%s takes no value (leave out =%s)", invalid.GetFlag().Name, invalid.GetValue())
	case errors.As(err, &syntax):
		return usagef("%s is not a flag", syntax.GetSpecifiedFlag())
	}
	return usagef("%s", err)
}

// renamedFlags are the flags of earlier versions, and what they are called now.
func renamedFlags() map[string]string { return map[string]string{"cell": "--cup"} }

// checkWords is an error where a word or a flag's value is empty, as by quotes
// with nothing between them, or where the hyphens of a flag have become a dash.
func checkWords(f *pflag.FlagSet) error {
	for _, word := range f.Args() {
		if word == "" {
			return usagef("an argument is empty (nothing between its quotes)")
		}
		if name := strings.TrimLeft(word, "–—−"); name != word && name != "" {
			return usagef("%q begins with a dash (a flag begins with two hyphens: --%s)", word, strings.TrimLeft(name, "-"))
		}
	}
	var err error
	f.Visit(func(flag *pflag.Flag) {
		if value := flag.Value.String(); err == nil && (value == "" || value == "[]") {
			err = usagef("--%s is empty (give a value, or leave it out)", flag.Name)
		}
	})
	return err
}

// tooMany says what is likely meant where there are more words than a command
// takes: an amount or a name of several words without its quotes, or the
// number of a cup without its flag. args is the command line, want is what the
// command takes besides flags.
func tooMany(f *pflag.FlagSet, args, want []string) string {
	words := f.Args()
	for i := 0; i+2 < len(args); i++ {
		if !strings.HasPrefix(args[i], "--") || !endsInFigure(args[i+1]) {
			continue
		}
		end := i + 2
		for end < len(args) && ofAmount(args[end]) {
			end++
		}
		if end > i+2 {
			return fmt.Sprintf(" (put quotes around it: %s \"%s\")", args[i], strings.Join(args[i+1:end], " "))
		}
	}
	if len(want) == 0 {
		return ""
	}
	from := len(want) - 1
	switch last := want[from]; {
	case last == "a kind" || last == "a shell":
		if kind := strings.Join(words, "-"); slices.Contains(startNames(), kind) {
			return fmt.Sprintf(" (did you mean %s?)", kind)
		}
		return ""
	case f.Lookup("near") != nil && isNumber(words[from+1]):
		return fmt.Sprintf(" (did you mean --cup %s?)", words[from+1])
	}
	return fmt.Sprintf(" (put quotes around the name: \"%s\")", strings.Join(words[from:], " "))
}

// endsInFigure reports whether a word can be a flag's value that goes on in the
// next word: 5, 12, or Ash=1450.
func endsInFigure(word string) bool {
	word = strings.TrimSuffix(word, ",")
	return !strings.HasPrefix(word, "-") && word != "" && '0' <= word[len(word)-1] && word[len(word)-1] <= '9'
}

// ofAmount reports whether a word can be the rest of an amount: a number, a
// unit, or the x between two lengths.
func ofAmount(word string) bool {
	return isNumber(strings.TrimSuffix(word, ",")) || slices.Contains([]string{"g", "kg", "ml", "l", "mm", "cm", "x", "%"}, strings.ToLower(word))
}

func isNumber(word string) bool {
	_, err := strconv.ParseFloat(word, 64)
	return err == nil
}
