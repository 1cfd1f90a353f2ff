package results

import (
	"slices"

	"pourboard/blend"
	"pourboard/blend/record"
)

// Done is what a log says was really poured and dosed, for blend.Test.AsDone.
func Done(log *record.Log) []blend.Done {
	var all []blend.Done
	for _, entry := range log.Cups {
		done := blend.Done{Cup: entry.Cup, Poured: map[int]float64{}, Dosed: map[int]float64{}}
		for e, a := range entry.Poured {
			if a.Given && a.Value >= 0 {
				done.Poured[e] = a.Value
			}
		}
		for s, a := range entry.Dosed {
			if a.Given && a.Value >= 0 {
				done.Dosed[s] = a.Value
			}
		}
		if len(done.Poured)+len(done.Dosed) > 0 {
			all = append(all, done)
		}
	}
	return all
}

// Lost are the cups that a log says were forgotten or spilled, by number: their
// tiles are in no result.
func Lost(log *record.Log) []int {
	var cups []int
	for _, entry := range log.Cups {
		if entry.Lost() {
			cups = append(cups, entry.Cup)
		}
	}
	return cups
}

// withoutLost is the log without the tiles of cups that were lost.
func withoutLost(log *record.Log) *record.Log {
	lost := Lost(log)
	if lost == nil {
		return log
	}
	less := *log
	less.Readings = slices.DeleteFunc(slices.Clone(log.Readings), func(r record.Reading) bool { return slices.Contains(lost, r.Cell) })
	return &less
}
