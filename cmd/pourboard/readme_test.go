package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// broken is the plan that the README's messages are about.
const broken = `title = "Broken"
mark = "BR"

[cup]
dry = 100 g
[measure]
scale = "0.1 g"
puor = "5 mL"
[[glaze]]
name = "Chalk"
recipe = [["Whiting", 50], ["Silica", 50]]
specific-gravity = 1.4
[blend]
kind = "line"
cells = 5
ends = ["Chalk", "Chlak"]
`

// Every command that the README shows is run, in order, in one folder, and its
// output compared; a line … stands for any lines.
func TestReadme(t *testing.T) {
	text, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	t.Chdir(t.TempDir())
	if err := os.WriteFile("broken.toml", []byte(broken), 0o644); err != nil {
		t.Fatal(err)
	}
	commands := 0
	blocks := strings.Split(string(text), "\n```")
	for i := 1; i < len(blocks); i += 2 {
		for _, part := range strings.Split("\n"+strings.TrimPrefix(blocks[i], "\n"), "\n$ ")[1:] {
			line, want, _ := strings.Cut(part, "\n")
			args := shellWords(t, line)
			if args[0] != "pourboard" {
				t.Fatalf("%s is not run by this test", line)
			}
			var out bytes.Buffer
			run(args[1:], &out, &out)
			if got := filepath.ToSlash(strings.TrimRight(out.String(), "\n")); !matches(got, strings.TrimRight(want, "\n")) {
				t.Errorf("$ %s\nprints\n%s\nand the README says\n%s", line, got, want)
			}
			commands++
		}
	}
	if commands < 10 {
		t.Errorf("only %d commands were found", commands)
	}
}

// The whole plan that the README shows is a plan.
func TestReadme_plan(t *testing.T) {
	text, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	_, after, found := strings.Cut(string(text), "```toml\n")
	shown, _, closed := strings.Cut(after, "```")
	if !found || !closed {
		t.Fatal("the README shows no plan")
	}
	if _, err := newReader("README.md", []byte(shown)); err != nil {
		t.Error(err)
	}
}

// shellWords splits a command line at blanks outside double quotes.
func shellWords(t *testing.T, line string) []string {
	t.Helper()
	var words []string
	for i, part := range strings.Split(line, `"`) {
		if i%2 == 1 {
			words = append(words, part)
			continue
		}
		words = append(words, strings.Fields(part)...)
	}
	return words
}

// matches compares lines, of which … in want stands for any number.
func matches(got, want string) bool {
	g, w := strings.Split(got, "\n"), strings.Split(want, "\n")
	for len(w) > 0 {
		if w[0] == "…" {
			for n := range len(g) + 1 {
				if matches(strings.Join(g[n:], "\n"), strings.Join(w[1:], "\n")) || len(w) == 1 {
					return true
				}
			}
			return false
		}
		if len(g) == 0 || g[0] != w[0] {
			return false
		}
		g, w = g[1:], w[1:]
	}
	return len(g) == 0
}
