package oxide

import (
	_ "embed"
	"slices"
	"sync"
)

// Usual is how much of a colourant or opacifier glazes usually get, in % of
// the dry glaze. High is the upper end of what is usual, not a limit: above it an
// addition is unusually strong.
type Usual struct {
	Colourant string // as "copper carbonate"
	Low, High float64
	Certainty string   // how well it is known: "found", "converted" from another compound, "common practice"
	Sources   []string // where the range was read, none for common practice
}

// usualText lists them in the order in which they are tried: a stain by its kind
// comes before stains in general. Sources were seen in excerpts.
//
//go:embed usual.json
var usualText []byte

// usualRow is a Usual, and the materials that it is for.
type usualRow struct {
	Names []string // as Library.Find understands them
	Words []string // or all of these words in the name, where a family has no one name
	Usual
}

var usualRows = sync.OnceValue(func() []usualRow {
	list := read[usualRow](usualText)
	for i, r := range list {
		list[i].Names = keys(r.Names)
	}
	return list
})

// Usual returns how much of a material glazes usually get, in % of the dry
// glaze; false for what is no colourant or opacifier of the list.
func (l Library) Usual(material string) (Usual, bool) {
	s := l.subject(material)
	for _, r := range usualRows() {
		lacks := func(word string) bool { return !slices.Contains(s.words, word) }
		if s.isAny(r.Names) || r.Words != nil && !slices.ContainsFunc(r.Words, lacks) {
			return r.Usual, true
		}
	}
	return Usual{}, false
}
