package plan

import (
	"regexp"
	"slices"
	"strings"

	"pourboard/blend/oxide"
	"pourboard/blend/quantity"
)

// tiles checks [tiles].
func (f fields) tiles() {
	t, size := &f.d.Tiles, f.d.Tile
	t.Size, t.WidthMM, t.HeightMM = size.Name, size.W, size.H
	if t.DipMM > t.HeightMM && t.HeightMM > 0 {
		f.wrong("dip", "is longer than the tile", "at most its height, "+number(t.HeightMM)+" mm")
	}
}

// board checks [board].
func (f fields) board() {
	b, paper := &f.d.Board, f.d.Paper
	b.Paper, b.PaperW, b.PaperH = paper.Name, paper.W, paper.H
	b.Shuffle = f.d.Order == "random"
	if !b.Shuffle {
		b.Seed = 0
	}
	if !b.Shuffle && f.has("seed") {
		f.caution(f.at("seed"), "seed", "is not used; the tiles lie in the order of the plan",
			`order = "random" to shuffle them`)
	}
}

// labels checks [labels].
func (f fields) labels() {
	if !f.given() {
		return
	}
	l, sheet := &f.d.Stock, f.d.LabelSheet
	f.d.Plan.Labels = l
	if sheet.Name == "" {
		// Labels are sold on office paper sizes; the board's may be others.
		usual := "A4"
		if slices.Contains([]string{"Letter", "Legal", "Tabloid"}, f.d.Paper.Name) {
			usual = "Letter"
		}
		sheet, _ = quantity.ReadPaper(usual)
	}
	l.Sheet, l.SheetW, l.SheetH = sheet.Name, sheet.W, sheet.H
	fit := func(key string, n int, margin, side, gap, sheet float64, is string) {
		const hair = 0.05 // mm: makers of sheets round
		reach := margin + float64(n)*side + float64(n-1)*gap
		if n > 0 && reach > sheet+hair {
			many := quantity.Plural(n, strings.TrimSuffix(key, "s"), key)
			f.problem(f.at(key), many+" of labels reach to "+quantity.AtMost(reach, 2)+" mm",
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
func (f fields) log() {
	seen := map[string]bool{}
	column := func(key, name string) {
		if isLogColumn(name) || seen[quantity.Fold(name)] {
			f.problem(f.lineOf(key, name), "the log has a column "+quote(name)+" already", "another name")
		}
		seen[quantity.Fold(name)] = true
	}
	for _, name := range f.d.Log.Numbers {
		column("numbers", name)
	}
	if f.d.Log.Block != "" {
		column("block", f.d.Log.Block)
	}
}

// chemistry checks [chemistry].
func (f fields) chemistry() {
	var known []string
	for _, o := range oxide.Oxides() {
		known = append(known, string(o))
	}
	for _, name := range f.d.Chemistry.Maps {
		if !slices.Contains(known, name) {
			f.problem(f.lineOf("maps", name), quote(name)+" is not an oxide", meantText(name, known))
		}
	}
}

// pours checks every [[poured]].
func (r *reader) pours() {
	for _, it := range r.d.items["poured"] {
		q := &it.Poured
		q.Line = it.group.line
		switch {
		case it.PouredGlaze != "":
			q.Glaze = it.glazeNamed(it.PouredGlaze, "glaze")
		case r.d.Blend.HasSeries():
			q.Glaze = r.d.Blend.Base
		case !it.has("glaze"):
			r.missing(q.Line, "[[poured]] has no glaze", "which of the end glazes it was: "+it.s.find("glaze").line())
		}
		r.d.Poured = append(r.d.Poured, *q)
	}
}
