package plan

import (
	"errors"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"reflect"
	"runtime"
	"slices"
	"strings"
	"testing"
	"time"

	"pourboard/blend"
	"pourboard/blend/measure"
)

// plans is the files of whole plans that every package tests with.
func plans(t testing.TB) map[string][]byte {
	t.Helper()
	files, err := filepath.Glob("../../testdata/plans/*.toml")
	if err != nil || len(files) < 20 {
		t.Fatalf("%d plans found in testdata/plans, %v", len(files), err)
	}
	all := map[string][]byte{}
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		all[strings.TrimSuffix(filepath.Base(file), ".toml")] = text
	}
	return all
}

func TestRead_goodPlans(t *testing.T) {
	// Counted by hand, or from the handbook's table of lattices.
	cells := map[string]int{
		"line": 6, "line-volume": 5, "line-interior": 9, "line-bounds": 9, "line-series": 6, "line-stock": 5, "line-pour": 7,
		"biaxial": 20, "biaxial-series": 20, "biaxial-pour": 12,
		"triaxial": 28, "triaxial-interior": 15, "triaxial-weight": 15, "triaxial-series": 21,
		"quadraxial": 35, "list": 5, "centroid": 15, "one-cell": 1, "cells-500": 500, "cells-66": 66, "bodies-4": 11, "odd-text": 4,
	}
	seen := 0
	for name, text := range plans(t) {
		p, _, err := Read(name+".toml", text)
		if err != nil {
			t.Errorf("%v", err)
			continue
		}
		n, err := p.Blend.CellCount()
		if err != nil {
			t.Errorf("%s: %v", name, err)
		}
		if want, known := cells[name]; known {
			seen++
			if n != want {
				t.Errorf("%s has %d cells, want %d", name, n, want)
			}
		}
	}
	if seen != len(cells) {
		t.Errorf("%d of %d plans counted", seen, len(cells))
	}
}

// What a plan says must stand in the right field, in the right unit.
func TestRead_triaxial(t *testing.T) {
	p, warnings, err := Read("triaxial.toml", plans(t)["triaxial"])
	if err != nil {
		t.Fatal(err)
	}
	if len(warnings) != 0 {
		t.Errorf("warnings %v", warnings)
	}
	if len(p.Materials) != 1 || p.Materials[0].Name != "Wood ash" || p.Materials[0].Density != 2.6 || p.Materials[0].Analysis.Of("CaO") != 27.5 || p.Materials[0].Analysis.LOI != 18.6 {
		t.Errorf("materials %+v", p.Materials)
	}
	p.Materials = nil
	withoutLines(p)
	want := &blend.Plan{
		Title: "Copper and rutile over a magnesia matte",
		Mark:  "MR",
		Cup:   blend.Cup{Size: blend.Amount{Value: 100, Of: blend.Dry}, DiameterMM: 70},
		Kit: measure.Kit{
			Scale:   measure.Step{Size: 0.1, Unit: measure.Gram},
			Pour:    measure.Step{Size: 5, Unit: measure.Millilitre},
			Syringe: measure.Step{Size: 1, Unit: measure.Millilitre},
			FillG:   1, Extra: 0.1, Worst: 0.05,
		},
		Glazes: []blend.Glaze{
			{Name: "Magnesia matte", Recipe: []blend.Part{{Material: "Potash feldspar", Percent: 44}, {Material: "Silica", Percent: 22}, {Material: "Talc", Percent: 16}, {Material: "Whiting", Percent: 10}, {Material: "Kaolin", Percent: 8}},
				Additions: []blend.Part{{Material: "Bentonite", Percent: 2}}, SG: 1.45},
			{Name: "Field ash runny", Recipe: []blend.Part{{Material: "Wood ash", Percent: 50}, {Material: "Potash feldspar", Percent: 30}, {Material: "Kaolin", Percent: 20}}, SG: 1.5},
			{Name: "Soda blue", Recipe: []blend.Part{{Material: "Soda feldspar", Percent: 46}, {Material: "Silica", Percent: 24}, {Material: "Whiting", Percent: 18}, {Material: "Kaolin", Percent: 12}},
				Additions: []blend.Part{{Material: "Cobalt carbonate", Percent: 1}, {Material: "Bentonite", Percent: 1.5}}, WaterPer: 95},
		},
		Blend:     blend.Blend{Kind: blend.Triaxial, Ends: []int{0, 1, 2}, Basis: blend.Dry, Divisions: 6},
		Tiles:     blend.Tiles{Bodies: []string{"Porcelain", "Buff", "Red"}, Size: "50 x 100 mm", WidthMM: 50, HeightMM: 100, ThicknessMM: 6, Coats: 3, Repeats: 1, DipMM: 80, HoldS: 3, Bands: blend.Corner},
		Board:     blend.Board{Paper: "A4", PaperW: 210, PaperH: 297, Scale: blend.Life, GapMM: 4, Shuffle: true, Seed: 7},
		Labels:    &blend.Labels{Columns: 3, Rows: 8, WidthMM: 70, HeightMM: 37, TopMM: 0.5, SheetW: 210, SheetH: 297, Sheet: "A4"},
		Log:       blend.Log{Numbers: []string{"Gloss", "Run length mm"}},
		Chemistry: blend.Chemistry{Maps: []string{"SiO2", "Al2O3", "CaO"}},
	}
	if !reflect.DeepEqual(p, want) {
		t.Errorf("got\n%+v\nwant\n%+v", p, want)
	}
}

