package pdf

import (
	"fmt"
	"strings"
)

// Least widths of what is written in by hand, mm.
const (
	leastCoatMM   = 16.0
	leastNumberMM = 15.0
	// mostBodyMM is the widest name of a body in its column; the key of the
	// letters has longer ones in full.
	mostBodyMM = 32.0
)

// A logShape is how much of the log has a column of its own.
type logShape struct {
	coats   bool // each coat, not all in one
	numbers bool // each number of the plan, not under the notes
	body    bool // the body, not by the letter of the mark alone
}

// log is a table to write the fired tiles down in by hand, in the order of
// their marks, with the columns that are filled in of the workbook. It lies
// across where they do not go on the paper upright.
func (s *sheets) log() {
	f := &flow{doc: s.doc, wMM: s.wMM, hMM: s.hMM}
	upright, across := *f, *f
	across.wMM, across.hMM = max(f.wMM, f.hMM), min(f.wMM, f.hMM)
	shape, paper := logShape{}, across
	for _, try := range []struct {
		logShape
		paper flow
	}{
		{logShape{true, true, true}, upright}, {logShape{true, true, true}, across}, {logShape{false, true, true}, across},
		{logShape{false, false, true}, upright}, {logShape{false, false, true}, across}, {logShape{false, false, false}, across},
	} {
		if !try.body && len(s.plan.Tiles.Bodies) == 1 {
			continue // its marks have no letter
		}
		shape, paper = try.logShape, try.paper
		if try.paper.least(s.logTable(shape)) <= try.paper.width() {
			break
		}
	}
	wMM, hMM := s.wMM, s.hMM
	s.wMM, s.hMM = paper.wMM, paper.hMM
	f = s.begin("the fired tiles, a pencil")
	s.wMM, s.hMM = wMM, hMM

	text := "Rating: 1 poor to 5 very good."
	if !shape.coats && s.plan.Tiles.Coats > 1 {
		text += " Coat: which one you write about."
	}
	f.para(text, regular(benchPt))
	if n := s.plan.Log.Numbers; len(n) > 0 && !shape.numbers {
		f.para("Measured too, and written under the notes: "+strings.Join(n, ", ")+".", regular(benchPt))
	}
	s.bodyKey(f)
	f.blanks("Fired on:", "Cone:", "Kiln:", "Atmosphere:")
	f.table(s.logTable(shape))
	f.longTexts()
}

// logTable is the log in a shape.
func (s *sheets) logTable(shape logShape) table {
	tiles := s.plan.Tiles
	t := table{padMM: 2.4, columns: []column{
		{title: "Mark", bold: true, whole: true},
		{title: "Cup", align: right, whole: true},
	}}
	if shape.body {
		t.columns = append(t.columns, column{title: "Body", whole: len(tiles.Bodies) > 1})
	}
	printed := len(t.columns)
	add := func(title string, leastMM, grow float64) {
		t.columns = append(t.columns, column{title: title, least: leastMM, grow: grow})
	}
	if shape.coats {
		for k := range tiles.Coats {
			add(fmt.Sprint("Coat ", k+1), leastCoatMM, 1)
		}
	} else {
		add("Coat", leastCoatMM, 0)
	}
	add("Surface", 18, 1)
	add("Defects", 18, 1)
	add("Colour", 18, 1)
	add("1–5", 9, 0)
	if shape.numbers {
		for _, name := range s.plan.Log.Numbers {
			add(name, leastNumberMM, 0)
		}
	}
	add("Notes", 24, 2)
	for _, tile := range s.Places.Tiles {
		body := tiles.Bodies[tile.Body]
		if len(tiles.Bodies) > 1 { // there is a key
			body = s.doc.shorten(body, regular(benchPt), mostBodyMM)
		}
		cells := []cell{words(tile.Mark), words(fmt.Sprint(tile.Cell))}
		if shape.body {
			cells = append(cells, words(body))
		}
		for range t.columns[printed:] {
			cells = append(cells, writeLine)
		}
		t.rows = append(t.rows, row{rule: tile.Body == 0 && tile.Repeat == 0, cells: cells})
	}
	return t
}
