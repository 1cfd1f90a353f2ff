package mixmodel

// lattice lists the weights of a simplex lattice of so many divisions an edge,
// in the order of a triaxial's cells: most of the first corner first.
func lattice(corners, divisions int) [][]float64 {
	parts := make([]int, corners)
	parts[0] = divisions
	var all [][]float64
	for {
		weights := make([]float64, corners)
		for i, n := range parts {
			weights[i] = float64(n) / float64(divisions)
		}
		all = append(all, weights)
		// The next one: a part goes on from the last corner that can give one,
		// and what lay behind it comes back to its neighbour.
		last := corners - 1
		giver := last - 1
		for giver >= 0 && parts[giver] == 0 {
			giver--
		}
		if giver < 0 {
			return all
		}
		back := parts[last]
		parts[last] = 0
		parts[giver]--
		parts[giver+1] = back + 1
	}
}

// blend is the weighted mean of points.
func blend(points [][]float64, weights []float64) []float64 {
	mix := make([]float64, len(points[0]))
	for k, w := range weights {
		for i, v := range points[k] {
			mix[i] += w * v
		}
	}
	return mix
}
