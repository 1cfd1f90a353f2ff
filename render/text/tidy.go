package text

import (
	"fmt"
	"io"
	"slices"
	"strconv"

	"pourboard/blend"
	"pourboard/blend/record"
	"pourboard/blend/results"
	"pourboard/layout"
)

// A Firing is a log with what it was read against, for rows of tiles.
type Firing struct {
	Plan, Log   string // their files
	Fingerprint string // of the plan
	Places      *layout.Places
	Results     *results.Results
}

// tidy is a row for every tile of which something was recorded.
func tidy(firings []Firing, version string) []object {
	rows := []object{}
	for k, f := range firings {
		for i := range f.Results.Log.Readings {
			r := &f.Results.Log.Readings[i]
			firing := r.Firing
			if len(firings) > 1 {
				firing = strconv.Itoa(k+1) + firing
			}
			rows = append(rows, tidyRow(f, r, firing, version))
		}
	}
	return rows
}

// tidyRow is a tile in one firing; firing is its letter, with the log's number
// where there are several.
func tidyRow(f Firing, r *record.Reading, firing, version string) object {
	t := f.Results.Test
	spot := f.Places.Spot(r.Index)
	board := f.Places.Boards[f.Places.Tiles[r.Index].Board].Number
	asked, made := mixture(t, r.Cell)
	chemistry := t.Chemistry(r.Cell-1, blend.Measured)
	numbers := object{}
	for n, name := range t.Plan.Log.Numbers {
		numbers = append(numbers, field{name, orUnknown(r.Numbers[n].Value, r.Numbers[n].Given)})
	}
	return object{
		{"test", t.Plan.Title}, {"plan", f.Plan}, {"log", f.Log}, {"mark", r.Mark}, {"cup", r.Cell},
		{"body", t.Plan.Tiles.Bodies[r.Body]}, {"repeat", r.Repeat + 1}, {"firing", firing}, {"block", r.Block},
		{"place", fmt.Sprintf("board %d, row %d, place %d", board, spot.Row+1, spot.Column+1)},
		{"check", slices.Contains(t.Plan.Log.Check, r.Cell)}, {"asked", asked}, {"made", made},
		{"oxides", oxides(chemistry.WeightPercent)},
		{"sio2_al2o3", orUnknown(chemistry.SiAl, chemistry.SiAl > 0)},
		{"rating", orUnknown(r.Rating, r.Rating != 0)}, {"numbers", numbers},
		{"coats", list(r.Coats, func(c record.Coat) string { return c.Text })}, {"surface", r.Surface},
		{"defects", r.Defects}, {"colour", r.Colour}, {"photograph", r.Photo}, {"notes", r.Notes},
		{"firing_log", object(list(f.Results.Log.Firings.Of(r.Firing).Entries,
			func(e record.Entry) field { return field{e.Label, e.Value} }))},
		{"version", version}, {"fingerprint", f.Fingerprint},
	}
}

func orUnknown(x float64, known bool) float64 {
	if !known {
		return unknown
	}
	return x
}

// mixture is what a cup, by its number, was made of, in percent as asked and as
// measured: of colourants, or of end glazes.
func mixture(t *blend.Test, cup int) (asked, made object) {
	c := t.Cells[cup-1]
	if t.Plan.Blend.HasSeries() {
		for s, d := range c.Doses {
			name := t.Plan.Blend.Series[s].Material
			asked, made = append(asked, field{name, d.Percent}), append(made, field{name, d.GotPercent})
		}
		return asked, made
	}
	for e, p := range c.Pours {
		name := t.Ends[e].Name
		asked, made = append(asked, field{name, 100 * c.Shares[e]}), append(made, field{name, 100 * p.GotShare})
	}
	return asked, made
}

// TidyJSON writes an array with an object for each recorded tile in each firing.
func TidyJSON(w io.Writer, firings []Firing, version string) error {
	return writeJSON(w, tidy(firings, version))
}

// TidyCSV writes the same as a row for each tile, with a column for each key. What
// differs from test to test has a column for each of its names, "asked: Wood ash",
// "number: Gloss".
func TidyCSV(w io.Writer, firings []Firing, version string) error {
	return writeCSV(w, tidy(firings, version))
}
