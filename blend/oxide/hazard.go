package oxide

import (
	"slices"
	"strings"
	"unicode"
)

// Hazard is something in a plan's own materials that calls for care.
type Hazard struct {
	Substance string   // what it is about, as "barium carbonate" or "copper compound"
	Contains  string   // the element that makes it one, as "copper"; for quartz and its like "silica"
	Materials []string // the materials of the plan that bring it, as the plan names them
	Note      string   // one neutral sentence without a full stop
	Codes     []string // hazard statements of Regulation (EC) 1272/2008 that were read in Source, often none
	Source    string   // where Note and Codes were read, "" when Note only sends to the data sheet
	LeachTest bool     // a glaze with it needs a laboratory's leach test before food touches it
}

// String is the hazard as one line without a full stop.
func (h Hazard) String() string {
	s := h.Substance + " (" + strings.Join(h.Materials, ", ") + "): " + h.Note
	if len(h.Codes) > 0 {
		s += "; " + strings.Join(h.Codes, " ")
	}
	if h.Source != "" {
		s += " [" + h.Source + "]"
	}
	return s
}

// family is an element that calls for care, and what is said of its
// compounds when no entry for the very substance was read.
type family struct {
	element string   // symbol
	words   []string // of which one in a material's name gives it away, the element's first
	neutral Hazard
	least   float64 // weight % of its oxide in the raw material from which on it is named
	entries []entry
}

// entry is what was read about one substance.
type entry struct {
	names  []string // of materials, as Library.Find understands them
	hazard Hazard
}

const (
	seeSheet = "see the supplier's safety data sheet"
	// named is the weight % from which on a family is named. A rock's or an
	// ash's traces would otherwise drown what matters (common practice, no
	// source); where any amount matters, the family says so with anyAmount.
	named     = 0.1
	anyAmount = 0
)

// Sources of the entries. Each was read; what was only remembered has none.
const (
	labReport = "classification under Regulation (EC) 1272/2008 as printed in a laboratory report; may be out of date"
	secondary = "classification under Regulation (EC) 1272/2008 as printed on a secondary page; may be out of date"
)

