package layout

import (
	"slices"
	"testing"

	"pourboard/blend"
)

func TestPourOrder(t *testing.T) {
	test := plan{blend.Triaxial, 3, 0, 2, 2, usual, a4, nil}.test()
	for i := range test.Cells {
		test.Cells[i].Pours = make([]blend.Pour, 2)
		test.Cells[i].Pours[0].ML = 100
		if test.Cells[i].Column > 0 {
			test.Cells[i].Pours[1].ML = 50
		}
	}
	// Cells by row: 0; 1 2; 3 4 5; 6 7 8 9.
	for _, c := range []struct {
		end  int
		want []int
	}{
		{-1, []int{0, 2, 1, 3, 4, 5, 9, 8, 7, 6}},
		{0, []int{0, 2, 1, 3, 4, 5, 9, 8, 7, 6}},
		{1, []int{2, 4, 5, 9, 8, 7}},
	} {
		if got := PourOrder(test, nil, c.end); !slices.Equal(got, c.want) {
			t.Errorf("end %d is poured in the order %v, want %v", c.end, got, c.want)
		}
	}
	p := Boards(test)
	dips := DipOrder(test, p, nil)
	if want := []int{0, 1, 2, 3, 8, 9, 10, 11, 4}; !slices.Equal(dips[:9], want) {
		t.Errorf("tiles are dipped in the order %v, want %v first", dips[:9], want)
	}
	if sorted := slices.Sorted(slices.Values(dips)); len(slices.Compact(sorted)) != len(p.Tiles) {
		t.Errorf("%d of %d tiles are dipped", len(sorted), len(p.Tiles))
	}
}

// TestPourOrder_layers: the layers of a quadraxial are poured one by one, and
// each starts from the left again.
func TestPourOrder_layers(t *testing.T) {
	test := plan{blend.Quadraxial, 2, 0, 1, 1, usual, a4, nil}.test()
	if got, want := PourOrder(test, nil, -1), []int{0, 2, 1, 3, 4, 5, 6, 8, 7, 9}; !slices.Equal(got, want) {
		t.Errorf("order %v, want %v", got, want)
	}
}
