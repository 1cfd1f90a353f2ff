package main

import (
	"maps"
	"os"
	"slices"
	"strings"

	"github.com/spf13/pflag"

	"pourboard/blend/plan"
)

// completionScripts make a shell ask "completion words", which reads the line typed
// so far from COMP_LINE. What gets no words is completed as files.
var completionScripts = map[string]string{
	"bash": "complete -o bashdefault -o default -C 'pourboard completion words' pourboard\n",
	"zsh": "(( $+functions[compdef] )) || { autoload -Uz compinit && compinit -i }\n" +
		"autoload -Uz bashcompinit && bashcompinit\n" +
		"complete -o bashdefault -o default -C 'pourboard completion words' pourboard\n",
	"fish": "complete -c pourboard -a '(env COMP_LINE=(commandline -cp | string collect) pourboard completion words)'\n",
}

func runCompletion(u *ui, args []string) error {
	if args[0] == "words" {
		for _, word := range wordsFor(os.Getenv("COMP_LINE")) {
			u.printf("%s\n", word)
		}
		return nil
	}
	script, ok := completionScripts[args[0]]
	if !ok {
		shells := slices.Sorted(maps.Keys(completionScripts))
		return usagef("unknown shell %q%s", args[0], nearestOrAll(args[0], shells, "choose from"))
	}
	u.print(script)
	return nil
}

// wordsFor are the words that can end a command line: commands, flags and kinds of
// plan.
func wordsFor(line string) (fit []string) {
	typed := strings.Fields(line + "_") // the last one is not empty then
	last := strings.TrimSuffix(typed[len(typed)-1], "_")
	var words []string
	if len(typed) < 3 {
		for _, c := range commands() {
			words = append(words, c.name)
		}
	} else if c, ok := find(typed[1]); ok && strings.HasPrefix(last, "-") {
		words = flagsOf(c)
	} else if c.name == "new" {
		words = startNames()
	}
	for _, word := range words {
		if strings.HasPrefix(word, last) {
			fit = append(fit, word)
		}
	}
	return fit
}

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
