package plan

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"pourboard/blend"
	"pourboard/blend/oxide"
	"pourboard/blend/paper"
	"pourboard/blend/spell"
)

// tiles reads [tiles], which may be left out.
func (f fields) tiles() blend.Tiles {
	g := f.group("tiles")
	t := blend.Tiles{Bodies: []string{"Test body"}, WidthMM: 50, HeightMM: 100, Coats: 1, Repeats: 1, Bands: blend.Straight}
	if g.has("bodies") {
		t.Bodies, _ = g.names("bodies", "body", `["Porcelain", "Buff"]`)
	}
	const mostBodies = 12
	if len(t.Bodies) > mostBodies {
		g.problem(g.at("bodies"), "there are "+strconv.Itoa(len(t.Bodies))+" bodies", "at most "+strconv.Itoa(mostBodies))
	}
	var s Size
	if g.amount("size", "50 x 100 mm", &s) {
		const least, largest = 5, 1000
		if min(s.WidthMM, s.HeightMM) < least || max(s.WidthMM, s.HeightMM) > largest {
			g.problem(g.at("size"), "size = "+shown(g.get("size"))+" is no tile", "sides from 5 to 1000 mm")
		}
		t.WidthMM, t.HeightMM = s.WidthMM, s.HeightMM
	}
	t.ThicknessMM = g.length("thickness", "6 mm", 0.5, 200)
	if n, ok := g.whole("coats", 1, 12); ok {
		t.Coats = n
	}
	if n, ok := g.whole("repeats", 1, 20); ok {
		t.Repeats = n
	}
	t.DipMM = g.length("dip", "80 mm", 1, 1000)
	if t.DipMM > t.HeightMM {
		g.problem(g.at("dip"), "dip = "+shown(g.get("dip"))+" is longer than the tile", "at most its height, "+number(t.HeightMM)+" mm")
	}
	var hold Time
	if g.amount("hold", "3 s", &hold) && g.within("hold", hold.S, 0.1, 3600, "s") {
		t.HoldS = hold.S
	}
	if bands, ok := g.choice("bands", string(blend.Straight), string(blend.Corner)); ok {
		t.Bands = blend.Bands(bands)
	}
	return t
}

// board reads [board], which may be left out.
func (f fields) board(design blend.Blend) blend.Board {
	g := f.group("board")
	b := blend.Board{Paper: "A4", PaperW: 210, PaperH: 297, Scale: blend.Life}
	if size, ok := g.paper("paper"); ok {
		b.Paper, b.PaperW, b.PaperH = size.Name, size.W, size.H
	}
	if scale, ok := g.choice("scale", string(blend.Life), string(blend.Fit)); ok {
		b.Scale = blend.Scale(scale)
	}
	b.GapMM = g.length("gap", "4 mm", 0.1, 200)
	if b.BodiesAsRows = g.yes("bodies-as-rows"); b.BodiesAsRows && design.Kind != "" && design.Kind != blend.Line {
		g.problem(g.at("bodies-as-rows"), "a "+string(design.Kind)+" cannot lie with its bodies as rows", "only a line can: leave it out")
	}
	order, ok := g.choice("order", "plan", "random")
	b.Shuffle = ok && order == "random"
	const largest = math.MaxInt32 // what the whole numbers of every computer hold
	seed, seeded := g.whole("seed", 0, largest)
	switch {
	case b.Shuffle && seeded:
		b.Seed = uint64(seed)
	case b.Shuffle && !g.has("seed"):
		b.Seed = 1
	case seeded:
		g.caution(g.at("seed"), "seed", "is not used", "the tiles lie in the order of the plan", `order = "random" to shuffle them`)
	}
	return b
}

// paper is a sheet by its name or its sides.
func (f fields) paper(key string) (paper.Size, bool) {
	v := f.get(key)
	if v == nil {
		return paper.Size{}, false
	}
	var names []string
	for _, s := range paper.Named() {
		names = append(names, s.Name)
	}
	right := listed(names, "or") + `, or two sides: "300 x 420 mm"`
	if v.kind != text {
		f.problem(v.line, key+" is "+describe(v), "in quotes: "+right)
		return paper.Size{}, false
	}
	size, err := paper.Parse(v.text)
	if err == nil {
		return size, true
	}
	var sides Size
	if err := sides.UnmarshalText([]byte(v.text)); err == nil {
		if size, err := paper.Parse(number(sides.WidthMM) + " x " + number(sides.HeightMM) + " mm"); err == nil {
			return size, true // with a decimal comma
		}
		f.problem(v.line, key+" = "+shown(v)+" is no sheet", "sides from 80 to 2000 mm")
		return paper.Size{}, false
	}
	words := strings.Fields(v.text)
	for _, word := range append(words, v.text) { // "DIN A4", "US letter"
		if near := spell.Nearest(word, names); near != "" {
			right = "did you mean " + quote(near) + "?"
		}
	}
	f.problem(v.line, key+" = "+shown(v)+" is not known", right)
	return paper.Size{}, false
}

