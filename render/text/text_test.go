package text

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"flag"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

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

// names are the plans, but for the largest, which is only more of the same, where
// not every check is wanted.
func names(t *testing.T) []string {
	files, err := filepath.Glob(plans + "/*.toml")
	if err != nil || len(files) < 20 {
		t.Fatalf("%d plans, %v", len(files), err)
	}
	for i, f := range files {
		files[i] = strings.TrimSuffix(filepath.Base(f), ".toml")
	}
	if os.Getenv("POURBOARD_OUTSIDE") != "1" {
		files = slices.DeleteFunc(files, func(name string) bool { return name == "cells-500" })
	}
	return files
}

// The keys are an interface: each that was promised is there.
func TestJSONKeys(t *testing.T) {
	for _, name := range names(t) {
		test, places := load(t, name)
		var out bytes.Buffer
		if err := JSON(&out, test, places, wording.Notes(test.Notes)); err != nil {
			t.Fatal(err)
		}
		var got map[string]any
		if err := json.Unmarshal(out.Bytes(), &got); err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		want := map[string]string{
			"":               "title kind basis ends cells batches tiles warnings",
			"cells":          "number row column layer shares pours doses recipe_g dry_g ml g sg measured recipe additions asked_recipe asked_additions",
			"cells.pours":    "glaze ml g recipe_g dry_g measured unit",
			"cells.measured": "recipe_g dry_g ml g sg",
			"cells.doses":    "material percent g measured_g plus_minus_percent",
			"batches":        "glaze ml recipe_g dry_g water_g materials",
			"tiles":          "mark cell body x_mm y_mm board tray",
			"tiles.tray":     "page x_mm y_mm",
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
			hold("cells.measured", c["measured"].(map[string]any))
			each(c["pours"], func(p map[string]any) { hold("cells.pours", p) })
			each(c["doses"], func(d map[string]any) { hold("cells.doses", d) })
			for _, pair := range c["recipe"].([]any) {
				if p := pair.([]any); len(p) != 2 || p[1].(float64) < 0 {
					t.Errorf("%s: a line of a recipe is %v", name, pair)
				}
			}
		})
		each(got["batches"], func(b map[string]any) { hold("batches", b) })
		each(got["tiles"], func(x map[string]any) {
			hold("tiles", x)
			hold("tiles.tray", x["tray"].(map[string]any))
		})
		if cells != len(test.Cells) || len(got["tiles"].([]any)) != len(places.Tiles) {
			t.Errorf("%s: %d cells and %d tiles of %d and %d", name, cells, len(got["tiles"].([]any)), len(test.Cells), len(places.Tiles))
		}
	}
}

// Worked by hand: wet glaze of SG 1.45 and solids 2.6 holds 0.73125 g dry per mL. Of
// that 1/1.02 is recipe where 2 % are over it, so 100 g of recipe are 139.487 mL and
// weigh 202.256 g; a jug of 5 mL reads 140 mL.
func TestJSONExample(t *testing.T) {
	test, places := load(t, "triaxial")
	test.Plan.Glazes[0].Solids = 2.6
	test, err := blend.New(test.Plan)
	if err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	if err := JSON(&out, test, places, wording.Notes(test.Notes)); err != nil {
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
		got.WriteString(Table(test))
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
		got.WriteString(Chemistry(test))
		golden(t, name+"-chemistry", got.String())
	}
}

// A bucket on a scale of 5 g, which shows neither its 7726 g of dry matter nor
// its smallest materials.
func TestBucketGolden(t *testing.T) {
	test, _ := load(t, "triaxial")
	kit := test.Plan.Kit
	kit.Scale.Size = 5
	b, err := test.Bucket(11, blend.Measured, blend.Amount{Value: 10_000, Of: blend.Volume}, 0, kit)
	if err != nil {
		t.Fatal(err)
	}
	var got bytes.Buffer
	got.WriteString(Bucket(test, b, kit))
	golden(t, "bucket", got.String())
}

