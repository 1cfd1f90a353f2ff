package mixmodel

import "math"

// touch is the distance, in a region's own coordinates (where it is about 1
// across), up to which a point counts as lying on a face.
const touch = 1e-9

// within is the distance up to which a point counts as inside: a share typed
// with six decimals is.
const within = 1e-6

// region is the convex hull of the cells that were read: a point, a line, a
// polygon or a polyhedron, in the space of the points or in a plane of it.
// A model is trusted inside it only.
type region struct {
	origin []float64
	unit   []float64   // range of each coordinate, by which it is divided
	axes   [][]float64 // orthonormal directions, as many as the region has dimensions
	faces  []face
	// pieces are simplices, of corners one more than the dimensions, that
	// fill the region without overlapping; corners in the points' space.
	pieces [][][]float64
}

// face bounds the region: normal·z ≤ offset for all z inside, |normal| = 1.
type face struct {
	normal []float64
	offset float64
}

// newRegion makes the hull of different points, one or more.
func newRegion(points [][]float64) region {
	g := region{origin: points[0], unit: make([]float64, len(points[0]))}
	for i := range g.unit {
		low, high := points[0][i], points[0][i]
		for _, p := range points {
			low, high = min(low, p[i]), max(high, p[i])
		}
		g.unit[i] = high - low
		if high == low {
			g.unit[i] = 1
		}
	}
	g.axes = g.directions(points)
	points = extremeCandidates(points)
	inner := make([][]float64, len(points))
	for i, p := range points {
		inner[i], _ = g.inward(p)
	}
	g.faces = faces(inner, len(g.axes))
	g.pieces = g.fill(points, inner)
	return g
}

// directions are orthonormal axes through the points, the next always toward
// the point farthest from those so far (Gram-Schmidt with pivoting).
func (g region) directions(points [][]float64) [][]float64 {
	rest := make([][]float64, len(points))
	for i, p := range points {
		rest[i] = g.shifted(p)
	}
	var axes [][]float64
	for len(axes) < len(g.unit) {
		far := rest[0]
		for _, v := range rest {
			if inner(v, v) > inner(far, far)*(1+touch) {
				far = v
			}
		}
		length := math.Sqrt(inner(far, far))
		if length < 1e-7 { // well above rounding, well below any step between cells
			break
		}
		axis := scaled(far, 1/length)
		axes = append(axes, axis)
		for i, v := range rest {
			rest[i] = minus(v, scaled(axis, inner(v, axis)))
		}
	}
	return axes
}

// shifted is the point from the origin, in units of the coordinates' ranges.
func (g region) shifted(point []float64) []float64 {
	v := minus(point, g.origin)
	for i := range v {
		v[i] /= g.unit[i]
	}
	return v
}

// inward gives the point's coordinates along the axes and how far it lies off
// the plane that they span.
func (g region) inward(point []float64) (z []float64, off float64) {
	v := g.shifted(point)
	z = make([]float64, len(g.axes))
	for k, axis := range g.axes {
		z[k] = inner(v, axis)
		v = minus(v, scaled(axis, z[k]))
	}
	return z, math.Sqrt(inner(v, v))
}

// contains says whether the point lies in the region or on its border.
func (g region) contains(point []float64) bool {
	z, off := g.inward(point)
	if off > within {
		return false
	}
	for _, f := range g.faces {
		if inner(f.normal, z) > f.offset+within {
			return false
		}
	}
	return true
}

// clip gives the part of the segment a + t·(b − a) inside the region, 0 ≤ from
// < to ≤ 1, for a and b in the plane of the region.
func (g region) clip(a, b []float64) (from, to float64, ok bool) {
	za, _ := g.inward(a)
	zb, _ := g.inward(b)
	from, to = 0, 1
	for _, f := range g.faces {
		outA, outB := inner(f.normal, za)-f.offset-touch, inner(f.normal, zb)-f.offset-touch
		switch {
		case outA > 0 && outB > 0:
			return 0, 0, false
		case outA > 0:
			from = max(from, outA/(outA-outB))
		case outB > 0:
			to = min(to, outA/(outA-outB))
		}
	}
	return from, to, from < to
}

