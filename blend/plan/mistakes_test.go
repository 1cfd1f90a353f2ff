package plan

import (
	"errors"
	"reflect"
	"strings"
	"testing"
	"unicode/utf16"
)

// Mistakes of people who have never written such a file: each is reported in one
// line, with the line as it should be spelled out, and that line reads.
func TestRead_mistakes(t *testing.T) {
	const recipe = `recipe = [["Silica", 40], ["Whiting", 30], ["Kaolin", 30]]` // line 16
	const ends = `ends = ["Magnesia matte", "Chalk white", "Soda blue"]`        // line 24
	for _, c := range []struct {
		plan  string
		line  int
		typed string
		fixed string
		what  string // words of the message, parted by |
	}{
		// Keys.
		{endsPlan, 13, `specific gravity = 1.45`, `specific-gravity = 1.45`, `unknown key "specific gravity"`},
		{endsPlan, 13, `Specific Gravity: 1,45`, `specific-gravity = 1.45`, "no = before its value"},
		{endsPlan, 13, `specific–gravity = 1.45`, `specific-gravity = 1.45`, "unknown key"},
		{endsPlan, 1, `title: "Three glazes"`, `title = "Three glazes"`, "no = before its value"},
		{endsPlan, 4, "dry\t\"100 g\"", `dry = "100 g"`, "no = before its value"},
		{endsPlan, 4, `dry = = "100 g"`, "", "dry cannot be read"},
		{endsPlan, 4, `- dry = "100 g"`, `dry = "100 g"`, `unknown key "- dry"`},
		{endsPlan, 4, "\u00a0dry = \"100 g\"", "", "cannot be read"},

		// Quotes.
		{endsPlan, 1, `title = “Three glazes”`, `title = "Three glazes"`, "curly quotes"},
		{endsPlan, 1, `title = „Three glazes“`, `title = "Three glazes"`, "curly quotes"},
		{endsPlan, 1, `title = « Three glazes »`, `title = " Three glazes "`, "curly quotes"},
		{endsPlan, 4, `dry = "100 g”`, `dry = "100 g"`, "curly quotes"},
		{endsPlan, 24, `ends = [“Magnesia matte”, “Chalk white”, “Soda blue”]`, ends, "curly quotes"},
		{endsPlan, 16, `recipe = [[“Silica”, 40], [“Whiting”, 30], [“Kaolin”, 30]]`, recipe, "curly quotes"},
		{endsPlan, 1, `title = "Three glazes`, `title = "Three glazes"`, "in quotes"},
		{endsPlan, 1, `title = Three glazes"`, `title = "Three glazes"`, "in quotes"},
		{endsPlan, 1, `title = "Three "fine" glazes"`, "", "left over"},
		{endsPlan, 24, `ends = ["Magnesia matte, "Chalk white", "Soda blue"]`, "", "a quote, a comma"},
		{endsPlan, 24, `ends = ["Magnesia matte", "Chalk white", "Soda blue]`, "", "its text is not closed"},
		{endsPlan, 24, `ends = [Magnesia matte, Chalk white, Soda blue]`, ends, "names in quotes"},
		{endsPlan, 16, `recipe = [[Silica, 40], [Whiting, 30], [Kaolin, 30]]`, recipe, "names in quotes"},

		// Brackets, commas and what stands for them.
		{endsPlan, 24, `ends = "Magnesia matte", "Chalk white", "Soda blue"`, "", "left over after its value"},
		{endsPlan, 24, `ends = Magnesia matte, Chalk white, Soda blue`, "", "ends cannot be read"},
		{endsPlan, 24, `ends = ("Magnesia matte", "Chalk white", "Soda blue")`, "", "ends cannot be read"},
		{endsPlan, 24, `ends = ["Magnesia matte", "Chalk white", "Soda blue"`, "", "a comma or a closing bracket"},
		{endsPlan, 24, `ends = ["Magnesia matte"; "Chalk white"; "Soda blue"]`, "", "a comma or a closing bracket"},
		{endsPlan, 24, `ends = ["Magnesia matte" "Chalk white", "Soda blue"]`, "", "a comma or a closing bracket"},
		{endsPlan, 24, `ends = "Magnesia matte, Chalk white, Soda blue"`, "", "a list in square brackets"},
		{endsPlan, 4, `dry = "100 g";`, "", "left over"},
		{endsPlan, 4, `dry = "100 g",`, "", "left over"},
		{endsPlan, 4, `dry = "100 g" per cup`, "", "left over"},
		{endsPlan, 4, `dry = "100 g" // per cup`, "", "left over"},
		{endsPlan, 9, `// worst = nothing`, "", `unknown key "// worst"|# comment`},
		{endsPlan, 9, `what I can live with`, `# what I can live with`, "neither a key"},

		// Headings.
		{endsPlan, 10, `[glaze]`, `[[glaze]]`, "wrong brackets"},
		{endsPlan, 10, `[glaze]]`, `[[glaze]]`, "brackets of a section"},
		{endsPlan, 10, `[[glaze`, `[[glaze]]`, "brackets of a section"},
		{endsPlan, 10, `[[Glaze]]`, `[[glaze]]`, "unknown section [[Glaze]]"},
		{endsPlan, 10, `[[blend.glaze]]`, `[[glaze]]`, "unknown section [[blend.glaze]]"},
		{endsPlan, 3, `[Cup]`, `[cup]`, "unknown section [Cup]"},
		{endsPlan, 3, `cup:`, `[cup]`, "brackets of a section"},
		{endsPlan, 3, `(cup)`, `[cup]`, "brackets of a section"},
		{endsPlan, 3, `[[cup]]`, `[cup]`, "wrong brackets"},
		{seriesPlan, 11, `[[series]]`, `[[blend.series]]`, "unknown section [[series]]"},

		// Recipes.
		{endsPlan, 16, `recipe = ["Silica", 40, "Whiting", 30, "Kaolin", 30]`, "", "not a material and its amount"},
		{endsPlan, 16, `recipe = ["Silica 40", "Whiting 30", "Kaolin 30"]`, "", "not a material and its amount"},
		{endsPlan, 16, `recipe = "Silica 40, Whiting 30, Kaolin 30 %"`, "", "is the text"},
		{endsPlan, 16, `recipe = Silica 40, Whiting 30, Kaolin 30`, "", "cannot be read"},
		{endsPlan, 16, `recipe = { Silica = 40, Whiting = 30, Kaolin = 30 }`, "", "group of keys"},
		{endsPlan, 16, `recipe = [[40, "Silica"], [30, "Whiting"], [30, "Kaolin"]]`, "", "not a material and its amount"},
		{endsPlan, 16, `recipe = [["Silica" 40], ["Whiting" 30], ["Kaolin" 30]]`, "", "a comma or a closing bracket"},
		{endsPlan, 16, `recipe = [["Silica", 40] ["Whiting", 30], ["Kaolin", 30]]`, "", "a comma or a closing bracket"},
		{endsPlan, 16, `recipe = [["Silica", 40], ["Whiting", 30, ["Kaolin", 30]]`, "", "a comma or a closing bracket"},
		{endsPlan, 16, `recipe = [["Silica", 40], ["Whiting", 30], ["Kaolin", 30]]]`, "", "left over"},
		{endsPlan, 16, `recipe = [["Silica": 40], ["Whiting": 30], ["Kaolin": 30]]`, "", "a comma or a closing bracket"},
		{endsPlan, 16, `recipe = [["Silica", 40 g], ["Whiting", 30 g], ["Kaolin", 30 g]]`, "", "a comma or a closing bracket"},
		{endsPlan, 16, `recipe = [["Silica", 40%], ["Whiting", 30%], ["Kaolin", 30%]]`, "", "a comma or a closing bracket"},
		{endsPlan, 16, `recipe = [["Silica", 40,5], ["Whiting", 29,5], ["Kaolin", 30]]`, "", "not a material and its amount"},
		{endsPlan, 16, `recipe = [["Silica"; 40,5]; ["Whiting"; 29,5]; ["Kaolin"; 30]]`, "", "a comma or a closing bracket"},
		{endsPlan, 16, "recipe =\nSilica 40\nWhiting 30\nKaolin 30", "", "recipe has no value"},
		{endsPlan, 16, "recipe:\n  Silica: 40\n  Whiting: 30\n  Kaolin: 30", "", "recipe has no value"},

		// Numbers and amounts.
		{endsPlan, 13, `specific-gravity = 1,45`, `specific-gravity = 1.45`, "decimal comma"},
		{endsPlan, 4, `dry = 100gr`, `dry = "100gr"`, "in quotes"},
		{endsPlan, 7, `pour: 5cc`, `pour = "5cc"`, "no = before"},
		{endsPlan, 8, `extra = 10 percent`, `extra = "10 percent"`, "in quotes"},
		{endsPlan, 28, `coats = 3 coats`, "", "left over"},
		{endsPlan, 28, `size = 50 x 100 mm`, `size = "50 x 100 mm"`, "in quotes"},
		{endsPlan, 28, `size = "2" x 4""`, "", "left over"},
		{endsPlan, 8, `extra = 0.1`, `extra = "10 %"`, "no unit"},
		{endsPlan, 30, `bodies-as-rows = no`, "", "cannot be read"},
		{strings.Replace(strings.Replace(endsPlan, "triaxial", "line", 1), `, "Soda blue"]`, "]", 1), 25, `cells = 5 cups`, "", "left over"},
		{seriesPlan, 13, `percent = 0, 0.5, 1, 2`, "", "left over"},
		{seriesPlan, 13, `percent = 0; 0,5; 1; 2`, "", "left over"},
		{seriesPlan, 13, `percent = [0 %, 0.5 %, 1 %]`, "", "a comma or a closing bracket"},
		{seriesPlan, 13, `percent = 5 %`, "", "left over"},
		{seriesPlan, 13, `percent = "0; 0,5; 1"`, "", "a list in square brackets"},
		{seriesPlan, 13, `percent = [0, .5, 1]`, "", "percent cannot be read"},
	} {
		t.Run(c.typed, func(t *testing.T) {
			_, _, err := Read("plan.toml", []byte(edit{c.line: c.typed}.of(c.plan)))
			var problems Problems
			if !errors.As(err, &problems) || len(problems) != 1 {
				t.Fatalf("want one problem, got %v", err)
			}
			if problems[0].Line != c.line {
				t.Errorf("%v\nwant it on line %d", err, c.line)
			}
			for _, words := range strings.Split(c.what+"|"+c.fixed, "|") {
				if !strings.Contains(err.Error(), words) {
					t.Errorf("%v\nwant %q in it", err, words)
				}
			}
			if a := assigned(c.typed); c.fixed == "" {
				if a.key != nil && !strings.Contains(err.Error(), a.key.line()) && !strings.Contains(c.what, "the text of") {
					t.Errorf("%v\nwant %q in it", err, a.key.line())
				}
				return
			}
			if _, _, err := Read("plan.toml", []byte(edit{c.line: c.fixed}.of(c.plan))); err != nil {
				t.Errorf("what is proposed does not read: %v", err)
			}
		})
	}
}

