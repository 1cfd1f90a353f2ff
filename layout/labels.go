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
	Place int // from 1, row by row from the top left, as ParseFree counts
	Cell  int // number of the cell, from 1
	Rect      // on the sheet, mm from its top left corner
}

// Labels gives the cups their labels in order: on the free places of the first
// sheet, then on full sheets. free is sorted as ParseFree gives it; nil means
// that the first sheet is full too.
func Labels(l *blend.Labels, cells int, free []int) []Label {
	n := l.Columns * l.Rows
	if n <= 0 {
		return nil
	}
	all := make([]Label, 0, cells)
	sheet, place := 0, 0
	for cell := 1; cell <= cells; cell++ {
		at := place + 1
		last := n
		if sheet == 0 && free != nil {
			if len(free) == 0 {
				return nil
			}
			at, last = free[place], len(free)
		}
		column, row := float64((at-1)%l.Columns), float64((at-1)/l.Columns)
		all = append(all, Label{Sheet: sheet, Place: at, Cell: cell, Rect: Rect{
			X: l.LeftMM + column*(l.WidthMM+l.GapXMM),
			Y: l.TopMM + row*(l.HeightMM+l.GapYMM),
			W: l.WidthMM,
			H: l.HeightMM,
		}})
		if place++; place == last {
			sheet, place = sheet+1, 0
		}
	}
	return all
}

// ParseFree reads which places are free on a part-used sheet of n labels, as in
// "3-7,20": counted from 1, row by row from the top left. The places come back
// sorted.
func ParseFree(text string, n int) ([]int, error) {
	var free []int
	for _, part := range strings.Split(text, ",") {
		part = strings.TrimSpace(part)
		from, to, ranged := strings.Cut(part, "-")
		a, err := strconv.Atoi(strings.TrimSpace(from))
		b := a
		if err == nil && ranged {
			b, err = strconv.Atoi(strings.TrimSpace(to))
		}
		switch {
		case err != nil:
			return nil, fmt.Errorf("%q is not a place (write places and ranges such as 3-7,20)", part)
		case a < 1 || b > n || a > n || b < 1:
			return nil, fmt.Errorf("%q is out of range (places of a sheet are 1 to %d)", text, n)
		case b < a:
			return nil, fmt.Errorf("%q runs backwards (write %d-%d)", part, b, a)
		}
		for ; a <= b; a++ {
			if slices.Contains(free, a) {
				return nil, fmt.Errorf("place %d is named twice", a)
			}
			free = append(free, a)
		}
	}
	slices.Sort(free)
	return free, nil
}
