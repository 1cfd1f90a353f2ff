package sheets

import "strings"

// care is what to take care of before anything is weighed, in five lines at
// most: what holds for every dry powder, what these materials need beyond it,
// and what fired tiles do not show.
func (d *drawer) care(materials []string) []string {
	lines := []string{
		"Wear a fitted respirator for dry powder. Clean up wet; never sweep.",
		"Keep food, drink and children away. Wash your hands afterwards.",
	}
	lines = append(lines, d.careOf(materials)...)
	return append(lines, "Fired tiles do not show that a glaze is fit for food. Suppliers’ safety data sheets and local codes decide.")
}

// careOf names the hazards of some materials in a line or two; the notes at
// the end have their classes and sources.
func (d *drawer) careOf(materials []string) []string {
	var list []string
	for _, h := range d.Test.HazardsOf(materials) {
		list = append(list, h.Substance+" ("+strings.Join(h.Materials, ", ")+")")
	}
	if list == nil {
		return nil
	}
	return []string{"Take care with: " + strings.Join(list, "; ") + ". See the notes."}
}
