package layout

import "pourboard/blend"

// PourOrder is the cells (indexes into Test.Cells) that an end is poured into.
func PourOrder(t *blend.Test, end int) []int { return nil }

// DipOrder is the tiles (indexes) in the order of dipping one coat.
func DipOrder(t *blend.Test, p *Places) []int { return nil }
