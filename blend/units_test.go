package blend

import "testing"

// TestPerShare checks that what a unit of share brings makes the pours of
// every design, and that the cup then has the size that is asked.
func TestPerShare(t *testing.T) {
	for name, b := range designs() {
		p := planOf(b)
		for _, of := range []Basis{Dry, Volume, Weight} {
			p.Cup = Cup{Size: Amount{150, of}}
			test, err := New(p)
			if err != nil {
				t.Fatalf("%s: %v", name, err)
			}
			for _, c := range test.Cells {
				whole := 0.0
				for e, x := range c.Shares {
					_, cup := test.PerShare(e)
					whole += x * cup
				}
				for e, x := range c.Shares {
					ml, _ := test.PerShare(e)
					if got := 150 * x * ml / whole; !close(got, c.Pours[e].ML) {
						t.Errorf("%s, cup of %s, cell %d: %g mL of end %d, want %g", name, of, c.Number, got, e, c.Pours[e].ML)
					}
				}
			}
		}
	}
}