// In a value over several lines the line that is wrong is named, and the lines
// after it keep their numbers.
func TestRead_mistakesOverLines(t *testing.T) {
	for _, c := range []struct {
		name, typed string
		want        []string
	}{
		{"no comma", "recipe = [\n  [\"Silica\", 40],\n  [\"Whiting\", 30]\n  [\"Kaolin\", 30],\n]",
			[]string{`plan.toml:18: recipe cannot be read: a quote, a comma or a closing bracket is missing (as in recipe = [["Potash feldspar", 44], ["Silica", 22]])`}},
		{"not closed", "recipe = [\n  [\"Silica\", 40],\n  [\"Kaolin\", 60],",
			[]string{`plan.toml:16: recipe cannot be read: a quote, a comma or a closing bracket is missing (as in recipe = [["Potash feldspar", 44], ["Silica", 22]])`}},
		{"an amount of nothing as well", "recipe = [\n  [“Silica”, 40],\n  [\"Kaolin\", 0],\n]",
			[]string{`plan.toml:17: recipe has curly quotes (["Silica", 40],)`, `plan.toml:18: the amount of "Kaolin" = 0 is out of range (0.000001 to 1000000)`}},
	} {
		_, _, err := Read("plan.toml", []byte(edit{16: c.typed, 30: "papre = \"A4\""}.of(endsPlan)))
		line := 30 + strings.Count(c.typed, "\n")
		want := strings.Join(append(c.want, "plan.toml:"+number(float64(line))+`: unknown key "papre" in [board] (did you mean paper?)`), "\n")
		if err == nil || err.Error() != want {
			t.Errorf("%s: got\n%v\nwant\n%s", c.name, err, want)
		}
	}
}

