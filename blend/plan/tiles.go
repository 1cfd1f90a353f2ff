package plan

import (
	"math"
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
	if t.DipMM > t.HeightMM && t.HeightMM > 0 {
		f.wrong("dip", "is longer than the tile", "at most its height, "+number(t.HeightMM)+" mm")
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
	d.plan.Labels = l
	if l.Sheet == "" {
		// Labels are sold on office paper sizes; the board's may be others.
		usual := "A4"
		if slices.Contains([]string{"Letter", "Legal", "Tabloid"}, d.plan.Board.Paper) {
			usual = "Letter"
		}
		size, _ := quantity.ReadPaper(usual)
		l.Sheet, l.SheetW, l.SheetH = size.Name, size.W, size.H
	}
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

// log checks [log].
func (f fields) log(d *draft) {
	numbers, block := d.plan.Log.Numbers, d.plan.Log.Block
	taken := func(name string, line int) {
		f.problem(line, "the log has a column "+quote(name)+" already", "another name")
	}
	for _, name := range numbers {
		if isLogColumn(name) {
			taken(name, f.lineOf("numbers", name))
		}
	}
	if isLogColumn(block) || block != "" && slices.ContainsFunc(numbers, func(n string) bool { return quantity.Fold(n) == quantity.Fold(block) }) {
		taken(block, f.at("block"))
	}
}

// isLogColumn reports whether every log has a column of that name.
func isLogColumn(name string) bool {
	name = quantity.Fold(name)
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
	for _, name := range d.plan.Chemistry.Maps {
		if oxide.Oxide(name).Known() {
			continue
		}
		var known []string
		for _, o := range oxide.Oxides() {
			known = append(known, string(o))
		}
		right := `a formula such as "SiO2" or "CaO"`
		if near := spell.Nearest(name, known); near != "" {
			right = "did you mean " + quote(near) + "?"
		}
		f.problem(f.lineOf("maps", name), quote(name)+" is not an oxide", right)
	}
}

// pours checks every [[poured]].
func (r *reader) pours(d *draft) {
	p := d.plan
	for _, it := range d.items["poured"] {
		f, q := it.fields, &it.poured
		q.Line = f.line
		switch {
		case it.pouredGlaze != "":
			q.Glaze = f.glazeNamed(d, it.pouredGlaze, f.at("glaze"), "glaze")
		case p.Blend.HasSeries():
			q.Glaze = p.Blend.Base
		case !f.has("glaze"):
			example := f.s.find("glaze").line()
			if d.ends != nil {
				example = "glaze = " + quote(d.ends[0])
			}
			f.missing(f.line, "[[poured]] has no glaze", "which of the end glazes it was: "+example)
		}
		p.Poured = append(p.Poured, *q)
	}
}
