package main

import (
	"fmt"
	"strings"

	"github.com/spf13/pflag"

	"pourboard/blend/plan"
)

func completionCommand() command {
	return command{
		name: "completion",
		line: "print a script that lets the shell complete commands",
		help: `Usage:  pourboard completion SHELL

Prints a script for bash, zsh or fish. The Tab key then completes commands,
flags and kinds of plan. Load it when the shell starts:

  bash   source <(pourboard completion bash)
  zsh    source <(pourboard completion zsh)
  fish   pourboard completion fish | source

Example:

  pourboard completion fish
`,
		args:  []string{"a shell"},
		flags: func(*pflag.FlagSet) action { return runCompletion },
	}
}

func runCompletion(u *ui, args []string) error {
	switch args[0] {
	case "bash":
		u.print(bashCompletion())
	case "zsh": // which can run scripts of bash
		u.print("(( $+functions[compdef] )) || { autoload -Uz compinit && compinit -i }\nautoload -Uz bashcompinit && bashcompinit\n")
		u.print(bashCompletion())
	case "fish":
		u.print(fishCompletion())
	default:
		return usagef("unknown shell %q%s", args[0], nearestOrAll(args[0], shells, "choose from"))
	}
	return nil
}

// shells are those with a script.
var shells = []string{"bash", "zsh", "fish"}

// flagsOf is the flags of a command, without the letters of short ones.
func flagsOf(c command) []string {
	names := []string{"--help"}
	f, _ := c.flagSet()
	f.VisitAll(func(flag *pflag.Flag) { names = append(names, "--"+flag.Name) })
	return names
}

func startNames() []string {
	var names []string
	for _, s := range plan.Designs() {
		names = append(names, s.Name)
	}
	return names
}

// wordsOf are what can follow a command besides flags and files.
func wordsOf(c command) []string {
	switch c.name {
	case "new":
		return startNames()
	case "completion":
		return shells
	}
	return nil
}

// bashCompletion leaves files to bash itself, which knows how to write a name
// with blanks.
func bashCompletion() string {
	var names, cases []string
	for _, c := range commands() {
		names = append(names, c.name)
		cases = append(cases, fmt.Sprintf("      %s) names='%s' flags='%s' ;;\n", c.name, strings.Join(wordsOf(c), " "), strings.Join(flagsOf(c), " ")))
	}
	return `_pourboard() {
  local word=${COMP_WORDS[COMP_CWORD]} names='` + strings.Join(names, " ") + `' flags=
  if [ "$COMP_CWORD" -gt 1 ]; then
    names=
    case ${COMP_WORDS[1]} in
` + strings.Join(cases, "") + `    esac
  fi
  case $word in
    -*) names=$flags ;;
  esac
  COMPREPLY=($(compgen -W "$names" -- "$word"))
}
complete -o bashdefault -o default -F _pourboard pourboard
`
}

func fishCompletion() string {
	var b strings.Builder
	for _, c := range commands() {
		fmt.Fprintf(&b, "complete -c pourboard -n __fish_use_subcommand -f -a %s -d '%s'\n", c.name, c.line)
		when := "'__fish_seen_subcommand_from " + c.name + "'"
		for _, name := range wordsOf(c) {
			fmt.Fprintf(&b, "complete -c pourboard -n %s -f -a %s\n", when, name)
		}
		for _, flag := range flagsOf(c) {
			fmt.Fprintf(&b, "complete -c pourboard -n %s -l %s\n", when, strings.TrimPrefix(flag, "--"))
		}
	}
	return b.String()
}
