package oxide

import (
	_ "embed"
	"slices"
	"strings"
	"sync"
	"unicode"
)

// Harm is the worst that a hazard does to a person, in a word or two.
type Harm string

// The harms. Dust is that of any fine powder, and nothing beyond it.
const (
	Fatal     Harm = "fatal"
	Cancer    Harm = "cancer"
	Suspected Harm = "suspected of cancer"
	Unborn    Harm = "harm to the unborn child"
	Poison    Harm = "poison"
	Nerves    Harm = "harm to nerves"
	Lungs     Harm = "scarred lungs"
	Burns     Harm = "burns"
	Allergy   Harm = "allergy"
	Harmful   Harm = "harmful"
	Irritates Harm = "irritates"
	Fume      Harm = "fume in firing"
	Fire      Harm = "feeds fire"
	Water     Harm = "poison to water life"
	Dust      Harm = "dust"
)

// Hazard is something in a plan's own materials that calls for care. What is
// known of it is stated as published; how it is worded is the renderers' job.
type Hazard struct {
	Substance  string         // what it is about, as "barium carbonate" or "copper compound"
	Contains   string         // the element that makes it one, as "copper", or "silica", "lime" and the like
	Materials  []string       // the materials of the plan that bring it, as the plan names them
	Harm       Harm           // common practice where neither classes nor IARC say it
	Law        Classification // in EU law, empty where there is none
	Opinion    Opinion        // that is not law, mostly empty
	IARC       string         // group of the cancer agency IARC as published, "" where it was not read
	NotForFood bool           // no leach test makes a glaze with it fit for food ware
	LeachTest  bool           // a glaze with it needs a laboratory's leach test before food touches it
}

// Classification is a harmonised one of Annex VI to CLP, Regulation (EC)
// 1272/2008, read in the table named by ClassesAsOf.
type Classification struct {
	Classes   string   // class and category, as "Carc. 1B; Muta. 2"; * is a minimum classification
	Codes     []string // hazard statements, as "H350i"
	Amendment string   // that set them
	From      string   // the day from which on they apply, as "2023-11-23"
}

// ClassesAsOf names the state of the law that the classes were read in.
const ClassesAsOf = "Annex VI to CLP (EC) 1272/2008, unofficial ECHA table up to the 23rd ATP (EU) 2025/1222"

// Opinion is a classification that is not law.
type Opinion struct {
	By    string // whose it is, and when
	Codes []string
}

// family is what is known of the compounds of one element, or of one kind of
// material.
type family struct {
	Contains string
	Least    float64  // weight % of the oxide in the raw material from which on it is named
	Bound    bool     // a frit has it bound in glass, and does not count
	Not      []string // materials that do not count, as Library.Find understands them
	Except   []string // words of a name that say it is something else
	Rules    []rule   // the first that fits holds
}

// rule says which materials a hazard is of.
type rule struct {
	Names   []string // these, as Library.Find understands them
	Element string   // or those whose formula or analysis has this element
	Words   []string // or those with one of these words in their name
	And     []string // but only with one of these words in the name, where there are any
	Hazard
}

// hazardsText lists the families, worst first. Classes and groups are those of
// testdata/reference/hazards.csv; that a compound without an entry of its own is
// treated like its metal is common practice, no source. Most families are named
// from 0.1 % on: a rock's or an ash's traces would otherwise drown what matters
// (common practice, no source). Whether the SiO2 of an analysis is quartz is not
// known from it.
//
//go:embed hazards.json
var hazardsText []byte

var families = sync.OnceValue(func() []family {
	list := read[family](hazardsText)
	for i, f := range list {
		list[i].Not = keys(f.Not)
		for j, r := range f.Rules {
			f.Rules[j].Contains, f.Rules[j].Names = f.Contains, keys(r.Names)
		}
	}
	return list
})

// Hazards is what in these materials calls for care, worst first, each once.
// A material is judged by what it is, by what its analysis contains, and,
// because an analysis can leave something out, by the words of its name. The
// order is common practice, no source.
func (l Library) Hazards(materials []string) []Hazard {
	var subjects []subject
	for _, name := range materials {
		subjects = append(subjects, l.subject(name))
	}
	var list []Hazard
	for _, f := range families() {
		found := make([][]string, len(f.Rules)) // materials of each
		for _, s := range subjects {
			if i := f.first(s); i >= 0 && !slices.Contains(found[i], s.name) {
				found[i] = append(found[i], s.name)
			}
		}
		for i, r := range f.Rules {
			if h := r.Hazard; found[i] != nil {
				h.Materials = found[i]
				list = append(list, h)
			}
		}
	}
	return list
}

// KnownHazards lists every hazard that this package knows of, worst first,
// without materials.
func KnownHazards() []Hazard {
	var list []Hazard
	for _, f := range families() {
		for _, r := range f.Rules {
			list = append(list, r.Hazard)
		}
	}
	return list
}

// Special leaves out what is no more than dust of the kind that any powder has.
func Special(hazards []Hazard) []Hazard {
	return slices.DeleteFunc(slices.Clone(hazards), func(h Hazard) bool { return h.Harm == Dust })
}

// subject is a material of a plan, as far as its hazards need it.
type subject struct {
	name     string
	keys     []string // its name here and its generic name
	words    []string
	frit     bool
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
	s.frit = s.saysAny([]string{"frit", "frits", "fritted"})
	return s
}

// keys returns the key of each name.
func keys(names []string) []string {
	var all []string
	for _, name := range names {
		all = append(all, key(name))
	}
	return all
}

func (s subject) isAny(keys []string) bool {
	return slices.ContainsFunc(keys, func(k string) bool { return slices.Contains(s.keys, k) })
}

func (s subject) saysAny(words []string) bool {
	return slices.ContainsFunc(words, func(w string) bool { return slices.Contains(s.words, w) })
}

// first is the place of the first rule that fits a material, -1 for none.
func (f family) first(s subject) int {
	if f.Bound && s.frit || s.isAny(f.Not) || s.saysAny(f.Except) {
		return -1
	}
	return slices.IndexFunc(f.Rules, func(r rule) bool { return f.fits(r, s) })
}

// fits reports whether a rule is about a material.
func (f family) fits(r rule, s subject) bool {
	if s.isAny(r.Names) {
		return true
	}
	if r.And != nil && !s.saysAny(r.And) {
		return false
	}
	if r.Element == "Si" && s.atoms["Si"] > 0 && s.atoms["O"] == 0 {
		return false // silicon carbide holds no silica before it is fired
	}
	if s.atoms[r.Element] > 0 {
		return true
	}
	if i, ok := firedTo(r.Element); ok {
		if v := s.material.Analysis.Of(oxides()[i].Name); v > 0 && v >= f.Least {
			return true
		}
	}
	if r.Element == "Si" && !s.material.Analysis.Empty() {
		return false // "bone ash" is an ash by name only
	}
	return s.saysAny(r.Words)
}
