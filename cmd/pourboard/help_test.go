package main

import (
	"bytes"
	"os"
	"os/exec"
	"strings"
	"testing"
	"unicode/utf8"
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
				t.Errorf("the help of %s does not tell of %s", c.name, flag)
			}
		}
		if c.name != "version" && !strings.Contains(c.help, "Example:") {
			t.Errorf("the help of %s has no example", c.name)
		}
		if !strings.HasPrefix(c.help, "Usage:  pourboard "+c.name) {
			t.Errorf("the help of %s does not begin with how it is called", c.name)
		}
		for _, line := range strings.Split(c.help, "\n") {
			if utf8.RuneCountInString(line) > 80 {
				t.Errorf("the help of %s has a line of %d signs: %s", c.name, utf8.RuneCountInString(line), line)
			}
		}
	}
}

// The shells themselves read the scripts, and bash completes with one.
func TestCompletion(t *testing.T) {
	for _, shell := range []string{"bash", "zsh", "fish"} {
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
		check := exec.Command(path, "-n")
		check.Stdin = strings.NewReader(script.String())
		if out, err := check.CombinedOutput(); err != nil {
			t.Errorf("%s does not read its script: %v\n%s", shell, err, out)
		}
		if shell != "bash" {
			continue
		}
		try := exec.Command(path, "-c", script.String()+`
COMP_WORDS=(pourboard make --mea); COMP_CWORD=2; _pourboard; echo "${COMPREPLY[@]}"
COMP_WORDS=(pourboard ref); COMP_CWORD=1; _pourboard; echo "${COMPREPLY[@]}"`)
		out, err := try.CombinedOutput()
		if err != nil || string(out) != "--measured\nrefine\n" {
			t.Errorf("bash completes to %q, %v", out, err)
		}
	}
}
