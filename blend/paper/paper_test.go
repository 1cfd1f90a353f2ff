package paper

import (
	"os"
	"strings"
	"testing"

	"github.com/pelletier/go-toml/v2"
)

// TestNamed_reference holds every named size against the values that libpaper
// prints, kept with their standards in testdata/reference.
func TestNamed_reference(t *testing.T) {
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
	if len(ref.Paper) != len(Named()) {
		t.Errorf("%d sizes in the reference, %d named", len(ref.Paper), len(Named()))
	}
	for _, s := range Named() {
		want, known := ref.Paper[s.Name]
		if !known || want.W != s.W || want.H != s.H {
			t.Errorf("%s is %g x %g, reference %g x %g", s.Name, s.W, s.H, want.W, want.H)
		}
	}
}

func TestParse(t *testing.T) {
	for _, c := range []struct {
		text string
		want Size
	}{
		{"A4", Size{"A4", 210, 297}},
		{" letter ", Size{"Letter", 215.9, 279.4}},
		{"TABLOID", Size{"Tabloid", 279.4, 431.8}},
		{"300 x 420 mm", Size{"300 x 420 mm", 300, 420}},
		{"300x420", Size{"300 x 420 mm", 300, 420}},
		{"42 × 30 cm", Size{"420 x 300 mm", 420, 300}},
		{"8.5 x 11 in", Size{"215.9 x 279.4 mm", 215.9, 279.4}},
	} {
		got, err := Parse(c.text)
		if err != nil || got != c.want {
			t.Errorf("Parse(%q) = %v, %v; want %v", c.text, got, err, c.want)
		}
	}
}

func TestParse_refused(t *testing.T) {
	for _, c := range []struct{ text, says string }{
		{"", "unknown paper"},
		{"A9", "unknown paper"},
		{"300", "unknown paper"},
		{"300 x", "unknown paper"},
		{"300 x 420 x 5 mm", "unknown paper"},
		{"NaN x 420 mm", "unknown paper"},
		{"Inf x 420 mm", "sides are 80 to 2000 mm"},
		{"10 x 420 mm", "sides are 80 to 2000 mm"},
		{"300 x 4200 mm", "sides are 80 to 2000 mm"},
		{"-300 x 420 mm", "sides are 80 to 2000 mm"},
	} {
		got, err := Parse(c.text)
		if err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("Parse(%q) = %v, %v; want an error with %q", c.text, got, err, c.says)
		}
	}
}

// FuzzParse looks for text that is taken as a sheet which is none.
func FuzzParse(f *testing.F) {
	for _, s := range []string{"A4", "300 x 420 mm", "1e2x1e2cm", "0x10 x 0x20", "×"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		s, err := Parse(text)
		if err != nil {
			return
		}
		if !(s.W >= minSide && s.W <= maxSide && s.H >= minSide && s.H <= maxSide) {
			t.Errorf("Parse(%q) = %v", text, s)
		}
		if again, err := Parse(s.Name); err != nil || again != s {
			t.Errorf("Parse(%q) = %v, but Parse(%q) = %v, %v", text, s, s.Name, again, err)
		}
	})
}
