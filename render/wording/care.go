package wording

import (
	_ "embed"
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"sync"
	"unicode"

	"pourboard/blend/oxide"
	"pourboard/blend/quantity"
)

// careJSON says of each harm of oxide what it does, and of each substance what it
// does and what to do about it: common practice, from the classes where there are any.
//
//go:embed care.json
var careJSON []byte

var careTexts = sync.OnceValue(func() (texts struct {
	Harms      map[oxide.Harm]string
	Substances map[string]string
}) {
	if err := json.Unmarshal(careJSON, &texts); err != nil {
		panic(err)
	}
	return texts
})

// NoProof goes with fired tiles.
const NoProof = "A fired test tile does not show that a glaze is fit for food."

// CareLines returns what to take care of before these materials are weighed,
// at most five lines of whole sentences: what holds for every powder, what is
// special to these, food. Common practice where CareClasses has no source.
func CareLines(hazards []oxide.Hazard) []string {
	lines := []string{
		"Wear a fitted respirator and gloves for dry powder. Work wet, clean up wet, never sweep.",
		"Keep food, drink and children away. Vent the kiln outdoors. Never pour leftovers down the drain.",
	}
	if slices.ContainsFunc(hazards, func(h oxide.Hazard) bool { return h.Harm == oxide.Lungs }) {
		lines[0] = "Silica dust scars the lungs. " + lines[0]
	}
	// The lungs are in the first line.
	special := slices.DeleteFunc(oxide.Special(hazards), func(h oxide.Hazard) bool { return h.Harm == oxide.Lungs })
	if len(special) > 0 {
		lines = append(lines, CareLine(special[0]))
	}
	switch {
	case len(special) == 2:
		lines = append(lines, CareLine(special[1]))
	case len(special) > 2:
		lines = append(lines, byHarm(special[1:]))
	}
	food := "Test tiles prove nothing about food. Follow the suppliers' safety data sheets and local codes."
	if _, not := oxide.LeachTested(hazards); len(not) > 0 {
		food = "Not for food ware: " + quantity.Listed(not, "and") + ". " + food
	}
	return append(lines, food)
}

// Worst returns one line about the worst of some hazards, the silica in nearly
// every glaze included; "" when there is none beyond plain dust.
func Worst(hazards []oxide.Hazard) string {
	special := oxide.Special(hazards)
	if len(special) == 0 {
		return ""
	}
	line := CareLine(special[0])
	if _, not := oxide.LeachTested(hazards); len(not) > 0 {
		line += " Not for food ware: " + quantity.Listed(not, "and") + "."
	}
	return line
}

// CareLine returns one hazard as a line: the materials that bring it and what
// to do about them.
func CareLine(h oxide.Hazard) string {
	return capital(strings.Join(h.Materials, ", ")) + ": " + careTexts().Substances[h.Substance]
}

// byHarm returns some hazards by what they do, worst first.
func byHarm(hazards []oxide.Hazard) string {
	var order []oxide.Harm
	names := map[oxide.Harm][]string{}
	for _, h := range hazards {
		if names[h.Harm] == nil {
			order = append(order, h.Harm)
		}
		for _, name := range h.Materials {
			if !slices.Contains(names[h.Harm], name) {
				names[h.Harm] = append(names[h.Harm], name)
			}
		}
	}
	var parts []string
	for _, harm := range order {
		parts = append(parts, careTexts().Harms[harm]+": "+strings.Join(names[harm], ", ")+".")
	}
	return strings.Join(parts, " ")
}

// CareClasses returns a line for each hazard with its classes, codes, what set
// them and since when, for the pages at the end. A hazard without any has none.
func CareClasses(hazards []oxide.Hazard) []string {
	var lines []string
	for _, h := range hazards {
		var parts []string
		if h.Law.Classes != "" {
			parts = append(parts, fmt.Sprintf("%s (%s; %s, from %s)", h.Law.Classes, strings.Join(h.Law.Codes, " "),
				h.Law.Amendment, h.Law.From))
		}
		if h.Opinion.By != "" {
			parts = append(parts, fmt.Sprintf("not law: %s (%s)", strings.Join(h.Opinion.Codes, " "), h.Opinion.By))
		}
		if h.IARC != "" {
			parts = append(parts, "IARC group "+h.IARC)
		}
		if len(parts) > 0 {
			lines = append(lines, capital(h.Substance)+": "+strings.Join(parts, "; ")+".")
		}
	}
	return lines
}

// CareSources returns where CareClasses comes from, the published figures for
// silica dust where there is any, and the leach tests that these materials call
// for. Each figure is named as what it is.
func CareSources(hazards []oxide.Hazard) []string {
	var lines []string
	if len(CareClasses(hazards)) > 0 {
		lines = append(lines,
			"Classes: "+oxide.ClassesAsOf+"; IARC groups as published. They can be out of date. "+
				"A material without a class can still harm.")
	}
	if slices.ContainsFunc(hazards, func(h oxide.Hazard) bool { return h.Harm == oxide.Lungs }) {
		lines = append(lines, silicaText())
	}
	lines = append(lines, LeachLines(hazards)...)
	return append(lines, "The suppliers' safety data sheets, local codes and licensed practice decide. "+
		"Nothing here replaces them.")
}

// LeachLines says which elements of these materials no leach test makes fit for
// food ware, and for which a laboratory has to test; nil for neither.
func LeachLines(hazards []oxide.Hazard) []string {
	test, not := oxide.LeachTested(hazards)
	var lines []string
	if len(not) > 0 {
		lines = append(lines, "Not for food ware, whatever a leach test says: glazes with "+quantity.Listed(not, "and")+".")
	}
	if len(test) > 0 {
		elements := quantity.Listed(test, "and")
		lines = append(lines,
			fmt.Sprintf("Before food touches a glaze with %s, have a laboratory leach-test it for %[1]s.", elements),
			"Test methods, for lead and cadmium: "+strings.Join(oxide.LeachMethods(), "; ")+".")
	}
	return lines
}

// silicaText is the published figures for silica dust.
func silicaText() string {
	limits := map[oxide.LimitKind][]string{}
	for _, x := range oxide.SilicaLimits() {
		limits[x.Kind] = append(limits[x.Kind], limitText(x))
	}
	of := func(kind oxide.LimitKind) string { return strings.Join(limits[kind], ", ") }
	return fmt.Sprintf("Respirable crystalline silica in air, legal limits: %s; action level (employers must act, "+
		"not a limit): %s; recommended, not law: %s. Local limits can be lower.", of(oxide.LegalLimit),
		of(oxide.ActionLevel), of(oxide.Recommended))
}

func limitText(x oxide.Limit) string {
	s := fmt.Sprintf("%s %g µg/m³", x.Body, x.Ug)
	if x.Hours > 0 {
		s += fmt.Sprintf(" over %g h", x.Hours)
	}
	source := x.Source
	if x.Secondary {
		source = strings.TrimPrefix(source+", read on another's page", ", ")
	}
	return s + " (" + source + ")"
}

// Sentence begins a clause with a capital and ends it with a full stop.
func Sentence(clause string) string {
	if clause == "" {
		return ""
	}
	return capital(strings.TrimSuffix(clause, ".")) + "."
}

func capital(s string) string {
	for i, r := range s {
		return string(unicode.ToUpper(r)) + s[i+len(string(r)):]
	}
	return s
}
