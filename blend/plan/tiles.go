package plan

import (
	"math"
	"regexp"
	"slices"
	"strings"

	"pourboard/blend"
	"pourboard/blend/measure"
	"pourboard/blend/oxide"
	"pourboard/blend/quantity"
)

// tiles checks [tiles].
func (f fields) tiles(d *draft) {
	t := &d.plan.Tiles
	t.Size, t.WidthMM, t.HeightMM = d.tile.Name, d.tile.W, d.tile.H
	if t.DipMM > t.HeightMM && t.HeightMM > 0 {
		f.wrong("dip", "is longer than the tile", "at most its height, "+number(t.HeightMM)+" mm")
	}
}

// board checks [board].
func (f fields) board(d *draft) {
	b := &d.plan.Board
	b.Paper, b.PaperW, b.PaperH = d.paper.Name, d.paper.W, d.paper.H
	b.Shuffle = d.order == "random"
	switch {
	case b.Shuffle && f.has("seed"):
		b.Seed = uint64(d.seed)
	case b.Shuffle:
		b.Seed = 1
	case f.has("seed"):
		f.caution(f.at("seed"), "seed", "is not used; the tiles lie in the order of the plan", `order = "random" to shuffle them`)
	}
}

// sheetOfLabels checks [labels].
func (f fields) sheetOfLabels(d *draft) {
	if f.t == nil {
		return
	}
	l := &d.labels
	d.plan.Labels = l
	sheet := d.labelSheet
	if sheet.Name == "" {
		// Labels are sold on office paper sizes; the board's may be others.
		usual := "A4"
		if slices.Contains([]string{"Letter", "Legal", "Tabloid"}, d.paper.Name) {
			usual = "Letter"
		}
		sheet, _ = quantity.ReadPaper(usual)
	}
	l.Sheet, l.SheetW, l.SheetH = sheet.Name, sheet.W, sheet.H
	fit := func(key string, n int, margin, side, gap, sheet float64, is string) {
		const hair = 0.05 // mm: makers of sheets round
		reach := margin + float64(n)*side + float64(n-1)*gap
		if n > 0 && reach > sheet+hair {
			f.problem(f.at(key), quantity.Plural(n, strings.TrimSuffix(key, "s"), key)+" of labels reach to "+number(math.Round(reach*100)/100)+" mm",
				"the sheet, "+l.Sheet+", is "+number(sheet)+" mm "+is)
		}
	}
	fit("columns", l.Columns, l.LeftMM, l.WidthMM, l.GapXMM, l.SheetW, "wide")
	fit("rows", l.Rows, l.TopMM, l.HeightMM, l.GapYMM, l.SheetH, "high")
}

// logColumn is the name of a column that every log has.
var logColumn = regexp.MustCompile(
	`^(mark|cup|cell|body|repeat|place|surface|defects|colour|rating|photograph|notes|firing|coat *\d+)$`)

func isLogColumn(name string) bool { return logColumn.MatchString(quantity.Fold(name)) }

// log checks [log].
func (f fields) log(d *draft) {
	taken := func(name string, line int) {
		f.problem(line, "the log has a column "+quote(name)+" already", "another name")
	}
	block := d.plan.Log.Block
	twice := isLogColumn(block)
	for _, name := range d.plan.Log.Numbers {
		if isLogColumn(name) {
			taken(name, f.lineOf("numbers", name))
		}
		twice = twice || quantity.Fold(name) == quantity.Fold(block)
	}
	if twice {
		taken(block, f.at("block"))
	}
}

// chemistry checks [chemistry].
func (f fields) chemistry(d *draft) {
	var known []string
	for _, o := range oxide.Oxides() {
		known = append(known, string(o))
	}
	for _, name := range d.plan.Chemistry.Maps {
		if !slices.Contains(known, name) {
			f.problem(f.lineOf("maps", name), quote(name)+" is not an oxide", meantText(name, known))
		}
	}
}

// pours checks every [[poured]].
func (r *reader) pours(d *draft) {
	p := d.plan
	for _, it := range d.items["poured"] {
		f, q := it.fields, &it.poured
		q.Line = f.line
		q.Amount = blend.Amount{Value: it.pouredAmount.Size, Of: blend.Volume}
		if it.pouredAmount.Unit == measure.Gram {
			q.Amount.Of = blend.Weight
		}
		switch {
		case it.pouredGlaze != "":
			q.Glaze = f.glazeNamed(d, it.pouredGlaze, f.at("glaze"), "glaze")
		case p.Blend.HasSeries():
			q.Glaze = p.Blend.Base
		case !f.has("glaze"):
			f.missing(f.line, "[[poured]] has no glaze", "which of the end glazes it was: "+f.s.find("glaze").line())
		}
		p.Poured = append(p.Poured, *q)
	}
}
