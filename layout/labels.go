package layout

import "pourboard/blend"

// Label is one label on its sheet.
type Label struct {
	Sheet int // from 0
	Place int // from 1, row by row, as --free counts
	Cell  int // number of the cell, from 1
	Rect      // on the sheet, mm
}

// Labels gives the cups their labels in order.
func Labels(l *blend.Labels, cells int, free []int) []Label { return nil }

// ParseFree reads the places that are free on a part-used sheet of n labels.
func ParseFree(text string, n int) ([]int, error) { return nil, nil }
