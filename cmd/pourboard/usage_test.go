package main

import (
	"bytes"
	"strings"
	"testing"
)

// Wrong command lines end with 2, with what is wrong in one line and where to
// look in another.
func TestUsage(t *testing.T) {
	const plan = "../../testdata/plans/line.toml"
	for line, want := range map[string]string{
		"batch --dry":                          `--dry needs a value, such as "5 kg"`,
		"batch --pdf":                          "--pdf needs a value, such as ticket.pdf",
		"batch -cell|12":                       "--cell is now --cup",
		"batch -x":                             "unknown flag -x",
		"batch --sg|abc":                       `--sg: "abc" is not a number (such as "Ash=1.45")`,
		"batch --asked=maybe":                  "--asked takes no value (leave out =maybe)",
		"batch --=x":                           "--=x is not a flag",
		"batch –cup|12":                        "begins with a dash (a flag begins with two hyphens: --cup)",
		"batch --cup|12|--dry|5 kg|kg|" + plan: `unexpected argument "` + plan + `" (put quotes around a name or an amount with blanks, such as "5 kg")`,
		"batch " + plan + "|12":                `unexpected argument "12" (name cups with --cup, such as --cup 12,13)`,
		"materials wood|ash":                   `unexpected argument "ash" (put quotes around a name or an amount with blanks, such as "5 kg")`,
		"help show|check":                      `unexpected argument "check" (pourboard help show)`,
	} {
		name, rest, _ := strings.Cut(line, " ")
		var out, errs bytes.Buffer
		code := run(append([]string{name}, strings.Split(rest, "|")...), &out, &errs)
		first, second, _ := strings.Cut(errs.String(), "\n")
		if code != exitUsage || out.Len() > 0 || !strings.HasPrefix(first, "pourboard: ") || !strings.HasSuffix(first, want) || strings.Count(second, "\n") != 1 {
			t.Errorf("%s: %d: %s%s", line, code, out.String(), errs.String())
		}
	}
}

// One word more than a command takes is an error, and none is a panic.
func TestWords(t *testing.T) {
	for _, c := range commands() {
		if c.name == "demo" || c.name == "materials" || c.name == "version" {
			continue // they take no word too
		}
		var out, errs bytes.Buffer
		if code := run([]string{c.name}, &out, &errs); code != exitUsage || !strings.Contains(errs.String(), "pourboard: name a ") {
			t.Errorf("%s: %d: %s", c.name, code, errs.String())
		}
	}
	for _, c := range commands() {
		if c.name == "results" || c.name == "make" {
			continue // they take as many files as there are
		}
		var out, errs bytes.Buffer
		if code := run([]string{c.name, "a", "b", "c"}, &out, &errs); code != exitUsage || !strings.Contains(errs.String(), "unexpected argument") {
			t.Errorf("%s a b c: %d: %s", c.name, code, errs.String())
		}
	}
}
