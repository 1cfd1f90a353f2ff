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

// bought is what a potter would write for a row of the hazards' reference.
var bought = map[string][]string{
	"crystalline silica, respirable (quartz, cristobalite)": {"Flint", "Cristobalite"},
	"cobalt carbonate":                          {"Cobalt carbonate"},
	"cobalt(II) oxide, grey, CoO":               {"Grey cobalt oxide"},
	"cobalt(II,III) oxide, black, Co3O4":        {"Cobalt oxide"},
	"copper carbonate, basic":                   {"Malachite"},
	"copper(II) oxide, black":                   {"Copper oxide"},
	"copper(I) oxide, red":                      {"Red copper oxide"},
	"chromium(III) oxide":                       {"Chrome oxide"},
	"potassium dichromate":                      {"Bichromate of potash"},
	"manganese dioxide":                         {"Manganese dioxide"},
	"manganese carbonate":                       {"Manganese carbonate"},
	"nickel(II) oxide, green":                   {"Green nickel oxide", "Black nickel oxide"},
	"nickel carbonate":                          {"Nickel carbonate"},
	"vanadium pentoxide":                        {"Vanadium pentoxide"},
	"antimony trioxide":                         {"Antimony trioxide"},
	"cadmium oxide":                             {"Cadmium oxide"},
	"cadmium sulphide":                          {"Cadmium sulfide"},
	"cadmium compounds, other":                  {"Cadmium carbonate"},
	"cadmium stains encapsulated in zircon":     {"Cadmium-selenium red stain", "Encapsulated cadmium red"},
	"selenium":                                  {"Selenium"},
	"uranium compounds":                         {"Uranium oxide"},
	"barium carbonate":                          {"Witherite"},
	"strontium carbonate":                       {"Strontium carbonate"},
	"lithium carbonate":                         {"Lithium carbonate"},
	"zinc oxide":                                {"Zinc oxide"},
	"tin(IV) oxide":                             {"Tin oxide"},
	"titanium dioxide":                          {"Titania"},
	"zirconium silicate":                        {"Zircon"},
	"boric acid":                                {"Boric acid"},
	"borax (also pentahydrate and anhydrous)":   {"Borax", "Borax pentahydrate", "Fused borax"},
	"colemanite, ulexite, calcium borates":      {"Colemanite", "Ulexite"},
	"fluorspar":                                 {"Fluorite"},
	"soda ash":                                  {"Sodium carbonate"},
	"calcium hydroxide, slaked lime; quicklime": {"Hydrated lime", "Quicklime"},
	"wood ash, unwashed":                        {"Wood ash", "Unwashed beech ash"},
	"sodium silicate, solution":                 {"Sodium silicate"},
	"talc, free of asbestos":                    {"French chalk"},
	"feldspar, nepheline syenite":               {"Potash feldspar", "Nepheline syenite"},
	"kaolin, ball clay":                         {"China clay", "Ball clay"},
	"bentonite":                                 {"Bentonite"},
	"iron oxides, red, black, yellow":           {"Red iron oxide", "Black iron oxide", "Yellow iron oxide"},
	"iron chromate, iron chromite":              {"Iron chromate", "Chromite"},
	"ilmenite":                                  {"Ilmenite"},
	"gypsum, plaster":                           {"Gypsum", "Plaster of Paris"},
	"salt, for salt firing":                     {"Common salt"},
	"potassium nitrate":                         {"Saltpetre"},
	"bismuth oxide, bismuth subnitrate":         {"Bismuth oxide", "Bismuth subnitrate"},
	"silver powder":                             {"Silver"},
	"silver nitrate":                            {"Silver nitrate"},
	"cerium dioxide":                            {"Ceria"},
	"praseodymium oxide":                        {"Praseodymium oxide"},
	"erbium oxide":                              {"Erbia"},
	"neodymium oxide":                           {"Neodymium oxide"},
	"molybdenum trioxide":                       {"Molybdenum trioxide"},
	"rutile":                                    {"Rutile"},
	"lead oxide, red lead, white lead, lead bisilicate and other lead frits": {"Litharge", "Red lead", "White lead", "Lead bisilicate", "Some lead frit"},
}

