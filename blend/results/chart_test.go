package results_test

import (
	"slices"
	"strings"
	"testing"

	"pourboard/blend/mark"
	. "pourboard/blend/record"
	"pourboard/blend/record/recordtest"
	. "pourboard/blend/results"
	"pourboard/render/wording"
)

func TestChart(t *testing.T) {
	for _, test := range []struct {
		plan    string
		corners string
		levels  string
	}{
		// Of 0.2 + 0.5 b + 0.1 c over the whole triangle.
		{"triaxial", "100 % Q; 100 % S; 100 % V", "0.20 0.25 0.30 0.35 0.40 0.45 0.50 0.55 0.60 0.65 0.70"},
		{"triaxial-series", "3 % Copper carbonate; 5 % Rutile; 4 % Tin oxide", "0.20 0.25 0.30 0.35 0.40 0.45 0.50 0.55 0.60 0.65 0.70"},
		{"triaxial-bounds", "", ""},
	} {
		m := recordtest.Planned(t, test.plan, nil)
		sheets := m.BlankLog()
		m.Fill(t, &sheets[0], "Rating", func(tile mark.Tile) float64 { return float64(tile.Index%5 + 1) })
		log := m.Read(t, sheets)
		log.Columns = slices.DeleteFunc(log.Columns, func(c Column) bool { return c.Field == NumberField })
		log.Columns = append(log.Columns, Column{Head: "Chroma", Field: NumberField})
		for i := range log.Readings {
			p := PointOf(m.Test, log.Readings[i].Cell)
			log.Readings[i].Numbers = []Amount{{Value: 0.2 + 0.5*p[1] + 0.1*p[2] + 0.001*float64(i*7%5-2), Given: true}}
		}
		r := Evaluate(m.Test, log)
		model := measureOf(t, r, "Chroma").Models[len(m.Test.Plan.Tiles.Bodies)] // all bodies
		chart, ok := r.Chart(&model)
		if !ok {
			t.Fatalf("%s: no chart: %s", test.plan, wording.ModelText(r, model))
		}
		var corners []string
		for _, corner := range chart.Corners {
			corners = append(corners, wording.MixtureText(r, corner))
		}
		if got := strings.Join(corners, "; "); test.corners != "" && got != test.corners {
			t.Errorf("%s: corners %s", test.plan, got)
		}
		var levels []string
		for _, line := range chart.Means {
			levels = append(levels, wording.LevelText(line))
		}
		// A level at the very edge may come or go with the scatter.
		if got := strings.Join(levels, " "); test.levels != "" && !strings.Contains(test.levels, strings.Trim(got, " ")) || len(levels) < 3 {
			t.Errorf("%s: levels %s", test.plan, got)
		}
		if len(chart.Errors) < 3 {
			t.Errorf("%s: %d contours of the standard error", test.plan, len(chart.Errors))
		}
		rating := measureOf(t, r, "Rating").Models[0]
		rating.Highest = nil
		if _, ok := r.Chart(&rating); ok {
			t.Errorf("%s: a chart without a prediction", test.plan)
		}
	}
	m := recordtest.Planned(t, "line", nil)
	sheets := m.BlankLog()
	m.Fill(t, &sheets[0], "Rating", func(tile mark.Tile) float64 { return float64(min(5, tile.Cell)) })
	r := Evaluate(m.Test, m.Read(t, sheets))
	if model := measureOf(t, r, "Rating").Models[0]; model.Highest == nil {
		t.Error("no prediction on a line")
	} else if _, ok := r.Chart(&model); ok {
		t.Error("a triangle of two ends")
	}
}
