package results

import (
	"encoding/binary"
	"math"
	"strconv"

	"pourboard/blend"
	"pourboard/blend/mixmodel"
	"pourboard/blend/record"
)

// End is a coordinate of the models: an end by its share, or a series by its
// percentage of the dry base.
type End struct {
	Letter string  // blend.GlazeLetter of an end, blend.SeriesLetter of a series
	Name   string  // of the glaze or the material
	To     float64 // percent that a share of 1 means, in a triaxial of series; otherwise 0
}

// Model is what came of modelling a measure on one body, or on all together.
type Model struct {
	Body    int             // index, or AllBodies: every tile counts as a reading of its cell, whatever its body
	Bodies  int             // how many bodies the readings are of
	N       int             // readings
	Choice  mixmodel.Choice // every model that was tried, fitted or refused with its reason
	Refused string          // why there is no prediction; empty when there is one
	Highest *Best           // where the chosen model predicts most, within the cells read; nil without a prediction
	Lowest  *Best           // where it predicts least; nil for the rating too
}

// Best is a predicted mixture with the cell that comes nearest to it.
type Best struct {
	mixmodel.Best
	Cell   int    // number
	Is     bool   // the mixture is that of the cell
	Beyond string // of a rating that is predicted above or below the scale: which end that is beyond
}

// endsOf is the space of a test's models and its coordinates. Ends that are
// poured together and series toward the corners of a triaxial have shares;
// other series have their percent.
func endsOf(t *blend.Test) (mixmodel.Space, []End) {
	var ends []End
	b := t.Plan.Blend
	if !b.HasSeries() {
		for i, e := range b.Ends {
			ends = append(ends, End{blend.GlazeLetter(i), t.Plan.Glazes[e].Name, 0})
		}
		return mixmodel.Shares, ends
	}
	for i, s := range b.Series {
		to := 0.0
		if b.Kind == blend.Triaxial {
			to = s.To
		}
		ends = append(ends, End{blend.SeriesLetter(i), s.Material, to})
	}
	if b.Kind == blend.Triaxial {
		return mixmodel.Shares, ends
	}
	return mixmodel.Percent, ends
}

// Point is where a cell, by its number, lies in the models' space. A series is
// where it was really made, as far as measures show: what a model is fitted to is
// what was fired, and cells that came out alike are repeats of one mixture. Shares
// are as they were asked, for the steps of the jug move them by less than their ±,
// and a triaxial of series has shares of the way to each corner, which its
// measured percentages are not.
func (r *Results) Point(cell int) []float64 { return pointOf(r.Test, cell) }

// pointOf is Point.
func pointOf(t *blend.Test, cell int) []float64 {
	c := &t.Cells[cell-1]
	b := t.Plan.Blend
	switch {
	case !b.HasSeries():
		return c.Shares
	case b.Kind == blend.Triaxial:
		// The shares of a lattice follow from its rows: a series whose corner is
		// at 0 % has a share too.
		m := float64(b.Divisions)
		return []float64{(m - float64(c.Row)) / m, float64(c.Row-c.Column) / m, float64(c.Column) / m}
	}
	point := make([]float64, len(c.Doses))
	for i, d := range c.Doses {
		point[i] = d.GotPercent
	}
	return point
}

// designs keeps the designs of the sets of tiles that were read: most measures
// were read of the same tiles.
type designs struct {
	results *Results
	points  [][]float64 // by index of the cell
	names   []string
	made    map[string]*mixmodel.Design // by the tiles read
}

func newDesigns(r *Results) *designs {
	d := &designs{results: r, made: map[string]*mixmodel.Design{}}
	for i := range r.Test.Cells {
		d.points = append(d.points, pointOf(r.Test, i+1))
	}
	for _, e := range r.Ends {
		d.names = append(d.names, e.Letter)
	}
	return d
}

// models tries every model of a measure on each body and on all.
func (d *designs) models(m *Measure) []Model {
	var all []Model
	for body := range m.Means {
		all = append(all, d.model(m, body))
	}
	if len(m.Means) > 1 {
		all = append(all, d.model(m, AllBodies))
	}
	return all
}

func (d *designs) model(m *Measure, body int) Model {
	model := Model{Body: body}
	var readings []float64
	var key []byte
	var points [][]float64
	bodies := map[int]bool{}
	for i := range d.results.Log.Readings {
		reading := &d.results.Log.Readings[i]
		a, ok := m.Amount(reading)
		if !ok || body != AllBodies && reading.Body != body {
			continue
		}
		readings = append(readings, a.Value)
		points = append(points, d.points[reading.Cell-1])
		key = binary.AppendUvarint(key, uint64(reading.Cell))
		bodies[reading.Body] = true
	}
	model.N, model.Bodies = len(readings), len(bodies)
	design := d.made[string(key)]
	if design == nil {
		var err error
		if design, err = mixmodel.NewDesign(d.results.Space, d.names, points); err != nil {
			model.Refused = err.Error()
			return model
		}
		d.made[string(key)] = design
	}
	choice, err := design.Choose(readings)
	if err != nil {
		model.Refused = err.Error()
		return model
	}
	model.Choice = choice
	switch {
	case choice.Chosen == nil:
		model.Refused = "the cups that were read carry no model"
	case choice.Chosen.Kind == mixmodel.Mean:
		model.Refused = "no model in the mixture predicts a tile left out better than the mean of the others does"
	default:
		model.predict(d, m.Field != record.RatingField)
	}
	return model
}

// predict finds the best mixtures within the cells read.
func (model *Model) predict(d *designs, lowest bool) {
	highest, err := model.Choice.Chosen.Highest()
	if err != nil {
		model.Refused = err.Error()
		return
	}
	model.Highest = d.best(highest)
	if !lowest {
		model.Highest.Beyond = beyond(model.Highest.Mean)
	}
	if !lowest {
		return
	}
	if low, err := model.Choice.Chosen.Lowest(); err == nil {
		model.Lowest = d.best(low)
	}
}

// beyond says which end of the rating's scale a predicted mean lies beyond by
// more than is printed, or nothing.
func beyond(mean float64) string {
	const printed = 0.005
	switch {
	case mean > record.MostRating+printed:
		return "above the scale, which ends at " + strconv.Itoa(record.MostRating)
	case mean < record.LeastRating-printed:
		return "below the scale, which begins at " + strconv.Itoa(record.LeastRating)
	}
	return ""
}

// best adds the nearest cell, the first of those that are equally near.
func (d *designs) best(b mixmodel.Best) *Best {
	// Percentages of series differ in size: each counts by its own range.
	wide := make([]float64, len(d.names))
	for i := range wide {
		lo, hi := math.Inf(1), math.Inf(-1)
		for _, p := range d.points {
			lo, hi = min(lo, p[i]), max(hi, p[i])
		}
		wide[i] = 1
		if d.results.Space == mixmodel.Percent && hi > lo {
			wide[i] = hi - lo
		}
	}
	near, cell := math.Inf(1), 0
	for i, p := range d.points {
		var squares float64
		for e, x := range p {
			squares += (x - b.Point[e]) * (x - b.Point[e]) / (wide[e] * wide[e])
		}
		if squares < near-1e-12 {
			near, cell = squares, i+1
		}
	}
	return &Best{Best: b, Cell: cell, Is: near < 1e-12}
}
