package wording

import (
	"fmt"
	"strings"

	"pourboard/blend"
	"pourboard/blend/measure"
	"pourboard/blend/quantity"
)

// AmountText is an amount of glaze: "100 g dry", "180 mL", "250 g of wet glaze".
func AmountText(a blend.Amount) string {
	text := quantity.PercentText(a.Value)
	switch a.Of {
	case blend.Volume:
		return text + " " + string(measure.Millilitre)
	case blend.Weight:
		return text + " g of wet glaze"
	default:
		return text + " g dry"
	}
}

// BasisText says what a basis counts: "of dry glaze".
func BasisText(b blend.Basis) string {
	switch b {
	case blend.Volume:
		return "of volume"
	case blend.Weight:
		return "of wet weight"
	default:
		return "of dry glaze"
	}
}

// Summary is a test in one line: "triaxial, 28 cups, 100 g dry each; shares of
// dry glaze".
func Summary(t *blend.Test) string {
	p := t.Plan
	cups := "cups"
	if len(t.Cells) == 1 {
		cups = "cup"
	}
	text := fmt.Sprintf("%s, %d %s, %s each", p.Blend.Kind, len(t.Cells), cups, AmountText(p.Cup.Size))
	if p.Blend.HasSeries() {
		return text + " of base; percentages of the cup's dry glaze"
	}
	return text + "; shares " + BasisText(p.Blend.Basis)
}

// Contents says in a line what is in a cup, by name: "50 % Magnesia matte, 50 %
// Wood ash", "0.25 % Cobalt carbonate asked, none made; 2 % Rutile".
func Contents(t *blend.Test, c blend.Cell) string {
	var parts []string
	if !t.Plan.Blend.HasSeries() {
		for e, x := range c.Shares {
			if x > 0 {
				parts = append(parts, quantity.Held(shareAskedMade(c, e), t.Ends[e].Name))
			}
		}
		return quantity.Together(parts)
	}
	rows := t.Plan.Blend.Kind == blend.Rows
	for s, d := range c.Doses {
		if !rows || d.Percent > 0 {
			parts = append(parts, quantity.Held(doseAskedMade(d), t.Plan.Blend.Series[s].Material))
		}
	}
	if parts == nil {
		return "the base alone"
	}
	return quantity.Together(parts)
}

// Parts is a cup of a list as its maker wrote it: "2 : 1".
func Parts(parts []float64) string {
	texts := make([]string, len(parts))
	for i, x := range parts {
		texts[i] = quantity.PercentText(x)
	}
	return strings.Join(texts, " : ")
}

// RepeatOf says which cup a cup makes again.
func RepeatOf(c blend.Cell) string { return fmt.Sprintf("repeat of %d", c.Repeats) }

// Repeats names the cups that make others again in a line, "" for none.
func Repeats(t *blend.Test) string {
	var list []string
	for _, c := range t.Cells {
		if c.Repeats > 0 {
			list = append(list, fmt.Sprintf("%d of %d", c.Number, c.Repeats))
		}
	}
	if list == nil {
		return ""
	}
	return "repeats: " + strings.Join(list, ", ")
}

// DosePercent is the percentage asked of a dose.
func DosePercent(d blend.Dose) string { return quantity.DosePercentText(d.Percent, d.PlusMinus) }

// doseAskedMade is the percentage of a dose, asked and made: "0.5 %",
// "0.25 % asked, none made", "0.5 % asked, 0.83 made".
func doseAskedMade(d blend.Dose) string {
	return quantity.AskedAndMade(DosePercent(d), quantity.MadeText(d.GotPercent), d.AsMade)
}

// DoseBrief is doseAskedMade where there is little room: what is made where that
// differs noticeably, "none" or "0.83 %", otherwise what is asked.
func DoseBrief(d blend.Dose) string {
	return quantity.Brief(DosePercent(d), quantity.MadeText(d.GotPercent), d.AsMade)
}

// SharePercent is the share asked of an end glaze, in percent: "33.3".
func SharePercent(p blend.Pour) string { return quantity.AtMost(p.Percent, 1) }

// shareMade is the share that the measured pours make, in percent.
func shareMade(p blend.Pour) string {
	if p.Steps == 0 {
		return quantity.Nothing
	}
	return quantity.AtMost(p.GotPercent, 1)
}

// shareAskedMade is doseAskedMade for the share of an end glaze.
func shareAskedMade(c blend.Cell, end int) string {
	p := c.Pours[end]
	return quantity.AskedAndMade(SharePercent(p), shareMade(p), c.MadeOther(end))
}

// ShareBrief is DoseBrief for the share of an end glaze.
func ShareBrief(c blend.Cell, end int) string {
	p := c.Pours[end]
	return quantity.Brief(SharePercent(p), shareMade(p), c.MadeOther(end))
}