func TestRead_series(t *testing.T) {
	all := plans(t)
	for _, c := range []struct {
		plan   string
		method blend.Method
		series []blend.Series
	}{
		{"line-series", blend.ByDose, []blend.Series{{Material: "Copper carbonate", Percents: []float64{0, 0.5, 1, 2, 3, 4}}}},
		{"line-stock", blend.ByStock, []blend.Series{{Material: "Cobalt carbonate", Percents: []float64{0.1, 0.2, 0.4, 0.8, 1.6}}}},
		{"line-pour", blend.ByPour, []blend.Series{{Material: "Red iron oxide", Percents: []float64{1, 1.5, 2, 2.5, 3, 3.5, 4}}}},
		{"triaxial-series", blend.ByDose, []blend.Series{{Material: "Copper carbonate", To: 3}, {Material: "Rutile", To: 5}, {Material: "Tin oxide", To: 4}}},
	} {
		p, _, err := Read(c.plan, all[c.plan])
		if err != nil {
			t.Fatal(err)
		}
		if p.Blend.Method != c.method || !reflect.DeepEqual(p.Blend.Series, c.series) {
			t.Errorf("%s: %s %+v, want %s %+v", c.plan, p.Blend.Method, p.Blend.Series, c.method, c.series)
		}
	}
}

