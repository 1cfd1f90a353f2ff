package mixmodel

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
)

func TestChoose(t *testing.T) {
	choice := reference(t, "mixture_yarn.csv").Choose()
	if choice.Chosen == nil || choice.Chosen.Kind != Quadratic {
		t.Errorf("chosen %+v, want the quadratic model", choice.Chosen)
	}
	if last := choice.Candidates[3]; last.Kind != SpecialCubic || last.Model != nil || last.Refused == "" {
		t.Errorf("the special cubic model was not refused on six cells: %+v", last)
	}
	for _, c := range choice.Candidates[:3] {
		if c.Model == nil || c.Model.LOO < choice.Chosen.LOO {
			t.Errorf("%s: %+v", c.Kind, c)
		}
	}

	// Three cells, two of them alike: even the mean can be carried, no more.
	few := design(t, Shares, abc, [][]float64{{1, 0, 0}, {0, 1, 0}, {0, 1, 0}}, []float64{1, 2, 3})
	choice = few.Choose()
	if choice.Chosen == nil || choice.Chosen.Kind != Mean {
		t.Errorf("chosen %+v; want the mean", choice.Chosen)
	}

	// Scatter without pattern: no model beats the mean. Alternating signs, so
	// that nothing of low degree fits.
	line := design(t, Percent, []string{"Cu"}, [][]float64{{0}, {1}, {2}, {3}, {4}, {5}, {6}, {7}},
		[]float64{1, -1, 1, -1, 1, -1, 1, -1})
	choice = line.Choose()
	if choice.Chosen.Kind != Mean {
		t.Errorf("chosen %+v; want the mean", choice.Chosen)
	}
}

// Whatever points and readings come, they are used or refused with a
// sentence: nothing panics, and nothing that is printed is not a number.
func FuzzChoose(f *testing.F) {
	f.Add(uint8(0), uint8(3), []byte{6, 0, 0, 1, 0, 6, 0, 2, 0, 0, 6, 3, 3, 3, 0, 4, 2, 2, 2, 5, 2, 2, 2, 6, 1, 1, 4, 9})
	f.Add(uint8(1), uint8(1), []byte{0, 1, 1, 2, 2, 4, 3, 9, 4, 15, 4, 16})
	f.Add(uint8(1), uint8(2), []byte{0, 0, 1, 0, 1, 2, 1, 0, 4, 1, 1, 15, 2, 2, 16, 3, 1, 4, 2, 0, 4, 0, 2, 7})
	f.Fuzz(func(t *testing.T, space, ends uint8, data []byte) {
		q := int(ends%4) + 1
		names := []string{"A", "B", "C", "D"}[:q]
		var points [][]float64
		var y []float64
		for len(data) > q && len(points) < 60 {
			p := make([]float64, q)
			var sum float64
			for i := range p {
				p[i] = float64(data[i]) / 8
				sum += p[i]
			}
			if Space(space%2) == Shares {
				if sum == 0 {
					p[0], sum = 1, 1
				}
				for i := range p {
					p[i] /= sum
				}
			}
			points, y, data = append(points, p), append(y, float64(int8(data[q]))/4), data[q+1:]
		}
		tiles := single(points, y)
		for i := range tiles { // some tiles share a cup, and lie on two bodies
			if i > 0 && i%3 == 0 && same(points[i], points[i-1]) {
				tiles[i].Cup = tiles[i-1].Cup
			}
			tiles[i].Levels = []int{i % 2}
		}
		d, err := NewDesign(Space(space%2), names, []Factor{{"Body", []string{"Buff", "Red"}}}, tiles)
		if err != nil {
			return
		}
		for _, cup := range d.Cups {
			if !d.hull.contains(cup.Point) {
				t.Errorf("%v lies outside the hull of %v", cup.Point, points)
			}
		}
		choice := d.Choose()
		for _, c := range choice.Candidates {
			if c.Model == nil {
				continue
			}
			numbers := []float64{c.Model.S, c.Model.R2, c.Model.AdjR2, c.Model.LOO, c.Model.Lack.F, c.Model.Lack.P}
			for _, term := range c.Model.Terms {
				numbers = append(numbers, term.Coef, term.SE)
			}
			if c.Kind != Mean {
				high, low := c.Model.Highest(), c.Model.Lowest()
				numbers = append(numbers, high.Mean, high.SE, low.Mean)
				if !high.Inside || !low.Inside {
					t.Errorf("best %+v or worst %+v outside %v", high, low, points)
				}
				if high.Mean < low.Mean {
					t.Errorf("the highest %+v lies below the lowest %+v", high, low)
				}
			}
			if d.Space == Shares && q == 3 && d.kinds > 1 {
				c.Model.Surface(8).Contour(1, meanOf)
			}
			for _, v := range numbers {
				if math.IsNaN(v) || math.IsInf(v, 0) {
					t.Fatalf("%s of %v, %v: %v", c.Kind, points, y, numbers)
				}
			}
		}
	})
}

// A test of 66 cells, four models with leave-one-out.
func BenchmarkChoose(b *testing.B) {
	points := lattice(3, 10)
	random := rand.New(rand.NewPCG(7, 4))
	y := make([]float64, len(points))
	for i, p := range points {
		y[i] = 40*p[0] + 20*p[1] + 30*p[2] + 25*p[0]*p[1] + random.NormFloat64()
	}
	for b.Loop() {
		if choice := design(b, Shares, abc, points, y).Choose(); choice.Candidates[3].Model == nil {
			b.Fatal(choice)
		}
	}
}

// Two tiles of every cup; the last cup is the fourth made again.
func ExampleDesign_Choose() {
	shares := []float64{0, 0.25, 0.5, 0.75, 1, 0.75}
	read := [][]float64{{10, 11}, {22, 21}, {29, 31}, {28, 27}, {20, 20}, {29, 28}}
	var tiles []Tile
	for cup, ash := range shares {
		for _, v := range read[cup] {
			tiles = append(tiles, Tile{Cup: cup + 1, Point: []float64{1 - ash, ash}, Value: v})
		}
	}
	d, err := NewDesign(Shares, []string{"Matte", "Ash"}, nil, tiles)
	if err != nil {
		fmt.Println(err)
		return
	}
	chosen := d.Choose().Chosen
	best := chosen.Highest()
	fmt.Printf("%s: %.1f ± %.1f at %.0f %% ash\n", chosen.Kind, best.Mean, best.Limit, 100*best.Point[1])
	fmt.Printf("tiles of a cup scatter by %.2f, cups of a mixture by %.2f\n", scatterOf(d, tiles).Tiles, scatterOf(d, tiles).Cups)
	// Output:
	// quadratic: 29.4 ± 2.2 at 59 % ash
	// tiles of a cup scatter by 0.82, cups of a mixture by 0.41
}
