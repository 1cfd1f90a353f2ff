package plan

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"pourboard/blend"
)

func mustRead(t *testing.T, text string) *blend.Plan {
	t.Helper()
	p, _, err := Read("plan.toml", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func TestOutline(t *testing.T) {
	want := []string{
		`mark: MR`,
		`kind: triaxial`,
		`ends: "Magnesia matte", "Chalk white", "Soda blue"`,
		`basis: dry`,
		`divisions: 6`,
		`recipe of "Magnesia matte": "Potash feldspar" 44, "Silica" 22, "Talc" 16, "Whiting" 10, "Kaolin" 8`,
		`recipe of "Chalk white": "Silica" 40, "Whiting" 30, "Kaolin" 30`,
		`recipe of "Soda blue": "Soda feldspar" 60, "Whiting" 40`,
		`bodies: "Porcelain", "Buff"`,
		`coats: 1`,
		`repeats: 1`,
	}
	if got := Outline(mustRead(t, endsPlan)); !slices.Equal(got, want) {
		t.Errorf("got\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
}

// What decides a tile's mark, mixture or body changes the fingerprint, and the
// difference is said; what does not, leaves it.
func TestFingerprint(t *testing.T) {
	for _, c := range []struct {
		name string
		plan string
		edit edit
		want []string // differences
	}{
		{"title", endsPlan, edit{1: `title = "Another"`}, nil},
		{"remarks", endsPlan, edit{1: "# a remark\ntitle = \"Three glazes\""}, nil},
		{"cup", endsPlan, edit{4: `dry = "250 g"`}, nil},
		{"scale", endsPlan, edit{6: `scale = "0.01 g"`}, nil},
		{"board", endsPlan, edit{30: `paper = "A3"`}, nil},
		{"gravity of dry shares", endsPlan, edit{13: `specific-gravity = 1.5`}, nil},
		{"tiles for divisions", endsPlan, edit{25: "tiles = 28"}, nil},
		{"mark", endsPlan, edit{2: `mark = "MT"`}, []string{"mark: was MR, is MT"}},
		{"divisions", endsPlan, edit{25: "divisions = 7"}, []string{"divisions: was 6, is 7"}},
		{"basis", endsPlan, edit{25: "divisions = 6\nbasis = \"volume\""}, []string{"basis: was dry, is volume",
			`slip of "Magnesia matte": is new, specific gravity 1.45`,
			`slip of "Chalk white": is new, specific gravity 1.48`,
			`slip of "Soda blue": is new, water 95 g`}},
		{"order of the ends", endsPlan, edit{24: `ends = ["Chalk white", "Magnesia matte", "Soda blue"]`},
			[]string{`ends: was "Magnesia matte", "Chalk white", "Soda blue", is "Chalk white", "Magnesia matte", "Soda blue"`}},
		{"an amount", endsPlan, edit{21: "", 20: `recipe = [["Soda feldspar", 61], ["Whiting", 39]]`},
			[]string{`recipe of "Soda blue": was "Soda feldspar" 60, "Whiting" 40, is "Soda feldspar" 61, "Whiting" 39`}},
		{"bodies", endsPlan, edit{27: `bodies = ["Buff", "Porcelain"]`}, []string{`bodies: was "Porcelain", "Buff", is "Buff", "Porcelain"`}},
		{"repeats", endsPlan, edit{28: "repeats = 2"}, []string{"repeats: was 1, is 2"}},
		{"interior", endsPlan, edit{25: "divisions = 6\ninterior = true"}, []string{"interior: is new, true"}},
		{"bounds", endsPlan, edit{25: "divisions = 6\nbounds = { \"Soda blue\" = [10, 60] }"}, []string{
			`bounds of "Magnesia matte": is new, 0 to 100 %`, `bounds of "Chalk white": is new, 0 to 100 %`, `bounds of "Soda blue": is new, 10 to 60 %`}},
		{"percent", seriesPlan, edit{13: "percent = [0, 0.5, 1]"}, []string{`series "Copper carbonate": was 0 %, 0.5 %, 1 %, 2 %, is 0 %, 0.5 %, 1 %`}},
		{"method", seriesPlan, edit{10: "base = \"Magnesia matte\"\nmethod = \"stock\""}, nil},
		{"list", edit{23: `kind = "list"`, 25: "cells = [[1, 0, 0], [1, 1, 1]]"}.of(endsPlan), edit{25: "cells = [[1, 0, 0], [1, 2, 1]]"},
			[]string{"cells: was [1, 0, 0], [1, 1, 1], is [1, 0, 0], [1, 2, 1]"}},
	} {
		was, is := mustRead(t, c.plan), mustRead(t, c.edit.of(c.plan))
		got := Differences(Outline(was), Outline(is))
		if !slices.Equal(got, c.want) {
			t.Errorf("%s: differences\n%s\nwant\n%s", c.name, strings.Join(got, "\n"), strings.Join(c.want, "\n"))
		}
		if same := Fingerprint(was) == Fingerprint(is); same != (c.want == nil) {
			t.Errorf("%s: fingerprints %s and %s", c.name, Fingerprint(was), Fingerprint(is))
		}
	}
}

// A log that was filled in last year must still be known: the fingerprint is
// the same in every build.
func TestFingerprint_stays(t *testing.T) {
	got := Fingerprint(mustRead(t, endsPlan))
	if !regexp.MustCompile(`^[a-z2-7]{10}$`).MatchString(got) {
		t.Errorf("fingerprint %q", got)
	}
	// The same by: base64.b32encode(hashlib.sha256(outline).digest()) in Python
	if want := "sqcmvv2gdi"; got != want {
		t.Errorf("fingerprint %q, want %q: old logs would no longer be known", got, want)
	}
}

func TestDifferences_order(t *testing.T) {
	got := Differences([]string{"a: 1", "b: 2"}, []string{"b: 2", "a: 1"})
	if len(got) != 1 {
		t.Errorf("%q", got)
	}
}

func TestLabelled(t *testing.T) {
	for _, c := range []struct{ line, label, text string }{
		{`mark: MR`, "mark", "MR"},
		{`mark: `, "mark", ""},
		{`recipe of "A: \"b: c": "Silica: fine" 40`, `recipe of "A: \"b: c"`, `"Silica: fine" 40`},
	} {
		if label, text := labelled(c.line); label != c.label || text != c.text {
			t.Errorf("%s: %q, %q", c.line, label, text)
		}
	}
}

func TestSaid(t *testing.T) {
	for _, c := range []struct{ line, want string }{
		{`slip of "Ash": specific gravity 1.5, water 0 g, solids 0`, `slip of "Ash": specific gravity 1.5`},
		{`slip of "Ash": specific gravity 0, water 98 g, solids 2.61`, `slip of "Ash": water 98 g, solids 2.61`},
		{`slip of "Ash": specific gravity 1.5, water 0.5 g, solids 0.5`, `slip of "Ash": specific gravity 1.5, water 0.5 g, solids 0.5`},
		{`ends: "A, water 0 g", "B, solids 0"`, `ends: "A, water 0 g", "B, solids 0"`},
	} {
		if got := Said(c.line); got != c.want {
			t.Errorf("%s is said as %s, want %s", c.line, got, c.want)
		}
	}
}
