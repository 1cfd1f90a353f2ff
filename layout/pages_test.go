package layout

import (
	"math"
	"reflect"
	"testing"

	"pourboard/blend"
	"pourboard/blend/quantity"
)

// boardsAndMats is every board of a test, the cup mats with them.
func boardsAndMats(test *blend.Test) []Board {
	test.Plan.Cup.DiameterMM = 70
	return append(Boards(test).Boards, Mat(test)...)
}

// TestPages_properties asks of every design at life size: each spot is on one
// page and whole, caption included; every page and what is on it lies within
// the margins; neighbours share Overlap, show the same crosses, and are trimmed
// without cutting a spot.
func TestPages_properties(t *testing.T) {
	each(t, designs(), func(t *testing.T, test *blend.Test) {
		sheet := SheetOf(test.Plan.Board)
		for _, b := range boardsAndMats(test) {
			pages := Pages(&b, sheet)
			if pages == nil && b.Spots[0].Tile < 0 && test.Plan.Board.PaperW < 120 {
				continue // the circle with its caption is wider than such a page
			}
			checkPages(t, &b, sheet, pages)
		}
	})
}

func checkPages(t *testing.T, b *Board, sheet Sheet, pages []Page) {
	t.Helper()
	on := make([]int, len(b.Spots))
	codes := map[string]bool{}
	for i := range pages {
		p := &pages[i]
		if codes[p.Code] {
			t.Errorf("two pages %s", p.Code)
		}
		codes[p.Code] = true
		checkFrame(t, p, sheet)
		if len(p.Spots) == 0 {
			t.Errorf("page %s has no spots", p.Code)
		}
		for _, s := range p.Spots {
			on[s]++
			if !b.Spots[s].Whole().inside(p.View) {
				t.Errorf("page %s cuts spot %d", p.Code, s)
			}
		}
		for _, seg := range p.Trim {
			line := Rect{min(seg.From.X, seg.To.X), min(seg.From.Y, seg.To.Y), math.Abs(seg.To.X - seg.From.X), math.Abs(seg.To.Y - seg.From.Y)}
			if line.W > hair && line.H > hair {
				t.Errorf("page %s is trimmed aslant, %v", p.Code, seg)
			}
			if !line.inside(p.View) {
				t.Errorf("page %s is trimmed outside of itself, %v", p.Code, seg)
			}
			for k, s := range b.Spots {
				if crossed(line, s.Whole()) {
					t.Errorf("page %s is trimmed through spot %d, %v", p.Code, k, seg)
				}
			}
		}
		for _, c := range p.Crosses {
			arms := Rect{c.X - c.ArmX, c.Y - c.ArmY, 2 * c.ArmX, 2 * c.ArmY}
			if !arms.inside(p.View) {
				t.Errorf("page %s: cross %v leaves the page", p.Code, c)
			}
			for k, s := range b.Spots {
				if arms.meets(s.Whole()) {
					t.Errorf("page %s: cross %v lies on spot %d", p.Code, c, k)
				}
			}
			shared := 0
			for j := range pages {
				for _, d := range pages[j].Crosses {
					if c == d {
						shared++
					}
				}
			}
			if shared < 2 {
				t.Errorf("page %s: cross %v is on no other page", p.Code, c)
			}
			for _, d := range p.Crosses {
				if c != d && math.Hypot(c.X-d.X, c.Y-d.Y) < arm {
					t.Errorf("page %s: crosses %v and %v overprint each other", p.Code, c, d)
				}
			}
		}
		if i == 0 {
			continue
		}
		q := &pages[i-1]
		switch {
		case q.Row == p.Row:
			if q.View.Right()-p.View.X < Overlap-hair {
				t.Errorf("pages %s and %s share %g mm", q.Code, p.Code, q.View.Right()-p.View.X)
			}
			if n := common(q, p); n < 2 {
				t.Errorf("pages %s and %s share %d crosses", q.Code, p.Code, n)
			}
		case q.View.Bottom()-p.View.Y < Overlap-hair:
			t.Errorf("rows of pages %s and %s share %g mm", q.Code, p.Code, q.View.Bottom()-p.View.Y)
		}
		if p.Row > 0 && len(p.Crosses) == 0 {
			t.Errorf("page %s has nothing to be laid by", p.Code)
		}
	}
	for i, n := range on {
		if n != 1 {
			t.Errorf("spot %d is on %d pages", i, n)
		}
	}
	if again := Pages(b, sheet); !reflect.DeepEqual(pages, again) {
		t.Error("the same board is split in two ways")
	}
}

// crossed reports whether an upright or level line runs through the inside of r.
func crossed(line, r Rect) bool {
	return line.X < r.Right()-hair && line.Right() > r.X+hair && line.Y < r.Bottom()-hair && line.Bottom() > r.Y+hair
}

// common counts the crosses that two pages share.
func common(p, q *Page) int {
	n := 0
	for _, c := range p.Crosses {
		for _, d := range q.Crosses {
			if c == d {
				n++
			}
		}
	}
	return n
}

