package blend

import (
	"reflect"
	"testing"
)

// The depth that a cup must have is that of the coats that are dipped in it:
// what goes in by a long side that the cup is too narrow for has a dish.
func TestShallow(t *testing.T) {
	for _, c := range []struct {
		what  string
		tiles Tiles
		want  Note // its coat and depth, or the tile that does not go in; nil for deep enough
	}{
		// π/4·70² − 45·6 = 3578.5 mm²: 140 mL stand 39 mm high.
		{"straight", Tiles{WidthMM: 45, HeightMM: 90, Coats: 2, DipMM: 70}, ShallowCup{Coat: 1, WantMM: 70}},
		{"straight and low", Tiles{WidthMM: 45, HeightMM: 90, Coats: 2, DipMM: 30}, nil},
		{"corner, by a long side alone", Tiles{WidthMM: 45, HeightMM: 90, Coats: 1, DipMM: 70, Bands: Corner}, nil},
		{"too wide", Tiles{WidthMM: 75, HeightMM: 90, Coats: 2}, NarrowCup{75, 6, 70, 80}},
		{"too wide either way", Tiles{WidthMM: 75, HeightMM: 90, Coats: 2, Bands: Corner}, NarrowCup{75, 6, 70, 80}},
		{"corner", Tiles{WidthMM: 45, HeightMM: 90, Coats: 2, DipMM: 70, Bands: Corner}, ShallowCup{Coat: 2, WantMM: 70}},
		{"corner, lying tile", Tiles{WidthMM: 90, HeightMM: 45, Coats: 2, DipMM: 35, Bands: Corner}, ShallowCup{Coat: 2, WantMM: 70}},
		{"corner, a wide cup for both", Tiles{WidthMM: 30, HeightMM: 60, Coats: 2, DipMM: 60, Bands: Corner}, ShallowCup{Coat: 2, WantMM: 60}},
	} {
		p := planOf(designs()["series"])
		p.Cup.DiameterMM = 70
		c.tiles.Bodies = p.Tiles.Bodies
		p.Tiles = c.tiles
		test, err := New(p)
		if err != nil {
			t.Fatal(err)
		}
		var got Note
		if n, ok := noteOf[ShallowCup](test); ok {
			got = ShallowCup{Coat: n.Coat, WantMM: n.WantMM}
		} else if n, ok := noteOf[NarrowCup](test); ok {
			got = n
		}
		if !reflect.DeepEqual(got, c.want) {
			t.Errorf("%s: %+v, want %+v", c.what, got, c.want)
		}
	}
}