// A line that cannot be guessed at does not hide what is wrong after it.
func TestRead_afterALostLine(t *testing.T) {
	_, _, err := Read("plan.toml", []byte(edit{12: `recipe = [["Silica", 1,000], ["Talc", many]]`, 30: `paper = "A7"`}.of(endsPlan)))
	if got := err.Error(); !strings.HasPrefix(got, "plan.toml:12: ") || !strings.Contains(got, "\nplan.toml:30: ") || strings.Count(got, "\n") != 1 {
		t.Errorf("got\n%s", got)
	}
}

// What another program saved is read, or it is said what to do.
func TestRead_otherPrograms(t *testing.T) {
	want, _, err := Read("plan.toml", []byte(endsPlan))
	if err != nil {
		t.Fatal(err)
	}
	wide := func(text string, low int) []byte {
		var all []byte
		for _, u := range utf16.Encode([]rune(text)) {
			pair := [2]byte{byte(u), byte(u >> 8)}
			all = append(all, pair[low], pair[1-low])
		}
		return all
	}
	for name, file := range map[string][]byte{
		"UTF-16, low byte first":  wide("\uFEFF"+endsPlan, 0),
		"UTF-16, high byte first": wide("\uFEFF"+endsPlan, 1),
		"UTF-16 of Windows":       wide("\uFEFF"+strings.ReplaceAll(endsPlan, "\n", "\r\n"), 0),
	} {
		got, _, err := Read("plan.toml", file)
		if err != nil || !reflect.DeepEqual(got, want) {
			t.Errorf("%s: %v", name, err)
		}
	}
	if p, _, err := Read("plan.toml", wide("\uFEFF"+edit{1: `title = "Émail 𝄞"`}.of(endsPlan), 0)); err != nil || p.Title != "Émail 𝄞" {
		t.Errorf("letters beyond ASCII in UTF-16: %v", err)
	}
	for words, file := range map[string]string{
		".docx":           "PK\x03\x04\x14\x00\x06\x00[Content_Types].xmlword/document.xml",
		".xlsx":           "PK\x03\x04\x14\x00\x06\x00[Content_Types].xmlxl/workbook.xml",
		".odt":            "PK\x03\x04\x14\x00\x00\x08mimetypeapplication/vnd.oasis.opendocument.text",
		".ods":            "PK\x03\x04\x14\x00\x00\x08mimetypeapplication/vnd.oasis.opendocument.spreadsheet",
		".rtf":            `{\rtf1\ansi title = "Three"}`,
		"a PDF":           "%PDF-1.7\n",
		".doc":            "\xD0\xCF\x11\xE0\xA1\xB1\x1A\xE1\x00",
		"ZIP":             "PK\x03\x04nothing known",
		"web page":        "<!DOCTYPE html><html>",
		"not UTF-8":       "title = \"\xC9mail\"", // Windows-1252
		"Save as":         "title = \"\xC9mail\"",
		"save it as text": "PK\x03\x04word/",
	} {
		_, _, err := Read("plan.toml", []byte(file))
		if err == nil || !strings.HasPrefix(err.Error(), "plan.toml:1: ") || !strings.Contains(err.Error(), words) || strings.Contains(err.Error(), "\n") {
			t.Errorf("%v; want %q in one line", err, words)
		}
	}
}

