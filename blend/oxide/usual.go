package oxide

import "slices"

// Certainty says how well a figure of the trade is known.
type Certainty string

// The certainties, the best first.
const (
	Found     Certainty = "found"           // read in an excerpt of the source
	Converted Certainty = "converted"       // read for another compound of the same metal, recalculated
	Practice  Certainty = "common practice" // no source
)

// Usual is how much of a colourant or opacifier glazes usually get, in % of
// the dry glaze. High is the upper end of what is usual, not a limit: above it an
// addition is unusually strong.
type Usual struct {
	Colourant string // as "copper carbonate"
	Low, High float64
	Certainty Certainty
	Sources   []string // where the range was read, empty for Practice
}

// Publications that the usual percentages were read in, seen in excerpts.
const (
	ceramicArts = "Coloring Oxides Basic Percentages, Ceramic Arts Daily"
	arbuckle    = "Arbuckle, Colorants and Opacifiers"
	hopper      = "Hopper, The World of Ceramic Colorants, 2014"
	glendale    = "Glendale Community College, Glaze Basics"
	colorants   = "Wikipedia, Ceramic colorants"
	rareEarths  = "a published trial of rare earths at 7 %"
	supplier    = "a supplier's page"
)

// usualRow is a Usual, and the materials that it is for.
type usualRow struct {
	names []string // as Library.Find understands them
	words []string // or all of these words in the name, where a family has no one name
	Usual
}

// usualRows in the order in which they are tried: a stain by its kind comes
// before stains in general.
var usualRows = []usualRow{
	{[]string{"Cobalt carbonate"}, nil, Usual{"cobalt carbonate", 0.25, 2, Found, []string{ceramicArts, colorants, glendale}}},
	{[]string{"Cobalt oxide", "Grey cobalt oxide"}, nil, Usual{"cobalt oxide", 0.2, 1.5, Converted, []string{ceramicArts, supplier}}},
	{[]string{"Copper carbonate"}, nil, Usual{"copper carbonate", 0.5, 5, Found, []string{ceramicArts, arbuckle, glendale}}},
	{[]string{"Copper oxide"}, nil, Usual{"black copper oxide", 0.4, 4, Converted, []string{ceramicArts}}},
	{[]string{"Red copper oxide"}, nil, Usual{"red copper oxide", 0.3, 3.5, Converted, []string{ceramicArts}}},
	{[]string{"Red iron oxide"}, nil, Usual{"red iron oxide", 0.5, 10, Found, []string{arbuckle, hopper, colorants, glendale}}},
	{[]string{"Black iron oxide"}, nil, Usual{"black iron oxide", 0.5, 9, Practice, nil}},
	{[]string{"Yellow iron oxide"}, nil, Usual{"yellow iron oxide", 0.5, 11, Practice, nil}},
	{[]string{"Yellow ochre"}, nil, Usual{"yellow ochre", 2, 10, Practice, nil}},
	{[]string{"Manganese dioxide"}, nil, Usual{"manganese dioxide", 1, 4, Found, []string{arbuckle}}},
	{[]string{"Manganese carbonate"}, nil, Usual{"manganese carbonate", 1, 5, Converted, []string{arbuckle}}},
	{[]string{"Chromium oxide"}, nil, Usual{"chromium oxide", 0.25, 2, Found, []string{colorants, glendale}}},
	{[]string{"Iron chromate", "Iron chromite"}, nil, Usual{"iron chromate", 0.5, 3, Practice, nil}}, // sold under either name
	{[]string{"Nickel oxide", "Black nickel oxide"}, nil, Usual{"nickel oxide", 0.5, 3, Practice, nil}},
	{[]string{"Nickel carbonate"}, nil, Usual{"nickel carbonate", 0.5, 4, Practice, nil}},
	{[]string{"Rutile"}, nil, Usual{"rutile", 2, 8, Practice, nil}},
	{[]string{"Ilmenite"}, nil, Usual{"ilmenite", 1, 4, Practice, nil}},
	{[]string{"Titanium dioxide"}, nil, Usual{"titanium dioxide", 2, 8, Practice, nil}},
	{[]string{"Tin oxide"}, nil, Usual{"tin oxide", 4, 10, Found, []string{supplier}}},
	{[]string{"Zirconium silicate"}, nil, Usual{"zirconium silicate", 8, 15, Practice, nil}},
	{[]string{"Zinc oxide"}, nil, Usual{"zinc oxide as an opacifier", 2, 10, Practice, nil}},
	{[]string{"Cerium oxide"}, nil, Usual{"cerium oxide", 3, 8, Practice, nil}},
	{[]string{"Bone ash", "Tricalcium phosphate"}, nil, Usual{"bone ash as an opacifier", 2, 5, Practice, nil}},
	{[]string{"Antimony oxide"}, nil, Usual{"antimony oxide", 2, 8, Practice, nil}},
	{[]string{"Praseodymium oxide"}, nil, Usual{"praseodymium oxide", 3, 10, Practice, []string{rareEarths}}},
	{[]string{"Erbium oxide"}, nil, Usual{"erbium oxide", 3, 10, Practice, []string{rareEarths}}},
	{[]string{"Neodymium oxide"}, nil, Usual{"neodymium oxide", 3, 10, Practice, []string{rareEarths}}},
	{nil, []string{"chrome", "tin"}, Usual{"chrome-tin stain", 1, 5, Found, []string{hopper}}},
	{nil, []string{"cadmium", "selenium"}, Usual{"cadmium-selenium stain", 0.5, 5, Found, []string{hopper}}},
	{nil, []string{"cadmium", "stain"}, Usual{"cadmium-selenium stain", 0.5, 5, Found, []string{hopper}}},
	{nil, []string{"praseodymium", "stain"}, Usual{"praseodymium yellow stain", 2, 8, Practice, nil}},
	{nil, []string{"vanadium", "stain"}, Usual{"vanadium stain", 4, 10, Practice, nil}},
	{nil, []string{"stain"}, Usual{"stain", 2, 10, Practice, nil}},
}

// Usual returns how much of a material glazes usually get, in % of the dry
// glaze; false for what is no colourant or opacifier of the list.
func (l Library) Usual(material string) (Usual, bool) {
	s := l.subject(material)
	for _, r := range usualRows {
		if s.isAny(r.names) || len(r.words) > 0 && s.saysAll(r.words) {
			return r.Usual, true
		}
	}
	return Usual{}, false
}

// saysAll reports whether the name has every one of words.
func (s subject) saysAll(words []string) bool {
	for _, w := range words {
		if !slices.Contains(s.words, w) {
			return false
		}
	}
	return true
}
