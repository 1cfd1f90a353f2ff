package plan

import (
	"encoding"
	"fmt"
	"slices"
	"strings"

	"pourboard/blend"
	"pourboard/blend/oxide"
)

// Write is p as the text of a plan. Read of it gives an equal plan; what the
// maker's own file says beside it, remarks and the way amounts are put, is not
// kept.
func Write(p *blend.Plan) []byte {
	var w writer
	w.words("title", p.Title)
	if p.Mark != "" {
		w.words("mark", p.Mark)
	}
	w.heading("[cup]")
	switch p.Cup.Of {
	case blend.Volume:
		w.amount("volume", Volume{p.Cup.Size})
	case blend.Weight:
		w.amount("weight", Mass{p.Cup.Size})
	default:
		w.amount("dry", Mass{p.Cup.Size})
	}
	w.length("diameter", p.Cup.DiameterMM)
	w.kit(p)
	for _, g := range p.Glazes {
		w.glaze(g)
	}
	w.design(p)
	w.tiles(p.Tiles)
	w.board(p.Board)
	w.labels(p.Labels)
	if len(p.Log.Numbers) > 0 {
		w.heading("[log]")
		w.names("numbers", p.Log.Numbers)
	}
	if p.Chemistry.ColourantsInUnity || len(p.Chemistry.Maps) > 0 {
		w.heading("[chemistry]")
		if p.Chemistry.ColourantsInUnity {
			w.key("colourants-in-unity", "true")
		}
		if len(p.Chemistry.Maps) > 0 {
			w.names("maps", p.Chemistry.Maps)
		}
	}
	for _, m := range p.Materials {
		w.material(m)
	}
	return []byte(w.String())
}

// writer puts keys into a text.
type writer struct{ strings.Builder }

func (w *writer) heading(h string)     { w.WriteString("\n" + h + "\n") }
func (w *writer) key(key, text string) { w.WriteString(key + " = " + text + "\n") }
func (w *writer) words(key, s string)  { w.key(key, tomlText(s)) }
func (w *writer) whole(key string, n int) {
	w.key(key, fmt.Sprint(n))
}

func (w *writer) amount(key string, q encoding.TextMarshaler) {
	text, err := q.MarshalText()
	if err != nil {
		panic(err) // the quantities of this package have no error to give
	}
	w.words(key, string(text))
}

// length writes a length that is left out when it is 0.
func (w *writer) length(key string, mm float64) {
	if mm != 0 {
		w.amount(key, Length{mm})
	}
}

func (w *writer) names(key string, names []string) {
	all := make([]string, len(names))
	for i, n := range names {
		all[i] = tomlText(n)
	}
	w.key(key, "["+strings.Join(all, ", ")+"]")
}

func (w *writer) numbers(key string, xs []float64) { w.key(key, bracket(xs)) }

func bracket(xs []float64) string {
	all := make([]string, len(xs))
	for i, x := range xs {
		all[i] = number(x)
	}
	return "[" + strings.Join(all, ", ") + "]"
}

// tomlText is a text of TOML, on one line.
func tomlText(s string) string {
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range s {
		switch {
		case r == '"' || r == '\\':
			b.WriteByte('\\')
			b.WriteRune(r)
		case r < ' ' || r == 0x7f:
			fmt.Fprintf(&b, `\u%04X`, r)
		default:
			b.WriteRune(r)
		}
	}
	b.WriteByte('"')
	return b.String()
}

// kit leaves out what the plan left out, as long as it still is the default.
func (w *writer) kit(p *blend.Plan) {
	k := p.Kit
	w.heading("[measure]")
	given := func(key string) bool {
		for _, line := range defaultLines(k) {
			if strings.HasPrefix(line, key+" ") {
				return !slices.Contains(k.Defaults, line)
			}
		}
		return true
	}
	if given("scale") {
		w.amount("scale", Mass{k.Scale.Size})
	}
	if k.Fine.Size > 0 {
		w.amount("fine", Mass{k.Fine.Size})
	}
	if k.Capacity > 0 {
		w.amount("capacity", Mass{k.Capacity})
	}
	if given("pour") {
		w.amount("pour", Graduation{k.Pour})
	}
	if given("syringe") {
		w.amount("syringe", Volume{k.Syringe.Size})
	}
	for _, v := range []struct {
		key string
		ml  float64
	}{{"fill", k.Fill}, {"dead", k.Dead}, {"loss", k.Loss}} {
		if v.ml > 0 {
			w.amount(v.key, Volume{v.ml})
		}
	}
	if given("extra") {
		w.amount("extra", Percent{k.Extra})
	}
	if given("worst") {
		w.amount("worst", Percent{k.Worst})
	}
}

