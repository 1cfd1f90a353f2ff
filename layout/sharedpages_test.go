package layout

import (
	"testing"

	"pourboard/blend"
)

// Small boards share pages: each whole, at life size, within the margins, with
// its header and rulers, and with a cut line between it and the others.
func TestTogether(t *testing.T) {
	for name, c := range map[string]struct {
		d      plan
		head   float64
		sheets int // of the boards that take a page of their own each
		shared bool
	}{
		// Two layers of 114 x 244 and 60 x 125 mm beside each other on A4.
		"quadraxial": {plan{blend.Quadraxial, 4, 0, 1, 1, usual, a4, nil}, 50, 1, true},
		"wide heads": {plan{blend.Quadraxial, 4, 0, 1, 1, usual, a4, nil}, 90, 2, false},
		"lines":      {plan{blend.Line, 3, 0, 3, 1, [2]float64{40, 40}, a4, nil}, 50, 1, true},
		"one":        {plan{blend.Line, 3, 0, 1, 1, [2]float64{40, 40}, a4, nil}, 50, 1, false},
	} {
		t.Run(name, func(t *testing.T) {
			test := c.d.test()
			sheet := SheetOf(test.Plan.Board)
			var small []*Board
			var heads []float64
			places := Boards(test)
			for i := range places.Boards {
				if b := &places.Boards[i]; len(Pages(b, sheet)) == 1 {
					small, heads = append(small, b), append(heads, c.head)
				}
			}
			pages := Together(small, heads, sheet)
			if (pages != nil) != c.shared {
				t.Fatalf("%d pages of %d boards, want them shared: %t", len(pages), len(small), c.shared)
			}
			if pages == nil {
				return
			}
			if len(pages) != len(small) || pages[0].Shared {
				t.Fatalf("%d boards of %d, the first shared: %t", len(pages), len(small), pages[0].Shared)
			}
			sheets := 0
			var on []Rect // what is taken of the sheet
			for i := range pages {
				p := &pages[i]
				if !p.Shared {
					sheets++
					on = nil
				}
				checkFrame(t, p, sheet)
				if p.Board != small[i] || len(p.Spots) != len(p.Board.Spots) || p.ScaleX != 1 || p.ScaleY != 1 {
					t.Errorf("page %d does not hold board %d whole at life size", i, small[i].Number)
				}
				if p.Header.W < c.head {
					t.Errorf("board %d: a header of %g mm", p.Board.Number, p.Header.W)
				}
				piece := p.Header.around(p.RectOnPaper(p.View)).around(p.RulerY)
				if piece.Bottom() > p.Footer.Y+hair {
					t.Errorf("board %d lies on the footer", p.Board.Number)
				}
				for _, r := range on {
					if r.meets(piece) {
						t.Errorf("board %d lies on another, %v on %v", p.Board.Number, piece, r)
					}
				}
				on = append(on, piece)
				if (len(p.Trim) == 1) != p.Shared {
					t.Errorf("board %d, shared %t, has %d cut lines", p.Board.Number, p.Shared, len(p.Trim))
				}
				for _, cut := range p.Trim {
					a, b := p.OnPaper(cut.From), p.OnPaper(cut.To)
					for _, r := range on {
						if crossed(Rect{a.X, a.Y, b.X - a.X, b.Y - a.Y}, r) {
							t.Errorf("board %d is cut off through %v, from %v to %v", p.Board.Number, r, a, b)
						}
					}
				}
			}
			if sheets != c.sheets {
				t.Errorf("%d pages, want %d", sheets, c.sheets)
			}
		})
	}
}