func TestTableWidth(t *testing.T) {
	for _, name := range names(t) {
		test, _ := load(t, name)
		var out bytes.Buffer
		out.WriteString(Table(test))
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

// A long name is whole in the legend and at the end of its row, and a rule goes on under texts at the end of rows up to 80 signs only.
func TestLongNames(t *testing.T) {
	test, places := load(t, "triaxial")
	const long = "Magnesia matte, the third version with more talc and less whiting (notebook 4)"
	test.Plan.Glazes[0].Name = long
	test, err := blend.New(test.Plan)
	if err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	out.WriteString(Table(test))
	legend, mix, _ := strings.Cut(out.String(), "to mix\n")
	if !strings.Contains(legend, "Q  "+long+"  SG 1.45\n") {
		t.Errorf("the legend has not the whole name:\n%s", legend)
	}
	if first, _, _ := strings.Cut(mix, "\n"); !strings.HasPrefix(first, "Q  "+long+"  ") {
		t.Errorf("to mix is\n%s", mix)
	}
	out.Reset()
	tile := places.Scheme.Candidates("MR1P", func(mark.Tile) bool { return true })[0].Tile
	out.WriteString(Tiles(test, places, []mark.Tile{tile}))
	if lines := strings.Split(out.String(), "\n"); len(lines[1]) != 80 || !strings.HasSuffix(lines[2], "100 % "+long) {
		t.Errorf("the tiles are\n%s", out.String())
	}
}

// The CSV is the pour card: a row for each cup, the amounts that the test has,
// asked and made percentages that sum to 100, and no cell of it is a formula.
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
		if len(rows) != len(test.Cells)+1 {
			t.Fatalf("%s: %d rows for %d cups", name, len(rows)-1, len(test.Cells))
		}
		for _, head := range rows[0] {
			if strings.ContainsAny(head[:1], "=+-@") {
				t.Errorf("%s: %q is a formula", name, head)
			}
		}
		for i, c := range test.Cells {
			asked, made, amounts := 0.0, 0.0, map[string][]float64{}
			for k, text := range rows[i+1] {
				head := rows[0][k]
				if head == "cup" || strings.HasSuffix(head, " bottle") {
					continue
				}
				x, err := strconv.ParseFloat(text, 64)
				switch {
				case text == "" && strings.HasSuffix(head, "reads g"):
				case err != nil:
					t.Errorf("%s: cup %d has %q in %q", name, c.Number, text, head)
				case strings.HasSuffix(head, " asked %"):
					asked += x
				case strings.HasSuffix(head, " comes to %"):
					made += x
				default:
					unit := head[strings.LastIndex(head[:strings.LastIndex(head, " ")], " ")+1:]
					amounts[unit] = append(amounts[unit], x)
				}
			}
			if !test.Plan.Blend.HasSeries() && (math.Abs(asked-100) > 1e-9 || c.Poured() && math.Abs(made-100) > 1e-9) {
				t.Errorf("%s: cup %d is asked %g %% and comes to %g %%", name, c.Number, asked, made)
			}
			pours := amounts["pour "+string(test.Plan.Kit.Pour.Unit)]
			for e, p := range c.Pours {
				if pours[e] != p.Got.Shown(test.Plan.Kit) {
					t.Errorf("%s: cup %d pours %g and the test %g", name, c.Number, pours[e], p.Got.Shown(test.Plan.Kit))
				}
			}
			for s, d := range c.Doses {
				if doses := amounts["weigh g"]; test.Plan.Blend.Method == blend.ByDose && doses[s] != d.MeasuredG {
					t.Errorf("%s: cup %d weighs %g and the test %g", name, c.Number, doses[s], d.MeasuredG)
				}
				if doses := amounts["draw mL"]; test.Plan.Blend.Method == blend.ByStock && doses[s] != d.MeasuredML {
					t.Errorf("%s: cup %d draws %g and the test %g", name, c.Number, doses[s], d.MeasuredML)
				}
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
		Table(test)
	}
}

// A glaze known by its name alone has its volumes and nothing else: what would be
// guessed is null, and what is known of the plan's own glaze stays.
func TestJSONBucketGlazes(t *testing.T) {
	test, places := load(t, "bucket-glazes")
	var out bytes.Buffer
	if err := JSON(&out, test, places, wording.Notes(test.Notes)); err != nil {
		t.Fatal(err)
	}
	type amounts struct {
		Glaze   string
		ML      *float64
		G       *float64
		RecipeG *float64 `json:"recipe_g"`
		DryG    *float64 `json:"dry_g"`
		SG      *float64
		WaterG  *float64 `json:"water_g"`
	}
	var got struct {
		Cells []struct {
			amounts
			Measured amounts
			Pours    []amounts
		}
		Batches []amounts
	}
	if err := json.Unmarshal(out.Bytes(), &got); err != nil {
		t.Fatal(err)
	}
	none := func(a amounts) bool {
		return a.ML != nil && a.G == nil && a.RecipeG == nil && a.DryG == nil && a.SG == nil
	}
	for i, c := range got.Cells {
		own := len(c.Pours) == 1 && c.Pours[0].Glaze == "Own"
		if own == none(c.amounts) || own == none(c.Measured) {
			t.Errorf("cell %d: %+v", i+1, c)
		}
		for _, p := range c.Pours {
			if (p.Glaze == "Own") == none(p) {
				t.Errorf("cell %d: %+v", i+1, p)
			}
		}
	}
	for _, b := range got.Batches {
		if (b.Glaze == "Own") == none(b) || (b.Glaze == "Own") == (b.WaterG == nil) {
			t.Errorf("batch %+v", b)
		}
	}
}
