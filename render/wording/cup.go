package wording

import (
	"cmp"
	"fmt"
	"strings"

	"pourboard/blend"
	"pourboard/blend/oxide"
	"pourboard/blend/quantity"
)

// AmountText is an amount of glaze: "100 g dry", "180 mL", "250 g of wet glaze".
func AmountText(a blend.Amount) string {
	unit := map[blend.Basis]string{blend.Volume: " mL", blend.Weight: " g of wet glaze"}[a.Of]
	return quantity.PlainText(a.Value) + cmp.Or(unit, " g dry")
}

// BasisText says what a basis counts: "of dry glaze".
func BasisText(b blend.Basis) string {
	of := map[blend.Basis]string{blend.Volume: "of volume", blend.Weight: "of wet weight"}[b]
	return cmp.Or(of, "of dry glaze")
}

// Summary is a test in one line: "triaxial, 28 cups, 100 g dry each; shares of
// dry glaze".
func Summary(t *blend.Test) string {
	p := t.Plan
	text := fmt.Sprintf("%s, %s, %s each", p.Blend.Kind, quantity.Plural(len(t.Cells), "cup", "cups"),
		AmountText(p.Cup.Size))
	if p.Blend.HasSeries() {
		return text + " of base; percentages of the cup's dry glaze"
	}
	return text + "; shares " + BasisText(p.Blend.Basis)
}

// Contents says in a line what is in a cup, by name: "50 % Magnesia matte, 50 %
// Wood ash", "0.25 % Cobalt carbonate asked, none made; 2 % Rutile".
func Contents(t *blend.Test, c blend.Cell) string {
	if t.Plan.Blend.HasSeries() {
		return dosesText(t, c, t.Plan.Blend.Kind != blend.Rows)
	}
	var parts []string
	for e, p := range c.Pours {
		if c.Shares[e] > 0 {
			parts = append(parts, askedAndMade(SharePercent(p), shareMade(p), c.MadeOther(e), t.Ends[e].Name))
		}
	}
	return together(parts)
}

// dosesText says in a line which doses are in a cup; zeros says that those of
// nothing are named too.
func dosesText(t *blend.Test, c blend.Cell, zeros bool) string {
	var parts []string
	for s, d := range c.Doses {
		if zeros || d.Percent > 0 {
			parts = append(parts, askedAndMade(DosePercent(d), quantity.MadeText(d.GotPercent), d.AsMade,
				t.Plan.Blend.Series[s].Material))
		}
	}
	return cmp.Or(together(parts), "the base alone")
}

// askedAndMade is a percentage of something: "0.5 % Rutile", or, where it is off
// target, "0.5 % Rutile asked, 0.83 made".
func askedAndMade(asked, made string, off bool, name string) string {
	if !off {
		return asked + " % " + name
	}
	return asked + " % " + name + " asked, " + made + " made"
}

// together joins what a cup holds to one line.
func together(parts []string) string {
	if text := strings.Join(parts, "; "); strings.Contains(text, " asked, ") {
		return text
	}
	return strings.Join(parts, ", ")
}

// Parts is a cup of a list as its maker wrote it: "2 : 1".
func Parts(parts []float64) string {
	texts := make([]string, len(parts))
	for i, x := range parts {
		texts[i] = quantity.PlainText(x)
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

// DoseBrief is the percentage of a dose where there is little room: what is made
// where that differs noticeably, "none" or "0.83 %", otherwise what is asked.
func DoseBrief(d blend.Dose) string {
	return brief(DosePercent(d), quantity.MadeText(d.GotPercent), d.AsMade)
}

func brief(asked, made string, off bool) string {
	switch {
	case !off:
		return asked + " %"
	case made == quantity.Nothing:
		return made
	}
	return made + " %"
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

// ShareBrief is DoseBrief for the share of an end glaze.
func ShareBrief(c blend.Cell, end int) string {
	p := c.Pours[end]
	return brief(SharePercent(p), shareMade(p), c.MadeOther(end))
}

// Traces names the oxides that a table of unity formulas has no column for, ""
// when there are none.
func Traces(traces []oxide.Oxide) string {
	var names []string
	for _, o := range traces {
		names = append(names, string(o))
	}
	if names == nil {
		return ""
	}
	return fmt.Sprintf("Traces, below %g mol in every cup: %s.", oxide.LeastMol, strings.Join(names, ", "))
}
