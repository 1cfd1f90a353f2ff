package blend

import "slices"

// Materials names every dry material of the test, each once, in the order in
// which the ends and series have them.
func (t *Test) Materials() []string {
	var all []string
	for _, e := range t.Ends {
		all = addNames(all, e.Recipe, e.Additions)
	}
	for _, s := range t.Plan.Blend.Series {
		if !slices.Contains(all, s.Material) {
			all = append(all, s.Material)
		}
	}
	return all
}

// Materials names the dry materials of an end, each once.
func (e End) Materials() []string { return addNames(nil, e.Recipe, e.Additions) }

// Materials names what the bucket is weighed from, each once.
func (b Bucket) Materials() []string { return addNames(nil, b.Recipe, b.Additions) }

// addNames adds the materials of some lists to names that have each once.
func addNames(names []string, lists ...[]Part) []string {
	for _, list := range lists {
		for _, p := range list {
			if !slices.Contains(names, p.Material) {
				names = append(names, p.Material)
			}
		}
	}
	return names
}
