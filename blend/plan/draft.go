package plan

import (
	"reflect"
	"strings"

	"pourboard/blend"
	"pourboard/blend/oxide"
	"pourboard/blend/quantity"
)

// draft is a plan as its file says it: with names where the plan has indexes, and
// with keys that only lead to others, such as tiles for divisions. The schema names
// the field of each key. The reader fills a draft and works the plan out, the writer
// goes the other way.
type draft struct {
	blend.Plan

	Fill       blend.Amount // wet glaze, in mL or g as the pour is
	Ends       []string
	Base       string
	Cells      cupList
	Count      int // of the tiles of one body
	Tile       quantity.Paper
	Paper      quantity.Paper
	Order      string
	Stock      blend.Labels
	LabelSheet quantity.Paper

	items map[string][]*item // of each [[section]], by its path
}

// item is an entry of a [[section]]; the section says which fields it has.
type item struct {
	fields

	Glaze blend.Glaze

	Series  blend.Series
	From    float64
	Steps   int
	Spacing string

	Material   oxide.Material
	AnalysisOf string

	Poured      blend.Poured
	PouredGlaze string
}

// cupList is the cups of a line or a list: 6, or [[70, 30], [50, 50]].
type cupList struct {
	N     int
	Parts [][]float64
}

// add adds an item of a [[section]].
func (d *draft) add(path string, it *item) *item {
	if d.items == nil {
		d.items = map[string][]*item{}
	}
	d.items[path] = append(d.items[path], it)
	return it
}

// place is the field for the value of a key, in the draft or in an item of it.
func (k *Key) place(in any) reflect.Value {
	v := reflect.ValueOf(in).Elem()
	for name := range strings.SplitSeq(k.Place, ".") {
		v = v.FieldByName(name)
	}
	return v
}

// draftOf is a finished plan as a file would say it.
func draftOf(p *blend.Plan) *draft {
	d := &draft{Plan: *p}
	switch {
	case p.Kit.FillG != usualFillG:
		d.Fill = blend.Amount{Value: p.Kit.FillG, Of: blend.Weight}
	case p.Kit.Fill > 0:
		d.Fill = blend.Amount{Value: p.Kit.Fill, Of: blend.Volume}
	}
	for _, g := range p.Glazes {
		d.add("glaze", &item{Glaze: g})
	}
	for _, m := range p.Materials {
		d.add("material", &item{Material: m})
	}
	d.Cells = cupList{p.Blend.Cells, p.Blend.Parts}
	for _, e := range p.Blend.Ends {
		d.Ends = append(d.Ends, p.Glazes[e].Name)
	}
	if p.Blend.HasSeries() {
		d.Base = p.Glazes[p.Blend.Base].Name
		d.Blend.Basis = "" // of end glazes only
	}
	for _, s := range p.Blend.Series {
		d.add("blend.series", &item{Series: s})
	}
	d.Tile.Name, d.Paper.Name = p.Tiles.Size, p.Board.Paper
	if p.Board.Shuffle {
		d.Order = "random"
	}
	if p.Labels != nil {
		d.Stock, d.LabelSheet.Name = *p.Labels, p.Labels.Sheet
	}
	for _, q := range p.Poured {
		it := d.add("poured", &item{Poured: q})
		if !p.Blend.HasSeries() || q.Glaze != p.Blend.Base {
			it.PouredGlaze = p.Glazes[q.Glaze].Name
		}
	}
	return d
}