// checkFrame asks that all parts of a page lie apart and within the margins.
func checkFrame(t *testing.T, p *Page, sheet Sheet) {
	t.Helper()
	if !(p.PaperW == sheet.W && p.PaperH == sheet.H || p.PaperW == sheet.H && p.PaperH == sheet.W) {
		t.Errorf("page of %g x %g on paper of %g x %g", p.PaperW, p.PaperH, sheet.W, sheet.H)
	}
	inner := Rect{Margin, Margin, p.PaperW - 2*Margin, p.PaperH - 2*Margin}
	view := p.RectOnPaper(p.View)
	parts := []Rect{p.Header, p.RulerX, p.RulerY, view}
	for i, r := range parts {
		if r == (Rect{}) {
			continue
		}
		if !r.inside(inner) {
			t.Errorf("page %s: %v is nearer than %g mm to an edge", p.Code, r, Margin)
		}
		for _, other := range parts[:i] {
			if r.meets(other) {
				t.Errorf("page %s: %v and %v overlap", p.Code, r, other)
			}
		}
	}
	if view.X != p.At.X || view.Y != p.At.Y {
		t.Errorf("page %s: the view starts at %g, %g, not at %v", p.Code, view.X, view.Y, p.At)
	}
}

// TestPages_fewest: numbers of pages worked out by hand.
func TestPages_fewest(t *testing.T) {
	for _, c := range []struct {
		name string
		d    plan
		want int
	}{
		// View of A4 upright 183 x 252, turned 270 x 165; places of 54 x 119.
		{"six on one page", plan{blend.Biaxial, 3, 2, 1, 1, usual, a4, nil}, 1},
		{"seven tiles", plan{blend.Line, 7, 0, 1, 1, usual, a4, nil}, 2},
		{"4 x 1 turned", plan{blend.Biaxial, 4, 1, 1, 1, usual, a4, nil}, 1},
		{"4 x 4: turned 4, upright 2 x 2", plan{blend.Biaxial, 4, 4, 1, 1, usual, a4, nil}, 4},
		{"6 x 2: two upright", plan{blend.Biaxial, 6, 2, 1, 1, usual, a4, nil}, 2},
		// Letter upright has 234.4 mm for two rows of 119: one row a page.
		{"six on Letter", plan{blend.Biaxial, 3, 2, 1, 1, usual, letter, nil}, 2},
	} {
		b := Boards(c.d.test()).Boards[0]
		if pages := Pages(&b, SheetOf(c.d.test().Plan.Board)); len(pages) != c.want {
			t.Errorf("%s: %d pages, want %d", c.name, len(pages), c.want)
		}
	}
}

// TestPages_oversize: a tile larger than a page goes on none.
func TestPages_oversize(t *testing.T) {
	each(t, oversize(), func(t *testing.T, test *blend.Test) {
		b := Boards(test).Boards[0]
		if pages := Pages(&b, SheetOf(test.Plan.Board)); pages != nil {
			t.Errorf("%d pages", len(pages))
		}
	})
}

// TestFitPage: the whole board lies within the margins of one page, and 66 places
// are legible on A4: eleven of 16 mm and 11 of 17 mm go either way up.
func TestFitPage(t *testing.T) {
	each(t, designs(), func(t *testing.T, test *blend.Test) {
		sheet := SheetOf(test.Plan.Board)
		for _, b := range boardsAndMats(test) {
			p := FitPage(&b, sheet)
			checkFrame(t, &p, sheet)
			if r := p.RectOnPaper(b.Spots[0].Whole()); test.Plan.Board.PaperW == 210 && len(b.Spots) <= 66 && (r.W < 15 || r.H < 15) {
				t.Errorf("a place is %g x %g mm", r.W, r.H)
			}
		}
	})
}

func TestSheet(t *testing.T) {
	for _, size := range quantity.Papers() {
		if got, want := SheetOf(blend.Board{PaperW: size.W, PaperH: size.H}).Usable, (Rect{10, 10, size.W - 20, size.H - 20}); got != want {
			t.Errorf("%s: usable %v, want %v", size.Name, got, want)
		}
	}
}

func TestLetters(t *testing.T) {
	for n, want := range map[int]string{0: "A", 25: "Z", 26: "AA", 51: "AZ", 52: "BA", 701: "ZZ", 702: "AAA"} {
		if got := letters(n); got != want {
			t.Errorf("row %d of pages is %s, want %s", n, got, want)
		}
	}
}

func benchmark(b *testing.B, d plan) {
	test := d.test()
	sheet := SheetOf(test.Plan.Board)
	for b.Loop() {
		p := Boards(test)
		for i := range p.Boards {
			Pages(&p.Boards[i], sheet)
		}
	}
}

func BenchmarkPages_66x3(b *testing.B) {
	benchmark(b, plan{blend.Triaxial, 10, 0, 3, 1, usual, a4, nil})
}

func BenchmarkPages_600(b *testing.B) {
	benchmark(b, plan{blend.Biaxial, 20, 10, 3, 1, usual, a4, nil})
}

func BenchmarkPages_100000_biaxial(b *testing.B) {
	benchmark(b, plan{blend.Biaxial, 400, 250, 1, 1, usual, a4, nil})
}

func BenchmarkPages_100000_line(b *testing.B) {
	benchmark(b, plan{blend.Line, 100_000, 0, 1, 1, usual, a4, nil})
}

func BenchmarkPages_100000_row(b *testing.B) {
	benchmark(b, plan{blend.Biaxial, 50_000, 2, 1, 1, usual, letter, nil})
}

func BenchmarkPages_99681_triaxial(b *testing.B) {
	benchmark(b, plan{blend.Triaxial, 445, 0, 1, 1, [2]float64{20, 20}, [2]float64{420, 594}, nil})
}
