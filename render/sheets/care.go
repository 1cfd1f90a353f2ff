package sheets

import (
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

// hazardsOf are the hazards of some materials.
func (d *drawer) hazardsOf(materials []string) []oxide.Hazard {
	return d.Test.Library.Hazards(materials)
}
