package layout

import (
	"math/bits"
	"math/rand/v2"
)

// shuffled is the cells in an order that follows from the seed and from which
// draw of the test it is. The generator is PCG; the shuffle (Fisher and Yates,
// from the end) is written out, because a seed that is printed on a board has
// to give the same board years later.
func shuffled(cells []int, seed, draw uint64) []int {
	pcg := rand.NewPCG(seed, draw)
	out := append([]int(nil), cells...)
	for i := len(out) - 1; i > 0; i-- {
		// The high word of a product with i+1 is uniform to one part in 2⁶⁴/i.
		j, _ := bits.Mul64(pcg.Uint64(), uint64(i+1))
		out[i], out[j] = out[j], out[i]
	}
	return out
}