func (w *writer) glaze(g blend.Glaze) {
	w.heading("[[glaze]]")
	w.words("name", g.Name)
	w.parts("recipe", g.Recipe)
	if len(g.Additions) > 0 {
		w.parts("additions", g.Additions)
	}
	if g.SG > 0 {
		w.key("specific-gravity", number(g.SG))
	}
	if g.WaterPer > 0 {
		w.amount("water", Mass{g.WaterPer})
	}
	if g.Solids > 0 {
		w.key("solids-density", number(g.Solids))
	}
}

func (w *writer) parts(key string, parts []blend.Part) {
	all := make([]string, len(parts))
	for i, p := range parts {
		all[i] = "[" + tomlText(p.Material) + ", " + number(p.Amount) + "]"
	}
	w.key(key, "["+strings.Join(all, ", ")+"]")
}

func (w *writer) design(p *blend.Plan) {
	b := p.Blend
	w.heading("[blend]")
	w.words("kind", string(b.Kind))
	if b.HasSeries() {
		w.words("base", p.Glazes[b.Base].Name)
		w.words("method", string(b.Method))
		if b.Kind == blend.Triaxial {
			w.whole("divisions", b.Divisions)
		}
		for _, s := range b.Series {
			w.heading("[[blend.series]]")
			w.words("material", s.Material)
			if b.Kind == blend.Triaxial {
				w.key("to", number(s.To))
			} else {
				w.numbers("percent", s.Percents)
			}
		}
		return
	}
	ends := make([]string, len(b.Ends))
	for i, e := range b.Ends {
		ends[i] = p.Glazes[e].Name
	}
	w.names("ends", ends)
	w.words("basis", string(b.Basis))
	switch b.Kind {
	case blend.Line:
		w.whole("cells", b.Cells)
	case blend.Biaxial:
		w.whole("columns", b.Columns)
		w.whole("rows", b.Rows)
	case blend.Triaxial, blend.Quadraxial:
		w.whole("divisions", b.Divisions)
	case blend.List:
		cells := make([]string, len(b.Parts))
		for i, parts := range b.Parts {
			cells[i] = bracket(parts)
		}
		w.key("cells", "[\n  "+strings.Join(cells, ",\n  ")+",\n]")
	}
	if b.Interior {
		w.key("interior", "true")
	}
	if b.Bounds != nil {
		all := make([]string, len(b.Bounds))
		for i, bound := range b.Bounds {
			all[i] = tomlText(ends[i]) + " = [" + number(shift(bound.Lo, 2)) + ", " + number(shift(bound.Hi, 2)) + "]"
		}
		w.key("bounds", "{ "+strings.Join(all, ", ")+" }")
	}
}

func (w *writer) tiles(t blend.Tiles) {
	w.heading("[tiles]")
	w.names("bodies", t.Bodies)
	w.amount("size", Size{t.WidthMM, t.HeightMM})
	w.length("thickness", t.ThicknessMM)
	w.whole("coats", t.Coats)
	w.whole("repeats", t.Repeats)
	w.length("dip", t.DipMM)
	if t.HoldS > 0 {
		w.amount("hold", Time{t.HoldS})
	}
	w.words("bands", string(t.Bands))
}

func (w *writer) board(b blend.Board) {
	w.heading("[board]")
	w.words("paper", b.Paper)
	w.words("scale", string(b.Scale))
	w.length("gap", b.GapMM)
	if b.BodiesAsRows {
		w.key("bodies-as-rows", "true")
	}
	if b.Shuffle {
		w.words("order", "random")
		w.key("seed", fmt.Sprint(b.Seed))
	}
}

func (w *writer) labels(l *blend.Labels) {
	if l == nil {
		return
	}
	w.heading("[labels]")
	w.whole("columns", l.Columns)
	w.whole("rows", l.Rows)
	for _, side := range []struct {
		key string
		mm  float64
	}{
		{"width", l.WidthMM}, {"height", l.HeightMM}, {"left", l.LeftMM}, {"top", l.TopMM},
		{"gap-x", l.GapXMM}, {"gap-y", l.GapYMM},
	} {
		w.amount(side.key, Length{side.mm})
	}
	w.words("sheet", l.Sheet)
}

func (w *writer) material(m oxide.Material) {
	w.heading("[[material]]")
	w.words("name", m.Name)
	if !m.Analysis.Empty() {
		all := make([]string, 0, len(m.Analysis.Oxides)+1)
		for _, a := range m.Analysis.Oxides {
			all = append(all, string(a.Oxide)+" = "+number(a.Value))
		}
		all = append(all, "LOI = "+number(m.Analysis.LOI))
		w.key("analysis", "{ "+strings.Join(all, ", ")+" }")
	}
	if m.Density > 0 {
		w.key("density", number(m.Density))
	}
}
