package record_test

import (
	"fmt"
	"math/rand/v2"
	"os"
	"slices"
	"strings"
	"testing"

	"pourboard/blend"
	. "pourboard/blend/record"
	"pourboard/blend/record/recordtest"
)

// spoiler does to the sheet of tiles what people and programs do to it.
type spoiler struct {
	*rand.Rand
	t     *testing.T
	sheet *Sheet
	other Sheet // that of another test with the same mark
}

// any is a row of a tile.
func (s spoiler) any() int {
	for {
		if i := s.IntN(len(s.sheet.Rows)); i > s.head() {
			return i
		}
	}
}

// head is the row of heads.
func (s spoiler) head() int {
	return slices.IndexFunc(s.sheet.Rows, func(r Row) bool {
		return slices.ContainsFunc(r.Cells, func(c Cell) bool { return c.Text == "Mark" })
	})
}

// cell is a row's cell below a head.
func (s spoiler) cell(row int, head string) *Cell {
	at := slices.IndexFunc(s.sheet.Rows[s.head()].Cells, func(c Cell) bool { return c.Text == head })
	cells := &s.sheet.Rows[row].Cells
	if at < 0 {
		return &Cell{}
	}
	for len(*cells) <= at {
		*cells = append(*cells, Cell{})
	}
	return &(*cells)[at]
}

func (s spoiler) spoil() (what string) {
	rows := s.sheet.Rows
	switch s.IntN(11) {
	case 0:
		below := rows[s.head()+1:]
		s.Shuffle(len(below), func(a, b int) { below[a], below[b] = below[b], below[a] })
		return "rows shuffled"
	case 1:
		at := s.any()
		s.sheet.Rows = slices.Delete(rows, at, min(len(rows), at+1+s.IntN(4)))
		return "rows deleted"
	case 2:
		row := rows[s.any()]
		row.Cells = slices.Clone(row.Cells)
		s.sheet.Rows = append(rows, row)
		return "a row doubled"
	case 3: // one column sorted alone
		a, b, head := s.any(), s.any(), []string{"Cup", "Body", "Mark"}[s.IntN(3)]
		one, other := s.cell(a, head), s.cell(b, head)
		*one, *other = *other, *one
		return "cells of " + head + " exchanged"
	case 4:
		for range 1 + s.IntN(5) {
			row := s.other.Rows[1+s.IntN(len(s.other.Rows)-1)]
			row.Cells = slices.Clone(row.Cells)
			s.sheet.Rows = slices.Insert(s.sheet.Rows, s.any(), row)
		}
		return "rows of another test pasted"
	case 5:
		cell := s.cell(s.any(), "Mark")
		typed := []byte(cell.Text)
		if len(typed) > 0 {
			typed[s.IntN(len(typed))] = "0123456789ABCDEFIOLlPRUioQ.-, "[s.IntN(30)]
			*cell = Cell{Kind: Text, Text: string(typed)}
		}
		return "a mark retyped"
	case 6: // heads again, in another order, and the rows below them in that order
		heads := Row{Cells: slices.Clone(rows[s.head()].Cells)}
		order := s.Perm(len(heads.Cells))
		at := s.any()
		s.sheet.Rows = slices.Insert(rows, at, heads)
		for i := at; i < len(s.sheet.Rows); i++ {
			was := slices.Clone(s.sheet.Rows[i].Cells)
			now := make([]Cell, len(order))
			for k, from := range order {
				if from < len(was) {
					now[k] = was[from]
				}
			}
			s.sheet.Rows[i].Cells = now
		}
		return "heads again in another order"
	case 7:
		*s.cell(s.head(), []string{"Rating", "Surface", "Colour", "Photograph", "Coat 1"}[s.IntN(5)]) = recordtest.Words([]string{"My own", "", "Rating?"}[s.IntN(3)])
		return "a head renamed"
	case 8:
		s.sheet.Rows = slices.Insert(rows, 0, Row{Cells: []Cell{recordtest.Words("MR 1"), recordtest.Words("fired 12 Nov")}})
		return "a title above"
	case 9:
		for i := range rows {
			for k, c := range rows[i].Cells {
				if c.Kind == Number {
					rows[i].Cells[k] = recordtest.Words(strings.ReplaceAll(c.Text, ".", ","))
				}
			}
		}
		return "decimal commas"
	default:
		*s.cell(s.any(), "Firing") = recordtest.Words("B")
		return "a second firing"
	}
}

