package layout

import (
	"math"
	"reflect"
	"slices"
	"testing"

	"pourboard/blend"
)

// TestBoards_properties asks of every design: each tile lies on one spot of a
// board of its own body, the spot says so, and nothing overlaps or leaves the
// board.
func TestBoards_properties(t *testing.T) {
	all := designs()
	for name, d := range oversize() {
		all["oversize "+name] = d
	}
	each(t, all, func(t *testing.T, test *blend.Test) {
		p := Boards(test)
		if want := len(test.Cells) * len(test.Plan.Tiles.Bodies) * test.Plan.Tiles.Repeats; len(p.Tiles) != want {
			t.Fatalf("%d tiles, want %d", len(p.Tiles), want)
		}
		spots := 0
		for i, tile := range p.Tiles {
			b, s := p.Boards[tile.Board], p.Spot(i)
			if tile.Index != i || s.Tile != i || s.Cell != tile.Cell {
				t.Errorf("tile %d of cell %d lies on the spot of tile %d of cell %d", i, tile.Cell, s.Tile, s.Cell)
			}
			first := p.Tiles[b.Spots[0].Tile]
			if first.Body != tile.Body && b.HeadH == 0 || first.Repeat != tile.Repeat || test.Cells[first.Cell-1].Layer != test.Cells[tile.Cell-1].Layer {
				t.Errorf("tile %s lies on board %q", tile.Mark, b.Name)
			}
		}
		names := map[string]bool{}
		for i := range p.Boards {
			spots += len(p.Boards[i].Spots)
			checkBoard(t, &p.Boards[i])
			if names[p.Boards[i].Name] {
				t.Errorf("two boards are called %q", p.Boards[i].Name)
			}
			names[p.Boards[i].Name] = true
		}
		if spots != len(p.Tiles) {
			t.Errorf("%d spots for %d tiles", spots, len(p.Tiles))
		}
		if again := Boards(test); !reflect.DeepEqual(p, again) {
			t.Error("the same test is laid out in two ways")
		}
	})
}

// checkBoard asks that nothing overlaps and all lies Edge within the board.
func checkBoard(t *testing.T, b *Board) {
	t.Helper()
	inner := Rect{Edge, Edge, b.W - 2*Edge, b.H - 2*Edge}
	var all []Rect
	for i, s := range b.Spots {
		all = append(all, s.Whole())
		if s.Rect.meets(s.Caption) || math.Abs(s.Caption.Y-s.Bottom()) > hair {
			t.Errorf("spot %d: the caption is not below the outline", i)
		}
		if i > 0 && (s.Row < b.Spots[i-1].Row || s.Row == b.Spots[i-1].Row && s.X <= b.Spots[i-1].X) {
			t.Errorf("spot %d is not right of or below the one before", i)
		}
	}
	for _, s := range b.Spots {
		if b.HeadH > 0 {
			all = append(all, Rect{X: s.Caption.X, Y: s.Y - b.HeadH, W: s.Caption.W, H: b.HeadH})
		}
	}
	for i, r := range all {
		if !r.inside(inner) {
			t.Errorf("%v is not within the board of %g x %g", r, b.W, b.H)
		}
		for j := range i {
			if r.meets(all[j]) {
				t.Fatalf("%v and %v overlap on %q", r, all[j], b.Name)
			}
		}
	}
}

func TestBoards_shapes(t *testing.T) {
	// Worked out by hand: tiles of 50 x 100 mm, 4 mm between them, captions of
	// 6 + 2·4.5 = 15 mm and 4 mm below those, 5 mm of edge.
	tri := Boards(plan{blend.Triaxial, 2, 0, 1, 1, usual, a4, nil}.test()).Boards[0]
	want := []Rect{
		{59, 5, 50, 100}, // one place is 54 mm: the top is one place right of the left end
		{32, 124, 50, 100}, {86, 124, 50, 100},
		{5, 243, 50, 100}, {59, 243, 50, 100}, {113, 243, 50, 100},
	}
	for i, s := range tri.Spots {
		if s.Rect != want[i] {
			t.Errorf("triangle: spot %d at %v, want %v", i, s.Rect, want[i])
		}
	}
	if tri.W != 168 || tri.H != 363 {
		t.Errorf("triangle of %g x %g, want 168 x 363", tri.W, tri.H)
	}
	// Without its borders a {3,3} triangle has one cell, and no room around it.
	in := Boards(plan{blend.Triaxial, 3, 0, 1, 1, usual, a4, func(p *blend.Plan) { p.Blend.Interior = true }}.test()).Boards[0]
	if len(in.Spots) != 1 || in.Spots[0].X != Edge || in.Spots[0].Y != Edge {
		t.Errorf("interior of {3,3}: %+v", in.Spots)
	}
	// A4 upright takes 3 x 2 of these tiles at life size, turned 4 x 1.
	line := Boards(plan{blend.Line, 11, 0, 1, 1, usual, a4, nil}.test()).Boards[0]
	if rows := line.Spots[10].Row + 1; rows != 4 || line.Spots[2].Column != 2 || line.Spots[3].Row != 1 {
		t.Errorf("line of 11 has %d rows", rows)
	}
	rows := Boards(plan{blend.Line, 4, 0, 3, 1, usual, [2]float64{420, 594}, func(p *blend.Plan) { p.Board.BodiesAsRows = true }}.test())
	if len(rows.Boards) != 1 || rows.Boards[0].HeadH == 0 || rows.Boards[0].rows() != 3 || rows.Tiles[rows.Boards[0].Spots[8].Tile].Body != 2 {
		t.Errorf("three bodies as rows: %d boards, %v", len(rows.Boards), rows.Boards[0].Spots)
	}
	quad := Boards(plan{blend.Quadraxial, 4, 0, 2, 1, usual, a4, nil}.test())
	if len(quad.Boards) != 10 || quad.Boards[6].Name != "Board 7: Body 2, layer 2 of 5" || len(quad.Boards[6].Spots) != 10 {
		t.Errorf("quadraxial {4,4} on two bodies: %d boards, seventh %q", len(quad.Boards), quad.Boards[6].Name)
	}
}