func TestRead_doublingWithoutEnd(t *testing.T) {
	text := edit{13: "from = 0.25\ncells = 5\nspacing = \"doubling\""}.of(seriesPlan)
	p, _, err := Read("plan.toml", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	if want := []float64{0.25, 0.5, 1, 2, 4}; !slices.Equal(p.Blend.Series[0].Percents, want) {
		t.Errorf("percents %v, want %v", p.Blend.Series[0].Percents, want)
	}
}

func TestRead_oddText(t *testing.T) {
	p, _, err := Read("odd-text.toml", plans(t)["odd-text"])
	if err != nil {
		t.Fatal(err)
	}
	if want := `=SUM(A1) «Émail brûlé», Глазурь № 5 "тест" & 'quotes' <b>`; p.Title != want {
		t.Errorf("title %q, want %q", p.Title, want)
	}
	if p.Cup.Size.Value != 100 || p.Cup.DiameterMM != 75 || p.Kit.Pour.Size != 2.5 || p.Tiles.WidthMM != 45.5 {
		t.Errorf("decimal commas: cup %+v, pour %v, width %v", p.Cup, p.Kit.Pour, p.Tiles.WidthMM)
	}
	if want := `@Argile \ rouge`; p.Glazes[1].Recipe[1].Material != want {
		t.Errorf("material %q, want %q", p.Glazes[1].Recipe[1].Material, want)
	}
}

func TestRead_defaults(t *testing.T) {
	text := edit{14: "", 15: ""}.of(seriesPlan)
	p, _, err := Read("plan.toml", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	if want := []string{"scale 0.1 g", "pour 5 mL", "syringe 1 mL", "extra 10 %", "worst 5 %"}; !slices.Equal(p.Kit.Defaults, want) {
		t.Errorf("defaults %q, want %q", p.Kit.Defaults, want)
	}
	if want := (blend.Tiles{Bodies: []string{"Test body"}, Size: "50 x 100 mm", WidthMM: 50, HeightMM: 100, Coats: 1, Repeats: 1, Bands: blend.Straight}); !reflect.DeepEqual(p.Tiles, want) {
		t.Errorf("tiles %+v, want %+v", p.Tiles, want)
	}
	if p.Board.Paper != "A4" || p.Board.Scale != blend.Life || p.Labels != nil {
		t.Errorf("board %+v, labels %v", p.Board, p.Labels)
	}
}

// A byte order mark, Windows line ends and a file without a last line end are
// how other people's editors save.
func TestRead_editors(t *testing.T) {
	want, _, err := Read("plan.toml", []byte(endsPlan))
	if err != nil {
		t.Fatal(err)
	}
	for name, text := range map[string]string{
		"byte order mark": "\uFEFF" + endsPlan,
		"CRLF":            strings.ReplaceAll(endsPlan, "\n", "\r\n"),
		"no last newline": strings.TrimSuffix(endsPlan, "\n"),
	} {
		got, _, err := Read("plan.toml", []byte(text))
		if err != nil || !reflect.DeepEqual(got, want) {
			t.Errorf("%s: %v", name, err)
		}
	}
	_, _, err = Read("plan.toml", []byte("\uFEFF"+strings.ReplaceAll(edit{4: "dry = 100 g"}.of(endsPlan), "\n", "\r\n")))
	if err == nil || !strings.HasPrefix(err.Error(), "plan.toml:4: ") || strings.Contains(err.Error(), "\r") {
		t.Errorf("with both, the line is wrong: %q", err)
	}
}

// All problems come in one run, in the order of the lines.
func TestRead_everythingAtOnce(t *testing.T) {
	text := edit{
		1: "", 2: `mark = "m1"`, 4: `dry = "100 mL"`, 6: `skale = "0.1 g"`, 8: `extra = 10`,
		13: `specific-gravity = "1.45"`, 20: `recipe = []`, 23: `kind = "triaxal"`, 24: `ends = ["Magnesia", "Chalk white"]`, 27: `bodies = "Buff"`, 30: `paper = "A7"`,
	}.of(endsPlan)
	_, _, err := Read("plan.toml", []byte(text))
	var problems Problems
	if !errors.As(err, &problems) {
		t.Fatal(err)
	}
	var lines []int
	for _, p := range problems {
		lines = append(lines, p.Line)
	}
	if want := []int{1, 2, 4, 6, 8, 13, 20, 23, 24, 27, 30}; !slices.Equal(lines, want) {
		t.Errorf("lines %v, want %v\n%v", lines, want, err)
	}
	if got := strings.Count(err.Error(), "\n") + 1; got != len(problems) {
		t.Errorf("%d lines for %d problems", got, len(problems))
	}
}

func TestRead_cautions(t *testing.T) {
	for _, c := range []struct {
		name string
		plan string
		edit edit
		want string // "" for none
	}{
		{"none", endsPlan, nil, ""},
		{"none for a series", seriesPlan, nil, ""},
		{"look-alikes", endsPlan, edit{2: `mark = "SO"`}, "mark SO (line 2): O, I, S, Z, B and Q look like 0, 1, 5, 2, 8 and O in the fired mark (clear letters are ACDEFGHJKLMNPRTUVWXY)"},
		{"last letters of the alphabet", endsPlan, edit{2: `mark = "Z"`}, "mark Z (line 2)"},
		{"recipe of 98", endsPlan, edit{16: `recipe = [["Silica", 40], ["Whiting", 30], ["Kaolin", 28]]`}, `recipe of "Chalk white" (line 16): adds up to 98; scaled to 100`},
		{"recipe of 99.5", endsPlan, edit{16: `recipe = [["Silica", 40], ["Whiting", 30], ["Kaolin", 29.5]]`}, ""},
		{"as much as is ordinary", seriesPlan, edit{13: "percent = [0, 12, 15]"}, ""},
		{"near material", endsPlan, edit{16: `recipe = [["Silica", 40], ["Whitting", 30], ["Kaolin", 30]]`}, `materials: unknown: "Whitting" on line 16, did you mean "Whiting"?`},
		{"unused material", endsPlan, edit{30: "[[material]]\nname = \"Quarry dust\"\ndensity = 2.7"}, "material Quarry dust (line 30): is in no recipe"},
		{"no mark", endsPlan, edit{2: ""}, "mark (line 1): missing; tiles bear numbers alone"},
		{"glaze in no cup", endsPlan, edit{30: "[[glaze]]\nname = \"Ash\"\nrecipe = [[\"Silica\", 100]]\nspecific-gravity = 1.5"}, "glaze Ash (line 30): is not used"},
		{"seed without random", endsPlan, edit{30: "seed = 4"}, "seed (line 30): is not used"},
		{"a material twice", endsPlan, edit{16: `recipe = [["Silica", 40], ["Whiting", 30], ["Silica", 30]]`}, `lists "Silica" twice`},
	} {
		_, warnings, err := Read("plan.toml", []byte(c.edit.of(c.plan)))
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if c.want == "" {
			if len(warnings) > 0 {
				t.Errorf("%s: %v", c.name, warnings)
			}
			continue
		}
		if len(warnings) != 1 || !strings.Contains(warnings[0], c.want) {
			t.Errorf("%s: %v, want %q", c.name, warnings, c.want)
		}
	}
}

// A plan of a hundred thousand cells and more is refused without laying them
// out.
func TestRead_hugeDesignCostsNothing(t *testing.T) {
	text := []byte(edit{25: "divisions = 100000"}.of(endsPlan))
	allocs := testing.AllocsPerRun(5, func() {
		if _, _, err := Read("plan.toml", text); err == nil {
			t.Fatal("read")
		}
	})
	if allocs > 20_000 {
		t.Errorf("%v allocations", allocs)
	}
}

func TestRead_hugeFiles(t *testing.T) {
	for name, text := range map[string]string{
		"too long": strings.Repeat("# remark\n", 1<<18),
		"unknown keys": func() string {
			var b strings.Builder
			for i := range 60_000 {
				b.WriteString("k" + number(float64(i)) + "=1\n")
			}
			return b.String()
		}(),
		"deep":      "title = " + strings.Repeat("[", 9000) + strings.Repeat("]", 9000),
		"too deep":  "title = " + strings.Repeat("[", 500_000),
		"deep keys": strings.Repeat("a.", 200_000) + "a = 1",
		"unquoted":  strings.Repeat("dry = 100 g\n", 50_000),
	} {
		_, _, err := Read("plan.toml", []byte(text))
		var problems Problems
		if !errors.As(err, &problems) {
			t.Fatalf("%s: %v", name, err)
		}
		if len(problems) > mostProblems+1 {
			t.Errorf("%s: %d problems told", name, len(problems))
		}
	}
}

// finite holds every number of a plan to be one.
func finite(t *testing.T, v reflect.Value, path string) {
	t.Helper()
	switch v.Kind() {
	case reflect.Float64:
		if x := v.Float(); math.IsNaN(x) || math.IsInf(x, 0) || x < 0 && !strings.HasSuffix(path, ".LOI") {
			t.Errorf("%s = %v", path, x)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			finite(t, v.Field(i), path+"."+v.Type().Field(i).Name)
		}
	case reflect.Slice:
		for i := range v.Len() {
			finite(t, v.Index(i), path)
		}
	case reflect.Pointer:
		if !v.IsNil() {
			finite(t, v.Elem(), path)
		}
	}
}

// Whatever the text, Read does not panic; a plan that reads has finite numbers
// and comes back equal from what Write makes of it.
func FuzzRead(f *testing.F) {
	for _, text := range plans(f) {
		f.Add(text)
	}
	f.Add([]byte(endsPlan))
	f.Add([]byte(seriesPlan))
	for _, d := range Designs() {
		f.Add(Template(d))
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		p, _, err := Read("plan.toml", text)
		if err != nil {
			var problems Problems
			if !errors.As(err, &problems) || len(problems) == 0 {
				t.Fatalf("an error without problems: %v", err)
			}
			for _, problem := range problems {
				if problem.Line < 1 || strings.ContainsAny(problem.String(), "\n\r") {
					t.Errorf("%q", problem)
				}
			}
			return
		}
		finite(t, reflect.ValueOf(p), "plan")
		survives(t, p)
	})
}

func BenchmarkRead(b *testing.B) {
	text := plans(b)["triaxial"]
	for b.Loop() {
		if _, _, err := Read("triaxial.toml", text); err != nil {
			b.Fatal(err)
		}
	}
}

// The engine takes every plan that reads, and counts its cells the same.
func TestRead_engineTakesPlans(t *testing.T) {
	for name, text := range plans(t) {
		p, _, err := Read(name+".toml", text)
		if err != nil {
			t.Fatal(err)
		}
		test, err := blend.New(p)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if n, _ := p.Blend.CellCount(); n != len(test.Cells) {
			t.Errorf("%s: %d cells counted, %d made", name, n, len(test.Cells))
		}
	}
}

// Labels come on sheets of the office, whatever paper the board is on.
func TestLabelSheet(t *testing.T) {
	text, err := os.ReadFile("../../testdata/plans/line-series.toml") // it has no board
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ paper, sheet, want string }{
		{"A4", "", "A4"}, {"A3", "", "A4"}, {"A5", "", "A4"}, {"Letter", "", "Letter"}, {"Tabloid", "", "Letter"},
		{"A4", "A5", "A5"}, {"300 x 420 mm", "", "A4"},
	} {
		src := string(text) + "\n[board]\npaper = \"" + c.paper + "\"\n\n[labels]\ncolumns = 2\nrows = 4\nwidth = \"40 mm\"\nheight = \"20 mm\"\nleft = \"10 mm\"\ntop = \"10 mm\"\n"
		if c.sheet != "" {
			src += "sheet = \"" + c.sheet + "\"\n"
		}
		p, _, err := Read("x", []byte(src))
		if err != nil {
			t.Fatal(err)
		}
		if p.Labels.Sheet != c.want {
			t.Errorf("labels for a board on %s, sheet %q, are on %s, want %s", c.paper, c.sheet, p.Labels.Sheet, c.want)
		}
	}
}

