package plan

import (
	"strconv"

	"pourboard/blend"
)

// extent holds the design against what can be worked out and painted.
func (f fields) extent(d *draft) {
	p := d.plan
	line := f.countedAt()
	if p.Blend.Count() > blend.MaxCells {
		f.problem(line, "the design has more than "+strconv.Itoa(blend.MaxCells)+" cups", "fewer steps")
		return
	}
	once := p.Blend
	once.Repeat = nil
	cells, err := once.CellCount()
	if err != nil {
		if f.has("bounds") {
			line = f.at("bounds")
		}
		f.problem(line, "the design has no cup: "+err.Error(), "more steps or wider bounds")
		return
	}
	f.cupsExist(d, cells)
	cells += len(p.Blend.Repeat)
	const mostTiles = 200_000
	bodies := len(p.Tiles.Bodies)
	if tiles := cells * bodies * p.Tiles.Repeats; tiles > mostTiles {
		f.problem(line, strconv.Itoa(cells)+" cups x "+strconv.Itoa(bodies)+" bodies x "+strconv.Itoa(p.Tiles.Repeats)+" repeats are "+strconv.Itoa(tiles)+" tiles",
			"at most "+strconv.Itoa(mostTiles))
	}
}

// cupsExist holds the cups that keys name against those that there are; cells
// counts those that are made once.
func (f fields) cupsExist(d *draft, cells int) {
	check := func(line int, key string, numbers []int, most int) {
		for _, n := range numbers {
			if n > most {
				f.problem(line, "cup "+strconv.Itoa(n)+" in "+key+" does not exist", "cups are 1 to "+strconv.Itoa(most))
				return
			}
		}
	}
	check(f.at("repeat"), "repeat", d.plan.Blend.Repeat, cells)
	cells += len(d.plan.Blend.Repeat)
	check(d.logAt, "check", d.plan.Log.Check, cells)
	for _, q := range d.pours {
		check(q.fields.at("cups"), "cups", q.Cups, cells)
	}
}

// countedAt is the line of the key that says how many cups there are.
func (f fields) countedAt() int {
	for _, key := range []string{"tiles", "divisions", "cells", "columns", "series"} {
		if f.has(key) {
			return f.at(key)
		}
	}
	return f.line
}
