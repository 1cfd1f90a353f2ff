package text

import (
	"encoding/csv"
	"io"
	"strings"

	"pourboard/blend"
	"pourboard/blend/quantity"
	"pourboard/render/wording"
)

// CSV writes the pour card: a row for each cup, and for each glaze and each
// colourant the columns asked, to pour or weigh, and comes to. Decimal points
// and commas are those of RFC 4180, whatever the locale.
func CSV(w io.Writer, t *blend.Test) error {
	columns := cardColumns(t)
	out := csv.NewWriter(w)
	out.Write(list(columns, func(c column) string { return safeCell(c.head) }))
	for _, cell := range t.Cells {
		out.Write(list(columns, func(c column) string { return c.text(cell) }))
	}
	out.Flush()
	return out.Error()
}

// cardColumns are the columns of a test's pour card. Shares of one base, or of
// the glazes that make a series by pouring, are no percentages that anyone asked.
func cardColumns(t *blend.Test) []column {
	columns := []column{{"cup", cupNumber}}
	add := func(head string, text func(c blend.Cell) string) { columns = append(columns, column{head, text}) }
	blended, kit, method := !t.Plan.Blend.HasSeries(), t.Plan.Kit, t.Plan.Blend.Method
	unless := func(none bool, instead, text string) string {
		if none {
			return instead
		}
		return text
	}
	for e, end := range t.Ends {
		if blended {
			add(end.Name+" asked %", func(c blend.Cell) string { return quantity.PercentText(c.Pours[e].Percent) })
		}
		add(end.Name+" pour "+string(kit.Pour.Unit), func(c blend.Cell) string {
			return unless(c.Pours[e].Steps == 0, "0", wording.PourText(t, c.Pours[e]))
		})
		if kit.OnScale() && len(t.Ends) > 1 {
			add(end.Name+" scale reads g", func(c blend.Cell) string {
				return unless(c.Pours[e].Steps == 0, "", kit.Pour.Format(c.Pours[e].Reading))
			})
		}
		if blended {
			add(end.Name+" comes to %",
				func(c blend.Cell) string { return quantity.PercentText(c.Pours[e].GotPercent) })
		}
	}
	for s, series := range t.Plan.Blend.Series {
		name, do := series.Material, " weigh "
		add(name+" asked %", func(c blend.Cell) string { return quantity.PercentText(c.Doses[s].Percent) })
		if method == blend.ByStock {
			do = " draw "
			add(name+" bottle", func(c blend.Cell) string {
				return unless(c.Doses[s].Steps == 0, "", t.Stocks[c.Doses[s].Stock].Label)
			})
		}
		if method != blend.ByPour {
			add(name+do+string(t.DoseUnit()), func(c blend.Cell) string {
				return unless(c.Doses[s].Steps == 0, "0", wording.DoseText(t, c.Doses[s]))
			})
		}
		add(name+" comes to %", func(c blend.Cell) string { return quantity.AtMost(c.Doses[s].GotPercent, 3) })
	}
	return columns
}

// safeCell keeps text from becoming a formula when a spreadsheet opens the
// CSV: text that begins like one gets an apostrophe before it.
func safeCell(s string) string {
	if s = oneLine(s); s != "" && strings.ContainsRune("=+-@'", rune(s[0])) {
		return "'" + s
	}
	return s
}
