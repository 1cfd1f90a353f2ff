package design

// hair is what floating point may add to a share that lies on a bound.
const hair = 1e-9

// Tightened returns the bounds with the lower ones raised to what the upper
// ones of the other ends imply: of two ends, at most 60 % of one is at least
// 40 % of the other. Without bounds it returns nil.
func (b Blend) Tightened() []Bound {
	if b.Bounds == nil {
		return nil
	}
	tight := make([]Bound, len(b.Bounds))
	for i, bound := range b.Bounds {
		rest := 0.0
		for j, other := range b.Bounds {
			if j != i {
				rest += other.Hi
			}
		}
		tight[i] = Bound{Lo: max(bound.Lo, 1-rest), Hi: bound.Hi}
	}
	return tight
}

// zoom lays the lattice over the simplex that the lower bounds leave: a share
// is Lᵢ + (1 − ΣL)·zᵢ with the pseudo-component zᵢ on the lattice
// (J. A. Cornell, Experiments with Mixtures; from memory).
func (b Blend) zoom(all []Point) {
	bounds := b.Tightened()
	room := 1.0
	for _, bound := range bounds {
		room -= bound.Lo
	}
	if bounds == nil || room == 1 {
		return
	}
	for _, p := range all {
		for i := range p.Shares {
			p.Shares[i] = bounds[i].Lo + room*p.Shares[i]
		}
	}
}

// within leaves out the cups beyond an upper bound, and with Interior those
// that lack an end. A point on a bound is inside it.
func (b Blend) within(all []Point) []Point {
	interior := b.Interior && !b.HasSeries()
	if b.Bounds == nil && !interior {
		return all
	}
	kept := all[:0]
	for _, p := range all {
		inside := true
		for i, x := range p.Shares {
			inside = inside && (b.Bounds == nil || x <= b.Bounds[i].Hi+hair) && !(interior && x == 0)
		}
		if inside {
			kept = append(kept, p)
		}
	}
	return kept
}