func TestRead_suspicions(t *testing.T) {
	for percent, want := range map[string]string{
		"[0,1,2,5]":       "",
		"[0, 0,5, 1]":     "is read as 4 percentages that neither rise nor fall (if a decimal comma is among them, write a point)",
		"[0.5,1, 2]":      "",
		"[4, 2, 1, 0]":    "", // falling
		"[0, 1, 5, 2]":    "neither rise nor fall",
		"[\n0,\n1,\n2\n]": "",
	} {
		_, warnings, err := Read("plan.toml", []byte(edit{13: "percent = " + percent}.of(seriesPlan)))
		if err != nil {
			t.Errorf("%s: %v", percent, err)
			continue
		}
		switch {
		case want == "" && len(warnings) > 0:
			t.Errorf("%s: %v", percent, warnings)
		case want != "" && (len(warnings) != 1 || !strings.Contains(warnings[0], want)):
			t.Errorf("%s: %v; want %q", percent, warnings, want)
		}
	}
}

// Several strange materials are one warning that names them all.
func TestRead_strangeMaterials(t *testing.T) {
	_, warnings, err := Read("plan.toml", []byte(edit{
		12: `recipe = [["Whitting", 40], ["Zorblax", 30], ["Silica", 30]]`, 16: `recipe = [["Zorblax", 50], ["Grumpf", 50]]`,
	}.of(endsPlan)))
	const want = `materials: unknown: "Whitting" on line 12, did you mean "Whiting"?; "Zorblax" on line 12; "Grumpf" on line 16; density assumed, chemistry left blank (describe each in a [[material]])`
	if err != nil || len(warnings) != 1 || warnings[0] != want {
		t.Errorf("%v, %v\nwant %s", warnings, err, want)
	}
}

