package text

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"flag"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"

	"pourboard/blend"
	"pourboard/blend/mark"
	"pourboard/blend/plan"
	"pourboard/layout"
	"pourboard/render/wording"
)

var update = flag.Bool("update", false, "rewrite the golden files")

const plans = "../../testdata/plans"

func load(t testing.TB, name string) (*blend.Test, *layout.Places) {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(plans, name+".toml"))
	if err != nil {
		t.Fatal(err)
	}
	p, _, err := plan.Read(name+".toml", text)
	if err != nil {
		t.Fatal(err)
	}
	test, err := blend.New(p)
	if err != nil {
		t.Fatal(err)
	}
	return test, layout.Boards(test)
}

func names(t *testing.T) []string {
	files, err := filepath.Glob(plans + "/*.toml")
	if err != nil || len(files) < 20 {
		t.Fatalf("%d plans, %v", len(files), err)
	}
	for i, f := range files {
		files[i] = strings.TrimSuffix(filepath.Base(f), ".toml")
	}
	return files
}

// The keys are an interface: DESIGN's own example, key by key.
func TestJSONKeys(t *testing.T) {
	for _, name := range names(t) {
		test, places := load(t, name)
		var out bytes.Buffer
		if err := JSON(&out, test, places, wording.Lines(test.Notes)); err != nil {
			t.Fatal(err)
		}
		var got map[string]any
		if err := json.Unmarshal(out.Bytes(), &got); err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		want := map[string]string{
			"":            "title kind basis ends cells batches tiles warnings",
			"cells":       "number row column layer shares pours doses dry_g ml g sg recipe additions",
			"cells.pours": "glaze ml g dry_g measured unit",
			"cells.doses": "material percent g measured_g plus_minus_percent",
			"batches":     "glaze ml dry_g water_g materials",
			"tiles":       "mark cell body x_mm y_mm board",
		}
		hold := func(path string, keys map[string]any) {
			for _, key := range strings.Fields(want[path]) {
				if _, ok := keys[key]; !ok {
					t.Errorf("%s: no %q in %s of %v", name, key, path, keys)
				}
			}
		}
		hold("", got)
		each := func(list any, visit func(map[string]any)) {
			for _, x := range list.([]any) {
				visit(x.(map[string]any))
			}
		}
		cells := 0
		each(got["cells"], func(c map[string]any) {
			cells++
			hold("cells", c)
			each(c["pours"], func(p map[string]any) { hold("cells.pours", p) })
			each(c["doses"], func(d map[string]any) { hold("cells.doses", d) })
			for _, pair := range c["recipe"].([]any) {
				if p := pair.([]any); len(p) != 2 || p[1].(float64) < 0 {
					t.Errorf("%s: a line of a recipe is %v", name, pair)
				}
			}
		})
		each(got["batches"], func(b map[string]any) { hold("batches", b) })
		each(got["tiles"], func(x map[string]any) { hold("tiles", x) })
		if cells != len(test.Cells) || len(got["tiles"].([]any)) != len(places.Tiles) {
			t.Errorf("%s: %d cells and %d tiles of %d and %d", name, cells, len(got["tiles"].([]any)), len(test.Cells), len(places.Tiles))
		}
	}
}

// DESIGN's example cell, worked by hand: 100 g dry at SG 1.45 and solids 2.6
// are 136.752 mL; the example prints 136.75 and 198.29.
func TestJSONExample(t *testing.T) {
	test, places := load(t, "triaxial")
	test.Plan.Glazes[0].Solids = 2.6
	test, err := blend.New(test.Plan)
	if err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	if err := JSON(&out, test, places, wording.Lines(test.Notes)); err != nil {
		t.Fatal(err)
	}
	var got struct {
		Cells []struct {
			ML, G, SG float64
			Pours     []struct {
				ML, G, Measured float64
				DryG            float64 `json:"dry_g"`
				RecipeG         float64 `json:"recipe_g"`
				Unit            string
			}
		}
	}
	if err := json.Unmarshal(out.Bytes(), &got); err != nil {
		t.Fatal(err)
	}
	c := got.Cells[0]
	p := c.Pours[0]
	if math.Abs(p.ML-139.49) > 0.005 || math.Abs(p.G-202.26) > 0.005 || p.RecipeG != 100 || p.DryG != 102 || p.Measured != 140 || p.Unit != "mL" || math.Abs(c.SG-1.45) > 1e-6 {
		t.Errorf("cell 1 is %+v", c)
	}
}

func TestTableGolden(t *testing.T) {
	for _, name := range []string{"triaxial", "line-series", "line-stock", "line-pour", "biaxial-series", "triaxial-weight", "odd-text"} {
		test, _ := load(t, name)
		var got bytes.Buffer
		if err := Table(&got, test); err != nil {
			t.Fatal(err)
		}
		golden(t, name, got.String())
	}
}

