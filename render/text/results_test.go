package text

import (
	"bytes"
	"fmt"
	"math"
	"strings"
	"testing"
	"unicode/utf8"

	"pourboard/blend"
	"pourboard/blend/record"
	"pourboard/blend/results"
	"pourboard/layout"
	"pourboard/render/wording"
)

// logged is a log of a test in which the gloss of each tile is 30, 50, 20 … of
// each end by its share and a little more or less, the rating a fifteenth of
// that, and every eleventh tile is missing.
func logged(t *blend.Test, places *layout.Places) *record.Log {
	log := &record.Log{Columns: record.Columns(t.Plan), Firings: []record.Firing{{Letter: "A", Entries: []record.Entry{{Label: "Cone", Value: "6"}}}}}
	points := results.Evaluate(t, log)
	for i, tile := range places.Tiles {
		if i%11 == 7 {
			continue
		}
		gloss := 5*float64(tile.Body) + float64(i%7)/10
		for e, x := range points.Point(tile.Cell) {
			gloss += []float64{30, 50, 20, 40, 60}[e] * x
		}
		reading := record.Reading{Tile: tile.Tile, Coats: make([]record.Coat, t.Plan.Tiles.Coats), Rating: max(1, min(5, math.Round(gloss/15)))}
		if i == 3 {
			reading.Rating = 0 // not given
		}
		for range t.Plan.Log.Numbers {
			reading.Numbers = append(reading.Numbers, record.Amount{Value: math.Round(10*gloss) / 10, Given: true, Decimals: 1})
		}
		log.Readings = append(log.Readings, reading)
	}
	return log
}

func resultsText(t *testing.T, name string) (string, *results.Results) {
	t.Helper()
	test, places := load(t, name)
	r := results.Evaluate(test, logged(test, places))
	var out bytes.Buffer
	out.WriteString(Results(places.Scheme, r, "plan.toml"))
	return out.String(), r
}

func TestResults_golden(t *testing.T) {
	for _, name := range []string{"triaxial", "biaxial-series", "quadraxial", "odd-text"} {
		got, _ := resultsText(t, name)
		golden(t, "results-"+name, got)
	}
}

// Every plan: the map has every cup's value in its order, a triangle is one,
// and what is said of the models is what package wording says.
func TestResults_everyPlan(t *testing.T) {
	for _, name := range names(t) {
		got, r := resultsText(t, name)
		for _, c := range got {
			if c < ' ' && c != '\n' {
				t.Fatalf("%s: control character %q", name, c)
			}
		}
		m := r.Judged()[0]
		for body, means := range m.Means {
			_, after, ok := strings.Cut(got, oneLine(m.Head+" on "+wording.BodyText(r, body))+"\n")
			if !ok {
				t.Fatalf("%s: no map of body %d", name, body)
			}
			var values []string
			for line := range strings.Lines(after) {
				fields := strings.Fields(line)
				if len(fields) == 0 {
					break
				}
				if fields[0] == "layer" {
					continue
				}
				if want := fmt.Sprint(len(values) + 1); fields[0] != want {
					t.Fatalf("%s: row begins with cup %s, want %s", name, fields[0], want)
				}
				values = append(values, fields[1:]...)
			}
			if len(values) != len(means) {
				t.Fatalf("%s: %d values of %d cups", name, len(values), len(means))
			}
			for i, mean := range means {
				want := "–"
				if mean.N > 0 {
					want = wording.ValueText(m, mean.Value, mean.N)
				}
				if values[i] != want {
					t.Errorf("%s: cup %d reads %s, want %s", name, i+1, values[i], want)
				}
			}
		}
		for _, m := range r.Judged() {
			for _, model := range m.Models {
				if !strings.Contains(got, oneLine(m.Head+" on "+wording.ModelText(r, model))+"\n") {
					t.Errorf("%s: not in it: %s", name, wording.ModelText(r, model))
				}
				for _, text := range wording.ModelTexts(r, m, model) {
					if !strings.Contains(got, "    "+oneLine(text)+"\n") {
						t.Errorf("%s: not in it: %s", name, text)
					}
				}
			}
		}
	}
}

// The rows of a triangle are in the middle over each other.
func TestResults_triangle(t *testing.T) {
	got, _ := resultsText(t, "triaxial")
	_, after, _ := strings.Cut(got, "Rating on Porcelain\n")
	middle := -1
	for line := range strings.Lines(after) {
		line = strings.TrimRight(line, "\n")
		if line == "" {
			break
		}
		row := []rune(line)[3:] // behind the cup
		first := 0
		for row[first] == ' ' {
			first++
		}
		sum := first + utf8.RuneCountInString(string(row)) - 1 // of the first and the last figure's places
		if middle >= 0 && sum != middle {
			t.Errorf("row %q is off by %d half places", line, sum-middle)
		}
		middle = sum
	}
	if middle < 0 {
		t.Error("no map")
	}
}

func TestResults_nothing(t *testing.T) {
	test, places := load(t, "triaxial")
	var out bytes.Buffer
	out.WriteString(Results(places.Scheme, results.Evaluate(test, &record.Log{Columns: record.Columns(test.Plan)}), "plan.toml"))
	if got := out.String(); !strings.Contains(got, "0 of 84 recorded") || !strings.Contains(got, "No ratings or numbers") {
		t.Errorf("%s", got)
	}
}
