package blend

import (
	"strings"
	"testing"
)

// The depth that a cup must have is that of the coats that are dipped in it:
// what goes in by a long side that the cup is too narrow for has a dish.
func TestShallow(t *testing.T) {
	for _, c := range []struct {
		what  string
		tiles Tiles
		want  string // "" for deep enough
	}{
		// π/4·70² − 45·6 = 3578.5 mm²: 140 mL stand 39 mm high.
		{"straight", Tiles{WidthMM: 45, HeightMM: 90, Coats: 2, DipMM: 70}, "the first coat wants 70 mm"},
		{"straight and low", Tiles{WidthMM: 45, HeightMM: 90, Coats: 2, DipMM: 30}, ""},
		{"corner, by a long side alone", Tiles{WidthMM: 45, HeightMM: 90, Coats: 1, DipMM: 70, Bands: Corner}, ""},
		{"too wide", Tiles{WidthMM: 75, HeightMM: 90, Coats: 2}, "a tile 75 mm wide and 6 mm thick does not go into a cup of 70 mm"},
		{"too wide either way", Tiles{WidthMM: 75, HeightMM: 90, Coats: 2, Bands: Corner}, "a tile 75 mm wide and 6 mm thick does not go into a cup of 70 mm"},
		{"corner", Tiles{WidthMM: 45, HeightMM: 90, Coats: 2, DipMM: 70, Bands: Corner}, "coat 2 wants 70 mm"},
		{"corner, lying tile", Tiles{WidthMM: 90, HeightMM: 45, Coats: 2, DipMM: 35, Bands: Corner}, "coat 2 wants 70 mm"},
		{"corner, a wide cup for both", Tiles{WidthMM: 30, HeightMM: 60, Coats: 2, DipMM: 60, Bands: Corner}, "coat 2 wants 60 mm"},
	} {
		p := planOf(designs()["series"])
		p.Cup.DiameterMM = 70
		c.tiles.Bodies = p.Tiles.Bodies
		p.Tiles = c.tiles
		test, err := New(p)
		if err != nil {
			t.Fatal(err)
		}
		w, shallow := test.Shallow()
		if shallow != (c.want != "") || !strings.Contains(w.String(), c.want) {
			t.Errorf("%s: %v %s, want %q", c.what, shallow, w, c.want)
		}
	}
}
