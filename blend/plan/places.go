package plan

import (
	"pourboard/blend"
	"pourboard/blend/measure"
	"pourboard/blend/oxide"
	"pourboard/blend/quantity"
)

// draft is a plan as its file says it, with names where the plan has places
// and with keys that only lead to others, such as tiles for divisions. The
// reader fills a draft and works the plan out, the writer goes the other way.
type draft struct {
	plan *blend.Plan

	dry, volume, weight float64
	fill                measure.Step // size and unit of an amount of wet glaze
	ends                []string
	base                string
	cells               cupList
	tiles               int
	bounds              []bound
	tile                quantity.Paper
	paper, labelSheet   quantity.Paper
	order               string
	seed                int
	labels              blend.Labels

	places map[string]any     // of each key's value, by section and key
	items  map[string][]*item // of each [[section]], by its path
}

// item is an entry of a [[section]]; the section says which fields it has.
type item struct {
	fields fields
	places map[string]any

	glaze blend.Glaze

	series  blend.Series
	from    float64
	cells   int
	spacing string

	material   oxide.Material
	analysis   []percentOf
	analysisOf string

	poured       blend.Poured
	pouredGlaze  string
	pouredAmount measure.Step
}

func newDraft(p *blend.Plan) *draft {
	d := &draft{plan: p, items: map[string][]*item{}}
	cup, kit, b, tiles, board, labels := &p.Cup, &p.Kit, &p.Blend, &p.Tiles, &p.Board, &d.labels
	d.places = map[string]any{
		".title": &p.Title,
		".mark":  &p.Mark,

		"cup.dry":      &d.dry,
		"cup.volume":   &d.volume,
		"cup.weight":   &d.weight,
		"cup.batch":    &cup.BatchG,
		"cup.diameter": &cup.DiameterMM,
		"cup.even":     &cup.Even,

		"measure.scale":    &kit.Scale.Size,
		"measure.capacity": &kit.Capacity,
		"measure.fine":     &kit.Fine.Size,
		"measure.pour":     &kit.Pour,
		"measure.syringe":  &kit.Syringe.Size,
		"measure.fill":     &d.fill,
		"measure.dead":     &kit.Dead,
		"measure.loss":     &kit.Loss,
		"measure.extra":    &kit.Extra,
		"measure.worst":    &kit.Worst,

		"blend.kind":        (*string)(&b.Kind),
		"blend.ends":        &d.ends,
		"blend.base":        &d.base,
		"blend.method":      (*string)(&b.Method),
		"blend.basis":       (*string)(&b.Basis),
		"blend.cells":       &d.cells,
		"blend.columns":     &b.Columns,
		"blend.rows":        &b.Rows,
		"blend.divisions":   &b.Divisions,
		"blend.tiles":       &d.tiles,
		"blend.interior":    &b.Interior,
		"blend.shares":      &b.PairShares,
		"blend.alone":       &b.Alone,
		"blend.shared-zero": &b.SharedZero,
		"blend.bounds":      &d.bounds,
		"blend.repeat":      &b.Repeat,

		"tiles.bodies":    &tiles.Bodies,
		"tiles.size":      &d.tile,
		"tiles.coats":     &tiles.Coats,
		"tiles.repeats":   &tiles.Repeats,
		"tiles.thickness": &tiles.ThicknessMM,
		"tiles.dip":       &tiles.DipMM,
		"tiles.hold":      &tiles.HoldS,
		"tiles.pickup":    &tiles.Pickup,
		"tiles.bands":     (*string)(&tiles.Bands),

		"board.paper":          &d.paper,
		"board.scale":          (*string)(&board.Scale),
		"board.gap":            &board.GapMM,
		"board.bodies-as-rows": &board.BodiesAsRows,
		"board.order":          &d.order,
		"board.seed":           &d.seed,

		"print.also": &p.Also,

		"labels.columns": &labels.Columns,
		"labels.rows":    &labels.Rows,
		"labels.width":   &labels.WidthMM,
		"labels.height":  &labels.HeightMM,
		"labels.left":    &labels.LeftMM,
		"labels.top":     &labels.TopMM,
		"labels.gap-x":   &labels.GapXMM,
		"labels.gap-y":   &labels.GapYMM,
		"labels.sheet":   &d.labelSheet,

		"log.numbers": &p.Log.Numbers,
		"log.block":   &p.Log.Block,
		"log.check":   &p.Log.Check,

		"chemistry.colourants-in-unity": &p.Chemistry.ColourantsInUnity,
		"chemistry.maps":                &p.Chemistry.Maps,
	}
	return d
}

