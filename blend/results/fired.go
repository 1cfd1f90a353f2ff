package results

import (
	"slices"

	"pourboard/blend/record"
)

// Fired is the tiles of one body, or, where a tile was fired again and recorded
// of both firings, those of one body in one firing.
type Fired struct {
	Body   int    // index into the plan's bodies
	Firing string // its letter, "" where no tile of the body was fired twice
}

// firedOf is by what the tiles of a log are told apart. A tile that was fired
// twice is two results, not their mean.
func (r *Results) firedOf(bodies int) (all []Fired) {
	before := map[int]string{} // a firing of a tile, by its index
	firings, twice := make([][]string, bodies), make([]bool, bodies)
	for _, reading := range r.Log.Readings {
		letter, seen := before[reading.Index]
		before[reading.Index] = reading.Firing
		twice[reading.Body] = twice[reading.Body] || seen && letter != reading.Firing
		firings[reading.Body] = append(firings[reading.Body], reading.Firing)
	}
	for body := range bodies {
		if !twice[body] {
			firings[body] = []string{""}
		}
		slices.Sort(firings[body])
		for _, letter := range slices.Compact(firings[body]) {
			all = append(all, Fired{body, letter})
		}
	}
	return all
}

// fired is the index into Fired of a tile's results.
func (r *Results) fired(reading *record.Reading) int {
	return slices.IndexFunc(r.Fired, func(f Fired) bool {
		return f.Body == reading.Body && (f.Firing == "" || f.Firing == reading.Firing)
	})
}

// gaps lists the cells that were not read in any firing, of each body with the
// first of its firings.
func (r *Results) gaps(means [][]Mean) (all []Gap) {
	lost := r.Log.Lost() // nothing can be entered of these
	for at, f := range r.Fired {
		if at > 0 && r.Fired[at-1].Body == f.Body {
			continue
		}
		g := Gap{Body: at}
		for i := range means[at] {
			read := slices.Contains(lost, i+1)
			for k := at; k < len(r.Fired) && r.Fired[k].Body == f.Body; k++ {
				read = read || means[k][i].N > 0
			}
			if !read {
				g.Cells = append(g.Cells, i+1)
			}
		}
		if g.Cells != nil {
			all = append(all, g)
		}
	}
	return all
}

// CellsRead is of how many cells there are readings.
func CellsRead(means []Mean) (cells int) {
	for _, mean := range means {
		cells += min(mean.N, 1)
	}
	return cells
}

// fullest are the means of each body that was read, of the firing in which most
// of its cells were, the first of equals; and the letters of these firings.
func (r *Results) fullest(all [][]Mean) (bodies [][]Mean, firings []string) {
	var chosen []int
	for at, means := range all {
		last := len(chosen) - 1
		switch {
		case CellsRead(means) == 0:
		case last < 0 || r.Fired[at].Body != r.Fired[chosen[last]].Body:
			chosen = append(chosen, at)
		case CellsRead(means) > CellsRead(all[chosen[last]]):
			chosen[last] = at
		}
	}
	for _, at := range chosen {
		bodies = append(bodies, all[at])
		if letter := r.Fired[at].Firing; letter != "" && !slices.Contains(firings, letter) {
			firings = append(firings, letter)
		}
	}
	return bodies, firings
}
