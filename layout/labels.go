package layout

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"pourboard/blend"
)

// Label is the label of one cup on its sheet.
type Label struct {
	Sheet int // from 0
	Cell  int // number of the cell, from 1
	Rect      // on the sheet, mm from its top left corner
}

// Labels gives the cups their labels in order: on the free places of the first
// sheet, then on unused sheets. free is sorted as ParseFree gives it; nil means
// that the first sheet is unused too.
func Labels(l *blend.Labels, cells int, free []int) []Label {
	full := make([]int, l.Columns*l.Rows)
	for i := range full {
		full[i] = i + 1
	}
	if free == nil {
		free = full
	}
	var all []Label
	for sheet := 0; len(all) < cells && len(free) > 0; sheet++ {
		for _, at := range free[:min(len(free), cells-len(all))] {
			column, row := float64((at-1)%l.Columns), float64((at-1)/l.Columns)
			all = append(all, Label{Sheet: sheet, Cell: len(all) + 1, Rect: Rect{
				X: l.LeftMM + column*(l.WidthMM+l.GapXMM),
				Y: l.TopMM + row*(l.HeightMM+l.GapYMM),
				W: l.WidthMM, H: l.HeightMM,
			}})
		}
		free = full
	}
	return all
}

// ParseFree reads which places are free on a part-used sheet of n labels, as in
// "3-7,20": counted from 1, row by row from the top left. The places come back
// sorted, each once.
func ParseFree(text string, n int) ([]int, error) {
	var free []int
	for _, part := range strings.Split(text, ",") {
		from, to, ranged := strings.Cut(part, "-")
		if !ranged {
			to = from
		}
		a, err := strconv.Atoi(strings.TrimSpace(from))
		b, err2 := strconv.Atoi(strings.TrimSpace(to))
		if err != nil || err2 != nil || a < 1 || b < a || b > n {
			return nil, fmt.Errorf("%q does not name places (write places and ranges from 1 to %d, such as 3-7,20)",
				strings.TrimSpace(part), n)
		}
		for ; a <= b; a++ {
			free = append(free, a)
		}
	}
	slices.Sort(free)
	return slices.Compact(free), nil
}
