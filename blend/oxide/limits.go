package oxide

import (
	_ "embed"
	"slices"
)

// LimitKind says what a figure for dust in air is.
type LimitKind string

// The kinds of figures.
const (
	LegalLimit  LimitKind = "legal limit"  // no more is allowed
	ActionLevel LimitKind = "action level" // from here on an employer must measure and act; no limit
	Recommended LimitKind = "recommended"  // by a body whose word is not law
)

// Limit is a published figure for respirable crystalline silica in air.
type Limit struct {
	Body      string // who set it
	Kind      LimitKind
	Ug        float64 // µg/m³
	Hours     float64 // over which it is averaged, 0 where that was not read
	Source    string
	Secondary bool // read on another's page than the body's own
}

// limitsText has the figures for respirable crystalline silica that were read.
//
//go:embed limits.json
var limitsText []byte

// SilicaLimits lists the figures for respirable crystalline silica that were
// read; countries set their own, and local ones can be lower.
func SilicaLimits() []Limit { return read[Limit](limitsText) }

// LeachMethods are the methods by which a laboratory measures what a fired
// glaze gives off, all three for lead and cadmium. The last is a law, which
// sets both the test and limits.
func LeachMethods() []string {
	return []string{
		"ASTM C738",
		"ISO 6486-1:2019",
		"EU directive 84/500/EEC as amended by 2005/31/EC (4 % acetic acid by volume, 24 ± 0.5 h at 22 ± 2 °C)",
	}
}

// LeachTested names the elements of some hazards that a laboratory's leach test
// is for, and those that no test makes fit for food ware, each once.
func LeachTested(hazards []Hazard) (test, notForFood []string) {
	for _, h := range hazards {
		list := &test
		if h.NotForFood {
			list = &notForFood
		}
		if (h.NotForFood || h.LeachTest) && !slices.Contains(test, h.Contains) && !slices.Contains(notForFood, h.Contains) {
			*list = append(*list, h.Contains)
		}
	}
	return test, notForFood
}