// extremeCandidates leaves out points midway between two others, which are no
// corners of the hull: of a lattice only the corners are left.
func extremeCandidates(points [][]float64) [][]float64 {
	type place [4]int64
	at := func(p []float64) (key place) {
		for i, v := range p {
			key[i] = int64(math.Round(v / samePoint))
		}
		return key
	}
	taken := map[place]bool{}
	for _, p := range points {
		taken[at(p)] = true
	}
	var corners [][]float64
	for i, p := range points {
		midway := false
		for j, other := range points {
			opposite := minus(scaled(p, 2), other)
			if i != j && taken[at(opposite)] && at(opposite) != at(p) {
				midway = true
				break
			}
		}
		if !midway {
			corners = append(corners, p)
		}
	}
	return corners
}

// faces of the hull of points of one to three dimensions: each that dims of
// the points span and that has no point beyond it.
func faces(points [][]float64, dims int) []face {
	var all []face
	add := func(normal []float64, through []float64) {
		length := math.Sqrt(inner(normal, normal))
		if length < touch {
			return // the points that span it lie on one line
		}
		for _, sign := range []float64{1, -1} {
			f := face{scaled(normal, sign/length), 0}
			f.offset = inner(f.normal, through)
			if !f.bounds(points) {
				continue
			}
			known := false
			for _, other := range all {
				d := minus(f.normal, other.normal)
				known = known || inner(d, d) < 1e-14 && math.Abs(f.offset-other.offset) < touch
			}
			if !known {
				all = append(all, f)
			}
		}
	}
	for i, a := range points {
		if dims == 1 {
			add([]float64{1}, a)
			continue
		}
		for j := i + 1; j < len(points) && dims > 1; j++ {
			u := minus(points[j], a)
			if dims == 2 {
				add([]float64{-u[1], u[0]}, a)
				continue
			}
			for k := j + 1; k < len(points); k++ {
				v := minus(points[k], a)
				add([]float64{u[1]*v[2] - u[2]*v[1], u[2]*v[0] - u[0]*v[2], u[0]*v[1] - u[1]*v[0]}, a)
			}
		}
	}
	return all
}

func (f face) bounds(points [][]float64) bool {
	for _, p := range points {
		if inner(f.normal, p) > f.offset+touch {
			return false
		}
	}
	return true
}

// fill cuts the hull into simplices that all have its first corner: one on
// each piece of each face that does not hold it.
func (g region) fill(points, inside [][]float64) [][][]float64 {
	dims := len(g.axes)
	var corners [][]float64
	var on []map[int]bool // for each corner the faces through it
	for i, z := range inside {
		through := map[int]bool{}
		for k, f := range g.faces {
			if inner(f.normal, z) > f.offset-touch {
				through[k] = true
			}
		}
		if len(through) >= dims { // else it lies within an edge or a face
			corners, on = append(corners, points[i]), append(on, through)
		}
	}
	if dims == 0 {
		return [][][]float64{{points[0]}}
	}
	if dims == 1 {
		return [][][]float64{corners}
	}
	var pieces [][][]float64
	fan := func(apex [][]float64, first int, member func(corner int) bool) {
		for a := range corners {
			for b := a + 1; b < len(corners); b++ {
				if a != first && b != first && member(a) && member(b) && common(on[a], on[b]) >= dims-1 {
					pieces = append(pieces, append(append([][]float64{}, apex...), corners[a], corners[b]))
				}
			}
		}
	}
	if dims == 2 {
		fan(corners[:1], 0, func(int) bool { return true })
		return pieces
	}
	for k := range g.faces {
		first := 0
		for first < len(corners) && !on[first][k] {
			first++
		}
		if first > 0 && first < len(corners) {
			fan([][]float64{corners[0], corners[first]}, first, func(corner int) bool { return on[corner][k] })
		}
	}
	return pieces
}

// common counts the faces that two corners share; corners of an edge share as
// many as the hull has dimensions, less one.
func common(a, b map[int]bool) int {
	n := 0
	for k := range a {
		if b[k] {
			n++
		}
	}
	return n
}

func inner(a, b []float64) float64 {
	var sum float64
	for i, v := range a {
		sum += v * b[i]
	}
	return sum
}

func minus(a, b []float64) []float64 {
	d := make([]float64, len(a))
	for i, v := range a {
		d[i] = v - b[i]
	}
	return d
}

func scaled(a []float64, by float64) []float64 {
	s := make([]float64, len(a))
	for i, v := range a {
		s[i] = v * by
	}
	return s
}
