package blend

import (
	"slices"

	"pourboard/blend/oxide"
)

// Materials names every dry material of the test, each once, in the order in
// which the ends and series have them.
func (t *Test) Materials() []string {
	var all []string
	add := func(name string) {
		if !slices.Contains(all, name) {
			all = append(all, name)
		}
	}
	for _, e := range t.Ends {
		for _, list := range [][]Part{e.Recipe, e.Additions} {
			for _, p := range list {
				add(p.Material)
			}
		}
	}
	for _, s := range t.Plan.Blend.Series {
		add(s.Material)
	}
	return all
}

// Cautions are sentences for whoever mixes and fires the test: what to wear
// and do, from the materials that are in it.
func (t *Test) Cautions() []string { return t.library.Cautions(t.Materials()) }

// HazardsOf is what in these materials calls for care, worst first.
func (t *Test) HazardsOf(names []string) []oxide.Hazard { return t.library.Hazards(names) }

// LeachTest is the sentence about the materials among these whose glaze a
// laboratory has to test, or none.
func (t *Test) LeachTest(names []string) []string { return t.library.LeachTest(names) }

// NotKnown names those of these materials that neither the built-in list nor
// the plan has an analysis of: little or nothing is known of their hazards.
func (t *Test) NotKnown(names []string) []string {
	lib := t.library
	var list []string
	for _, name := range names {
		if _, ok := lib.Find(name); !ok && !slices.Contains(list, name) {
			list = append(list, name)
		}
	}
	return list
}
