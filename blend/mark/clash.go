package mark

import "strings"

// painted is how the characters of a mark read on a tile: O is 0 there, and I is 1.
var painted = strings.NewReplacer("O", "0", "I", "1")

func spelt(text string) string { return painted.Replace(strings.ToUpper(text)) }

// MayClash reports whether marks with these prefixes can spell the same: where
// the prefixes do, or one is the other with figures behind it, as A1 is of A.
func MayClash(a, b string) bool {
	a, b = spelt(a), spelt(b)
	if len(a) > len(b) {
		a, b = b, a
	}
	rest, ok := strings.CutPrefix(b, a)
	return ok && strings.Trim(rest, "0123456789") == "" && !strings.HasPrefix(rest, "0")
}

// Shared are the marks of b, in their order, that tiles of a bear too, as they are
// spelt on the top.
func Shared(a, b Scheme) (marks []string) {
	tops := make(map[string]bool, a.Tiles())
	for i := range a.Tiles() {
		tops[spelt(a.Tile(i).Mark)] = true
	}
	for i := range b.Tiles() {
		if top := b.Tile(i).Mark; tops[spelt(top)] {
			marks = append(marks, top)
		}
	}
	return marks
}