// testdata/reference/hazards.csv: classes, codes, amendment and date of entry
// into force, whether it may touch food; its sources are in SOURCES.md. IARC
// groups only where the row says that they were found.
func TestHazards_reference(t *testing.T) {
	for _, r := range reference(t, "hazards.csv") {
		materials, ok := bought[r["material"]]
		if !ok {
			t.Errorf("%s is new in the reference", r["material"])
		}
		for _, name := range materials {
			hazards := Builtin().Hazards([]string{name})
			if len(hazards) == 0 {
				t.Errorf("%s: no hazard", name)
				continue
			}
			h := hazards[0]
			if name == "Rutile" { // its silica is a hazard of its own
				h = hazards[len(hazards)-1]
			}
			want := Classification{}
			if r["clp_classes"] != "none harmonised" {
				want = Classification{r["clp_classes"], strings.Fields(r["clp_h"]), r["clp_amendment"], r["clp_applies_from"]}
			}
			if h.Law.Classes != want.Classes || !slices.Equal(h.Law.Codes, want.Codes) || h.Law.Amendment != want.Amendment || h.Law.From != want.From {
				t.Errorf("%s: %+v, want %+v", name, h.Law, want)
			}
			if h.NotForFood != (r["not_for_food_ware"] == "yes") || h.LeachTest != (r["leach_test"] == "yes") {
				t.Errorf("%s: not for food %v, leach test %v", name, h.NotForFood, h.LeachTest)
			}
			iarc := ""
			if strings.Contains(r["certainty"], "IARC found") {
				iarc = r["iarc_group"]
			}
			if h.IARC != iarc {
				t.Errorf("%s: IARC %q, found was %q", name, h.IARC, iarc)
			}
		}
	}
}

// The classes that were printed before 2023 are nowhere left (SOURCES.md, last
// paragraph on safety.toml).
func TestHazards_reclassified(t *testing.T) {
	h := Builtin().Hazards([]string{"Vanadium pentoxide"})[0]
	if h.Harm != Fatal || !slices.Contains(h.Law.Codes, "H330") || slices.Contains(h.Law.Codes, "H332") {
		t.Errorf("vanadium pentoxide: %+v", h)
	}
}

