package blend

import (
	"math"
	"os"
	"strings"
	"testing"
)

// The default and its range are those of the reference file.
func TestPickup_reference(t *testing.T) {
	text, err := os.ReadFile("../testdata/reference/pickup.toml")
	if err != nil {
		t.Fatal(err)
	}
	for _, line := range []string{"dry_g_per_cm2_per_coat = 0.06", "dry_g_per_cm2_low = 0.03", "dry_g_per_cm2_high = 0.12"} {
		if !strings.Contains(string(text), line) {
			t.Errorf("the reference does not say %q", line)
		}
	}
	if usualPickup != 0.06 || PickupLow != 0.03 || PickupHigh != 0.12 {
		t.Error("the figures of the code are others")
	}
}

// By hand: a tile of 50 x 100 x 6 mm, coats of 67, 44.67 and 22.33 mm. Areas are
// 2·56·L + 300 mm²: 78.04, 53.03 and 28.01 cm², in all 159.08 cm², 9.545 g of
// dry glaze a tile. 15 tiles take 143.2 g, and 140 mL hold a hundred.
func TestRunsShort(t *testing.T) {
	p := planOf(designs()["series"])
	p.Tiles = Tiles{Bodies: []string{"A", "B", "C", "D", "E"}, WidthMM: 50, HeightMM: 100, Coats: 3, Repeats: 3}
	test, err := New(p)
	if err != nil {
		t.Fatal(err)
	}
	n, ok := noteOf[RunsShort](test)
	if !ok || n.Tiles != 15 || len(n.Cups) != len(test.Cells) {
		t.Fatalf("%+v, want a note of all cups with 15 tiles", n)
	}
	c := test.Cells[0].Got
	area := (2*56*67+300)/100. + (2*56*67*2/3.+300)/100 + (2*56*67/3.+300)/100
	if want := 15 * area * 0.06 / (c.DryG / c.ML); math.Abs(n.TakenML-want) > 1e-6 {
		t.Errorf("%g mL are taken, by hand %g", n.TakenML, want)
	}
	// What is proposed is enough, and little less is not.
	p.Cup = Cup{Size: Amount{n.NeedML + 10, Volume}}
	if test, err = New(p); err != nil {
		t.Fatal(err)
	}
	if n, ok := noteOf[RunsShort](test); ok {
		t.Errorf("the size proposed runs short: %+v", n)
	}
	p.Cup.Size.Value = n.NeedML - 25
	if test, err = New(p); err != nil {
		t.Fatal(err)
	}
	if _, ok := noteOf[RunsShort](test); !ok {
		t.Errorf("%g mL are enough where %g are asked for", p.Cup.Size.Value, n.NeedML)
	}
	// Two tiles out of the same cups are no matter.
	p.Cup, p.Tiles.Bodies, p.Tiles.Repeats = Cup{Size: Amount{100, Dry}}, []string{"A", "B"}, 1
	if test, err = New(p); err != nil {
		t.Fatal(err)
	}
	if n, ok := noteOf[RunsShort](test); ok {
		t.Errorf("two tiles run short: %+v", n)
	}
}

// A proposed cup takes the tile: 50 x 6 mm is 50.36 mm across, and a cup of 50.6
// mm rounded down to 50 does not.
func TestShallow_widest(t *testing.T) {
	p := planOf(designs()["series"])
	p.Cup.DiameterMM, p.Kit.Pour.Size = 75, 0.1
	p.Tiles = Tiles{Bodies: []string{"Buff"}, WidthMM: 50, HeightMM: 100, Coats: 1, DipMM: 80, Repeats: 1}
	for ml := 80.0; ml < 300; ml += 0.7 {
		p.Cup.Size = Amount{ml, Volume}
		test, err := New(p)
		if err != nil {
			t.Fatal(err)
		}
		if n, ok := noteOf[ShallowCup](test); ok && n.WidestMM > 0 && n.WidestMM < math.Hypot(50, 6) {
			t.Errorf("%g mL: a cup %g mm wide is proposed, into which the tile does not go", ml, n.WidestMM)
		}
	}
}

// 9 % of cobalt carbonate is unusual, and over ten cups it is 0.9 %: the dose of
// the batch in one cup. 2 % is usual (testdata/reference/usual_percentages.csv).
