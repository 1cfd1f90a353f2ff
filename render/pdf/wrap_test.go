package pdf

import (
	"slices"
	"strings"
	"testing"
	"unicode/utf8"
)

func TestClean(t *testing.T) {
	tests := []struct {
		name, in, want string
		missing        bool
	}{
		{"plain", "Potash feldspar 44 %", "Potash feldspar 44 %", false},
		{"accents", "Ærøskøbing, Жук, “q”", "Ærøskøbing, Жук, “q”", false},
		{"white space", "a\tb\nc\r\nd\u2028e\u3000f", "a b c  d e f", false},
		{"hard spaces", "5\u00A0mL 1\u202F000", "5\u00A0mL 1\u202F000", false},
		{"control", "a\x00b\x1bc", "a\uFFFDb\uFFFDc", true},
		{"emoji", "fire \U0001F525!", "fire \uFFFD!", true},
		{"chinese", "青瓷 celadon", "\uFFFD\uFFFD celadon", true},
		{"bad UTF-8", "a\xffb", "a\uFFFDb", false},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			d := mustDoc(t, "t")
			if got := d.clean(tt.in); got != tt.want {
				t.Errorf("clean(%q) = %q, want %q", tt.in, got, tt.want)
			}
			d.clean(tt.in)
			if got := len(d.missing) == 1; got != tt.missing || len(d.missing) > 1 {
				t.Errorf("missing: %q, want one: %v", d.missing, tt.missing)
			}
		})
	}
}

func TestWrap(t *testing.T) {
	d := mustDoc(t, "t")
	f := regular(11)
	em := func(text string) float64 { return d.width(text, f) }
	tests := []struct {
		name, text string
		width      float64
		want       []string
	}{
		{"empty", "", 50, []string{""}},
		{"fits exactly", "two words", em("two words"), []string{"two words"}},
		{"just not", "two words", em("two words") - 0.01, []string{"two", "words"}},
		{"spaces", "  two   words ", 50, []string{"two words"}},
		{"line break", "one\ntwo", 50, []string{"one", "two"}},
		{"empty line", "one\r\n\r\ntwo", 50, []string{"one", "", "two"}},
		{"tab", "one\ttwo", 50, []string{"one two"}},
		{"long word", "feldspathic", em("feldsp-"), []string{"feldsp-", "athic"}},
		{"after a mark", "copper/red", em("copper/r-"), []string{"copper/", "red"}},
		{"figures", "1234567890", em("12345"), []string{"12345", "67890"}},
		{"no room for one", "abc", 0.5, []string{"a", "b", "c"}},
		{"no room for one, accents", "éЖ☐", 0, []string{"é", "Ж", "☐"}},
		{"negative", "ab c", -5, []string{"a", "b", "c"}},
		{"number and unit", "pour 5 mL, ± 7.9 % of it", em("pour 5 mL, ±"), []string{"pour 5 mL,", "± 7.9 % of it"}},
		{"narrow number and unit", "Red 25 %", em("25"), []string{"R-", "ed", "25", "%"}},
		{"hard space in a narrow line", "P\u00A0=\u00A0Matte", em("Matte"), []string{"P\u00A0=", "Matte"}},
		{"hard space", "pour 5\u00A0mL", em("pour 5"), []string{"pour", "5\u00A0mL"}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if got := d.wrap(tt.text, f, tt.width); !slices.Equal(got, tt.want) {
				t.Errorf("wrap(%q, %.2f mm) = %q, want %q", tt.text, tt.width, got, tt.want)
			}
		})
	}
}

// checkWrap holds what wrap promises: nothing lost, nothing added but hyphens,
// no line wider than asked except a single character.
func checkWrap(t *testing.T, text string, width float64) {
	t.Helper()
	d := mustDoc(t, "t")
	f := regular(11)
	pieces := d.wrapPieces(text, f, width)
	if len(pieces) == 0 {
		t.Fatalf("wrap(%q, %g) has no line", text, width)
	}
	var joined strings.Builder
	for i, line := range d.wrap(text, f, width) {
		joined.WriteString(pieces[i].text)
		if w := d.width(line, f); w > width+1e-6 && utf8.RuneCountInString(line) > 1 {
			t.Errorf("wrap(%q, %g): the line %q is %g wide", text, width, line, w)
		}
		if strings.HasPrefix(line, " ") || strings.HasSuffix(line, " ") {
			t.Errorf("wrap(%q, %g): the line %q has spaces at its end", text, width, line)
		}
	}
	// Spaces go where a line ends, and those that hold words together too.
	bare := strings.NewReplacer(" ", "", "\u00A0", "").Replace
	if got, want := bare(joined.String()), bare(d.clean(text)); got != want {
		t.Errorf("wrap(%q, %g) holds %q, want %q", text, width, got, want)
	}
}

