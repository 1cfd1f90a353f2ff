package pdf

import (
	"slices"
	"strings"

	"pourboard/render/wording"
)

// careLines is what to take care of with some materials, and which of them are
// unknown. Classes and sources are in the summary.
func (s *sheets) careLines(materials []string) []string {
	return append(wording.CareLines(s.test.HazardsOf(materials)), s.notKnown(materials)...)
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
		lines = append(lines, "Unknown here: "+strings.Join(names, ", ")+". See the supplier's safety data sheet.")
	}
	if len(byName) > 0 {
		lines = append(lines, "Known here by name only: "+strings.Join(byName, ", ")+". See the supplier's safety data sheet for the rest.")
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
