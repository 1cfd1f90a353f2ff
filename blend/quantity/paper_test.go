package quantity

import (
	"os"
	"strings"
	"testing"

	"github.com/pelletier/go-toml/v2"
)

// TestPapers_reference holds every named size against the values that libpaper
// prints, kept with their standards in testdata/reference.
func TestPapers_reference(t *testing.T) {
	data, err := os.ReadFile("../../testdata/reference/paper_and_colour.toml")
	if err != nil {
		t.Fatal(err)
	}
	var ref struct {
		Paper map[string]struct{ W, H float64 }
	}
	if err := toml.Unmarshal(data, &ref); err != nil {
		t.Fatal(err)
	}
	if len(ref.Paper) != len(Papers()) {
		t.Errorf("%d sizes in the reference, %d named", len(ref.Paper), len(Papers()))
	}
	for _, s := range Papers() {
		want, known := ref.Paper[s.Name]
		if !known || want.W != s.W || want.H != s.H {
			t.Errorf("%s is %g x %g, reference %g x %g", s.Name, s.W, s.H, want.W, want.H)
		}
	}
}

func TestReadPaper(t *testing.T) {
	for _, c := range []struct {
		text string
		want Paper
	}{
		{"A4", Paper{"A4", 210, 297}},
		{" letter ", Paper{"Letter", 215.9, 279.4}},
		{"TABLOID", Paper{"Tabloid", 279.4, 431.8}},
		{"300 x 420 mm", Paper{"300 x 420 mm", 300, 420}},
		{"300x420", Paper{"300 x 420 mm", 300, 420}},
		{"42 × 30 cm", Paper{"420 x 300 mm", 420, 300}},
		{"8.5 x 11 in", Paper{"215.9 x 279.4 mm", 215.9, 279.4}},
	} {
		got, err := ReadPaper(c.text)
		if err != nil || got != c.want {
			t.Errorf("ReadPaper(%q) = %v, %v; want %v", c.text, got, err, c.want)
		}
	}
}

func TestReadPaper_refused(t *testing.T) {
	for _, c := range []struct{ text, says string }{
		{"", "is not a paper size"},
		{"A9", "is not a paper size"},
		{"300", "is not a paper size"},
		{"300 x", "is not a paper size"},
		{"300 x 420 x 5 mm", "is not a paper size"},
		{"NaN x 420 mm", "is not a paper size"},
		{"Inf x 420 mm", "is not a paper size"},
		{"10 x 420 mm", "sides from 80 to 2000 mm"},
		{"300 x 4200 mm", "sides from 80 to 2000 mm"},
		{"-300 x 420 mm", "is not a paper size"},
	} {
		got, err := ReadPaper(c.text)
		if err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("ReadPaper(%q) = %v, %v; want an error with %q", c.text, got, err, c.says)
		}
	}
}

// FuzzReadPaper looks for text that is taken as a sheet which is none.
func FuzzReadPaper(f *testing.F) {
	for _, s := range []string{"A4", "300 x 420 mm", "1e2x1e2cm", "0x10 x 0x20", "×"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		s, err := ReadPaper(text)
		if err != nil {
			return
		}
		if !(s.W >= leastSide && s.W <= mostSide && s.H >= leastSide && s.H <= mostSide) {
			t.Errorf("ReadPaper(%q) = %v", text, s)
		}
		if again, err := ReadPaper(s.Name); err != nil || again != s {
			t.Errorf("ReadPaper(%q) = %v, but ReadPaper(%q) = %v, %v", text, s, s.Name, again, err)
		}
	})
}
