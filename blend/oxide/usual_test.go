package oxide

import (
	"slices"
	"strings"
	"testing"
)

// trade is what a potter would write for a row of the reference; "" for a
// range that holds for one use of a material only, which has a wider row.
var trade = map[string]string{
	"cobalt carbonate": "Cobalt carbonate", "copper carbonate": "Copper carbonate",
	"copper oxide, black": "Black copper oxide", "copper oxide, red": "Red copper oxide",
	"copper carbonate for reduction red": "", "red iron oxide, celadon in reduction": "",
	"red iron oxide, tan to red-brown in oxidation": "", "red iron oxide": "Iron oxide",
	"black iron oxide": "Magnetite", "yellow iron oxide": "Yellow iron oxide", "yellow ochre": "Ochre",
	"manganese dioxide": "Manganese dioxide", "manganese carbonate": "MnCO3", "chromium(III) oxide": "Chrome oxide",
	"iron chromate": "Iron chromate", "nickel oxide": "Green nickel oxide", "nickel carbonate": "Nickel carbonate",
	"vanadium as stain": "Vanadium yellow stain", "rutile": "Light rutile", "ilmenite": "Ilmenite",
	"titanium dioxide": "Titania", "tin oxide": "SnO2", "zirconium silicate": "Zircon",
	"zinc oxide as opacifier": "Zinc oxide", "cerium dioxide": "Cerium dioxide", "bone ash as opacifier": "Bone ash",
	"antimony trioxide": "Antimony trioxide", "praseodymium oxide": "Praseodymium oxide", "erbium oxide": "Erbia",
	"neodymium oxide": "Nd2O3", "stains, general": "Turquoise stain", "chrome-tin stain": "Chrome tin pink stain",
	"cadmium-selenium stain": "Cadmium-selenium red stain", "praseodymium yellow stain": "Praseodymium yellow stain",
	"cobalt oxide (Co3O4 or CoO)": "Grey cobalt oxide",
}

// testdata/reference/usual_percentages.csv; its sources are in SOURCES.md.
func TestUsual(t *testing.T) {
	rows := reference(t, "usual_percentages.csv")
	compared := 0
	for _, r := range rows {
		material, ok := trade[r["colourant"]]
		if !ok {
			t.Errorf("%s is new in the reference", r["colourant"])
		}
		if material == "" {
			continue
		}
		compared++
		u, ok := Builtin().Usual(material)
		if !ok {
			t.Errorf("%s is unknown", material)
			continue
		}
		near(t, material+" low", u.Low, number(t, r["low_percent"]), 0)
		near(t, material+" high", u.High, number(t, r["high_percent"]), 0)
		near(t, material+" strong", u.High, number(t, r["strong_above_percent"]), 0)
		want := "common practice"
		switch c := r["certainty"]; {
		case strings.HasSuffix(c, "converted"):
			want = "converted"
		case c == "found (search excerpt)":
			want = "found"
		}
		if u.Certainty != want {
			t.Errorf("%s is %s, the reference says %q", material, u.Certainty, r["certainty"])
		}
		if u.Certainty != "common practice" && len(u.Sources) == 0 {
			t.Errorf("%s: no source", material)
		}
	}
	if compared < 30 {
		t.Errorf("only %d rows were compared", compared)
	}
}

func TestUsual_names(t *testing.T) {
	l := Builtin().With(Material{Name: "CuCO3 from the tub", Aliases: nil}, Material{Name: "Copper carbonate", Density: 3.9})
	for _, tt := range []struct{ material, want string }{
		{"copper carbonate", "copper carbonate"}, {"Malachite", "copper carbonate"}, {"Whiting", ""}, {"Kaolin", ""},
		{"Vanadium pentoxide", ""}, {"Tin-free stain", "stain"}, {"Stainless steel filings", ""}, {"", ""},
	} {
		u, ok := l.Usual(tt.material)
		if u.Colourant != tt.want || ok != (tt.want != "") {
			t.Errorf("%q: %q, %v, want %q", tt.material, u.Colourant, ok, tt.want)
		}
	}
	for _, r := range usualRows() {
		if !(0 < r.Low && r.Low < r.High) || slices.Contains(r.Sources, "") {
			t.Errorf("%+v", r)
		}
	}
}
