package identity

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"pourboard/blend"
	"pourboard/blend/plan"
)

func mustRead(t *testing.T, text string) *blend.Plan {
	t.Helper()
	p, _, err := plan.Read("plan.toml", []byte(text))
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
	if got := OutlineOf(mustRead(t, endsPlan)).Lines(); !slices.Equal(got, want) {
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
			`wet glaze "Magnesia matte": is new, SG 1.45`,
			`wet glaze "Chalk white": is new, SG 1.48`,
			`wet glaze "Soda blue": is new, water 95 g`}},
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
		got := Differences(OutlineOf(was), OutlineOf(is))
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
	got := Differences(ReadOutline([]string{"a: 1", "b: 2"}), ReadOutline([]string{"b: 2", "a: 1"}))
	if len(got) != 1 {
		t.Errorf("%q", got)
	}
}

func TestReadOutline_names(t *testing.T) {
	for line, want := range map[string]Matter{
		`mark: MR`: {"mark", "", "MR"},
		`mark: `:   {"mark", "", ""},
		`recipe of "A: \"b: c": "Silica: fine" 40`: {"recipe of", `A: "b: c`, `"Silica: fine" 40`},
	} {
		if got := ReadOutline([]string{line})[0]; got != want {
			t.Errorf("%s: %q", line, got)
		}
	}
}

func TestSaid(t *testing.T) {
	for _, c := range []struct{ line, want string }{
		{`slip of "Ash": specific gravity 1.5, water 0 g, solids 0`, `wet glaze "Ash": SG 1.5`},
		{`slip of "Ash": specific gravity 0, water 0 g, solids 0`, `wet glaze "Ash": no SG`},
		{`slip of "Ash": specific gravity 0, water 98 g, solids 2.61`, `wet glaze "Ash": water 98 g, solids 2.61`},
		{`slip of "Ash": specific gravity 1.5, water 0.5 g, solids 0.5`, `wet glaze "Ash": SG 1.5, water 0.5 g, solids 0.5`},
		{`ends: "A, water 0 g", "B, solids 0"`, `ends: "A, water 0 g", "B, solids 0"`},
	} {
		m := ReadOutline([]string{c.line})[0]
		if got := m.subject() + ": " + m.detail(); got != c.want {
			t.Errorf("%s is said as %s, want %s", c.line, got, c.want)
		}
	}
}

// endsPlan is a blend of end glazes with one matter on each line.
const endsPlan = `title = "Three glazes"
mark = "MR"
[cup]
dry = "100 g"
[measure]
scale = "0.1 g"
pour = "5 mL"
extra = "10 %"
worst = "5 %"
[[glaze]]
name = "Magnesia matte"
recipe = [["Potash feldspar", 44], ["Silica", 22], ["Talc", 16], ["Whiting", 10], ["Kaolin", 8]]
specific-gravity = 1.45
[[glaze]]
name = "Chalk white"
recipe = [["Silica", 40], ["Whiting", 30], ["Kaolin", 30]]
specific-gravity = 1.48
[[glaze]]
name = "Soda blue"
recipe = [["Soda feldspar", 60], ["Whiting", 40]]
water = "95 g"
[blend]
kind = "triaxial"
ends = ["Magnesia matte", "Chalk white", "Soda blue"]
divisions = 6
[tiles]
bodies = ["Porcelain", "Buff"]
size = "50 x 100 mm"
[board]
paper = "A4"
`

// seriesPlan is a series on one base.
const seriesPlan = `title = "Copper"
mark = "CU"
cup = { dry = "100 g" }
[[glaze]]
name = "Magnesia matte"
recipe = [["Potash feldspar", 60], ["Silica", 40]]
specific-gravity = 1.45
[blend]
kind = "line"
base = "Magnesia matte"
[[blend.series]]
material = "Copper carbonate"
percent = [0, 0.5, 1, 2]
[tiles]
bodies = ["Buff"]
`

// edit puts text in place of a line, from 1; a text may be several lines.
type edit map[int]string

func (e edit) of(plan string) string {
	lines := strings.Split(plan, "\n")
	for n, text := range e {
		lines[n-1] = text
	}
	return strings.Join(lines, "\n")
}

// What a log has is read back, whatever the names.
func TestReadOutline(t *testing.T) {
	for _, text := range []string{endsPlan, seriesPlan, edit{11: `name = "A: \"b\" = c"`, 24: `ends = ["A: \"b\" = c", "Chalk white", "Soda blue"]`}.of(endsPlan)} {
		o := OutlineOf(mustRead(t, text))
		if got := ReadOutline(o.Lines()); !slices.Equal(got, o) {
			t.Errorf("%q\nis read as\n%q", o, got)
		}
	}
	o := OutlineOf(mustRead(t, endsPlan))
	if o.Text("divisions", "") != "6" || o.Text("recipe of", "chalk  White") != `"Silica" 40, "Whiting" 30, "Kaolin" 30` || !o.SameRecipe("Chalk white", o, "Chalk white") || o.SameRecipe("Chalk white", o, "Soda blue") {
		t.Errorf("%q", o)
	}
}

// A log of a line without its ends counts its cells as it always has.
func TestOutlineOf_interior(t *testing.T) {
	line := edit{23: `kind = "line"`, 24: `ends = ["Chalk white", "Soda blue"]`, 25: "cells = 9\ninterior = true"}.of(endsPlan)
	if got := OutlineOf(mustRead(t, line)).Text("cells", ""); got != "11" {
		t.Errorf("cells: %s, want 11", got)
	}
}

// What was poured otherwise is no part of the identity.
func TestFingerprint_poured(t *testing.T) {
	was := mustRead(t, endsPlan)
	is := mustRead(t, endsPlan+"[[poured]]\ncups = \"7-25\"\nglaze = \"Soda blue\"\namount = \"140 mL\"\n")
	if len(is.Poured) != 1 || len(is.Poured[0].Cups) != 19 || Fingerprint(was) != Fingerprint(is) {
		t.Errorf("%+v, fingerprints %s and %s", is.Poured, Fingerprint(was), Fingerprint(is))
	}
}
