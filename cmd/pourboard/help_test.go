package main

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/spf13/pflag"
)

// Every flag stands in its command's help, every help has an example, and no
// line is wider than a terminal.
func TestHelp(t *testing.T) {
	for _, c := range commands() {
		for _, flag := range flagsOf(c) {
			if flag != "--help" && !strings.Contains(c.help, flag) {
				// --quiet goes without saying where there is nothing to be quiet about.
				if flag == "--quiet" && (c.name == "demo" || c.name == "version" || c.name == "completion") {
					continue
				}
				t.Errorf("the help of %s does not explain %s", c.name, flag)
			}
		}
		f, _ := c.flagSet()
		f.VisitAll(func(f *pflag.Flag) {
			if f.Usage == "" && f.Value.Type() != "bool" {
				t.Errorf("--%s of %s has no example for its errors", f.Name, c.name)
			}
		})
		if c.name != "version" && !strings.Contains(c.help, "Example:") {
			t.Errorf("the help of %s has no example", c.name)
		}
		if !strings.HasPrefix(c.help, "Usage:  pourboard "+c.name) {
			t.Errorf("the help of %s does not begin with its usage line", c.name)
		}
		for _, line := range strings.Split(c.help, "\n") {
			if utf8.RuneCountInString(line) > 80 {
				t.Errorf("the help of %s has a line of %d signs: %s", c.name, utf8.RuneCountInString(line), line)
			}
		}
	}
}

// The shells themselves read the scripts and complete with them: files are left
// to the shell, which knows how to write a name with blanks, and zsh needs
// nothing set up before.
func TestCompletion(t *testing.T) {
	tries := map[string]struct{ code, want string }{
		"bash": {`source "$1"
COMP_WORDS=(pourboard make --mea); COMP_CWORD=2; _pourboard; echo "${COMPREPLY[@]}"
COMP_WORDS=(pourboard nex); COMP_CWORD=1; _pourboard; echo "${COMPREPLY[@]}"
COMP_WORDS=(pourboard new tri); COMP_CWORD=2; _pourboard; echo "${COMPREPLY[@]}"
COMP_WORDS=(pourboard make my); COMP_CWORD=2; _pourboard; echo "files ${#COMPREPLY[@]}"
complete -p pourboard`, "--measured\nnext\ntriaxial triaxial-series\nfiles 0\ncomplete -o bashdefault -o default -F _pourboard pourboard\n"},
		"zsh": {`source "$1"; print -r -- $_comps[pourboard]
COMP_WORDS=(pourboard make --mea); COMP_CWORD=2; setopt ksharrays shwordsplit; _pourboard; print -r -- ${(M)COMPREPLY[@]:#--mea*}`,
			"_bash_complete -o bashdefault -o default -F _pourboard\n--measured\n"},
		"fish": {`source $argv[1]
complete -C 'pourboard make --mea'; complete -C 'pourboard nex' | string split -f1 \t; complete -C 'pourboard new tri'; complete -C 'pourboard make my'`,
			"--measured\nnext\ntriaxial\ntriaxial-series\nmy glaze plan.toml\n"},
	}
	for _, shell := range shells {
		path, err := exec.LookPath(shell)
		if err != nil {
			if os.Getenv("POURBOARD_OUTSIDE") != "" {
				t.Fatalf("%s is not installed", shell)
			}
			t.Logf("%s is not installed; its script is not tried", shell)
			continue
		}
		var script, stderr bytes.Buffer
		if code := run([]string{"completion", shell}, &script, &stderr); code != exitDone {
			t.Fatalf("%d: %s", code, stderr.String())
		}
		folder := t.TempDir()
		for name, text := range map[string]string{"script": script.String(), "my glaze plan.toml": ""} {
			if err := os.WriteFile(filepath.Join(folder, name), []byte(text), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		args := []string{"-c", tries[shell].code, "./script"}
		if shell == "bash" {
			args = append([]string{"--norc"}, append(args, "./script")...)
		} else if shell == "zsh" {
			args = append([]string{"-f"}, append(args, "./script")...)
		}
		try := exec.Command(path, args...)
		try.Dir = folder
		try.Env = append(os.Environ(), "HOME="+folder, "XDG_CONFIG_HOME="+folder, "XDG_DATA_HOME="+folder)
		if out, err := try.CombinedOutput(); err != nil || string(out) != tries[shell].want {
			t.Errorf("%s completes to %q, want %q, %v", shell, out, tries[shell].want, err)
		}
	}
}
