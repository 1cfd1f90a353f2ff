package text

import (
	"encoding/csv"
	"io"
	"strconv"

	"pourboard/blend"
	"pourboard/blend/quantity"
	"pourboard/render/wording"
)

// CSV writes the pour card: a row for each cup, and for each glaze and each
// colourant the columns asked, to pour or weigh, and comes to. Decimal points
// and commas are those of RFC 4180, whatever the locale.
func CSV(w io.Writer, t *blend.Test) error {
	out := csv.NewWriter(w)
	columns := cardColumns(t)
	row := make([]string, len(columns))
	for i, c := range columns {
		row[i] = c.head
	}
	out.Write(row)
	for i := range t.Cells {
		for k, c := range columns {
			row[k] = c.text(&t.Cells[i])
		}
		out.Write(row)
	}
	out.Flush()
	return out.Error()
}

// cardColumns are the columns of a test's pour card. Shares of one base, or of
// the glazes that make a series by pouring, are no percentages that anyone asked.
func cardColumns(t *blend.Test) []column {
	columns := []column{{"cup", func(c *blend.Cell) string { return strconv.Itoa(c.Number) }}}
	add := func(head string, text func(c *blend.Cell) string) {
		columns = append(columns, column{safeCell(head), text})
	}
	blended := !t.Plan.Blend.HasSeries()
	kit := t.Plan.Kit
	for e, end := range t.Ends {
		if blended {
			add(end.Name+" asked %", func(c *blend.Cell) string { return quantity.PercentText(c.Pours[e].Percent) })
		}
		add(end.Name+" pour "+string(kit.Pour.Unit), func(c *blend.Cell) string {
			if c.Pours[e].Steps == 0 {
				return "0"
			}
			return wording.PourText(t, c.Pours[e])
		})
		if t.Plan.Kit.OnScale() && len(t.Ends) > 1 {
			add(end.Name+" scale reads g", func(c *blend.Cell) string {
				if c.Pours[e].Steps == 0 {
					return ""
				}
				return kit.Pour.Format(c.Pours[e].Reading)
			})
		}
		if blended {
			add(end.Name+" comes to %", func(c *blend.Cell) string { return quantity.PercentText(c.Pours[e].GotPercent) })
		}
	}
	for s, series := range t.Plan.Blend.Series {
		name := series.Material
		add(name+" asked %", func(c *blend.Cell) string { return quantity.PercentText(c.Doses[s].Percent) })
		if t.Plan.Blend.Method != blend.ByPour {
			do := " weigh "
			if t.Plan.Blend.Method == blend.ByStock {
				do = " draw "
				add(name+" bottle", func(c *blend.Cell) string {
					if c.Doses[s].Steps == 0 {
						return ""
					}
					return t.StockLabel(c.Doses[s].Stock)
				})
			}
			add(name+do+string(t.DoseUnit()), func(c *blend.Cell) string {
				if c.Doses[s].Steps == 0 {
					return "0"
				}
				return wording.DoseText(t, c.Doses[s])
			})
		}
		add(name+" comes to %", func(c *blend.Cell) string { return quantity.AtMost(c.Doses[s].GotPercent, 3) })
	}
	return columns
}

// safeCell keeps text from becoming a formula when a spreadsheet opens the
// CSV: text that begins like one gets an apostrophe before it.
func safeCell(s string) string {
	s = oneLine(s)
	if s != "" {
		switch s[0] {
		case '=', '+', '-', '@', '\'':
			return "'" + s
		}
	}
	return s
}
