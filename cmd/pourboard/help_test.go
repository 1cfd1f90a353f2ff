package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/spf13/pflag"

	"pourboard/render/sheets"
)

// Every flag stands in its command's help, every help has an example, and no
// line is wider than a terminal.
func TestHelp(t *testing.T) {
	for _, c := range commands() {
		for _, flag := range flagsOf(c) {
			if flag != "--help" && !strings.Contains(helpText(c.name), flag) {
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
		if c.name != "version" && !strings.Contains(helpText(c.name), "Example:") {
			t.Errorf("the help of %s has no example", c.name)
		}
		if !strings.HasPrefix(helpText(c.name), "Usage:  pourboard "+c.name) {
			t.Errorf("the help of %s does not begin with its usage line", c.name)
		}
		for _, line := range strings.Split(helpText(c.name), "\n") {
			if utf8.RuneCountInString(line) > 80 {
				t.Errorf("the help of %s has a line of %d signs: %s", c.name, utf8.RuneCountInString(line), line)
			}
		}
	}
}

// The help of make names every part of the sheets.
func TestHelp_parts(t *testing.T) {
	c, _ := find("make")
	for _, name := range sheets.Parts() {
		if !strings.Contains(helpText(c.name), " "+name) {
			t.Errorf("the part %s is not named", name)
		}
	}
}

// The words that can end a command line; files are left to the shell.
func TestWordsFor(t *testing.T) {
	for line, want := range map[string]string{
		"pourboard make --mea": "--measured", "pourboard nex": "next", "pourboard new tri": "triaxial triaxial-series",
		"pourboard make my": "", "pourboard make ": "", "pourboard chekc --": "", "pourboard results a.toml b.xlsx --js": "--json",
	} {
		if got := strings.Join(wordsFor(line), " "); got != want {
			t.Errorf("%q: %q, want %q", line, got, want)
		}
	}
}

// The shells themselves read the scripts and complete with them, and write a name
// with blanks as they do.
func TestCompletion(t *testing.T) {
	folder := t.TempDir()
	program := filepath.Join(folder, "pourboard")
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	for name, text := range map[string]string{"my glaze plan.toml": "", "pourboard": "#!/bin/sh\nexec env " + asProgram + "=1 '" + self + "' \"$@\"\n"} {
		if err := os.WriteFile(filepath.Join(folder, name), []byte(text), 0o755); err != nil {
			t.Fatal(err)
		}
	}
	for shell, try := range map[string]struct{ code, want string }{
		"bash": {`source <(pourboard completion bash); complete -p pourboard; COMP_LINE='pourboard make --mea' pourboard completion words`,
			"complete -o bashdefault -o default -C 'pourboard completion words' pourboard\n--measured\n"},
		"zsh": {`source <(pourboard completion zsh); print -r -- $_comps[pourboard]`,
			"_bash_complete -o bashdefault -o default -C pourboard\\ completion\\ words\n"},
		"fish": {`pourboard completion fish | source
complete -C 'pourboard make --mea'; complete -C 'pourboard nex' | string split -f1 \t; complete -C 'pourboard new tri'; complete -C 'pourboard make my'`,
			"--measured\nnext\ntriaxial\ntriaxial-series\nmy glaze plan.toml\n"},
	} {
		path, err := exec.LookPath(shell)
		if err != nil {
			if os.Getenv("POURBOARD_OUTSIDE") != "" {
				t.Fatalf("%s is not installed", shell)
			}
			t.Logf("%s is not installed; its script is not tried", shell)
			continue
		}
		args := map[string][]string{"bash": {"--norc", "-c"}, "zsh": {"-f", "-c"}, "fish": {"-c"}}[shell]
		c := exec.Command(path, append(args, try.code)...)
		c.Dir = folder
		c.Env = append(os.Environ(), "PATH="+filepath.Dir(program)+":"+os.Getenv("PATH"), "HOME="+folder, "XDG_CONFIG_HOME="+folder, "XDG_DATA_HOME="+folder)
		if out, err := c.CombinedOutput(); err != nil || string(out) != try.want {
			t.Errorf("%s completes to %q, want %q, %v", shell, out, try.want, err)
		}
	}
}