func TestHazards(t *testing.T) {
	l := Builtin().With(
		Material{Name: "Yellow stain", Analysis: Analysis{Oxides: []Amount{{"ZrO2", 95}, {"CdO", 0.05}}, LOI: 4.95}},
		Material{Name: "Ash", Analysis: Analysis{Oxides: []Amount{{"CaO", 60}, {"MnO", 0.05}}, LOI: 39.95}},
		Material{Name: "Own blue", Aliases: []string{"Cobalt blue"}, Analysis: Analysis{Oxides: []Amount{{"Al2O3", 60}, {"CoO", 40}}}},
		Material{Name: "Cobalt carbonate", Analysis: Analysis{Oxides: []Amount{{"CoO", 60}}, LOI: 40}},
		Material{Name: "Soft frit", Analysis: Analysis{Oxides: []Amount{{"Na2O", 15}, {"B2O3", 20}, {"SiO2", 65}}}},
		Material{Name: "Barium frit", Analysis: Analysis{Oxides: []Amount{{"BaO", 35}, {"SiO2", 65}}}},
	)
	const quartz = "powder that can hold quartz"
	for _, tt := range []struct {
		material string
		want     []string
	}{
		{"Whiting", nil}, {"Bone ash", nil}, {"Silicon carbide", nil}, {"Alumina", nil}, {"Volcanic ash", []string{quartz}},
		{"Soda ash", []string{"soda ash"}}, {"Washed wood ash", []string{quartz}}, {"Wood ash", []string{"wood ash", quartz}},
		{"Silica", []string{"silica"}}, {"Silica 325 mesh", []string{"silica"}}, {"Ball clay", []string{quartz}}, {"Talc", []string{"talc"}},
		{"Spodumene", []string{"lithium mineral", quartz}}, {"Soft frit", nil}, {"Frit of the house", nil}, {"Barium frit", []string{"barium compound"}},
		{"White lead", []string{"lead compound"}}, {"Lead bisilicate", []string{"lead compound"}}, {"Some lead frit", []string{"lead compound"}}, {"Lead-free frit", nil},
		{"Barium sulfate", []string{"barium compound"}}, {"Copper sulphate", []string{"copper compound"}},
		{"Iron chromite", []string{"iron chromate"}}, {"Sodium dichromate", []string{"chromium(VI) compound"}}, {"Chrome green stain", []string{"chromium compound"}},
		{"Colemanite", []string{"boron mineral"}}, {"Cryolite", []string{"fluorine compound"}}, {"Sodium nitrate", []string{"nitrate"}},
		{"Yellow stain", []string{"cadmium stain"}}, {"Ash", []string{"wood ash"}}, {"Own blue", []string{"cobalt compound"}},
		{"Cobalt carbonate", []string{"cobalt carbonate"}}, {"Found clay", []string{quartz}}, {"Lime feldspar", []string{quartz}},
		{"Vanadium yellow stain", []string{"vanadium compound"}},
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
	// One entry for two materials, worst first.
	hs := l.Hazards([]string{"Zinc oxide", "Own blue", "Some cobalt", "Own blue", "Red lead"})
	if len(hs) != 3 || hs[0].Contains != "lead" || !slices.Equal(hs[1].Materials, []string{"Own blue", "Some cobalt"}) {
		t.Errorf("%+v", hs)
	}
}

// testdata/reference/safety.toml, status found; the EU's limit stands in the
// note of hazards.csv.
func TestSilicaLimits(t *testing.T) {
	b, err := os.ReadFile(filepath.Join("..", "..", "testdata", "reference", "safety.toml"))
	if err != nil {
		t.Fatal(err)
	}
	var s struct {
		Silica struct {
			PEL    float64 `toml:"pel_ug_m3"`
			Action float64 `toml:"action_level_ug_m3"`
			Status string
			NIOSH  float64 `toml:"niosh_rel_mg_m3"`
			ACGIH  float64 `toml:"acgih_tlv_mg_m3"`
		}
	}
	if err := toml.Unmarshal(b, &s); err != nil {
		t.Fatal(err)
	}
	if s.Silica.Status != "found" {
		t.Fatalf("the limits' status is %q", s.Silica.Status)
	}
	if note := reference(t, "hazards.csv")[0]["note"]; !strings.Contains(note, "EU binding limit 0.1 mg/m3 respirable") {
		t.Fatalf("the EU's limit is not in %q", note)
	}
	want := map[string]float64{
		"OSHA (USA) legal limit": s.Silica.PEL, "OSHA (USA) action level": s.Silica.Action, "EU legal limit": 100,
		"NIOSH recommended": 1000 * s.Silica.NIOSH, "ACGIH recommended": 1000 * s.Silica.ACGIH,
	}
	for _, x := range SilicaLimits() {
		name := x.Body + " " + string(x.Kind)
		near(t, name, x.Ug, want[name], 1e-9)
	}
	if len(SilicaLimits()) != len(want) {
		t.Errorf("%d limits, want %d", len(SilicaLimits()), len(want))
	}
}

func TestLeachTested(t *testing.T) {
	hazards := Builtin().Hazards([]string{"Copper carbonate", "Copper oxide", "Barium carbonate", "Zinc oxide", "Potassium dichromate", "Chrome oxide"})
	test, not := LeachTested(hazards)
	if !slices.Equal(test, []string{"copper"}) || !slices.Equal(not, []string{"chromium", "barium"}) {
		t.Errorf("test %v, not for food %v", test, not)
	}
	// No leach test makes these fit for food ware.
	for _, name := range []string{"Litharge", "Cadmium red stain", "Uranium oxide", "Barium frit", "Selenium"} {
		if _, not := LeachTested(Builtin().Hazards([]string{name})); len(not) != 1 {
			t.Errorf("%s: not for food: %v", name, not)
		}
	}
}

func TestKnownHazards(t *testing.T) {
	code := regexp.MustCompile(`^H\d{3}[A-Za-z]*$`)
	seen := map[string]bool{}
	for _, h := range KnownHazards() {
		if h.Substance == "" || h.Contains == "" || h.Harm == "" || seen[h.Substance] {
			t.Errorf("%+v", h)
		}
		seen[h.Substance] = true
		if (h.Law.Classes == "") != (len(h.Law.Codes) == 0) || (h.Opinion.By == "") != (len(h.Opinion.Codes) == 0) {
			t.Errorf("%s: %+v %+v", h.Substance, h.Law, h.Opinion)
		}
		for _, c := range slices.Concat(h.Law.Codes, h.Opinion.Codes) {
			if !code.MatchString(c) {
				t.Errorf("%s: code %q", h.Substance, c)
			}
		}
	}
}
