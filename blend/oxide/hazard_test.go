package oxide

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/pelletier/go-toml/v2"
)

// safety is what was read and what was only remembered.
type safety struct {
	Silica struct {
		PEL    float64 `toml:"pel_ug_m3"`
		Action float64 `toml:"action_level_ug_m3"`
		Status string
		NIOSH  float64 `toml:"niosh_rel_mg_m3"`
		ACGIH  float64 `toml:"acgih_tlv_mg_m3"`
	}
	Hazard []struct {
		Substance string
		H         []string
		Status    string
	}
}

func readSafety(t *testing.T) safety {
	t.Helper()
	b, err := os.ReadFile(filepath.Join("..", "..", "testdata", "reference", "safety.toml"))
	if err != nil {
		t.Fatal(err)
	}
	var s safety
	if err := toml.Unmarshal(b, &s); err != nil {
		t.Fatal(err)
	}
	if len(s.Hazard) < 20 {
		t.Fatalf("only %d hazards were read", len(s.Hazard))
	}
	return s
}

// allNames are all built-in materials and some that a maker could name.
func allNames() []string {
	var names []string
	for _, m := range Builtin().All() {
		names = append(names, m.Name)
	}
	return append(names, "Cadmium oxide", "Selenium", "Uranium oxide")
}

// What is printed about a substance must have been read: every code stands in
// the reference with the status found, and nothing remembered has a code.
func TestHazards_onlyWhatWasRead(t *testing.T) {
	found := map[string][]string{}
	for _, h := range readSafety(t).Hazard {
		if !strings.HasPrefix(h.Status, "found") {
			continue
		}
		for _, code := range h.H {
			// From memory, although the entry was found: these letters and this code.
			switch {
			case h.Substance == "nickel(II) oxide" && code == "H350i", h.Substance == "lead compounds" && code == "H360Df":
				code = code[:4]
			case h.Substance == "lithium carbonate" && code == "H302":
				continue
			}
			found[h.Substance] = append(found[h.Substance], code)
		}
	}
	found["lithium carbonate"] = append(found["lithium carbonate"], "H360D", "H360F", "H362") // rac_opinion
	coded := 0
	for _, h := range Builtin().Hazards(allNames()) {
		if len(h.Codes) > 0 {
			coded++
			if h.Source == "" {
				t.Errorf("%s has codes and no source", h.Substance)
			}
			want := slices.Clone(found[h.Substance])
			got := slices.Clone(h.Codes)
			slices.Sort(want)
			slices.Sort(got)
			if !slices.Equal(got, want) {
				t.Errorf("%s has codes %v, read were %v", h.Substance, got, want)
			}
			continue
		}
		if strings.ContainsAny(h.Note, "0123456789") {
			t.Errorf("%s: the note has figures and no source: %q", h.Substance, h.Note)
		}
	}
	if coded != 12 {
		t.Errorf("%d substances have codes, want 12", coded)
	}
}

