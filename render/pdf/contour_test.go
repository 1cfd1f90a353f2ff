package pdf

import (
	"math"
	"testing"

	"pourboard/blend/mark"
	"pourboard/blend/results"
	"pourboard/render/wording"
)

// chartOf draws the first chart of gloss on all bodies of the triaxial, of the
// tiles that read says.
func chartOf(t *testing.T, read func(shares []float64) bool) (p *report, m *results.Measure, model results.Model, tri *triangle, ops []op) {
	t.Helper()
	packet := packetOf(t, "triaxial", withNumbers("Gloss"))
	log := invented(packet.Test, packet.Places, func(tile mark.Tile) bool { return read(packet.Test.Cells[tile.Cell-1].Shares) })
	r := results.Evaluate(packet.Test, log)
	p, err := drawResults(packet.Places, r, "")
	if err != nil {
		t.Fatal(err)
	}
	m = r.Judged()[1]
	model = m.Models[3]
	f := p.doc.startSection("test", 210, 297)
	c, ok := p.chartPlan(f, model)
	if !ok {
		t.Fatalf("no chart: %s", wording.ModelText(r, model))
	}
	f.page.ops = nil
	tri = newTriangle(f.page, c, f.left()+(c.wMM-c.side)/2, f.y+chartTitleMM)
	p.chart(f, f.left(), "test", c, c.chart.Means, m, model)
	return p, m, model, tri, f.page.ops
}

// back is the shares of a place on the page, worked out from the corners of the
// triangle that was drawn.
func back(triangle []point, at point) [3]float64 {
	a, b, c := triangle[0], triangle[1], triangle[2]
	area := func(p, q, r point) float64 { return (q.x-p.x)*(r.y-p.y) - (r.x-p.x)*(q.y-p.y) }
	whole := area(a, b, c)
	return [3]float64{area(at, b, c) / whole, area(a, at, c) / whole, area(a, b, at) / whole}
}

// The triangle has equal sides, its cups lie where their shares are, a contour
// where the model predicts its level, the ring where it predicts most.
func TestChart_places(t *testing.T) {
	_, m, model, tri, ops := chartOf(t, func([]float64) bool { return true })
	var triangle []point
	for _, o := range ops {
		if o.kind == opPolygon {
			triangle = o.at
		}
	}
	for i := range 3 {
		if side := math.Hypot(triangle[i].x-triangle[(i+1)%3].x, triangle[i].y-triangle[(i+1)%3].y); math.Abs(side-math.Hypot(triangle[0].x-triangle[1].x, triangle[0].y-triangle[1].y)) > 1e-3 {
			t.Errorf("side %d is %v mm", i, side)
		}
	}
	if !(triangle[0].y < triangle[1].y && triangle[1].x < triangle[2].x) {
		t.Errorf("corners at %v", triangle)
	}
	levels := map[float64]bool{}
	for _, line := range tri.chart.Means {
		levels[line.Level] = true
	}
	contours := 0
	for _, o := range ops {
		switch {
		case o.kind == opLine && o.pen.mm == contourPen.mm && o.pen.grey == contourPen.grey:
			contours++
			shares := back(triangle, o.at[0])
			got, err := model.Choice.Chosen.Predict(clipped(shares))
			if err != nil {
				t.Fatal(err)
			}
			near := math.Inf(1)
			for level := range levels {
				near = min(near, math.Abs(level-got.Mean))
			}
			if near > 0.05 { // of a surface in straight pieces
				t.Fatalf("a contour at %v, where %v is predicted, of levels %v", shares, got.Mean, levels)
			}
		case o.kind == opCircle && o.pen.mm == thick.mm:
			shares := back(triangle, o.at[0])
			for i, x := range model.Highest.Point {
				if math.Abs(shares[i]-x) > 1e-6 {
					t.Errorf("the ring is at %v, the highest prediction at %v", shares, model.Highest.Point)
				}
			}
		}
	}
	if contours < 100 {
		t.Errorf("%d pieces of contours", contours)
	}
	if len(m.Means[0]) != 28 {
		t.Errorf("%d cups", len(m.Means[0]))
	}
}

// clipped takes rounding off shares.
func clipped(shares [3]float64) []float64 {
	var all []float64
	sum := 0.0
	for _, x := range shares {
		all = append(all, max(0, x))
		sum += max(0, x)
	}
	for i := range all {
		all[i] /= sum
	}
	return all
}

// Nothing is drawn beyond the cups that were read: of those with at most half of
// the third end, every contour stays on their side, and the others are circles.
func TestChart_neverBeyond(t *testing.T) {
	p, m, _, _, ops := chartOf(t, func(shares []float64) bool { return shares[2] <= 0.5 })
	var triangle []point
	circles, read := 0, 0
	for _, o := range ops {
		if o.kind == opPolygon {
			triangle = o.at
		}
	}
	for _, o := range ops {
		switch {
		case o.kind == opLine && o.pen.mm == contourPen.mm && o.pen.grey == contourPen.grey:
			for _, at := range o.at {
				if shares := back(triangle, at); shares[2] > 0.5+1e-6 {
					t.Fatalf("a contour at %v", shares)
				}
			}
		case o.kind == opCircle && o.pen.mm == thin.mm:
			circles++
		}
	}
	for i := range p.test.Cells {
		if p.wasRead(m, results.AllBodies, i) {
			read++
		}
	}
	if circles != 28-read || circles == 0 {
		t.Errorf("%d circles for %d cups that were not read", circles, 28-read)
	}
}
