package text

import (
	"encoding/csv"
	"io"
	"strconv"

	"pourboard/blend"
	"pourboard/render/wording"
)

// CSV writes a row for each pour and each dose of every cup; a dose that is
// poured from a stock suspension has the label of its bottle. Decimal points
// and commas are those of RFC 4180, whatever the locale.
func CSV(w io.Writer, t *blend.Test) error {
	out := csv.NewWriter(w)
	out.Write([]string{"cup", "what", "name", "asked_percent", "exact", "measured", "unit", "scale_reading", "made_percent", "plus_minus_percent", "bottle"})
	for _, c := range t.Cells {
		for e, p := range c.Pours {
			if p.ML == 0 {
				continue
			}
			exact, reading := p.ML, ""
			if t.OnScale() {
				exact, reading = p.G, wording.ReadingText(t, p)
			}
			out.Write([]string{strconv.Itoa(c.Number), "pour", safeCell(t.Ends[e].Name), figure(100 * c.Shares[e]), figure(exact),
				wording.PourText(t, p), string(t.Plan.Kit.Pour.Unit), reading, figure(100 * p.GotShare), figure(100 * p.PlusMinus), ""})
		}
		for s, d := range c.Doses {
			if d.Percent == 0 || t.Plan.Blend.Method == blend.ByPour {
				continue
			}
			exact, measured, bottle := d.G, wording.DoseText(t, d), ""
			if t.Plan.Blend.Method == blend.ByStock {
				exact, bottle = d.ML, t.StockLabel(d.Stock)
			}
			if d.None() {
				measured, bottle = "0", "" // it is a column of numbers; the column made_percent says it too
			}
			out.Write([]string{strconv.Itoa(c.Number), "dose", safeCell(t.Plan.Blend.Series[s].Material), figure(d.Percent), figure(exact),
				measured, string(t.DoseUnit()), "", figure(d.GotPercent), figure(d.PlusMinus), bottle})
		}
	}
	out.Flush()
	return out.Error()
}

func figure(x float64) string {
	text, _ := number(x).MarshalJSON()
	return string(text)
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
