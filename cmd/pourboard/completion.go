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
flags and kinds of plan. Put it where the shell reads such scripts, or load it:

  bash   source <(pourboard completion bash)
  zsh    source <(pourboard completion zsh)
  fish   pourboard completion fish | source

Example:

  pourboard completion fish
`,
		run: runCompletion,
	}
}

func runCompletion(u *ui, args []string) error {
	args, err := u.parse(flags("completion"), args, "a shell")
	if err != nil {
		return err
	}
	scripts := map[string]func() string{"bash": bashCompletion, "zsh": zshCompletion, "fish": fishCompletion}
	script, ok := scripts[args[0]]
	if !ok {
		return usagef("unknown shell %q%s", args[0], nearestOrAll(args[0], shells, "choose from"))
	}
	u.print(script())
	return nil
}

// flagsOf is the flags of a command, without the letters of short ones.
func flagsOf(c command) []string {
	var names []string
	u := &ui{}
	// Asking for help reads the flags and does nothing else.
	if err := c.run(u, []string{"--help"}); err != nil && u.flags != nil {
		u.flags.VisitAll(func(f *pflag.Flag) { names = append(names, "--"+f.Name) })
	}
	return append(names, "--help")
}

func startNames() []string {
	var names []string
	for _, s := range plan.Designs() {
		names = append(names, s.Name)
	}
	return names
}

// names are what can follow a command besides flags and files.
func names(c command) []string {
	switch c.name {
	case "new":
		return startNames()
	case "completion":
		return shells
	}
	return nil
}

// shells are those with a script.
var shells = []string{"bash", "zsh", "fish"}

// bashCompletion leaves files to bash itself, which knows how to write a name
// with blanks.
func bashCompletion() string {
	var b strings.Builder
	var all []string
	for _, c := range commands() {
		all = append(all, c.name)
	}
	fmt.Fprintf(&b, `_pourboard() {
  local word=${COMP_WORDS[COMP_CWORD]} names= flags=
  if [ "$COMP_CWORD" -eq 1 ]; then
    names='%s'
  else
    case ${COMP_WORDS[1]} in
`, strings.Join(all, " "))
	for _, c := range commands() {
		fmt.Fprintf(&b, "      %s) names='%s' flags='%s' ;;\n", c.name, strings.Join(names(c), " "), strings.Join(flagsOf(c), " "))
	}
	b.WriteString(`    esac
  fi
  case $word in
    -*) names=$flags ;;
  esac
  COMPREPLY=($(compgen -W "$names" -- "$word"))
}
complete -o bashdefault -o default -F _pourboard pourboard
`)
	return b.String()
}

// zshCompletion starts the shell's completion where that was not done, and can
// be loaded as well as lie where zsh looks for such scripts.
func zshCompletion() string {
	var b strings.Builder
	b.WriteString(`#compdef pourboard
(( $+functions[compdef] )) || { autoload -Uz compinit && compinit -i }
_pourboard() {
  local -a commands names flags
  commands=(
`)
	for _, c := range commands() {
		fmt.Fprintf(&b, "    '%s:%s'\n", c.name, strings.ReplaceAll(c.line, "'", ""))
	}
	b.WriteString("  )\n  if (( CURRENT == 2 )); then\n    _describe command commands\n    return\n  fi\n  case ${words[2]} in\n")
	for _, c := range commands() {
		fmt.Fprintf(&b, "    %s) names=(%s) flags=(%s) ;;\n", c.name, strings.Join(names(c), " "), strings.Join(flagsOf(c), " "))
	}
	b.WriteString(`  esac
  if [[ ${words[CURRENT]} == -* ]]; then
    compadd -- $flags
    return
  fi
  compadd -- $names
  _files
}
if [[ ${funcstack[1]} == _pourboard ]]; then
  _pourboard "$@"
else
  compdef _pourboard pourboard
fi
`)
	return b.String()
}

func fishCompletion() string {
	var b strings.Builder
	for _, c := range commands() {
		fmt.Fprintf(&b, "complete -c pourboard -n __fish_use_subcommand -f -a %s -d '%s'\n", c.name, strings.ReplaceAll(c.line, "'", ""))
		when := "'__fish_seen_subcommand_from " + c.name + "'"
		for _, name := range names(c) {
			fmt.Fprintf(&b, "complete -c pourboard -n %s -f -a %s\n", when, name)
		}
		for _, flag := range flagsOf(c) {
			fmt.Fprintf(&b, "complete -c pourboard -n %s -l %s\n", when, strings.TrimPrefix(flag, "--"))
		}
	}
	return b.String()
}
