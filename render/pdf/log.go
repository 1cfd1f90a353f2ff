package pdf

import (
	"fmt"
	"strings"
)

// mostCoats is how many coats have room to be ringed in the log.
const mostCoats = 4

// log is a table to write the fired tiles down in by hand, in the order of
// their marks.
func (s *sheets) log() {
	f := s.begin("the fired tiles, a pencil")
	tiles := s.plan.Tiles
	coats := writeLine
	if tiles.Coats <= mostCoats {
		f.para("Ring the coat that you write about. Rating: 1 poor to 5 very good.", regular(benchPt))
		var numbers []string
		for k := range tiles.Coats {
			numbers = append(numbers, fmt.Sprint(k+1))
		}
		coats = words(strings.Join(numbers, " "))
	} else {
		f.para("Rating: 1 poor to 5 very good.", regular(benchPt))
	}
	if n := s.plan.Log.Numbers; len(n) > 0 {
		f.para("Measured too, and written under the notes: "+strings.Join(n, ", ")+".", regular(benchPt))
	}
	f.blanks("Fired on:", "Cone:", "Kiln:", "Atmosphere:")
	t := table{padMM: 2.4, columns: []column{
		{title: "Mark", bold: true, whole: true},
		{title: "Cell", align: right, whole: true},
		{title: "Coat", whole: true, least: 12},
		{title: "Surface", least: 18, grow: 2},
		{title: "Colour", least: 16, grow: 2},
		{title: "1–5", whole: true, least: 9},
		{title: "Notes", least: 20, grow: 3},
	}}
	for _, tile := range s.Places.Tiles {
		t.rows = append(t.rows, row{
			rule:  tile.Body == 0 && tile.Repeat == 0,
			cells: []cell{words(tile.Mark), words(fmt.Sprint(tile.Cell)), coats, writeLine, writeLine, writeLine, writeLine},
		})
	}
	f.table(t)
	f.longTexts()
}
