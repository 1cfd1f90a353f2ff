package text

import (
	"io"
	"strconv"

	"pourboard/blend"
	"pourboard/blend/quantity"
	"pourboard/render/wording"
)

// Methods prints the methods of a series side by side; of a design without a
// series there is nothing to print.
func Methods(w io.Writer, p *blend.Plan, a blend.Advice) error {
	if len(a.Options) == 0 {
		return nil
	}
	g := grid{left: []bool{true}}
	g.add()
	g.add("method", "worst ±", "in cup", "weighings", "smallest amount", "water in a cup")
	g.rule()
	for _, o := range a.Options {
		name := string(o.Method)
		if o.Method == p.Blend.Method {
			name += " (the plan's)"
		}
		g.add(name, quantity.FractionText(o.Worst), strconv.Itoa(o.Cell), strconv.Itoa(o.Weighings), wording.Smallest(o), quantity.VolumeText(o.WaterML)+" mL")
	}
	return g.write(w)
}