// add adds an item of a [[section]].
func (d *draft) add(path string, it *item) *item {
	g, s, m, q := &it.glaze, &it.series, &it.material, &it.poured
	switch path {
	case "glaze":
		it.places = map[string]any{
			"name": &g.Name, "recipe": &g.Recipe, "additions": &g.Additions,
			"specific-gravity": (*gravity)(&g.SG), "water": &g.WaterPer, "solids-density": &g.Solids,
		}
	case "blend.series":
		it.places = map[string]any{
			"name": &s.Name, "material": &s.Material, "percent": &s.Percents,
			"from": (*dose)(&it.from), "to": (*dose)(&s.To), "cells": &it.cells, "spacing": &it.spacing,
		}
	case "poured":
		it.places = map[string]any{"cups": &q.Cups, "glaze": &it.pouredGlaze, "amount": &it.pouredAmount}
	case "material":
		it.places = map[string]any{
			"name": &m.Name, "analysis": &it.analysis, "analysis-of": &it.analysisOf, "density": &m.Density,
		}
	}
	d.items[path] = append(d.items[path], it)
	return it
}

// place is where the value of a key is, in an item when there is one.
func (d *draft) place(s *Section, k *Key, it *item) any {
	if it != nil {
		return it.places[k.Name]
	}
	return d.places[s.Path+"."+k.Name]
}

// draftOf is a finished plan as a file would say it.
func draftOf(plan *blend.Plan) *draft {
	p := *plan
	d := newDraft(&p)
	switch size := p.Cup.Size; size.Of {
	case blend.Volume:
		d.volume = size.Value
	case blend.Weight:
		d.weight = size.Value
	default:
		d.dry = size.Value
	}
	switch {
	case p.Kit.FillG != usualFillG:
		d.fill = measure.Step{Size: p.Kit.FillG, Unit: measure.Gram}
	case p.Kit.Fill > 0:
		d.fill = measure.Step{Size: p.Kit.Fill, Unit: measure.Millilitre}
	}
	for _, g := range p.Glazes {
		d.add("glaze", &item{glaze: g})
	}
	for _, m := range p.Materials {
		d.add("material", &item{material: m, analysis: writtenAnalysis(m.Analysis)})
	}
	d.writtenDesign()
	d.tile.Name, d.paper.Name = p.Tiles.Size, p.Board.Paper
	if p.Board.Shuffle {
		d.order, d.seed = "random", int(p.Board.Seed)
	}
	if p.Labels != nil {
		d.labels = *p.Labels
		d.labelSheet.Name = p.Labels.Sheet
	}
	for _, q := range p.Poured {
		it := d.add("poured", &item{poured: q, pouredAmount: measure.Step{Size: q.Amount.Value, Unit: measure.Millilitre}})
		if q.Amount.Of == blend.Weight {
			it.pouredAmount.Unit = measure.Gram
		}
		if !p.Blend.HasSeries() || q.Glaze != p.Blend.Base {
			it.pouredGlaze = p.Glazes[q.Glaze].Name
		}
	}
	return d
}

// writtenDesign fills what [blend] says.
func (d *draft) writtenDesign() {
	b := &d.plan.Blend
	if b.HasSeries() {
		d.base = d.plan.Glazes[b.Base].Name
		b.Basis = "" // of end glazes only
		for _, s := range b.Series {
			d.add("blend.series", &item{series: s})
		}
	}
	d.cells = cupList{b.Cells, b.Parts}
	for _, e := range b.Ends {
		d.ends = append(d.ends, d.plan.Glazes[e].Name)
	}
	for i, limit := range b.Bounds {
		d.bounds = append(d.bounds, bound{name: d.ends[i], lo: quantity.Shift(limit.Lo, 2), hi: quantity.Shift(limit.Hi, 2)})
	}
}

// writtenAnalysis is an analysis as a file says it, with the loss last.
func writtenAnalysis(a oxide.Analysis) (all []percentOf) {
	if a.Empty() {
		return nil
	}
	for _, x := range a.Oxides {
		all = append(all, percentOf{key: string(x.Oxide), percent: x.Value})
	}
	return append(all, percentOf{key: "LOI", percent: a.LOI})
}
