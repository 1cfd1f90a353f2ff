package results

import (
	"slices"
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

// Model is what came of modelling a measure on one body, or on all together,
// each cup counting once.
type Model struct {
	Body    int              // index, or AllBodies: bodies are additive terms
	Tiles   int              // readings, those of check cups not counted
	Design  *mixmodel.Design // the cups; nil when nothing can be modelled
	Choice  mixmodel.Choice  // every model that was tried, fitted or refused with its reason
	Refused string           // why there is no prediction; empty when there is one
	Highest *Best            // where the chosen model predicts most, within the cups read; nil without a prediction
	Lowest  *Best            // where it predicts least; nil for the rating too
	Checks  []mixmodel.Check // cups kept out, held against the chosen model
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

// Point is where a cell, by its number, lies in the models' space: as its cup was
// made, for that is what was fired. In a triaxial of series it is the share of the
// way to each corner, brought to a sum of 1.
func (r *Results) Point(cell int) []float64 {
	c := &r.Test.Cells[cell-1]
	b := r.Test.Plan.Blend
	var point []float64
	switch {
	case !b.HasSeries():
		for _, p := range c.Pours {
			point = append(point, p.GotShare)
		}
		return toOne(point, c.Shares)
	case b.Kind == blend.Triaxial:
		// A series whose corner is at 0 % has a share too, which follows from the
		// rows of the lattice alone.
		m := float64(b.Divisions)
		lattice := []float64{(m - float64(c.Row)) / m, float64(c.Row-c.Column) / m, float64(c.Column) / m}
		for i, d := range c.Doses {
			if b.Series[i].To == 0 {
				return lattice
			}
			point = append(point, d.GotPercent/b.Series[i].To)
		}
		return toOne(point, lattice)
	}
	for _, d := range c.Doses {
		point = append(point, d.GotPercent)
	}
	return point
}

// toOne brings shares to a sum of 1; where nothing was made, what was asked stands.
func toOne(made, asked []float64) []float64 {
	var sum float64
	for _, v := range made {
		sum += v
	}
	if sum == 0 {
		return asked
	}
	for i := range made {
		made[i] /= sum
	}
	return made
}

// models tries every model of a measure on each body that was read, and on all of
// these.
func (r *Results) models(m *Measure) []Model {
	var all []Model
	samples, lowest := measured([]*Results{r}, m.Head), m.Field != record.RatingField
	for body, means := range m.Means {
		if CellsRead(means) > 0 {
			all = append(all, r.fit(samples, body, lowest))
		}
	}
	if len(all) > 1 {
		all = append(all, r.fit(samples, AllBodies, lowest))
	}
	return all
}

// BodyFactor and FiringFactor are the names of bodies and firings as factors.
const (
	BodyFactor   = "Body"
	FiringFactor = "Firing"
)

// noBlock is the level of tiles whose block was not entered.
const noBlock = "without entry"

// A sample is a tile that a number was read of, of one of several logs.
type sample struct {
	of      *Results
	reading *record.Reading
	value   float64
	cup     int    // a number that tiles of one cup share, over all logs
	firing  string // over all logs
}

// cupsApart is above the largest number of a cup: cups of other tests are
// numbered from its multiples.
const cupsApart = 10 * blend.MaxCells

// measured are the tiles of several logs that a column of numbers was read of.
// Cups of one plan are the same cups in all of its firings.
func measured(all []*Results, head string) []sample {
	var samples []sample
	for k, r := range all {
		owner := slices.IndexFunc(all, func(other *Results) bool { return other.Test.Plan == r.Test.Plan })
		for _, m := range r.Judged() {
			if m.Head != head {
				continue
			}
			for i := range r.Log.Readings {
				reading := &r.Log.Readings[i]
				if a, ok := m.Amount(reading); ok {
					samples = append(samples, sample{r, reading, a.Value, owner*cupsApart + reading.Cell, r.firingOf(reading, k, len(all))})
				}
			}
		}
	}
	return samples
}

// firingOf is the firing of a tile: its letter, after the number of its log where
// there are several.
func (r *Results) firingOf(reading *record.Reading, log, logs int) string {
	if logs == 1 {
		return reading.Firing
	}
	name := strconv.Itoa(log + 1)
	if len(r.Firings()) > 1 {
		name += reading.Firing
	}
	return name
}

// Firings are the letters of the firings that tiles were recorded of.
func (r *Results) Firings() []string {
	var letters []string
	for i := range r.Log.Readings {
		if letter := r.Log.Readings[i].Firing; !slices.Contains(letters, letter) {
			letters = append(letters, letter)
		}
	}
	slices.Sort(letters)
	return letters
}

// factors are what the samples differ in beside their mixture, and their levels
// by sample. A block is a column of one test's log.
func factors(samples []sample, body int) (all []mixmodel.Factor, levels [][]int) {
	levels = make([][]int, len(samples))
	add := func(name string, level func(s sample) string) {
		f := mixmodel.Factor{Name: name}
		for i, s := range samples {
			text := level(s)
			at := slices.Index(f.Levels, text)
			if at < 0 {
				at = len(f.Levels)
				f.Levels = append(f.Levels, text)
			}
			levels[i] = append(levels[i], at)
		}
		all = append(all, f)
	}
	bodyOf := func(s sample) string { return s.of.Test.Plan.Tiles.Bodies[s.reading.Body] }
	if body == AllBodies && slices.ContainsFunc(samples, func(s sample) bool { return bodyOf(s) != bodyOf(samples[0]) }) {
		add(BodyFactor, bodyOf)
	}
	if slices.ContainsFunc(samples, func(s sample) bool { return s.firing != samples[0].firing }) {
		add(FiringFactor, func(s sample) string { return s.firing })
	}
	if len(samples) > 0 && samples[0].of.Test.Plan.Log.Block != "" {
		add(samples[0].of.Test.Plan.Log.Block, func(s sample) string {
			if s.reading.Block == "" {
				return noBlock
			}
			return s.reading.Block
		})
	}
	return all, levels
}

// fit tries every model on samples of one body, or of all.
func (r *Results) fit(samples []sample, body int, lowest bool) Model {
	model := Model{Body: body}
	var names []string
	for _, e := range r.Ends {
		names = append(names, e.Letter)
	}
	if body != AllBodies {
		samples = slices.DeleteFunc(slices.Clone(samples), func(s sample) bool { return r.fired(s.reading) != body })
	}
	factors, levels := factors(samples, body)
	var tiles []mixmodel.Tile
	for i, s := range samples {
		tile := mixmodel.Tile{
			Cup: s.cup, Point: s.of.Point(s.reading.Cell), Levels: levels[i], Value: s.value,
			Check: slices.Contains(s.of.Test.Plan.Log.Check, s.reading.Cell),
		}
		tiles = append(tiles, tile)
		if !tile.Check {
			model.Tiles++
		}
	}
	design, err := mixmodel.NewDesign(r.Space, names, factors, tiles)
	if err != nil {
		model.Refused = err.Error()
		return model
	}
	model.Design = design
	model.Choice = design.Choose()
	chosen := model.Choice.Chosen
	if chosen == nil {
		model.Refused = "too few cups recorded for a model"
		return model
	}
	model.Checks = chosen.Checks()
	if chosen.Kind == mixmodel.Mean {
		model.Refused = model.whyMean()
		return model
	}
	if model.Highest = r.best(chosen.Highest()); lowest {
		model.Lowest = r.best(chosen.Lowest())
	} else {
		model.Highest.Beyond = beyond(model.Highest.Mean)
	}
	return model
}

// whyMean says why nothing but the mean is left: no model in the mixture is
// better, or none could be fitted.
func (model *Model) whyMean() string {
	for _, c := range model.Choice.Candidates[1:] {
		if c.Model != nil {
			return "no model predicts a cup left out better than the mean of the others"
		}
	}
	return model.Choice.Candidates[1].Refused
}
