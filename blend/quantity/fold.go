package quantity

import "strings"

// Fold is what two names have in common that a reader takes for one name: case
// and the number of blanks make no difference.
func Fold(name string) string { return strings.ToLower(strings.Join(strings.Fields(name), " ")) }
