package pdf

import (
	"slices"
	"strings"
)

// generalCare is what holds for every dry powder. Common practice, no source.
const generalCare = "Respirator and gloves for dry powder; clean up wet, never sweep. The supplier's safety data sheet decides."

// careLines are the hazards of some materials, a line each, with those of
// which nothing is known, and then what holds for all. The sources stand in the
// summary, which has these hazards in full.
func (s *sheets) careLines(materials []string) []string {
	var list []string
	for _, h := range s.test.HazardsOf(materials) {
		text := h.Substance + " (" + strings.Join(h.Materials, ", ") + "): " + h.Note
		if len(h.Codes) > 0 {
			text += "; " + strings.Join(h.Codes, " ")
		}
		list = append(list, text+".")
	}
	return append(append(list, s.notKnown(materials)...), generalCare)
}

// notKnown are lines about the materials of which nothing is known, and about
// those of which a word of their name tells a hazard and nothing tells the rest.
func (s *sheets) notKnown(materials []string) []string {
	var byName []string
	names := s.test.NotKnown(materials)
	for _, h := range s.test.HazardsOf(materials) {
		names = slices.DeleteFunc(names, func(name string) bool {
			told := slices.Contains(h.Materials, name)
			if told {
				byName = append(byName, name)
			}
			return told
		})
	}
	var lines []string
	if len(names) > 0 {
		lines = append(lines, "Not known here: "+strings.Join(names, ", ")+"; the supplier's safety data sheet decides.")
	}
	if len(byName) > 0 {
		lines = append(lines, "Known here by the name alone: "+strings.Join(byName, ", ")+"; what else is in it the supplier's safety data sheet tells.")
	}
	return lines
}

// careBlock says where powder is handled what to take care of. It stays on one
// page, which begins with the name of what goes on there if it is a further one and
// there is a name.
func (s *sheets) careBlock(f *flow, name string, materials []string, pt float64) {
	ft := regular(pt)
	lines := s.careLines(materials)
	if high := bold(benchPt).lineMM() + 2 + f.itemsMM("–", lines, ft); high <= f.whole()-partFont.lineMM() {
		if name == "" {
			f.need(high)
		} else {
			f.further(high, name)
		}
	}
	f.para("Take care", bold(benchPt))
	f.items("–", lines, ft)
}
