package book

import (
	"cmp"
	"strings"
)

// compareNames orders names as an index does: case counts only between equals,
// "Test 2" comes before "Test 10", and a folder before others whose names go on
// from its own.
func compareNames(x, y string) int {
	a, b := strings.ToLower(x), strings.ToLower(y)
	for a != "" && b != "" {
		m, n := digits(a), digits(b)
		if m == 0 || n == 0 {
			if a[0] != b[0] {
				return cmp.Compare(place(a[0]), place(b[0]))
			}
			a, b = a[1:], b[1:]
			continue
		}
		p, q := strings.TrimLeft(a[:m], "0"), strings.TrimLeft(b[:n], "0")
		if differ := cmp.Or(len(p)-len(q), strings.Compare(p, q)); differ != 0 {
			return differ
		}
		a, b = a[m:], b[n:]
	}
	return cmp.Or(len(a)-len(b), strings.Compare(x, y))
}

// digits is how many figures a text begins with.
func digits(s string) int { return len(s) - len(strings.TrimLeft(s, "0123456789")) }

// place is where a byte comes in the order of names: what parts folders is first.
func place(c byte) byte {
	if c == '/' || c == '\\' {
		return 0
	}
	return c
}
