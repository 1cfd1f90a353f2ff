package layout

import "math"

// arm is half the size of a registration cross where nothing is in its way, mm.
const arm = 4.0

// register puts crosses on the lines between rows, where no spot is, in the
// middle of what neighbours share: at both ends of the line between two pages side
// by side, and near both ends of that between two rows of pages. A page shows all
// that it has room for.
func (b *Board) register(pages []Page) {
	gap := (b.pitchY - b.high()) / 2
	var all []Cross
	add := func(x, y float64) {
		c := Cross{Point{math.Round(1000*x) / 1000, y}, arm, min(arm, gap)}
		switch y {
		case 0:
			c.Y, c.ArmY = Edge/2, Edge/2
		case b.H:
			c.Y, c.ArmY = b.H-Edge/2, Edge/2
		}
		for _, o := range all {
			if o.Y == c.Y && math.Abs(o.X-c.X) < 1.5*arm {
				return
			}
		}
		all = append(all, c)
	}
	for i, p := range pages {
		top, bottom := b.y(b.Spots[p.Spots[0]].Row), b.y(b.Spots[p.Spots[len(p.Spots)-1]].Row+1)
		for _, q := range pages[i+1:] {
			lo, hi := max(p.View.X, q.View.X), min(p.View.Right(), q.View.Right())
			switch {
			case hi-lo < Overlap-hair:
			case q.Row == p.Row:
				add((lo+hi)/2, top)
				add((lo+hi)/2, bottom)
			case q.Row == p.Row+1:
				add(lo+Overlap/2, bottom)
				add(hi-Overlap/2, bottom)
			}
		}
	}
	for i := range pages {
		for _, c := range all {
			arms := Rect{X: c.X - c.ArmX, Y: c.Y - c.ArmY, W: 2 * c.ArmX, H: 2 * c.ArmY}
			if arms.around(pages[i].View) == pages[i].View {
				pages[i].Crosses = append(pages[i].Crosses, c)
			}
		}
	}
}