func TestWrapKeepsAll(t *testing.T) {
	texts := []string{
		"Potash feldspar, 200 mesh, washed/dried-sieved; see the supplier's data sheet",
		"x\u00A0y\u00A0± 7.9 % of 25\u00A0mL", "Donaudampfschifffahrtsgesellschaft-kapitänsmütze", "https://example.org/a/very/long_path?with=parts&more=1",
		"ЖЖЖЖЖЖЖЖЖЖ жжжжж", "e\u0301e\u0301e\u0301e\u0301e\u0301", "----------", "- - -", "\n\n", "a\x00b", "\xff\xfe",
		strings.Repeat("W", 300), strings.Repeat("i ", 300),
	}
	for _, text := range texts {
		for _, width := range []float64{-1, 0, 0.5, 1, 2, 3, 5, 8, 13, 21, 34, 55, 500} {
			checkWrap(t, text, width)
		}
	}
}

func FuzzWrap(f *testing.F) {
	f.Add("Potash feldspar\t200 mesh", 20.0)
	f.Add("copper/manganese-black\r\n\u00A0x", 3.0)
	f.Add("x\u00A0\u00B1 7.9 % of 25\u00A0mL", 3.0)
	f.Fuzz(func(t *testing.T, text string, width float64) {
		if len(text) > 2000 || !(width < 1e6 && width > -1e6) {
			return
		}
		checkWrap(t, text, width)
	})
}

func TestFit(t *testing.T) {
	d := mustDoc(t, "t")
	if got := d.fit("Silica", 40, 10, regular(11), 8); got.font.pt != 11 || len(got.lines) != 1 {
		t.Errorf("a short text: %+v", got)
	}
	if got := d.fit("Magnesium carbonate", 20, 12, regular(11), 8); len(got.lines) != 2 {
		t.Errorf("two words in a narrow box: %+v", got)
	}
	// A smaller size is better than a broken word.
	if got := d.fit("Nepheline", d.width("Nepheline", regular(9)), 30, regular(11), 8); got.font.pt != 9 || len(got.lines) != 1 {
		t.Errorf("a word to be made smaller: %+v", got)
	}
	long := strings.Repeat("a glaze with a long name ", 9)
	for _, text := range []string{long, "another " + long, long} {
		got := d.fit(text, 20, 5, regular(11), 8)
		want := map[bool]string{true: "[1]", false: "[2]"}[text == long]
		if len(got.lines) != 1 || got.lines[0] != want {
			t.Errorf("a text too long: %q, want %s", got.lines, want)
		}
	}
	if got := d.fit(long, 2, 1, regular(11), 8); d.width(got.lines[0], got.font) > 2+1e-9 {
		t.Errorf("the number %q does not fit in 2 mm at %g pt", got.lines[0], got.font.pt)
	}
	// All of a fitted text lies in its box.
	p := d.addPage("s", 210, 297)
	for i, text := range []string{"Silica", "Magnesium carbonate, light", "Nephelinesyenite", long} {
		for _, w := range []float64{8, 15, 30} {
			p.ops = nil
			y := 20 + 20*float64(i)
			p.textIn(50, y, w, 14, text, regular(12), 8, centre)
			for _, b := range textBoxes(p) {
				if b.x0 < 50-1e-6 || b.x1 > 50+w+1e-6 || b.y0 < y-1e-6 || b.y1 > y+14+1e-6 {
					t.Errorf("%q in %g mm: %+v is outside its box", text, w, b)
				}
			}
		}
	}
}

func TestLongTextsArePrintedOnce(t *testing.T) {
	d := mustDoc(t, "t")
	f := d.startSection("Board", 210, 297)
	long := strings.Repeat("long name ", 60)
	for range 2 {
		f.page.textIn(20, 50, 20, 5, long, regular(11), 8, left)
	}
	f.longTexts()
	f.longTexts()
	count := 0
	for _, o := range f.page.ops {
		if o.kind == opText && strings.HasPrefix(o.text, "Texts in full") {
			count++
		}
	}
	if count != 1 {
		t.Errorf("the list of long texts stands %d times, want once", count)
	}
}
