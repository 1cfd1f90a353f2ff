package sheets

import "pourboard/render/wording"

// care is what to take care of before anything is weighed, in five lines at most.
func (d *drawer) care(materials []string) []string {
	return wording.CareLines(d.Test.HazardsOf(materials))
}

// careOf is the worst of some materials, in one line.
func (d *drawer) careOf(materials []string) []string {
	if line := wording.Worst(d.Test.HazardsOf(materials)); line != "" {
		return []string{line}
	}
	return nil
}
