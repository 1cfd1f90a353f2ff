package wording

import (
	"fmt"
	"strings"

	"pourboard/blend"
	"pourboard/blend/quantity"
)

// runsShort says that a cup may not cover its last tile.
func runsShort(n blend.RunsShort) Line {
	why := fmt.Sprintf("each coat is taken to hold %s g of dry glaze per cm²", quantity.AtMost(n.PickupG, 3))
	if n.Rough {
		why += fmt.Sprintf(", a rough figure (%s to %s); weigh a tile before and after, and set pickup", quantity.AtMost(blend.PickupLow, 3), quantity.AtMost(blend.PickupHigh, 3))
	}
	return line(quantity.Cups(n.Cups, mostCups),
		fmt.Sprintf("may run short: %s of %s take about %s mL of %s mL, and the last must still be covered",
			quantity.Plural(n.Tiles, "tile", "tiles"), quantity.Plural(n.Coats, "coat", "coats"), quantity.Fixed(n.TakenML, 0), quantity.Fixed(n.ML, 0)),
		why, fmt.Sprintf("use at least %s mL a cup", quantity.Fixed(n.NeedML, 0)))
}

// unusual says that a percentage is above what is usual, and which mistake it
// looks like.
func unusual(n blend.Unusual) Line {
	of := ""
	if n.Glaze != "" {
		of = " in " + n.Glaze
	}
	from := "common practice"
	if len(n.Usual.Sources) > 0 {
		from = strings.Join(n.Usual.Sources, "; ")
	}
	why := fmt.Sprintf("usual is %s to %s %% (%s)", quantity.PercentText(n.Usual.Low), quantity.PercentText(n.Usual.High), from)
	if n.Usual.Colourant == "" {
		why = "no usual figure is known for it"
	}
	l := line(n.Material+of, quantity.PercentText(n.Percent)+" % is unusually strong", why, "check the percentage")
	if n.BatchDose {
		l.Fix = fmt.Sprintf("is it the dose of the whole batch? Over %d cups it is %s %% each; give the percentage of one cup",
			n.Cups, quantity.AtMost(n.Percent/float64(n.Cups), 2))
	}
	return l
}