// Whatever is done to the rows of a log, every reading lands on the tile that it
// was written of, or is reported by its row; and none of another test lands at
// all.
func TestRead_spoilt(t *testing.T) {
	random := rand.New(rand.NewPCG(20261128, 13))
	read, told, refused := 0, 0, 0
	rounds := 120
	if os.Getenv("POURBOARD_OUTSIDE") == "1" {
		rounds = 1200
	}
	for round := range rounds {
		name := []string{"triaxial", "line-series", "biaxial", "bodies-4", "list"}[random.IntN(5)]
		change := func(p *blend.Plan) { p.Mark, p.Tiles.Coats = "MR", 1 }
		m := recordtest.Planned(t, name, change)
		other := recordtest.Planned(t, []string{"triaxial", "line-series", "biaxial"}[random.IntN(3)], func(p *blend.Plan) {
			change(p)
			p.Title += " again"
			p.Tiles.Repeats = 2
		})
		sheets, foreign := m.BlankLog(), other.BlankLog()
		note := func(w recordtest.Made, s *Sheet, mine string) {
			at := recordtest.Column(t, *s, "Notes")
			for i := range w.Scheme.Tiles() {
				tile := w.Scheme.Tile(i)
				s.Rows[i+1].Cells[at] = recordtest.Words(fmt.Sprintf("%s %d %s %d row %d", mine, tile.Cell, w.Test.Plan.Tiles.Bodies[tile.Body], tile.Repeat, i))
			}
		}
		note(m, &sheets[0], "mine")
		note(other, &foreign[0], "theirs")
		s := spoiler{random, t, &sheets[0], foreign[0]}
		var done []string
		for range 1 + random.IntN(4) {
			done = append(done, s.spoil())
			if strings.HasPrefix(done[len(done)-1], "heads again") {
				break // what is done after it would be done in other columns
			}
		}
		for i := range sheets[0].Rows {
			sheets[0].Rows[i].Number = i + 1
		}
		is := m
		if random.IntN(3) == 0 { // the plan's bodies are put in another order, and repeats added
			is = recordtest.Planned(t, name, func(p *blend.Plan) {
				change(p)
				slices.Reverse(p.Tiles.Bodies)
				p.Tiles.Repeats = 3
			})
			done = append(done, "bodies reordered")
		}
		log, err := Read(is.Test, sheets)
		if err != nil {
			refused++
			continue
		}
		landed := map[string]bool{}
		for _, r := range log.Readings {
			if r.Notes == "" {
				continue
			}
			want := fmt.Sprintf("mine %d %s %d row", r.Cell, is.Test.Plan.Tiles.Bodies[r.Body], r.Repeat)
			if !strings.HasPrefix(r.Notes, want) {
				t.Fatalf("round %d, %s, %s: %s of row %d is read as %q", round, name, strings.Join(done, ", "), r.Mark, r.Row, r.Notes)
			}
			landed[r.Notes] = true
			read++
		}
		all := recordtest.Complaints(log) + "\n" + strings.Join(log.Notes, "\n")
		for _, row := range sheets[0].Rows {
			at := slices.IndexFunc(row.Cells, func(c Cell) bool {
				return strings.HasPrefix(c.Text, "mine ") || strings.HasPrefix(c.Text, "theirs ")
			})
			if at < 0 || landed[row.Cells[at].Text] {
				continue
			}
			told++
			number := fmt.Sprint(row.Number)
			named := strings.Contains(all, "row "+number+",") || strings.Contains(all, "row "+number+":") || strings.Contains(all, " "+number+", ") || strings.Contains(all, ", "+number)
			if !named && !strings.Contains(all, "rows skipped") && !strings.Contains(all, "row skipped") {
				t.Fatalf("round %d, %s, %s: row %s, %q, is neither read nor told of:\n%s", round, name, strings.Join(done, ", "), number, row.Cells[at].Text, all)
			}
		}
	}
	t.Logf("%d readings on their own tiles, %d rows told of, %d logs refused", read, told, refused)
	if read < 20*rounds || told < rounds {
		t.Errorf("only %d readings and %d rows told of", read, told)
	}
}
