package plan

import (
	"pourboard/blend"
	"pourboard/blend/measure"
	"pourboard/blend/oxide"
	"pourboard/blend/quantity"
)

// draft is a plan as its file says it, with names where the plan has places
// and with keys that only lead to others, such as tiles for divisions. The
// schema says where in it each key's value stands; the reader fills a draft and
// works the plan out, the writer goes the other way.
type draft struct {
	plan *blend.Plan

	dry, volume, weight float64 // [cup]: the one that was given
	fill                amount
	glazes              []*glazeDraft
	materials           []*materialDraft
	ends                nameList
	base                string
	cells               count
	tiles               int
	shares              []float64
	bounds              []bound
	steps               []*seriesDraft
	bodies, also        nameList
	numbers, maps       nameList
	order               string
	seed                int
	labels              blend.Labels
	pours               []*pouredDraft
	logAt               int // line of check

	// The entry of a [[section]] that is at work.
	glaze    *glazeDraft
	series   *seriesDraft
	material *materialDraft
	poured   *pouredDraft
}

// nameList is names with the lines that they stand on.
type nameList struct {
	names []string
	lines []int
}

// amount is mL or g, whichever is not 0.
type amount struct{ ml, g float64 }

// count is a number of cups, or their parts written out.
type count struct {
	n     int
	parts [][]float64
	lines []int // of the parts
}

// bound is an end glaze with its least and most share in percent.
type bound struct {
	name   string
	lo, hi float64
	line   int
}

// partList is the lines of a recipe.
type partList struct {
	parts []blend.Part
	lines []int
}

type glazeDraft struct {
	blend.Glaze
	recipe, additions partList
	fields            fields
}

type seriesDraft struct {
	blend.Series
	percents []float64
	from     float64
	cells    int
	spacing  string
	fields   fields
}

type materialDraft struct {
	oxide.Material
	analysis []entryOf
	of       string
	fields   fields
}

// entryOf is one figure of an analysis.
type entryOf struct {
	key   string
	value float64
	line  int
}

type pouredDraft struct {
	blend.Poured
	glaze  string
	amount measure.Step // its size is the amount
	fields fields
}

// sheet is a size that is kept as it was written: "2 x 4 in", "A4".
type sheet struct {
	text *string
	w, h *float64 // mm
}

// size is where the cup's size by a basis stands.
func (d *draft) size(of blend.Basis) *float64 {
	switch of {
	case blend.Volume:
		return &d.volume
	case blend.Weight:
		return &d.weight
	}
	return &d.dry
}

// draftOf is a finished plan as a file would say it.
func draftOf(p *blend.Plan) *draft {
	own := *p
	d := &draft{plan: &own, fill: amount{ml: p.Kit.Fill}}
	if p.Cup.BatchG == 0 {
		*d.size(p.Cup.Of) = p.Cup.Size
	}
	if p.Kit.FillG != usualFillG {
		d.fill.g = p.Kit.FillG
	}
	for _, g := range p.Glazes {
		d.glazes = append(d.glazes, &glazeDraft{Glaze: g, recipe: partList{parts: g.Recipe}, additions: partList{parts: g.Additions}})
	}
	for _, m := range p.Materials {
		d.materials = append(d.materials, &materialDraft{Material: m, analysis: analysisOf(m.Analysis)})
	}
	d.design(p)
	d.bodies.names, d.also.names = p.Tiles.Bodies, p.Also
	d.numbers.names, d.maps.names = p.Log.Numbers, p.Chemistry.Maps
	if w, h, err := quantity.Size(p.Tiles.Size); err != nil || w != p.Tiles.WidthMM || h != p.Tiles.HeightMM {
		d.plan.Tiles.Size = quantity.Plain(p.Tiles.WidthMM) + " x " + quantity.Plain(p.Tiles.HeightMM) + " mm"
	}
	if p.Board.Shuffle {
		d.order, d.seed = "random", int(p.Board.Seed)
	}
	if p.Labels != nil {
		d.labels = *p.Labels
	}
	for _, q := range p.Poured {
		next := &pouredDraft{Poured: q, amount: measure.Step{Size: q.Amount, Unit: q.Unit}}
		if !p.Blend.HasSeries() || q.Glaze != p.Blend.Base {
			next.glaze = p.Glazes[q.Glaze].Name
		}
		d.pours = append(d.pours, next)
	}
	return d
}

// design fills what [blend] says.
func (d *draft) design(p *blend.Plan) {
	b := p.Blend
	if b.HasSeries() {
		d.base = p.Glazes[b.Base].Name
		d.plan.Blend.Basis = "" // of end glazes only
		for _, s := range b.Series {
			d.steps = append(d.steps, &seriesDraft{Series: s, percents: s.Percents})
		}
	}
	for _, e := range b.Ends {
		d.ends.names = append(d.ends.names, p.Glazes[e].Name)
	}
	d.cells.parts = b.Parts
	d.cells.n = b.Cells
	d.shares = b.PairShares
	for i, limit := range b.Bounds {
		d.bounds = append(d.bounds, bound{name: d.ends.names[i], lo: quantity.Shift(limit.Lo, 2), hi: quantity.Shift(limit.Hi, 2)})
	}
}

// analysisOf is an analysis as a file says it, with the loss last.
func analysisOf(a oxide.Analysis) []entryOf {
	if a.Empty() {
		return nil
	}
	var all []entryOf
	for _, x := range a.Oxides {
		all = append(all, entryOf{key: string(x.Oxide), value: x.Value})
	}
	return append(all, entryOf{key: "LOI", value: a.LOI})
}
