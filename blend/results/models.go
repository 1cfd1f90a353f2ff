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
	To     float64 // of a series in a triaxial: percent that a share of 1 means
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
func endsOf(t *blend.Test) (_ mixmodel.Space, ends []End) {
	b, space := t.Plan.Blend, mixmodel.Shares
	if !b.HasSeries() {
		for i, e := range b.Ends {
			ends = append(ends, End{blend.GlazeLetter(i), t.Plan.Glazes[e].Name, 0})
		}
		return space, ends
	}
	for i, s := range b.Series {
		end := End{Letter: blend.SeriesLetter(i), Name: s.Material}
		if b.Kind == blend.Triaxial {
			end.To = s.To
		} else {
			space = mixmodel.Percent
		}
		ends = append(ends, end)
	}
	return space, ends
}

// Point is where a cell, by its number, lies in the models' space: as its cup was
// made, for that is what was fired. In a triaxial of series it is the share of the
// way to each corner, brought to a sum of 1; where nothing could be dosed, as asked.
func (r *Results) Point(cell int) (point []float64) {
	c, b := &r.Test.Cells[cell-1], r.Test.Plan.Blend
	if !b.HasSeries() {
		for _, p := range c.Pours {
			point = append(point, p.GotShare)
		}
		return point
	}
	for _, d := range c.Doses {
		point = append(point, d.GotPercent)
	}
	if b.Kind != blend.Triaxial {
		return point
	}
	if slices.Max(point) == 0 {
		for i, d := range c.Doses {
			point[i] = d.Percent
		}
	}
	var sum float64
	for i := range point {
		point[i] /= b.Series[i].To
		sum += point[i]
	}
	for i := range point {
		point[i] /= sum
	}
	return point
}

// models tries every model of a measure on each body that was read, and on all of
// these.
func (r *Results) models(m *Measure, samples []sample) (all []Model) {
	lowest := m.Field != record.RatingField
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
	firing  string // its letter, after the number of its log where there are several
}

// cupsApart is above the largest number of a cup: cups of other tests are
// numbered from its multiples.
const cupsApart = 10 * blend.MaxCells

// measured are the tiles of several logs that a column of numbers was read of.
// Cups of one plan are the same cups in all of its firings.
func measured(all []*Results, head string) (samples []sample) {
	for k, r := range all {
		judged, readings := r.Judged(), r.Log.Readings
		i := slices.IndexFunc(judged, func(m *Measure) bool { return m.Head == head })
		if i < 0 {
			continue
		}
		owner := slices.IndexFunc(all, func(other *Results) bool { return other.Test.Plan == r.Test.Plan })
		several := slices.ContainsFunc(readings, func(x record.Reading) bool { return x.Firing != readings[0].Firing })
		for n := range readings {
			reading := &readings[n]
			firing := reading.Firing
			if len(all) > 1 {
				if firing = strconv.Itoa(k + 1); several {
					firing += reading.Firing
				}
			}
			if a, ok := judged[i].Amount(reading); ok {
				samples = append(samples, sample{r, reading, a.Value, owner*cupsApart + reading.Cell, firing})
			}
		}
	}
	return samples
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