// families in the order in which they are printed. An entry with codes holds
// only what was read in its source (testdata/reference/safety.toml, status
// found); a family without entries sends to the data sheet.
var families = []family{
	{"Pb", []string{"lead", "litharge", "minium"}, Hazard{
		Substance: "lead compounds",
		Note:      "reproductive toxin (category 1A) and cumulative poison; not for functional ware",
		Codes:     []string{"H302", "H332", "H360", "H373", "H400", "H410"},
		Source:    labReport, LeachTest: true,
	}, anyAmount, nil},
	{"Cd", []string{"cadmium"}, Hazard{
		Substance: "cadmium compound", Note: seeSheet + "; not for functional ware", LeachTest: true,
	}, anyAmount, []entry{{[]string{"Cadmium oxide", "CdO"}, Hazard{
		Substance: "cadmium oxide",
		Note:      "fatal if inhaled, carcinogen (category 1B), suspected mutagen; not for functional ware",
		Codes:     []string{"H330", "H341", "H350", "H372", "H400", "H410"},
		Source:    labReport, LeachTest: true,
	}}}},
	{"U", []string{"uranium"}, Hazard{Substance: "uranium compound", Note: seeSheet, LeachTest: true}, anyAmount, nil},
	{"Se", []string{"selenium"}, Hazard{Substance: "selenium compound", Note: seeSheet, LeachTest: true}, anyAmount, nil},
	{"Sb", []string{"antimony"}, Hazard{Substance: "antimony compound", Note: seeSheet, LeachTest: true}, named, nil},
	{"Ba", []string{"barium"}, Hazard{Substance: "barium compound", Note: seeSheet, LeachTest: true}, named,
		[]entry{{[]string{"Barium carbonate"}, Hazard{
			Substance: "barium carbonate",
			Note:      "harmful if swallowed; soluble in stomach acid",
			Codes:     []string{"H302"},
			Source:    "a supplier's safety data sheet of 2015; International Chemical Safety Card 0777", LeachTest: true,
		}}}},
	{"Cr", []string{"chromium", "chrome", "chromite", "chromate", "dichromate", "bichromate"}, Hazard{Substance: "chromium compound", Note: seeSheet, LeachTest: true}, named, nil},
	{"Ni", []string{"nickel"}, Hazard{Substance: "nickel compound", Note: seeSheet, LeachTest: true}, named,
		[]entry{{[]string{"Nickel oxide"}, Hazard{
			Substance: "nickel(II) oxide",
			Note:      "may cause cancer (category 1A), skin sensitiser, organ damage by repeated exposure",
			Codes:     []string{"H317", "H350", "H372", "H413"},
			Source:    labReport, LeachTest: true,
		}}}},
	{"Co", []string{"cobalt"}, Hazard{Substance: "cobalt compound", Note: seeSheet, LeachTest: true}, named,
		[]entry{{[]string{"Grey cobalt oxide"}, Hazard{
			Substance: "cobalt(II) oxide",
			Note:      "harmful if swallowed, skin sensitiser, very toxic to aquatic life",
			Codes:     []string{"H302", "H317", "H400", "H410"},
			Source:    labReport, LeachTest: true,
		}}, {[]string{"Cobalt carbonate"}, Hazard{
			Substance: "cobalt carbonate",
			Note:      "skin and airway sensitiser, suspected mutagen, may cause cancer if inhaled, reproductive toxin, very toxic to aquatic life",
			Codes:     []string{"H317", "H334", "H341", "H350i", "H360", "H410"},
			Source:    secondary, LeachTest: true,
		}}}},
	{"V", []string{"vanadium"}, Hazard{Substance: "vanadium compound", Note: seeSheet, LeachTest: true}, named,
		[]entry{{[]string{"Vanadium pentoxide"}, Hazard{
			Substance: "vanadium pentoxide",
			Note:      "harmful if swallowed or inhaled, airway irritant, suspected mutagen and reproductive toxin; stricter classes were proposed in 2019, check the current list",
			Codes:     []string{"H302", "H332", "H335", "H341", "H361d", "H372", "H411"},
			Source:    "European Chemicals Agency, classification at the time of the 2019 proposal (index 023-001-00-8)", LeachTest: true,
		}}}},
	{"Mn", []string{"manganese"}, Hazard{Substance: "manganese compound", Note: seeSheet, LeachTest: true}, named,
		[]entry{{[]string{"Manganese dioxide"}, Hazard{
			Substance: "manganese dioxide",
			Note:      "harmful if swallowed or inhaled",
			Codes:     []string{"H302", "H332"},
			Source:    labReport, LeachTest: true,
		}}}},
	{"Cu", []string{"copper", "malachite"}, Hazard{Substance: "copper compound", Note: seeSheet, LeachTest: true}, named,
		[]entry{{[]string{"Copper oxide"}, Hazard{
			Substance: "copper(II) oxide",
			Note:      "very toxic to aquatic life",
			Codes:     []string{"H400", "H410"},
			Source:    labReport, LeachTest: true,
		}}}},
	{"Mo", []string{"molybdenum"}, Hazard{Substance: "molybdenum compound", Note: seeSheet, LeachTest: true}, named,
		[]entry{{[]string{"Molybdenum trioxide"}, Hazard{
			Substance: "molybdenum trioxide",
			Note:      "eye and airway irritant, suspected carcinogen",
			Codes:     []string{"H319", "H335", "H351"},
			Source:    labReport, LeachTest: true,
		}}}},
	{"Li", []string{"lithium"}, Hazard{Substance: "lithium compound", Note: seeSheet, LeachTest: true}, named,
		[]entry{{[]string{"Lithium carbonate"}, Hazard{
			Substance: "lithium carbonate",
			Note:      "eye irritant; opinion of the EU's risk assessment committee (September 2021, reaffirmed March 2024): may damage fertility, the unborn child and breast-fed children",
			Codes:     []string{"H319", "H360D", "H360F", "H362"},
			Source:    "European Chemicals Agency for H319, reports of 2023 and 2024 on the opinion for the rest; may be out of date", LeachTest: true,
		}}}},
	{"Zn", []string{"zinc"}, Hazard{Substance: "zinc compound", Note: seeSheet}, named,
		[]entry{{[]string{"Zinc oxide"}, Hazard{
			Substance: "zinc oxide",
			Note:      "very toxic to aquatic life",
			Codes:     []string{"H400", "H410"},
			Source:    labReport,
		}}}},
	{"B", []string{"boron", "borax", "boric", "borate"}, Hazard{Substance: "boron compound", Note: seeSheet}, named, nil},
	{"F", []string{"fluorine", "fluoride", "fluorspar", "fluorite", "cryolite"}, Hazard{Substance: "fluorine compound", Note: seeSheet}, named, nil},
	{"Si", []string{"silica", "quartz", "flint", "feldspar", "spar", "clay", "kaolin", "ash"}, silicaHazard, named, nil},
}

