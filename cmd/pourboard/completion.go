package main

import (
	"fmt"
	"strings"

	"github.com/spf13/pflag"
)

func completionCommand() command {
	return command{
		name: "completion",
		line: "print a script that lets the shell complete commands",
		help: `Usage:  pourboard completion SHELL

Prints a script for bash, zsh or fish; with it the Tab key completes commands,
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
	args, err := u.parse(flags("completion"), args, "the shell")
	if err != nil {
		return err
	}
	shells := map[string]func() string{"bash": bashCompletion, "zsh": zshCompletion, "fish": fishCompletion}
	script, ok := shells[args[0]]
	if !ok {
		return usagef("there is no script for %q%s", args[0], meantOr(args[0], []string{"bash", "zsh", "fish"}, "there are those for"))
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
	for _, s := range starts() {
		names = append(names, s.name)
	}
	return names
}

// words are what can follow a command besides files.
func words(c command) []string {
	switch c.name {
	case "new":
		return append(startNames(), flagsOf(c)...)
	case "completion":
		return []string{"bash", "zsh", "fish"}
	}
	return flagsOf(c)
}

func bashCompletion() string {
	var b strings.Builder
	var names []string
	for _, c := range commands() {
		names = append(names, c.name)
	}
	fmt.Fprintf(&b, `_pourboard() {
  local word=${COMP_WORDS[COMP_CWORD]} words=
  if [ "$COMP_CWORD" -eq 1 ]; then
    COMPREPLY=($(compgen -W '%s' -- "$word"))
    return
  fi
  case ${COMP_WORDS[1]} in
`, strings.Join(names, " "))
	for _, c := range commands() {
		fmt.Fprintf(&b, "    %s) words='%s' ;;\n", c.name, strings.Join(words(c), " "))
	}
	b.WriteString(`  esac
  COMPREPLY=($(compgen -W "$words" -- "$word") $(compgen -f -- "$word"))
}
complete -o filenames -F _pourboard pourboard
`)
	return b.String()
}

func zshCompletion() string {
	var b strings.Builder
	b.WriteString("#compdef pourboard\n_pourboard() {\n  local -a commands\n  commands=(\n")
	for _, c := range commands() {
		fmt.Fprintf(&b, "    '%s:%s'\n", c.name, strings.ReplaceAll(c.line, "'", ""))
	}
	b.WriteString("  )\n  if (( CURRENT == 2 )); then\n    _describe command commands\n    return\n  fi\n  case ${words[2]} in\n")
	for _, c := range commands() {
		fmt.Fprintf(&b, "    %s) compadd -- %s ;;\n", c.name, strings.Join(words(c), " "))
	}
	b.WriteString("  esac\n  _files\n}\ncompdef _pourboard pourboard\n")
	return b.String()
}

func fishCompletion() string {
	var b strings.Builder
	for _, c := range commands() {
		fmt.Fprintf(&b, "complete -c pourboard -n __fish_use_subcommand -f -a %s -d '%s'\n", c.name, strings.ReplaceAll(c.line, "'", ""))
		for _, word := range words(c) {
			when := "'__fish_seen_subcommand_from " + c.name + "'"
			if flag, ok := strings.CutPrefix(word, "--"); ok {
				fmt.Fprintf(&b, "complete -c pourboard -n %s -l %s\n", when, flag)
			} else {
				fmt.Fprintf(&b, "complete -c pourboard -n %s -f -a %s\n", when, word)
			}
		}
	}
	return b.String()
}
