package plan

import (
	"slices"
	"strconv"
	"strings"

	"pourboard/blend/oxide"
	"pourboard/blend/quantity"
	"pourboard/blend/spell"
)

// tiles checks [tiles].
func (f fields) tiles(d *draft) {
	t := &d.plan.Tiles
	t.Bodies = d.bodies.names
	if t.DipMM > t.HeightMM && t.HeightMM > 0 {
		f.problem(f.at("dip"), f.shown("dip")+" is longer than the tile", "at most its height, "+number(t.HeightMM)+" mm")
	}
}

// board checks [board].
func (f fields) board(d *draft) {
	b := &d.plan.Board
	b.Shuffle = d.order == "random"
	switch {
	case b.Shuffle && f.has("seed"):
		b.Seed = uint64(d.seed)
	case b.Shuffle:
		b.Seed = 1
	case f.has("seed"):
		f.caution(f.at("seed"), "seed", "is not used", "the tiles lie in the order of the plan", `order = "random" to shuffle them`)
	}
}

// sheetOfLabels checks [labels].
func (f fields) sheetOfLabels(d *draft) {
	if f.t == nil {
		return
	}
	l := &d.labels
	if l.Sheet == "" {
		// Labels are sold on the sheets that an office has, whatever the board's are.
		usual := "A4"
		if slices.Contains([]string{"Letter", "Legal", "Tabloid"}, d.plan.Board.Paper) {
			usual = "Letter"
		}
		if size, err := quantity.ReadPaper(usual); err == nil {
			l.Sheet, l.SheetW, l.SheetH = size.Name, size.W, size.H
		}
	}
	const hair = 0.05 // mm: makers of sheets round
	right := l.LeftMM + float64(l.Columns)*l.WidthMM + float64(l.Columns-1)*l.GapXMM
	if l.Columns > 0 && right > l.SheetW+hair {
		f.problem(f.at("columns"), plural(l.Columns, "column")+" of labels reach to "+number(rounded(right))+" mm", "the sheet, "+l.Sheet+", is "+number(l.SheetW)+" mm wide")
	}
	bottom := l.TopMM + float64(l.Rows)*l.HeightMM + float64(l.Rows-1)*l.GapYMM
	if l.Rows > 0 && bottom > l.SheetH+hair {
		f.problem(f.at("rows"), plural(l.Rows, "row")+" of labels reach to "+number(rounded(bottom))+" mm", "the sheet, "+l.Sheet+", is "+number(l.SheetH)+" mm high")
	}
	d.plan.Labels = l
}

// rounded is a length as it is spoken of, in hundredths of a mm.
func rounded(mm float64) float64 { return quantity.Shift(float64(int64(mm*100+0.5)), -2) }

// log checks [log].
func (f fields) log(d *draft) {
	d.plan.Log.Numbers, d.logAt = d.numbers.names, f.at("check")
	for i, name := range d.numbers.names {
		if taken(name) {
			f.problem(d.numbers.lines[i], "the log has a column "+quote(name)+" already", "another name")
		}
	}
	block := d.plan.Log.Block
	if block != "" && (taken(block) || slices.ContainsFunc(d.numbers.names, func(n string) bool { return fold(n) == fold(block) })) {
		f.problem(f.at("block"), "the log has a column "+quote(block)+" already", "another name")
	}
}

// taken reports whether the log has a column of that name of its own.
func taken(name string) bool {
	name = fold(name)
	if n, found := strings.CutPrefix(name, "coat"); found {
		if _, err := strconv.Atoi(strings.TrimSpace(n)); err == nil {
			return true
		}
	}
	return slices.Contains([]string{
		"mark", "cup", "cell", "body", "repeat", "place", "surface", "defects", "colour", "rating", "photograph", "notes", "firing",
	}, name)
}

// chemistry checks [chemistry].
func (f fields) chemistry(d *draft) {
	var known []string
	for _, o := range oxide.Oxides() {
		known = append(known, string(o))
	}
	for i, name := range d.maps.names {
		if !oxide.Oxide(name).Known() {
			right := `a formula such as "SiO2" or "CaO"`
			if near := spell.Nearest(name, known); near != "" {
				right = "did you mean " + quote(near) + "?"
			}
			f.problem(d.maps.lines[i], quote(name)+" is not an oxide", right)
		}
	}
	d.plan.Chemistry.Maps = d.maps.names
}

// pours checks every [[poured]].
func (r *reader) pours(d *draft) {
	p := d.plan
	for _, q := range d.pours {
		f := q.fields
		q.Line = f.line
		q.Amount, q.Unit = q.amount.Size, q.amount.Unit
		switch {
		case f.has("glaze") && q.glaze != "":
			q.Glaze = f.find(d, q.glaze, f.at("glaze"), "glaze")
		case p.Blend.HasSeries():
			q.Glaze = p.Blend.Base
		default:
			f.missing(f.line, "[[poured]] has no glaze", "which of the end glazes it was: glaze = "+exampleEnd(d))
		}
		p.Poured = append(p.Poured, q.Poured)
	}
}

// exampleEnd is the first end glaze in quotes.
func exampleEnd(d *draft) string {
	if len(d.ends.names) > 0 {
		return quote(d.ends.names[0])
	}
	return `"Magnesia matt"`
}
