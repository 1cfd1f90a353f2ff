package main

import (
	"bytes"
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// riddles are turns of phrase that a potter would not say across a bench.
var riddles = regexp.MustCompile(`further on|comes on top|is wished|is wanted|are wanted|is told|what stands|stands? twice|` +
	`there is no |word too many|will not do|none of |can be meant|kept as it is|is nothing|\bsigns?\b|hardly| is no |is there already|nothing is given`)

// longest is how many words a sentence of a help text or an error may have.
const longest = 25

// A wrong command line is answered in one plain line: the fault, and the fix in
// brackets, in lower case and without a full stop.
func TestPlainErrors(t *testing.T) {
	const plan = "../../testdata/plans/line-series.toml"
	for _, line := range []string{
		"chekc", "refine", "which", "--quiet", "plan.toml", "help|show|check", "help|shwo",
		"check", "check|none.toml", "check|none/none.toml", "check|.", "check|a.toml|b.toml", "check|log.xlsx", "check|",
		"check|–quiet|" + plan, "check|--qiuet|" + plan, "check|--cup|2|" + plan, "check|--cup-size|5|" + plan,
		"check|--pour|0 mL|" + plan, "check|--paper|A9|" + plan, "check|--have|5|" + plan, "check|--have|Nobody=100 mL|" + plan,
		"check|--share-all|" + plan, "check|--sg|Nobody=1.4|" + plan, "check|--sg|Magnesia matte=0.9|" + plan, "check|--sg|Magnesia matte=x|" + plan,
		"show|--json|--csv|" + plan, "show|--cup|99|" + plan, "show|--cup|x|" + plan, "show|--near|SiO|" + plan, "show|--near|Blue=3|" + plan,
		"make|--only|bord|" + plan, "make|--only|board|--also|trays|" + plan, "make|--measured|x|" + plan, "make|--free|3|" + plan,
		"make|--log-as|a/b|" + plan, "make|--only", "make|" + plan + "|" + plan,
		"batch|" + plan, "batch|--cup|2|" + plan, "batch|--cup|2|--dry|0 g|" + plan, "batch|--cup|2,3|--dry|1 kg|" + plan,
		"batch|--cup|2|--dry|1 kg|--sg|x|" + plan, "batch|--cup|2|--dry|1 kg|--capacity|0.001 g|" + plan, "batch|--cup|99|--dry|1 kg|" + plan,
		"next|" + plan, "next|--cup|2,3|--kind|ring|" + plan, "next|--cup|2,2|" + plan, "next|--cup|1,2,3,4,5|" + plan, "next|--cup|99|" + plan,
		"find|" + plan, "find|MC1|" + plan, "find|--body|Bone|" + plan + "|MC1", "find|--log|none.csv|" + plan + "|MC1",
		"results|" + plan, "results|none.csv|" + plan, "results|" + plan + "|none.csv", "results|--csv|--json|" + plan + "|none.csv",
		"new", "new|ring", "new|triaxal", "new|line|--make|-o|-", "new|line|--cups|x|-o|-", "new|line|--glaze|A|-o|-",
		"book|none", "book|--missing|.", "book|" + plan, "materials|unobtainium", "materials|wood|ash", "completion|csh",
	} {
		var out, errs bytes.Buffer
		code := run(strings.Split(line, "|"), &out, &errs)
		first, _, _ := strings.Cut(errs.String(), "\n")
		text := strings.TrimPrefix(first, "pourboard: ")
		switch {
		case code == exitDone || text == "":
			t.Errorf("%s: %d, no error", line, code)
		case riddles.MatchString(text):
			t.Errorf("%s: %q in %s", line, riddles.FindString(text), text)
		case strings.HasSuffix(text, ".") && !strings.HasSuffix(text, "…"):
			t.Errorf("%s: a full stop: %s", line, text)
		case regexp.MustCompile(`^[A-Z][a-z]`).MatchString(text):
			t.Errorf("%s: a capital: %s", line, text)
		}
		for _, part := range regexp.MustCompile(`[;()]`).Split(text, -1) {
			if n := len(strings.Fields(part)); n > longest {
				t.Errorf("%s: %d words: %s", line, n, part)
			}
		}
	}
}

// Help is written in short plain sentences.
func TestPlainHelp(t *testing.T) {
	texts := map[string]string{"pourboard": helpText("pourboard")}
	for _, c := range commands() {
		texts[c.name] = c.line + ".\n\n" + helpText(c.name)
	}
	option := regexp.MustCompile(`(?m)^  (-\S|[a-z])`) // options and tables: each line begins anew
	sentence := regexp.MustCompile(`[.:;]\s`)
	for name, text := range texts {
		if riddles.MatchString(text) {
			t.Errorf("%s: %q", name, riddles.FindString(text))
		}
		for _, paragraph := range strings.Split(text, "\n\n") {
			for _, item := range strings.Split(option.ReplaceAllString(paragraph, "\x00$0"), "\x00") {
				for _, s := range sentence.Split(item+" ", -1) {
					if n := len(strings.Fields(s)); n > longest {
						t.Errorf("%s: %d words: %s", name, n, strings.Join(strings.Fields(s), " "))
					}
				}
			}
		}
	}
}

// No sentence that the program prints has more words than a person reads at once.
func TestShortSentences(t *testing.T) {
	end := regexp.MustCompile(`[.:;?!()]\s|[.:;()]$|\n\n|\n  `)
	check := func(where, text string) {
		for _, s := range end.Split(text, -1) {
			if words := strings.Fields(s); len(words) > longest {
				t.Errorf("%s: %d words: %s", where, len(words), strings.Join(words, " "))
			}
		}
	}
	var files []string
	for _, folder := range []string{"", "../../render/*/", "../../blend/", "../../blend/*/"} {
		found, _ := filepath.Glob(folder + "*.go")
		files = append(files, found...)
	}
	for _, file := range files {
		if strings.HasSuffix(file, "_test.go") {
			continue
		}
		set := token.NewFileSet()
		tree, err := parser.ParseFile(set, file, nil, parser.SkipObjectResolution)
		if err != nil {
			t.Fatal(err)
		}
		ast.Inspect(tree, func(n ast.Node) bool {
			if literal, ok := n.(*ast.BasicLit); ok && literal.Kind == token.STRING {
				text, _ := strconv.Unquote(literal.Value)
				check(set.Position(literal.Pos()).String(), text)
			}
			return true
		})
	}
	care, err := os.ReadFile("../../render/wording/care.json")
	if err != nil {
		t.Fatal(err)
	}
	for _, text := range regexp.MustCompile(`".*?"`).FindAllString(string(care), -1) {
		check("care.json", strings.Trim(text, `"`))
	}
	readme, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	for i, part := range strings.Split(string(readme), "```") {
		if i%2 == 0 { // not a plan or a command
			check("README.md", regexp.MustCompile(`(?m)^\|.*\|$`).ReplaceAllString(part, ""))
		}
	}
}