// golden holds an output against the one that is kept under a name.
func golden(t *testing.T, name, got string) {
	t.Helper()
	file := filepath.Join("testdata", name+".txt")
	if *update {
		if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if got != string(want) {
		t.Errorf("%s: go test -update rewrites %s; got\n%s", name, file, got)
	}
}

func TestChemistryGolden(t *testing.T) {
	for _, name := range []string{"triaxial", "line-series", "odd-text"} {
		test, _ := load(t, name)
		var got bytes.Buffer
		if err := Chemistry(&got, test); err != nil {
			t.Fatal(err)
		}
		golden(t, name+"-chemistry", got.String())
	}
}

// A bucket on a scale of 5 g, which shows neither its 7726 g of dry matter nor
// its smallest materials.
func TestBucketGolden(t *testing.T) {
	test, _ := load(t, "triaxial")
	kit := test.Plan.Kit
	kit.Scale.Size = 5
	b, err := test.Bucket(11, blend.Measured, blend.Cup{Size: 10_000, Of: blend.Volume}, 0, kit)
	if err != nil {
		t.Fatal(err)
	}
	var got bytes.Buffer
	if err := Bucket(&got, test, b, kit); err != nil {
		t.Fatal(err)
	}
	golden(t, "bucket", got.String())
}

func TestTableWidth(t *testing.T) {
	for _, name := range names(t) {
		test, _ := load(t, name)
		var out bytes.Buffer
		if err := Table(&out, test); err != nil {
			t.Fatal(err)
		}
		for _, line := range strings.Split(out.String(), "\n") {
			if strings.HasSuffix(line, " ") {
				t.Errorf("%s: a line ends in a blank: %q", name, line)
			}
			if strings.ContainsAny(line, "\x00\x07\x1b") || strings.Contains(line, "NaN") || strings.Contains(line, "Inf") {
				t.Errorf("%s: %q", name, line)
			}
		}
	}
}

// A long name is whole in the legend and cut short where the legend's letter
// stands beside it, and a rule goes on under texts at the end of rows up to 80 signs only.
func TestLongNames(t *testing.T) {
	test, places := load(t, "triaxial")
	const long = "Magnesia matte, the third version with more talc and less whiting (notebook 4)"
	test.Plan.Glazes[0].Name = long
	test, err := blend.New(test.Plan)
	if err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	if err := Table(&out, test); err != nil {
		t.Fatal(err)
	}
	legend, mix, _ := strings.Cut(out.String(), "to mix\n")
	if !strings.Contains(legend, "P  "+long+"  SG 1.45\n") {
		t.Errorf("the legend has not the whole name:\n%s", legend)
	}
	for line := range strings.Lines(mix) {
		if n := utf8.RuneCountInString(line) - 1; n > 80 {
			t.Errorf("a line of %d signs: %s", n, line)
		}
	}
	if !strings.HasPrefix(mix, "P  Magnesia matte, the t…  ") {
		t.Errorf("to mix is\n%s", mix)
	}
	out.Reset()
	tile := places.Scheme.Candidates("MR1A", func(mark.Tile) bool { return true })[0].Tile
	if err := Tiles(&out, test, places, []mark.Tile{tile}); err != nil {
		t.Fatal(err)
	}
	if lines := strings.Split(out.String(), "\n"); len(lines[1]) != 80 || !strings.HasSuffix(lines[2], "100 % "+long) {
		t.Errorf("the tiles are\n%s", out.String())
	}
}

// The CSV's amounts are the table's, and no cell of it is a formula.
func TestCSV(t *testing.T) {
	for _, name := range names(t) {
		test, _ := load(t, name)
		var out bytes.Buffer
		if err := CSV(&out, test); err != nil {
			t.Fatal(err)
		}
		rows, err := csv.NewReader(&out).ReadAll()
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		for _, row := range rows[1:] {
			if strings.ContainsAny(row[2][:1], "=+-@") {
				t.Errorf("%s: %q is a formula", name, row[2])
			}
			if row[5] == "" || row[5] == "–" {
				t.Errorf("%s: nothing to measure in %v", name, row)
			}
			// A bottle stands where something is poured from one, and it is of the row's colourant.
			want := ""
			if row[1] == "dose" && row[5] != "0" && test.Plan.Blend.Method == blend.ByStock {
				for i, stock := range test.Stocks {
					if test.StockLabel(i) == row[10] {
						want = row[10]
						if safeCell(stock.Material) != row[2] {
							t.Errorf("%s: bottle %s of %s in %v", name, row[10], stock.Material, row)
						}
					}
				}
				if want == "" {
					t.Errorf("%s: no bottle in %v", name, row)
				}
			}
			if row[10] != want {
				t.Errorf("%s: bottle %q in %v", name, row[10], row)
			}
		}
	}
}

func TestSafeCell(t *testing.T) {
	for in, want := range map[string]string{
		"=1+1": "'=1+1", "+x": "'+x", "-x": "'-x", "@x": "'@x", "x=1": "x=1", "": "", "a\tb": "a b", "\t=1": " =1", "'x": "''x",
	} {
		if got := safeCell(in); got != want {
			t.Errorf("safeCell(%q) = %q, want %q", in, got, want)
		}
	}
}

func BenchmarkTable(b *testing.B) {
	test, _ := load(b, "cells-500")
	for b.Loop() {
		Table(&bytes.Buffer{}, test)
	}
}