// Whatever the line, its problems are one line each.
func FuzzRepair(f *testing.F) {
	for _, line := range []string{`ends = "A", "B"`, `recipe = [[“Silica”; 40,5]`, `specific gravity: 1,45`, `[glaze`, "recipe =\nSilica 40", `dry = "1" = 2`, "dr\ry = 5", "dr\ry = “5”", "[cu\rp"} {
		f.Add(line)
	}
	f.Fuzz(func(t *testing.T, line string) {
		src := []byte("title = \"x\"\n" + line + "\n[blend]\nkind = \"line\"\n")
		r := &reader{}
		r.tree(src)
		for _, p := range r.problems {
			if strings.ContainsAny(p.String(), "\n\r") {
				t.Errorf("%q", p)
			}
		}
	})
}

// BenchmarkRepair is of statements that are as long as they are looked at, or
// longer: the time must grow with the length and no faster.
func BenchmarkRepair(b *testing.B) {
	for _, c := range []struct{ name, statement string }{
		{"one line of figures", strings.Repeat("0", 9_900)},
		{"a list on one long line", "recipe = [\n" + strings.Repeat("0", longestStatement)},
		{"a list of many lines", "recipe = [\n" + strings.Repeat("\"Silica\" 40\n", longestStatement/12)},
		{"a list that does not end", "recipe = [\n" + strings.Repeat("a 1\n", largestFile/4)},
	} {
		b.Run(c.name, func(b *testing.B) {
			src := []byte(c.statement + "\n[blend]\n")
			for b.Loop() {
				r := &reader{}
				r.tree(src)
			}
		})
	}
}
