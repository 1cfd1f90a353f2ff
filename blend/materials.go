package blend

import "slices"

// Materials names every dry material of the test, each once, in the order in
// which the ends and series have them.
func (t *Test) Materials() []string {
	var all []string
	for _, e := range t.Ends {
		all = append(all, e.Materials()...)
	}
	for _, s := range t.Plan.Blend.Series {
		all = append(all, s.Material)
	}
	return once(all)
}

// Materials names the dry materials of an end, each once.
func (e End) Materials() (names []string) {
	for _, p := range slices.Concat(e.Recipe, e.Additions) {
		names = append(names, p.Material)
	}
	return once(names)
}

// once is a list with each entry where it is first.
func once[T comparable](list []T) (all []T) {
	for _, x := range list {
		if !slices.Contains(all, x) {
			all = append(all, x)
		}
	}
	return all
}
