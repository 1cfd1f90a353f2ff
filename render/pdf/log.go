package pdf

import "fmt"

// log is a table to write the fired tiles down in by hand, in the order of
// their marks.
func (s *sheets) log() {
	f := s.begin("the fired tiles, a pencil")
	t := table{padMM: 2.2, columns: []column{
		{title: "Mark", bold: true, whole: true},
		{title: "Cup", align: right, whole: true},
		{title: "Body"},
		{title: "Surface, colour, faults", least: 30, grow: 2},
		{title: "1–5", least: 10},
		{title: "Notes", least: 25, grow: 2},
	}}
	for _, tile := range s.Places.Tiles {
		t.rows = append(t.rows, row{cells: []cell{
			words(tile.Mark), words(fmt.Sprint(tile.Cell)), words(s.plan.Tiles.Bodies[tile.Body]),
			writeLine, writeLine, writeLine,
		}, rule: tile.Body == 0 && tile.Repeat == 0})
	}
	f.table(t)
	f.longTexts()
}
