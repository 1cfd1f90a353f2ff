package book

import (
	"cmp"
	"regexp"
	"strings"
)

// compareNames orders names as an index does: case counts only between equals,
// "Test 2" comes before "Test 10", and a folder before others whose names go on
// from its own.
func compareNames(x, y string) int {
	return cmp.Or(strings.Compare(sortKey(x), sortKey(y)), strings.Compare(x, y))
}

var (
	number  = regexp.MustCompile(`\d+`)
	folders = strings.NewReplacer("/", "\x00", "\\", "\x00")
)

// sortKey is a name whose numbers all have as many digits.
func sortKey(name string) string {
	return number.ReplaceAllStringFunc(folders.Replace(strings.ToLower(name)), func(n string) string {
		return strings.Repeat("0", max(0, 12-len(n))) + n
	})
}