// silicaHazard is named for every powder with SiO2 in it: whether that is
// quartz is not known from an analysis.
var silicaHazard = Hazard{
	Substance: "silica-bearing powder",
	Note:      "dust can hold respirable crystalline silica, for which exposure limits are set; keep it out of the air and do not breathe it",
	Source:    "29 CFR 1910.1053",
}

// Hazards is what in these materials calls for care, worst first, each once.
// A material is judged by what it is, by what its analysis contains, and,
// because an analysis can leave something out, by the words of its name.
func (l Library) Hazards(materials []string) []Hazard {
	var list []Hazard
	add := func(h Hazard, name string) {
		for i := range list {
			if list[i].Substance == h.Substance {
				if !slices.Contains(list[i].Materials, name) {
					list[i].Materials = append(list[i].Materials, name)
				}
				return
			}
		}
		h.Materials = []string{name}
		h.Codes = slices.Clone(h.Codes)
		list = append(list, h)
	}
	var subjects []subject
	for _, name := range materials {
		subjects = append(subjects, l.subject(name))
	}
	for _, f := range families {
		for _, s := range subjects {
			if h, ok := f.concerns(s); ok {
				h.Contains = f.words[0]
				add(h, s.name)
			}
		}
	}
	return list
}

// subject is a material of a plan, as far as its hazards need it.
type subject struct {
	name     string
	keys     []string // its name here and its generic name
	words    []string
	material Material
	atoms    formula // of its formula, nil when it has none
}

func (l Library) subject(name string) subject {
	s := subject{name: name, keys: []string{key(name)}}
	if m, ok := l.Find(name); ok {
		s.material = m
		s.keys = append(s.keys, key(m.Name))
		if f, err := parseFormula(m.Formula); err == nil {
			s.atoms = f
		}
	}
	if m, ok := Builtin().Find(name); ok {
		s.keys = append(s.keys, key(m.Name))
	}
	words := strings.FieldsFunc(strings.ToLower(name+" / "+s.material.Name), func(r rune) bool {
		return !unicode.IsLetter(r)
	})
	for i, w := range words { // "lead-free" and "free of lead" say the opposite
		without := i+1 < len(words) && words[i+1] == "free" || i > 1 && words[i-1] == "of" && words[i-2] == "free"
		if !without {
			s.words = append(s.words, w)
		}
	}
	return s
}

// concerns reports what f has to say of a material.
func (f family) concerns(s subject) (Hazard, bool) {
	for _, e := range f.entries {
		for _, name := range e.names {
			if slices.Contains(s.keys, key(name)) {
				return e.hazard, true
			}
		}
	}
	if f.element == "Si" && s.atoms.atoms("Si") > 0 && s.atoms.atoms("O") == 0 {
		return Hazard{}, false // silicon carbide holds no silica before it is fired
	}
	if s.atoms.atoms(f.element) > 0 {
		return f.neutral, true
	}
	if i, ok := made().firedTo[f.element]; ok {
		if v := s.material.Analysis.Of(oxides[i].name); v > 0 && v >= f.least {
			return f.neutral, true
		}
	}
	if f.element == "Si" && !s.material.Analysis.Empty() {
		return Hazard{}, false // "soda ash" and "bone ash" are only ashes by name
	}
	for _, w := range s.words {
		if slices.Contains(f.words, w) {
			return f.neutral, true
		}
	}
	return Hazard{}, false
}