// labels reads [labels], nil when the plan has none.
func (f fields) labels(board blend.Board) *blend.Labels {
	if !f.has("labels") {
		return nil
	}
	g := f.group("labels")
	for _, key := range []string{"columns", "rows", "width", "height", "left", "top"} {
		if !g.has(key) {
			example := map[string]string{"columns": "3", "rows": "8", "width": `"70 mm"`, "height": `"37 mm"`, "left": `"0 mm"`, "top": `"0.5 mm"`}[key]
			g.missing(g.line, "[labels] has no "+key, key+" = "+example)
		}
	}
	// Labels are sold on the sheets that an office has, whatever the board's are.
	usual := "A4"
	if slices.Contains([]string{"Letter", "Legal", "Tabloid"}, board.Paper) {
		usual = "Letter"
	}
	size, _ := paper.Parse(usual)
	l := &blend.Labels{Sheet: size.Name, SheetW: size.W, SheetH: size.H}
	l.Columns, _ = g.whole("columns", 1, 100)
	l.Rows, _ = g.whole("rows", 1, 200)
	l.WidthMM = g.length("width", "70 mm", 1, 2000)
	l.HeightMM = g.length("height", "37 mm", 1, 2000)
	l.LeftMM = g.length("left", "0 mm", 0, 2000)
	l.TopMM = g.length("top", "0.5 mm", 0, 2000)
	l.GapXMM = g.length("gap-x", "2.5 mm", 0, 2000)
	l.GapYMM = g.length("gap-y", "0 mm", 0, 2000)
	if size, ok := g.paper("sheet"); ok {
		l.Sheet, l.SheetW, l.SheetH = size.Name, size.W, size.H
	}
	const hair = 0.05 // mm: makers of sheets round
	right := l.LeftMM + float64(l.Columns)*l.WidthMM + float64(l.Columns-1)*l.GapXMM
	if l.Columns > 0 && right > l.SheetW+hair {
		g.problem(g.at("columns"), several(l.Columns, "column")+" of labels reach to "+number(rounded(right))+" mm", "the sheet, "+l.Sheet+", is "+number(l.SheetW)+" mm wide")
	}
	bottom := l.TopMM + float64(l.Rows)*l.HeightMM + float64(l.Rows-1)*l.GapYMM
	if l.Rows > 0 && bottom > l.SheetH+hair {
		g.problem(g.at("rows"), several(l.Rows, "row")+" of labels reach to "+number(rounded(bottom))+" mm", "the sheet, "+l.Sheet+", is "+number(l.SheetH)+" mm high")
	}
	return l
}

// rounded is a length as it is spoken of, in hundredths of a mm.
func rounded(mm float64) float64 { return shift(float64(int64(mm*100+0.5)), -2) }

// log reads [log].
func (f fields) log() blend.Log {
	g := f.group("log")
	names, lines := g.names("numbers", "column", `["Gloss"]`)
	const mostColumns = 20
	if len(names) > mostColumns {
		g.problem(g.at("numbers"), "there are "+strconv.Itoa(len(names))+" numbers", "at most "+strconv.Itoa(mostColumns))
	}
	for i, name := range names {
		if taken(name) {
			g.problem(lines[i], "the log has a column "+quote(name)+" already", "another name")
		}
	}
	return blend.Log{Numbers: names}
}

// taken reports whether the log has a column of that name of its own.
func taken(name string) bool {
	if n, found := strings.CutPrefix(fold(name), "coat"); found {
		if _, err := strconv.Atoi(strings.TrimSpace(n)); err == nil {
			return true
		}
	}
	return slices.Contains([]string{
		"mark", "cell", "body", "repeat", "place", "surface", "defects", "colour", "rating", "photograph", "notes",
	}, fold(name))
}

// chemistry reads [chemistry].
func (f fields) chemistry() blend.Chemistry {
	g := f.group("chemistry")
	c := blend.Chemistry{ColourantsInUnity: g.yes("colourants-in-unity")}
	names, lines := g.names("maps", "oxide", `["SiO2", "CaO"]`)
	all := oxide.Oxides()
	options := make([]string, len(all))
	for i, o := range all {
		options[i] = string(o)
	}
	for i, name := range names {
		if !oxide.Oxide(name).Known() {
			right := `a formula as in "SiO2" or "CaO"`
			if near := spell.Nearest(name, options); near != "" {
				right = "did you mean " + quote(near) + "?"
			}
			g.problem(lines[i], "there is no oxide "+quote(name), right)
			continue
		}
		c.Maps = append(c.Maps, name)
	}
	return c
}
