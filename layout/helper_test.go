package layout

import (
	"fmt"
	"testing"

	"pourboard/blend"
)

// plan is a test built by hand: a design of the kind and size, for the layout
// to lay out, without any arithmetic of slips.
type plan struct {
	kind    blend.Kind
	size    int // cells of a line or list, divisions of a lattice, columns of a biaxial
	rows    int // of a biaxial
	bodies  int
	repeats int
	tile    [2]float64
	paper   [2]float64
	change  func(*blend.Plan)
}

func (d plan) test() *blend.Test {
	p := &blend.Plan{Mark: "MR"}
	p.Blend.Kind = d.kind
	p.Blend.Ends = []int{0, 1, 2}
	p.Tiles = blend.Tiles{WidthMM: d.tile[0], HeightMM: d.tile[1], Repeats: d.repeats, Coats: 1}
	for i := range d.bodies {
		p.Tiles.Bodies = append(p.Tiles.Bodies, fmt.Sprintf("Body %d", i+1))
	}
	p.Board = blend.Board{PaperW: d.paper[0], PaperH: d.paper[1], Scale: blend.Life, Seed: 1}
	if d.change != nil {
		d.change(p)
	}
	t := &blend.Test{Plan: p, Layers: 1}
	add := func(row, column, layer int) {
		m := d.size
		if p.Blend.Interior && (row == 0 || row == m || column == 0 || column == row) {
			return
		}
		t.Cells = append(t.Cells, blend.Cell{Number: len(t.Cells) + 1, Row: row, Column: column, Layer: layer})
	}
	switch d.kind {
	case blend.Biaxial:
		for i := range d.rows * d.size {
			add(i/d.size, i%d.size, 0)
		}
	case blend.Triaxial, blend.Quadraxial:
		if d.kind == blend.Quadraxial {
			t.Layers = d.size + 1
		}
		for layer := range t.Layers {
			for row := range d.size - layer + 1 {
				for column := range row + 1 {
					add(row, column, layer)
				}
			}
		}
	default:
		for i := range d.size {
			add(0, i, 0)
		}
	}
	return t
}

var (
	usual  = [2]float64{50, 100}
	a4     = [2]float64{210, 297}
	letter = [2]float64{215.9, 279.4}
)

// designs are boards of every shape, of few and many tiles, small and large, on
// several papers.
func designs() map[string]plan {
	interior := func(p *blend.Plan) { p.Blend.Interior = true }
	asRows := func(p *blend.Plan) { p.Board.BodiesAsRows = true }
	random := func(p *blend.Plan) { p.Board.Shuffle = true }
	fit := func(p *blend.Plan) { p.Board.Scale = blend.Fit }
	return map[string]plan{
		"one cell":              {blend.Line, 1, 0, 1, 1, usual, a4, nil},
		"line of 11":            {blend.Line, 11, 0, 3, 1, usual, a4, nil},
		"line of 40, Letter":    {blend.Line, 40, 0, 1, 2, usual, letter, nil},
		"line, bodies as rows":  {blend.Line, 11, 0, 4, 2, usual, a4, asRows},
		"line, rows, random":    {blend.Line, 11, 0, 3, 1, usual, a4, func(p *blend.Plan) { asRows(p); random(p) }},
		"line, fit":             {blend.Line, 40, 0, 2, 1, usual, a4, fit},
		"biaxial 6 x 5":         {blend.Biaxial, 6, 5, 2, 1, usual, a4, nil},
		"biaxial, random":       {blend.Biaxial, 6, 5, 2, 2, usual, letter, random},
		"biaxial, wide tiles":   {blend.Biaxial, 4, 4, 1, 1, [2]float64{100, 40}, a4, nil},
		"triaxial of 66":        {blend.Triaxial, 10, 0, 3, 1, usual, a4, nil},
		"triaxial, Letter":      {blend.Triaxial, 10, 0, 1, 1, usual, letter, nil},
		"triaxial, small tiles": {blend.Triaxial, 10, 0, 1, 1, [2]float64{20, 20}, a4, nil},
		"triaxial, A3":          {blend.Triaxial, 7, 0, 1, 1, [2]float64{40, 60}, [2]float64{297, 420}, nil},
		"triaxial, interior":    {blend.Triaxial, 8, 0, 1, 1, usual, a4, interior},
		"quadraxial of 35":      {blend.Quadraxial, 4, 0, 2, 1, usual, a4, nil},
		"list of 17":            {blend.List, 17, 0, 1, 3, [2]float64{25, 75}, a4, nil},
		"one wide gap":          {blend.Biaxial, 5, 4, 1, 1, usual, a4, func(p *blend.Plan) { p.Board.GapMM = 35 }},
		"hardly a gap":          {blend.Triaxial, 5, 0, 1, 1, usual, a4, func(p *blend.Plan) { p.Board.GapMM = 0.5 }},
		"600 tiles":             {blend.Biaxial, 20, 10, 3, 1, usual, a4, nil},
		"tiny paper":            {blend.Triaxial, 4, 0, 1, 1, [2]float64{20, 20}, [2]float64{100, 150}, nil},
	}
}

// oversize are boards whose tiles are larger than a page.
func oversize() map[string]plan {
	return map[string]plan{
		"tall":   {blend.Biaxial, 3, 2, 1, 1, [2]float64{50, 400}, a4, nil},
		"wide":   {blend.Biaxial, 2, 3, 1, 1, [2]float64{400, 50}, a4, nil},
		"both":   {blend.Triaxial, 2, 0, 1, 1, [2]float64{300, 300}, a4, nil},
		"a line": {blend.Line, 5, 0, 1, 1, [2]float64{300, 300}, a4, nil},
	}
}

func each(t *testing.T, all map[string]plan, check func(*testing.T, *blend.Test)) {
	for name, d := range all {
		t.Run(name, func(t *testing.T) { check(t, d.test()) })
	}
}

// inside reports whether r lies wholly in outer, edges included.
func (r Rect) inside(outer Rect) bool {
	return r.X >= outer.X-hair && r.Y >= outer.Y-hair &&
		r.Right() <= outer.Right()+hair && r.Bottom() <= outer.Bottom()+hair
}

// meets reports whether r and s have an area in common; edges that touch do not.
func (r Rect) meets(s Rect) bool {
	return r.X < s.Right()-hair && s.X < r.Right()-hair && r.Y < s.Bottom()-hair && s.Y < r.Bottom()-hair
}
