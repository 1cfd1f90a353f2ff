package design

// onLine is how far from a line through two points others may lie, as a part of
// their distance: shares that are written out are rounded.
const onLine = 0.005

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
	// dot is the product of the differences of two points from that at from.
	dot := func(from, i, j int) (sum float64) {
		for k, full := range most {
			if x := points[from][k]; full > 0 {
				sum += (points[i][k] - x) * (points[j][k] - x) / (full * full)
			}
		}
		return sum
	}
	longest := 0.0 // squared
	for i := range points {
		for j := range i {
			if d := dot(j, i, i); d > longest {
				longest, a, b = d, j, i
			}
		}
	}
	for i := range points {
		along := dot(a, i, b)
		if longest > 0 && dot(a, i, i)-along*along/longest > onLine*onLine*longest {
			return a, b, false
		}
	}
	return a, b, true
}
