package plan

import (
	"pourboard/blend"
	"pourboard/blend/oxide"
	"pourboard/blend/quantity"
)

// draft is a plan as its file says it, with names where the plan has places
// and with keys that only lead to others, such as tiles for divisions. The
// schema says where in it each key's value is; the reader fills a draft and
// works the plan out, the writer goes the other way.
type draft struct {
	plan *blend.Plan

	fill   blend.Amount
	ends   []string
	base   string
	tiles  int
	bounds boundList
	order  string
	seed   int
	labels blend.Labels

	items map[string][]*item // of each [[section]], by its path
	item  *item              // the one at work
}

// item is an entry of a [[section]]; the section says which fields it has.
type item struct {
	fields fields

	glaze blend.Glaze

	series  blend.Series
	from    float64
	cells   int
	spacing string

	material   oxide.Material
	analysis   analysis
	analysisOf string

	poured      blend.Poured
	pouredGlaze string
}

// add makes a new item of a section the one at work.
func (d *draft) add(path string, it *item) {
	d.item = it
	d.items[path] = append(d.items[path], it)
}

func newDraft(p *blend.Plan) *draft { return &draft{plan: p, items: map[string][]*item{}} }

// draftOf is a finished plan as a file would say it.
func draftOf(p *blend.Plan) *draft {
	own := *p
	d := newDraft(&own)
	d.fill = blend.Amount{Value: p.Kit.Fill, Of: blend.Volume}
	if p.Kit.FillG != usualFillG {
		d.fill = blend.Amount{Value: p.Kit.FillG, Of: blend.Weight}
	}
	for _, g := range p.Glazes {
		d.add("glaze", &item{glaze: g})
	}
	for _, m := range p.Materials {
		d.add("material", &item{material: m, analysis: analysisFrom(m.Analysis)})
	}
	d.design(p)
	if w, h, err := quantity.Size(p.Tiles.Size); err != nil || w != p.Tiles.WidthMM || h != p.Tiles.HeightMM {
		own.Tiles.Size = number(p.Tiles.WidthMM) + " x " + number(p.Tiles.HeightMM) + " mm"
	}
	if p.Board.Shuffle {
		d.order, d.seed = "random", int(p.Board.Seed)
	}
	if p.Labels != nil {
		d.labels = *p.Labels
	}
	for _, q := range p.Poured {
		it := &item{poured: q}
		if !p.Blend.HasSeries() || q.Glaze != p.Blend.Base {
			it.pouredGlaze = p.Glazes[q.Glaze].Name
		}
		d.add("poured", it)
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
			d.add("blend.series", &item{series: s})
		}
	}
	for _, e := range b.Ends {
		d.ends = append(d.ends, p.Glazes[e].Name)
	}
	for i, limit := range b.Bounds {
		d.bounds = append(d.bounds, bound{name: d.ends[i], lo: quantity.Shift(limit.Lo, 2), hi: quantity.Shift(limit.Hi, 2)})
	}
}

// analysisFrom is an analysis as a file says it, with the loss last.
func analysisFrom(a oxide.Analysis) analysis {
	if a.Empty() {
		return nil
	}
	var all analysis
	for _, x := range a.Oxides {
		all = append(all, percentOf{key: string(x.Oxide), percent: x.Value})
	}
	return append(all, percentOf{key: "LOI", percent: a.LOI})
}
