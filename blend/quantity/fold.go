package quantity

import "strings"

// Fold is what two names have in common that a reader takes for one name: case
// and the number of blanks make no difference. Misspellings and materials are compared
// by spell.Bare, which drops accents, hyphens and other marks too.
func Fold(name string) string { return strings.ToLower(strings.Join(strings.Fields(name), " ")) }