// TestBoards_random: every body and repeat is drawn by itself, all cells are
// there, and another seed is another order.
func TestBoards_random(t *testing.T) {
	order := func(seed uint64) [][]int {
		test := plan{blend.Biaxial, 6, 5, 2, 2, usual, a4, func(p *blend.Plan) { p.Board.Shuffle, p.Board.Seed = true, seed }}.test()
		var all [][]int
		for _, b := range Boards(test).Boards {
			var cells []int
			for _, s := range b.Spots {
				cells = append(cells, s.Cell)
			}
			all = append(all, cells)
		}
		return all
	}
	one := order(1)
	for i, cells := range one {
		if sorted := slices.Sorted(slices.Values(cells)); sorted[0] != 1 || sorted[29] != 30 || len(slices.Compact(sorted)) != 30 {
			t.Errorf("board %d has cells %v", i, cells)
		}
		for j := range i {
			if slices.Equal(cells, one[j]) {
				t.Errorf("boards %d and %d are in the same order", i, j)
			}
		}
	}
	if !reflect.DeepEqual(one, order(1)) || reflect.DeepEqual(one, order(2)) {
		t.Error("the order does not follow from the seed")
	}
}

// TestShuffled_uniform counts where the first of five lands over many draws;
// the bound is five standard deviations of a fair draw.
func TestShuffled_uniform(t *testing.T) {
	const draws = 20_000
	var at [5]int
	for d := range uint64(draws) {
		at[slices.Index(shuffled([]int{0, 1, 2, 3, 4}, 7, d), 0)]++
	}
	for place, n := range at {
		if sd := math.Sqrt(draws * 0.2 * 0.8); math.Abs(float64(n)-draws*0.2) > 5*sd {
			t.Errorf("place %d: %d of %d", place, n, draws)
		}
	}
}

func TestMat(t *testing.T) {
	d := designs()["triaxial of 66"]
	if Mat(d.test()) != nil {
		t.Error("a mat without the cup's diameter")
	}
	for name, d := range designs() {
		test := d.test()
		test.Plan.Cup.DiameterMM = 70
		cells := 0
		for _, b := range Mat(test) {
			checkBoard(t, &b)
			for _, s := range b.Spots {
				cells++
				if s.Cell != cells || s.Tile != -1 || s.W != 70 || s.H != 70 {
					t.Errorf("%s: spot %+v is number %d", name, s, cells)
				}
			}
		}
		if cells != len(test.Cells) {
			t.Errorf("%s: %d circles for %d cups", name, cells, len(test.Cells))
		}
	}
}

func BenchmarkBoards_5151x3(b *testing.B) {
	test := plan{blend.Triaxial, 100, 0, 3, 1, usual, a4, nil}.test()
	b.ReportAllocs()
	for b.Loop() {
		Boards(test)
	}
}

func BenchmarkBoards_5151x3_random(b *testing.B) {
	test := plan{blend.Triaxial, 100, 0, 3, 1, usual, a4, func(p *blend.Plan) { p.Board.Shuffle = true }}.test()
	b.ReportAllocs()
	for b.Loop() {
		Boards(test)
	}
}

// The mat has the shape of the design, a mat for each layer.
func TestMat_shape(t *testing.T) {
	for name, c := range map[string]struct {
		d    plan
		mats int
		w, h float64 // of the first mat
	}{
		// A cup of 70 mm with its caption has a place of 74 x 92.5 mm.
		"quadraxial": {plan{blend.Quadraxial, 4, 0, 1, 1, usual, a4, nil}, 5, 5*74 - 4 + 10, 5*92.5 - 3 + 10},
		"biaxial":    {plan{blend.Biaxial, 4, 5, 1, 1, usual, a4, nil}, 1, 4*74 - 4 + 10, 5*92.5 - 3 + 10},
	} {
		test := c.d.test()
		test.Plan.Cup.DiameterMM = 70
		mats := Mat(test)
		if len(mats) != c.mats || math.Abs(mats[0].W-c.w) > hair || math.Abs(mats[0].H-c.h) > hair {
			t.Errorf("%s: %d mats, the first of %g x %g mm; want %d, %g x %g", name, len(mats), mats[0].W, mats[0].H, c.mats, c.w, c.h)
		}
	}
}
