package text

import (
	"encoding/csv"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"

	"pourboard/blend"
	"pourboard/blend/quantity"
	"pourboard/render/wording"
)

// CSV writes the pour card: a row for each cup, and for each glaze and each
// colourant the columns asked, to pour or weigh, and comes to. Decimal points
// and commas are those of RFC 4180, whatever the locale.
func CSV(w io.Writer, t *blend.Test) error {
	return writeCSV(w, list(t.Cells, func(c blend.Cell) object { return cardRow(t, c) }))
}

// cardRow is a cup's row of the pour card. Shares of one base, or of the glazes that
// make a series by pouring, are no percentages that anyone asked.
func cardRow(t *blend.Test, c blend.Cell) object {
	row := object{{"cup", c.Number}}
	add := func(head, text string) { row = append(row, field{head, text}) }
	blended, kit, method := !t.Plan.Blend.HasSeries(), t.Plan.Kit, t.Plan.Blend.Method
	for e, p := range c.Pours {
		name, amount, reading := t.Ends[e].Name, "0", ""
		if p.Steps != 0 {
			amount, reading = wording.PourText(t, p), kit.Pour.Format(p.Reading)
		}
		if blended {
			add(name+" asked %", quantity.PercentText(p.Percent))
		}
		add(name+" pour "+string(kit.Pour.Unit), amount)
		if kit.OnScale() && len(t.Ends) > 1 {
			add(name+" scale reads g", reading)
		}
		if blended {
			add(name+" comes to %", quantity.PercentText(p.GotPercent))
		}
	}
	for s, d := range c.Doses {
		name, do, amount, bottle := t.Plan.Blend.Series[s].Material, " weigh ", "0", ""
		if d.Steps != 0 {
			amount = wording.DoseText(t, d)
		}
		add(name+" asked %", quantity.PercentText(d.Percent))
		if method == blend.ByStock {
			if do = " draw "; d.Steps != 0 {
				bottle = t.Stocks[d.Stock].Label
			}
			add(name+" bottle", bottle)
		}
		if method != blend.ByPour {
			add(name+do+string(t.DoseUnit()), amount)
		}
		add(name+" comes to %", quantity.AtMost(d.GotPercent, 3))
	}
	return row
}

// writeCSV writes rows that have the same keys, with a column for each key; one whose
// value has names of its own has a column for each that any row has.
func writeCSV(w io.Writer, rows []object) error {
	type column struct {
		key  int // its place in a row
		head string
	}
	var of [][]column // by key
	cells := make([]map[column]string, len(rows))
	for i, row := range rows {
		cells[i] = map[column]string{}
		for k, f := range row {
			if k == len(of) {
				of = append(of, nil)
			}
			for _, c := range csvColumns(f) {
				at := column{k, c.key}
				cells[i][at] = csvText(c.value)
				if !slices.Contains(of[k], at) {
					of[k] = append(of[k], at)
				}
			}
		}
	}
	columns := slices.Concat(of...)
	var text strings.Builder // written in one piece, as a piece must not end within a character
	out := csv.NewWriter(&text)
	out.Write(list(columns, func(c column) string { return safeCell(c.head) }))
	for _, row := range cells {
		out.Write(list(columns, func(c column) string { return row[c] }))
	}
	out.Flush()
	_, err := io.WriteString(w, text.String())
	return err
}

// safeCell keeps text from becoming a formula when a spreadsheet opens the
// CSV: text that begins like one gets an apostrophe before it.
func safeCell(s string) string {
	if s = oneLine(s); s != "" && strings.ContainsRune("=+-@'", rune(s[0])) {
		return "'" + s
	}
	return s
}

// csvColumns are the columns of a key: one, or one for each of its names.
func csvColumns(f field) []field {
	prefix := map[string]string{
		"asked": "asked: ", "made": "made: ", "oxides": "oxide: ", "numbers": "number: ", "coats": "coat: ",
		"firing_log": "firing: ",
	}[f.key]
	switch v := f.value.(type) {
	case object:
		return list(v, func(named field) field { return field{prefix + named.key, named.value} })
	case []string:
		var all []field
		for k, text := range v {
			all = append(all, field{prefix + strconv.Itoa(k+1), text})
		}
		return all
	}
	return []field{f}
}

// csvText is a value in the CSV: a number with six digits after the point, nothing
// for one that is unknown.
func csvText(v any) string {
	switch v := v.(type) {
	case float64:
		if math.IsNaN(v) {
			return ""
		}
		return figure(math.Round(v*1e6) / 1e6)
	case string:
		return safeCell(v)
	}
	return fmt.Sprint(v)
}