func TestHazards(t *testing.T) {
	l := Builtin().With(
		Material{Name: "Yellow stain", Analysis: Analysis{Oxides: []Amount{{"ZrO2", 95}, {"CdO", 0.05}}, LOI: 4.95}},
		Material{Name: "Ash", Analysis: Analysis{Oxides: []Amount{{"CaO", 60}, {"MnO", 0.05}}, LOI: 39.95}},
		Material{Name: "Own blue", Aliases: []string{"Cobalt blue"}, Analysis: Analysis{Oxides: []Amount{{"Al2O3", 60}, {"CoO", 40}}}},
		Material{Name: "Cobalt carbonate", Analysis: Analysis{Oxides: []Amount{{"CoO", 60}}, LOI: 40}},
	)
	for _, tt := range []struct {
		material string
		want     []string
	}{
		{"Whiting", nil}, {"Soda ash", nil}, {"Bone ash", nil}, {"Silicon carbide", nil}, {"Alumina", nil},
		{"Silica", []string{"silica-bearing powder"}}, {"Ball clay", []string{"silica-bearing powder"}},
		{"Spodumene", []string{"lithium compound", "silica-bearing powder"}},
		{"White lead", []string{"lead compounds"}}, {"Red lead", []string{"lead compounds"}},
		{"Witherite", []string{"barium carbonate"}}, {"Barium sulfate", []string{"barium compound"}},
		{"Copper oxide", []string{"copper(II) oxide"}}, {"Red copper oxide", []string{"copper compound"}}, {"Malachite", []string{"copper compound"}},
		{"Cobalt oxide", []string{"cobalt compound"}}, {"CoO", []string{"cobalt(II) oxide"}},
		{"Potassium dichromate", []string{"chromium compound"}}, {"Iron chromite", []string{"chromium compound"}},
		{"Borax", []string{"boron compound"}}, {"Cryolite", []string{"fluorine compound"}},
		{"Yellow stain", []string{"cadmium compound"}}, {"Ash", nil}, {"Own blue", []string{"cobalt compound"}},
		{"Cobalt carbonate", []string{"cobalt carbonate"}},
		{"Some lead frit", []string{"lead compounds"}}, {"Lead-free frit", nil}, {"Chrome green stain", []string{"chromium compound"}},
		{"Found clay", []string{"silica-bearing powder"}},
	} {
		var got []string
		for _, h := range l.Hazards([]string{tt.material}) {
			got = append(got, h.Substance)
			if !slices.Equal(h.Materials, []string{tt.material}) {
				t.Errorf("%s: materials %v", tt.material, h.Materials)
			}
		}
		if !slices.Equal(got, tt.want) {
			t.Errorf("%s: %v, want %v", tt.material, got, tt.want)
		}
	}
	// One entry for two materials, and the library's own tables stay as they are.
	hs := l.Hazards([]string{"Cobalt oxide", "Own blue", "Cobalt oxide"})
	if len(hs) != 1 || !slices.Equal(hs[0].Materials, []string{"Cobalt oxide", "Own blue"}) {
		t.Errorf("%+v", hs)
	}
	if again := l.Hazards([]string{"Cobalt oxide"}); len(again[0].Materials) != 1 {
		t.Errorf("an earlier answer is in a later one: %+v", again)
	}
}

func TestSilicaLimits(t *testing.T) {
	s := readSafety(t).Silica
	if s.Status != "found" {
		t.Fatalf("the limits' status is %q", s.Status)
	}
	want := map[string]float64{
		"OSHA permissible exposure limit": s.PEL, "OSHA action level": s.Action,
		"NIOSH recommended exposure limit": 1000 * s.NIOSH, "ACGIH threshold limit value": 1000 * s.ACGIH,
	}
	for _, x := range silicaLimits() {
		near(t, x.body+" "+x.kind, x.ugPerM3, want[x.body+" "+x.kind], 1e-9)
		if x.source == "" {
			t.Errorf("%v has no source", x)
		}
	}
	if len(silicaLimits()) != len(want) {
		t.Errorf("%d limits, want %d", len(silicaLimits()), len(want))
	}
}

func TestCautions(t *testing.T) {
	text := strings.Join(Builtin().Cautions([]string{"Silica", "Copper carbonate", "Copper oxide", "Barium carbonate", "Zinc oxide"}), "\n")
	for _, want := range []string{
		"respirator", "clean up wet", "Keep food", "50 µg/m³", "29 CFR 1910.1053",
		"A glaze with barium and copper needs a leach test", "ASTM C738", "ISO 6486-1:2019", "4 % (v/v) acetic acid, 24 ± 0.5 h at 22 ± 2 °C",
		"no proof", "safety data sheets", "local codes",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q in:\n%s", want, text)
		}
	}
	plain := strings.Join(Builtin().Cautions([]string{"Whiting"}), "\n")
	if strings.Contains(plain, "leach") || strings.Contains(plain, "µg") {
		t.Errorf("whiting alone brings:\n%s", plain)
	}
	// No glaze is ever called safe.
	for _, h := range Builtin().Hazards(allNames()) {
		plain += "\n" + h.String()
	}
	if m := regexp.MustCompile(`(?i)\bsafe\b|food-?safe`).FindString(text + plain); m != "" {
		t.Errorf("the cautions say %q", m)
	}
}
