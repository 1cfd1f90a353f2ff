package design

// Collinear reports whether points lie on one line, as near to it as given (a
// part of the distance of its ends), and which two are its ends. Coordinates
// are compared as parts of the largest that a point has there, since a little
// of a strong colourant counts as much as a lot of a weak one. All points must
// have as many coordinates, none negative.
func Collinear(points [][]float64, near float64) (a, b int, ok bool) {
	if len(points) == 0 {
		return 0, 0, true
	}
	most := make([]float64, len(points[0]))
	for _, p := range points {
		for k, x := range p {
			most[k] = max(most[k], x)
		}
	}
	// dot is the product of the differences of two points from that at from.
	dot := func(from, i, j int) float64 {
		sum := 0.0
		for k, full := range most {
			if full > 0 {
				x := points[from][k]
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
	if longest == 0 {
		return a, b, true
	}
	for i := range points {
		along := dot(a, i, b)
		if dot(a, i, i)-along*along/longest > near*near*longest {
			return a, b, false
		}
	}
	return a, b, true
}
