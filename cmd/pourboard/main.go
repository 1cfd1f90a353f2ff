// Pourboard takes the plan of a glaze test and does its arithmetic and
// paperwork: what to pour and weigh into each cup, boards, sheets, a log, and
// the way on from the best tile.
//
// This package turns the command line into calls and their results into
// messages; it computes nothing. main.go picks the command, ui.go owns the way
// the program speaks, files.go the way it writes, and each command has a file
// of its own.
package main

import (
	"embed"
	"errors"
	"fmt"
	"io"
	"os"
	"regexp"
	"runtime/debug"
	"strings"

	"github.com/spf13/pflag"

	"pourboard/blend/plan"
)

func main() {
	// The program ends before most of what it makes is garbage. Collecting it a
	// quarter as often takes a fifth off make and adds 3 of 25 MiB at 66 cups.
	debug.SetGCPercent(400)
	dropWhenInterrupted()
	os.Exit(run(os.Args[1:], os.Stdout, os.Stderr))
}

// Exit codes.
const (
	exitDone  = 0
	exitFile  = 1 // the plan or a file is wrong
	exitUsage = 2 // the command line is wrong
	// Nobody read the output to its end: what a shell says of a program that a
	// closed pipe has stopped.
	exitUnread = 128 + 13
)

// command is one subcommand.
type command struct {
	name string
	line string // what it does, for the list of commands
	// args are what it takes besides flags: what is in brackets may be left out, what
	// ends in ... may be repeated.
	args []string
	// flags declares the flags, and gives what is done when they are read.
	flags func(f *pflag.FlagSet) action
}

// action does what a command is asked for, with its arguments.
type action func(u *ui, args []string) error

// without is an action of a command that has no flags of its own.
func without(act action) func(*pflag.FlagSet) action {
	return func(*pflag.FlagSet) action { return act }
}

// commands are all subcommands in the order of the help text.
func commands() []command {
	return []command{
		{"demo", "make a small invented studio: five tests with results",
			[]string{"[the folder]"}, without(runDemo)},
		{"new", "write a new plan", []string{"a kind"}, newFlags},
		{"check", "check a plan: mistakes, accuracy, advice", []string{"a plan file"}, checkFlags},
		{"show", "print the cups as a table, JSON or CSV", []string{"a plan file"}, showFlags},
		{"make", "make the sheets and the workbooks",
			[]string{"a plan file", "[another plan] ..."}, makeFlags},
		{"results", "read filled-in logs: best cups, maps, models",
			[]string{"a plan file", "[a log file]", "[another plan or log] ..."}, resultsFlags},
		{"batch", "scale one cup up to a bucket", []string{"a plan file"}, batchFlags},
		{"next", "write the next plan from the best cups", []string{"a plan file"}, nextFlags},
		{"find", "find tiles from a damaged mark", []string{"a plan or folder", "a mark"}, findFlags},
		{"book", "make the record book of all tests in a folder", []string{"a folder"}, bookFlags},
		{"materials", "list the built-in materials", []string{"[the material]"}, without(runMaterials)},
		{"completion", "print a script that lets the shell complete commands",
			[]string{"a shell"}, without(runCompletion)},
		{"version", "print the version", nil, versionFlags},
	}
}

// helpTexts have for each command its usage, flags and an example.
//
//go:embed help
var helpTexts embed.FS

// braces is a line of a help text in place of lines that several commands share,
// or that follow from the program.
var braces = regexp.MustCompile(`{([a-z]+)}\n`)

// helpText is a help text by its name, that of a command or of the program.
func helpText(name string) string {
	read := func(file string) string {
		text, err := helpTexts.ReadFile("help/" + file)
		if err != nil {
			panic(err) // a test reads each
		}
		return string(text)
	}
	return braces.ReplaceAllStringFunc(read(name+".txt"), func(line string) string {
		var b strings.Builder
		switch part := strings.Trim(line, "{}\n"); part {
		case "commands":
			for _, c := range commands() {
				fmt.Fprintf(&b, "  %-11s %s\n", c.name, c.line)
			}
		case "kinds":
			for _, d := range plan.Designs() {
				fmt.Fprintf(&b, "  %-17s %s\n", d.Name, d.Line)
			}
		default:
			b.WriteString(read(part + ".part"))
		}
		return b.String()
	})
}

// run is the program but for its exit.
func run(args []string, stdout, stderr io.Writer) int {
	printed := &shown{to: stdout}
	u := &ui{out: printed, err: &shown{to: stderr}}
	if len(args) == 0 {
		u.print(helpText("pourboard"))
		return exitUsage
	}
	return u.fail(printed.failed(u.run(args)))
}

// run does what the command line asks for.
func (u *ui) run(args []string) error {
	switch name := args[0]; {
	case name == "help" && len(args) > 2:
		return usagef("unexpected argument %q (pourboard help %s)", args[2], args[1])
	case name == "help" && len(args) == 2:
		args = []string{args[1], "--help"}
	case name == "help", name == "-h", name == "--help":
		u.print(helpText("pourboard"))
		return nil
	case name == "--version":
		args = []string{"version"}
	case strings.HasPrefix(name, "-"):
		return usagef("%s needs a command before it (such as pourboard make plan.toml %s)", name, name)
	}
	c, ok := find(args[0])
	if !ok {
		return unknownCommand(args[0])
	}
	u.command = c.name
	f, act := c.flagSet()
	u.elsewhere = elsewhere(f)
	args, err := u.parse(f, args[1:], c.args)
	switch {
	case errors.Is(err, pflag.ErrHelp):
		u.print(helpText(c.name))
		return nil
	case err != nil:
		return err
	}
	return act(u, args)
}

// flagSet is the command's flags, and what is done when they are read.
func (c command) flagSet() (*pflag.FlagSet, action) {
	f := pflag.NewFlagSet(c.name, pflag.ContinueOnError)
	f.SetOutput(io.Discard)
	f.Usage = func() {}
	f.BoolP("quiet", "q", false, "")
	return f, c.flags(f)
}

// elsewhere says how the files of a command with these flags can be written elsewhere.
func elsewhere(f *pflag.FlagSet) string {
	switch {
	case f.Lookup("out") != nil:
		return "choose another folder with --out"
	case f.Lookup("output") != nil:
		return "choose another name with -o"
	case f.Lookup("pdf") != nil:
		return "choose another name with --pdf"
	}
	return "name another folder"
}

func find(name string) (command, bool) {
	for _, c := range commands() {
		if c.name == name {
			return c, true
		}
	}
	return command{}, false
}

// renamedCommands are the commands of earlier versions, and what they are called
// now.
func renamedCommands() map[string]string { return map[string]string{"refine": "next", "which": "find"} }

func unknownCommand(name string) error {
	var names []string
	for _, c := range commands() {
		names = append(names, c.name)
	}
	if now, ok := renamedCommands()[name]; ok {
		return usagef("%s is now %s (see pourboard %s --help)", name, now, now)
	}
	if strings.HasSuffix(name, ".toml") {
		return usagef("%s is a plan (name a command first, such as pourboard make %s)", name, name)
	}
	return usagef("unknown command %q%s", name, didYouMean(name, names))
}
