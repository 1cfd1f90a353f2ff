package oxide

import (
	"fmt"
	"slices"
	"strings"
)

// exposureLimit is a published limit for respirable crystalline silica in air.
type exposureLimit struct {
	body      string // who set it
	kind      string // what it is called
	ugPerM3   float64
	averaging string // over what time
	source    string // with its date, and whether it is the body's own publication
}

// String is the limit as a clause.
func (x exposureLimit) String() string {
	s := fmt.Sprintf("%s %s %g µg/m³", x.body, x.kind, x.ugPerM3)
	if x.averaging != "" {
		s += " " + x.averaging
	}
	return s + " (" + x.source + ")"
}

// silicaLimits lists the exposure limits for respirable crystalline silica
// that were read, in US publications; other countries set their own.
func silicaLimits() []exposureLimit {
	const osha = "29 CFR 1910.1053"
	const shift = "over 8 hours"
	return []exposureLimit{
		{"OSHA", "permissible exposure limit", 50, shift, osha},
		{"OSHA", "action level", 25, shift, osha},
		{"NIOSH", "recommended exposure limit", 50, "over 10 hours", "1974, from a secondary source"},
		{"ACGIH", "threshold limit value", 25, "", "from a secondary source"},
	}
}

// leachMethods are the standard methods by which a laboratory measures what
// a fired glaze gives off, all three for lead and cadmium.
func leachMethods() []string {
	return []string{
		"ASTM C738",
		"ISO 6486-1:2019",
		"84/500/EEC as amended by 2005/31/EC (4 % (v/v) acetic acid, 24 ± 0.5 h at 22 ± 2 °C)",
	}
}

// NoProof is the caution that goes with fired tiles.
const NoProof = "A fired test tile is no proof that a glaze is fit for food."

// Cautions are sentences for whoever mixes, fires and uses a glaze of these
// materials: what to wear and do, the limits for silica dust, which materials
// call for a leach test, and who decides. What is known of each material is
// in Hazards. Without a source they are common practice.
func (l Library) Cautions(materials []string) []string {
	list := []string{
		"Dry powders: wear a fitted particulate respirator and gloves, weigh and mix where dust is drawn off, and clean up wet; do not sweep or blow.",
		"Keep food, drink, children and animals away, use no kitchen tools, and wash hands and change clothes afterwards.",
		"Fumes leave the kiln: fire where air is drawn off outdoors.",
	}
	for _, h := range l.Hazards(materials) {
		if h.Substance == silicaHazard.Substance {
			list = append(list, silicaSentence())
		}
	}
	return append(append(list, l.LeachTest(materials)...),
		NoProof,
		"The supplier's safety data sheets, local codes and licensed practice decide; what is printed here is no substitute and can be out of date.",
	)
}

// LeachTest is the sentence about the elements of these materials for which a
// laboratory has to test a glaze before food touches it; nil without any.
func (l Library) LeachTest(materials []string) []string {
	var metals []string
	for _, h := range l.Hazards(materials) {
		if h.LeachTest && !slices.Contains(metals, h.Contains) {
			metals = append(metals, h.Contains)
		}
	}
	if len(metals) == 0 {
		return nil
	}
	return []string{"A glaze with " + sequence(metals) + " needs a leach test by a laboratory before food touches it. Standard methods, for lead and cadmium: " +
		strings.Join(leachMethods(), "; ") + ". Ask the laboratory to look for each of these elements."}
}

func silicaSentence() string {
	var limits []string
	for _, x := range silicaLimits() {
		limits = append(limits, x.String())
	}
	return "Respirable crystalline silica in air, limits as published in the US: " + strings.Join(limits, "; ") + ". Local limits can be lower."
}

// sequence joins words as in "lead, cadmium and copper".
func sequence(words []string) string {
	if len(words) == 1 {
		return words[0]
	}
	last := len(words) - 1
	return strings.Join(words[:last], ", ") + " and " + words[last]
}
