package mixmodel

import (
	"slices"
	"strings"
	"testing"
)

func TestFit_refused(t *testing.T) {
	biaxial := [][]float64{}
	for i := range 25 {
		u, v := float64(i%5)/4, float64(i/5)/4
		biaxial = append(biaxial, []float64{(1 - u) * (1 - v), u * (1 - v), (1 - u) * v, u * v})
	}
	count := func(n int) []float64 {
		y := make([]float64, n)
		for i := range y {
			y[i] = float64(i * i % 7)
		}
		return y
	}
	edges := slices.DeleteFunc(lattice(3, 6), func(p []float64) bool { return p[0] > 0 && p[1] > 0 && p[2] > 0 })
	noC := slices.DeleteFunc(lattice(3, 9), func(p []float64) bool { return p[2] > 0 })
	lone := append(slices.Clone(edges), []float64{1. / 3, 1. / 3, 1. / 3})
	diagonal := [][]float64{{0, 0}, {1, 2}, {2, 4}, {3, 6}, {4, 8}}
	for _, c := range []struct {
		name   string
		space  Space
		ends   string
		points [][]float64
		kind   Kind
		want   string
	}{
		{"too few cells", Shares, "A B C", append(lattice(3, 1), lattice(3, 1)...), Quadratic, "the quadratic model needs 6 different mixtures; 3 were read"},
		{"too few readings", Shares, "A B C", lattice(3, 2), Quadratic, "the quadratic model has 6 terms and needs 7 cups; 6 were read"},
		{"no interior", Shares, "A B C", edges, SpecialCubic, "the special cubic model cannot be fitted: the cups read do not show A×B×C apart from its other terms"},
		{"no C", Shares, "A B C", noC, Linear, "the linear model cannot be fitted: the cups read do not show C apart from its other terms"},
		{"biaxial", Shares, "A B C D", biaxial, Quadratic, "the quadratic model cannot be fitted: the cups read do not show B×C apart from its other terms"},
		{"leverage 1", Shares, "A B C", lone, SpecialCubic, "the special cubic model cannot be fitted: cup 19 alone fixes one of its terms (make that cup twice)"},
		{"two series that go together", Percent, "Cu Ti", diagonal, Linear, "the linear model cannot be fitted: the cups read do not show Ti apart from its other terms"},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := design(t, c.space, strings.Fields(c.ends), c.points, count(len(c.points)))
			m, err := d.Fit(c.kind)
			if err == nil || err.Error() != c.want {
				t.Errorf("got %v, %v\nwant %s", m, err, c.want)
			}
		})
	}
}

func TestReadings_refused(t *testing.T) {
	for _, c := range []struct {
		y    []float64
		want string
	}{
		{[]float64{1}, "a model needs 2 readings or more; there are 1"},
		{[]float64{5, 5, 5, 5}, "all 4 readings are 5: there is nothing to model"},
		{[]float64{0, 0, 0, 0}, "all 4 readings are 0: there is nothing to model"},
	} {
		if _, err := NewDesign(Shares, abc[:2], nil, single(lattice(2, 3)[:len(c.y)], c.y)); err == nil || err.Error() != c.want {
			t.Errorf("got %v, want %s", err, c.want)
		}
	}
	one := []Tile{{Cup: 7, Point: []float64{1, 0}, Value: 1}, {Cup: 7, Point: []float64{1, 0}, Value: 2}}
	if _, err := NewDesign(Shares, abc[:2], nil, one); err == nil || err.Error() != "a model needs 2 cups or more; there is 1" {
		t.Error(err)
	}
}

func TestNewDesign_refused(t *testing.T) {
	for _, c := range []struct {
		space  Space
		ends   string
		points [][]float64
		want   string
	}{
		{Shares, "A", [][]float64{{1}}, "a mixture model needs 2 to 4 end glazes, not 1"},
		{Percent, "A B C D", nil, "a model in percent needs 1 to 3 series, not 4"},
		{Shares, "A B", nil, "a model needs 2 readings or more; there are 0"},
	} {
		if _, err := NewDesign(c.space, strings.Fields(c.ends), nil, single(c.points, make([]float64, len(c.points)))); err == nil || err.Error() != c.want {
			t.Errorf("got %v, want %s", err, c.want)
		}
	}
}
