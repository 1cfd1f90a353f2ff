// Package class puts the tests of one class together: what is mixed once for
// all, what is bought, and which marks cannot be told apart.
package class

import (
	"cmp"
	"maps"
	"slices"
	"strings"

	"pourboard/blend"
	"pourboard/blend/mark"
	"pourboard/blend/oxide"
	"pourboard/blend/quantity"
)

// Member is one test of a class, worked out.
type Member struct {
	Plan string // its file's name
	Test *blend.Test
}

// Sheet is what a class needs to know beside the sheets of each test.
type Sheet struct {
	Members  []Member
	Batches  []Batch
	Shopping []blend.Mass // raw materials over all tests, g, by name
	Clashes  []Clash
}

// Batch is one glaze for all tests that pour it: the same recipe, additions and
// specific gravity, under whatever names.
type Batch struct {
	Glaze   string  // its name in the first test
	Bucket  bool    // ready in a bucket: only ML counts
	SG      float64 // expected, 0 when it is assumed
	RecipeG float64 // dry glaze by its recipe
	WaterG  float64
	ML      float64      // wet glaze
	Parts   []blend.Mass // materials, g: the recipe's, then the additions
	Uses    []Use

	recipe []blend.Part // and additions
}

// Use is what one test takes of a batch.
type Use struct {
	Member int    // which of Sheet.Members
	Glaze  string // its name in that test
	ML     float64
}

// Clash is two tests of which some tiles bear marks that read alike, O as 0 and I
// as 1.
type Clash struct {
	A, B  int    // which of Sheet.Members
	Mark  string // one that both have, as the first writes it
	Count int    // how many
}

// Hazards is what calls for care in what is bought, worst first. Each test knows
// its own materials: two plans may mean different things by one name.
func (s Sheet) Hazards() []oxide.Hazard {
	materials := map[string][]string{} // by substance
	for _, m := range s.Members {
		var names []string
		for _, p := range m.Test.Shopping() {
			names = append(names, p.Material)
		}
		for _, h := range m.Test.Library.Hazards(names) {
			for _, name := range h.Materials {
				if !slices.Contains(materials[h.Substance], name) {
					materials[h.Substance] = append(materials[h.Substance], name)
				}
			}
		}
	}
	var all []oxide.Hazard
	for _, h := range oxide.KnownHazards() {
		if h.Materials = materials[h.Substance]; h.Materials != nil {
			all = append(all, h)
		}
	}
	return all
}

// Of puts tests together. Batches that are mixed already are left out, as in
// blend.Test.Shopping.
func Of(members []Member) Sheet {
	s := Sheet{Members: members}
	found := map[string]int{}
	bought := map[string]*blend.Mass{}
	for m, member := range members {
		for e, b := range member.Test.Batches {
			if b.NeedML > 0 && !b.Mixed {
				s.batch(m, member.Test.Ends[e], b, found)
			}
		}
		for _, p := range member.Test.Shopping() {
			name := quantity.Fold(p.Material)
			if bought[name] == nil {
				bought[name] = &blend.Mass{Material: p.Material}
			}
			bought[name].G += p.G
		}
	}
	for _, name := range slices.Sorted(maps.Keys(bought)) {
		s.Shopping = append(s.Shopping, *bought[name])
	}
	s.clashes()
	return s
}

// batch adds a test's batch to the one of its recipe, or begins that.
func (s *Sheet) batch(member int, e blend.End, b blend.Batch, found map[string]int) {
	key := kindOf(e)
	at, ok := found[key]
	if !ok {
		at = len(s.Batches)
		found[key] = at
		first := Batch{Glaze: e.Name, Bucket: e.Bucket, recipe: slices.Concat(e.Recipe, e.Additions)}
		if !e.Assumed {
			first.SG = e.SG
		}
		s.Batches = append(s.Batches, first)
	}
	all := &s.Batches[at]
	all.ML += b.ML
	all.RecipeG += b.RecipeG
	all.WaterG += b.WaterG
	all.Uses = append(all.Uses, Use{Member: member, Glaze: e.Name, ML: b.ML})
	all.Parts = nil
	for _, p := range all.recipe {
		all.Parts = append(all.Parts, blend.Mass{Material: p.Material, G: p.Percent * all.RecipeG / 100})
	}
}

// kindOf is equal for glazes that can be one batch. The order of materials does not
// matter. A glaze without a recipe is known by its name.
func kindOf(e blend.End) string {
	kind := quantity.SGText(e.SG)
	if e.Bucket {
		kind += quantity.Fold(e.Name)
	}
	for _, list := range [][]blend.Part{e.Recipe, e.Additions} {
		var parts []string
		for _, p := range list {
			parts = append(parts, quantity.Fold(p.Material)+"="+quantity.Significant(p.Percent, 6))
		}
		slices.Sort(parts)
		kind += "|" + strings.Join(parts, ";")
	}
	return kind
}

// clashes finds the pairs of tests whose marks read alike.
func (s *Sheet) clashes() {
	reads := strings.NewReplacer("O", "0", "I", "1")
	marks := make([]map[string]string, len(s.Members)) // as it reads: as it is written
	for i, m := range s.Members {
		scheme := mark.New(m.Test.Plan, len(m.Test.Cells))
		marks[i] = make(map[string]string, scheme.Tiles())
		for n := range scheme.Tiles() {
			written := scheme.Tile(n).Mark
			marks[i][reads.Replace(written)] = written
		}
	}
	for a := range marks {
		for b := a + 1; b < len(marks); b++ {
			var both []string
			for read, written := range marks[a] {
				if marks[b][read] != "" {
					both = append(both, written)
				}
			}
			if both != nil {
				first := slices.MinFunc(both, func(x, y string) int {
					return cmp.Or(cmp.Compare(len(x), len(y)), strings.Compare(x, y))
				})
				s.Clashes = append(s.Clashes, Clash{A: a, B: b, Mark: first, Count: len(both)})
			}
		}
	}
}
