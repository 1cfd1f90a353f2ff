package text

import (
	"io"
	"strconv"

	"pourboard/blend"
	"pourboard/blend/quantity"
	"pourboard/render/wording"
)

// Methods prints the ways of measuring a test side by side. Where nothing can
// be off there is nothing to print.
func Methods(w io.Writer, a blend.Advice) error {
	if a.Planned.Worst == 0 {
		return nil
	}
	heads := []string{"by", "largest ±", "in cup", "weighings"}
	series := a.Options[0].Method != ""
	if series {
		heads = append(heads, "smallest amount", "water in a cup")
	}
	g := table("l", heads...)
	for _, o := range a.Options {
		row := []string{wording.OptionName(o), quantity.FractionText(o.Worst), strconv.Itoa(o.Cell),
			strconv.Itoa(o.Weighings)}
		if series {
			row = append(row, wording.Smallest(o), quantity.VolumeText(o.WaterML)+" mL")
		}
		g.add(row...)
	}
	var p printer
	p.line("")
	p.grid(g)
	return p.to(w)
}
