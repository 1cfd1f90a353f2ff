package design

import "math"

// bend is by what part the way between two points may grow through a third that counts
// as on their line: shares that are written out are rounded. Half way, the third may lie
// 0.5 % of the length beside the line.
const bend = 5e-5

// Collinear reports whether points lie on one line, and which two are its ends.
// Coordinates count as parts of the largest that a point has there, since a
// little of a strong colourant counts as much as a lot of a weak one. All points
// must have as many coordinates, none negative.
func Collinear(points [][]float64) (a, b int, ok bool) {
	most := make([]float64, len(points[0]))
	for _, p := range points {
		for k, x := range p {
			most[k] = max(most[k], x)
		}
	}
	distance := func(i, j int) (d float64) {
		for k, full := range most {
			if full > 0 {
				d = math.Hypot(d, (points[i][k]-points[j][k])/full)
			}
		}
		return d
	}
	for i := range points {
		for j := range i {
			if distance(j, i) > distance(a, b) {
				a, b = j, i
			}
		}
	}
	for i := range points {
		if distance(a, i)+distance(i, b) > distance(a, b)*(1+bend) {
			return a, b, false
		}
	}
	return a, b, true
}
