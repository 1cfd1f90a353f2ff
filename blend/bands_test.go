package blend

import (
	"math"
	"testing"
)

func TestDips(t *testing.T) {
	up, across := false, true
	for _, c := range []struct {
		name  string
		tiles Tiles
		want  []Coat
	}{
		{"one", Tiles{WidthMM: 50, HeightMM: 100, Coats: 1, DipMM: 80}, []Coat{{up, 80}}},
		{"three", Tiles{WidthMM: 50, HeightMM: 100, Coats: 3, DipMM: 90, Bands: Straight}, []Coat{{up, 90}, {up, 60}, {up, 30}}},
		{"usual dip", Tiles{WidthMM: 50, HeightMM: 90, Coats: 2}, []Coat{{up, 60}, {up, 30}}},
		{"corner", Tiles{WidthMM: 50, HeightMM: 100, Coats: 2, DipMM: 80, Bands: Corner}, []Coat{{across, 40}, {up, 80}}},
		{"corner of one", Tiles{WidthMM: 50, HeightMM: 100, Coats: 1, DipMM: 80, Bands: Corner}, []Coat{{across, 40}}},
		{"corner, three", Tiles{WidthMM: 50, HeightMM: 100, Coats: 3, DipMM: 80, Bands: Corner}, []Coat{{across, 40}, {up, 80}, {across, 20}}},
		{"corner, four", Tiles{WidthMM: 50, HeightMM: 100, Coats: 4, DipMM: 80, Bands: Corner}, []Coat{{across, 40}, {up, 80}, {across, 20}, {up, 40}}},
		{"corner, wide tile", Tiles{WidthMM: 100, HeightMM: 60, Coats: 2, DipMM: 30, Bands: Corner}, []Coat{{up, 30}, {across, 50}}},
	} {
		got := c.tiles.Dips()
		if len(got) != len(c.want) {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
			continue
		}
		for k, w := range c.want {
			if got[k].Across != w.Across || math.Abs(got[k].MM-w.MM) > 1e-9 {
				t.Errorf("%s: coat %d is %v, want %v", c.name, k+1, got[k], w)
			}
		}
	}
}

// No coat may reach further than the cup was found deep enough for.
func TestDipsStayWithinTheDip(t *testing.T) {
	for coats := 1; coats <= 9; coats++ {
		for _, bands := range []Bands{Straight, Corner} {
			tiles := Tiles{WidthMM: 45, HeightMM: 95, Coats: coats, Bands: bands}
			last := map[bool]float64{false: tiles.Dip(), true: tiles.Dip()}
			for k, c := range tiles.Dips() {
				if c.MM <= 0 || c.MM > last[c.Across] {
					t.Errorf("%d coats, %s: coat %d covers %g mm after %g", coats, bands, k+1, c.MM, last[c.Across])
				}
				last[c.Across] = c.MM
			}
		}
	}
}

func TestDishMM(t *testing.T) {
	tile := Tiles{WidthMM: 40, HeightMM: 80, ThicknessMM: 9, Coats: 2}
	if got := tile.DishMM(); got != 41 { // 9, 40, 41
		t.Errorf("straight: %g mm, want 41", got)
	}
	tile.Bands, tile.ThicknessMM = Corner, 18
	if got := tile.DishMM(); got != 82 { // twice 9, 40, 41
		t.Errorf("corner: %g mm, want 82", got)
	}
}
