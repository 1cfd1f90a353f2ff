package quantity

import "strings"

// Fold is what two names have in common that a reader takes for one name: case
// and the number of blanks make no difference. Misspellings are compared by
// spell.Bare, which drops accents and hyphens too; materials by their letters and
// figures alone, as formulas have subscripts.
func Fold(name string) string { return strings.ToLower(strings.Join(strings.Fields(name), " ")) }
