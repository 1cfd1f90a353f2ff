package blend

import "pourboard/blend/design"

// Design describes the shape of the design, without its glazes and materials.
func (b Blend) Design() design.Spec {
	s := design.Spec{
		Kind: b.Kind, Ends: len(b.Ends), Cells: b.Cells, Columns: b.Columns, Rows: b.Rows, Divisions: b.Divisions,
		Interior: b.Interior, Shares: b.PairShares, Alone: b.Alone, SharedZero: b.SharedZero,
		Repeat: b.Repeat, Bounds: b.Bounds, Parts: b.Parts,
	}
	for _, series := range b.Series {
		s.Series = append(s.Series, series.Percents)
	}
	return s
}

// Count is the number of cups before bounds and interior take any away, at
// most MaxCells+1.
func (b Blend) Count() int { return b.Design().Count() }

// CellCount is how many cells the design comes out with, after bounds and
// interior have taken theirs away. The error says why there are none.
func (b Blend) CellCount() (int, error) {
	all, err := b.Design().Points()
	return len(all), err
}
