package sheets

import (
	"slices"

	"pourboard/blend/oxide"
	"pourboard/render/wording"
)

// care is what to take care of before anything is weighed, in five lines at most.
func (d *drawer) care(materials []string) []string {
	return wording.CareLines(d.hazardsOf(materials))
}

// careOf is the worst of some materials, in one line.
func (d *drawer) careOf(materials []string) []string {
	if line := wording.Worst(d.hazardsOf(materials)); line != "" {
		return []string{line}
	}
	return nil
}

// hazardsOf are the hazards that some of the test's materials bring. All are
// looked up once: that takes as long as drawing a page.
func (d *drawer) hazardsOf(materials []string) []oxide.Hazard {
	if d.dangers == nil {
		d.dangers = d.Test.Library.Hazards(d.Test.Materials())
	}
	var list []oxide.Hazard
	for _, h := range d.dangers {
		var own []string
		for _, name := range h.Materials {
			if slices.Contains(materials, name) {
				own = append(own, name)
			}
		}
		if h.Materials = own; own != nil {
			list = append(list, h)
		}
	}
	return list
}