// A name is the same name with its accents as signs of their own.
func TestRead_accents(t *testing.T) {
	composed := strings.ReplaceAll(endsPlan, "Chalk white", "\u00c9mail")
	p, _, err := Read("x", []byte(composed))
	if err != nil {
		t.Fatal(err)
	}
	apart := strings.Replace(composed, "\u00c9mail", "E\u0301mail", 1) // where it is named, not among the ends
	q, _, err := Read("x", []byte(apart))
	if err != nil || !reflect.DeepEqual(p, q) {
		t.Errorf("%v", err)
	}
}

// numberedLines is a line for each number.
func numberedLines(format string, n int) string {
	var b strings.Builder
	for i := range n {
		fmt.Fprintf(&b, format, i)
	}
	return b.String()
}

// A plan that is refused costs little, however hostile: all that is allocated
// stays below 64 MiB, so what is held at one time does too.
func TestRead_refusedCheaply(t *testing.T) {
	const size = 800_000
	fill := func(line string) string { return strings.Repeat(line, size/len(line)) }
	cups := func(n int) string {
		return edit{23: `kind = "list"`, 24: `ends = ["Magnesia matte", "Chalk white"]`, 25: "cells = [" + strings.Repeat("[1,1],", n) + "]"}.of(endsPlan)
	}
	for name, text := range map[string]string{
		"a lines":            fill("a\n"),
		"a lines with keys":  fill("a = 1\n"),
		"bare sections":      fill("cup\n"),
		"open lists":         fill("recipe = [\n"),
		"no quotes":          fill("dry = 100 g\n"),
		"one open list":      "recipe = [" + fill("\"Silica\" 40\n"),
		"one long line":      fill("a"),
		"brackets":           fill("["),
		"a hundred thousand": cups(115_000),
		"a cup too many":     cups(100_001),
		"unclosed":           cups(100_000)[:500_000],
		"many parts":         edit{23: `kind = "list"`, 25: "cells = [" + strings.Repeat("["+strings.Repeat("1,", 99)+"1],", 780) + "]"}.of(endsPlan),
		"sections":           fill("[moon]\n"),
		"named sections":     numberedLines("[m%d]\n", 80_000),
		"materials":          endsPlan + numberedLines("[[material]]\nname = \"m%d\"\n", 20_000),
		"keys":               numberedLines("a%d = 1\n", 60_000),
	} {
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		start := time.Now()
		_, _, err := Read("plan.toml", []byte(text))
		took := time.Since(start)
		runtime.ReadMemStats(&after)
		if err == nil {
			t.Errorf("%s: read", name)
		}
		mib := float64(after.TotalAlloc-before.TotalAlloc) / (1 << 20)
		t.Logf("%-20s %6.1f MiB %v", name, mib, took)
		if mib > 64 {
			t.Errorf("%s: %.0f MiB allocated", name, mib)
		}
	}
}
