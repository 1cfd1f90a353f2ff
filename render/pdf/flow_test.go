package pdf

import (
	"fmt"
	"slices"
	"strings"
	"testing"
)

// Wherever a page ends, a heading stays with what is under it, items and rows
// are not left alone, and a table that is to stay together does.
func TestFlow_keepsTogether(t *testing.T) {
	items := []string{"first item", "second item", "third item", "last item"}
	rows := make([]row, 5)
	for i := range rows {
		rows[i].cells = []cell{words(fmt.Sprint("row ", i+1))}
	}
	on := func(d *doc, text string) int {
		return slices.IndexFunc(d.pages, func(p *page) bool {
			return slices.ContainsFunc(p.ops, func(o op) bool { return o.text == text })
		})
	}
	moved := 0
	for used := 100.0; used < 270; used++ {
		d := mustDoc(t, "t")
		f := d.startSection("s", 210, 297)
		f.y = used
		f.subheading("heading of items")
		d.bookmark(1, "items")
		f.items("–", items, regular(benchPt))
		if a, b := on(d, "heading of items"), on(d, "second item"); a != b {
			t.Errorf("from %g mm: the heading on page %d, the second item on %d", used, a+1, b+1)
		}
		if a, b := on(d, "third item"), on(d, "last item"); a != b {
			t.Errorf("from %g mm: the last item alone on page %d", used, b+1)
		}
		if n := on(d, "heading of items"); d.marks[1].page != n {
			t.Errorf("from %g mm: the bookmark leads to page %d, the heading is on %d", used, d.marks[1].page+1, n+1)
		} else if n > 0 {
			moved++
		}
		if n := strings.Count(pageTexts(d.pages[0])+pageTexts(d.pages[len(d.pages)-1]), "heading of items"); len(d.pages) > 1 && n != 1 {
			t.Errorf("from %g mm: the heading stands %d times", used, n)
		}

		for _, together := range []bool{false, true} {
			d := mustDoc(t, "t")
			f := d.startSection("s", 210, 297)
			f.y = used
			f.subheading("heading of rows")
			f.table(table{columns: []column{{title: "head of rows"}}, rows: rows, together: together})
			if a, b := on(d, "heading of rows"), on(d, "row 2"); a != b {
				t.Errorf("from %g mm, together %t: the heading on page %d, row 2 on %d", used, together, a+1, b+1)
			}
			if a, b := on(d, "row 1"), on(d, "row 5"); together && a != b {
				t.Errorf("from %g mm: a table that stays together begins on page %d and ends on %d", used, a+1, b+1)
			}
			if a, b := on(d, "row 3"), on(d, "row 5"); a != b {
				t.Errorf("from %g mm, together %t: fewer than 3 rows on page %d", used, together, b+1)
			}
		}
	}
	if moved == 0 {
		t.Error("no heading had to go to the next page: this tests nothing")
	}
}

// A list of cups leaves no cup or two alone on a further page.
func TestStrips_noFewRows(t *testing.T) {
	for n := 1; n < 120; n++ {
		for _, used := range []float64{20, 150, 200} {
			d := mustDoc(t, "t")
			f := d.startSection("s", 148, 210)
			f.y = used
			rows := make([]stripRow, n)
			for i := range rows {
				rows[i].texts = []string{fmt.Sprintf("cup%d", i+1), ""}
			}
			f.strips(strips{rows: rows, columns: []stripColumn{cupColumn, {tick: true, font: smallFont}}}).under("list", "list")
			checkPages(t, d)
			last := strings.Count(pageTexts(d.pages[len(d.pages)-1]), "cup") - strings.Count(pageTexts(d.pages[len(d.pages)-1]), "cup\n")
			if len(d.pages) > 1 && last < min(fewRows, n) {
				t.Errorf("%d cups from %g mm: %d of them on page %d", n, used, last, len(d.pages))
			}
		}
	}
}

// The log never breaks a mark over two lines, on whatever paper.
func TestLog_marksWhole(t *testing.T) {
	for _, name := range planNames(t) {
		if name == "cells-500" {
			continue
		}
		for _, paper := range []string{"A4", "A5"} {
			p := packetOf(t, name, onPaper(t, paper))
			s, _ := mustDraw(t, only(p, "log"))
			whole := map[string]bool{}
			for _, page := range s.doc.pages {
				for _, o := range page.ops {
					whole[o.text] = true
				}
			}
			for _, tile := range p.Places.Tiles {
				if !whole[tile.Mark] {
					t.Errorf("%s on %s: no %s", name, paper, tile.Mark)
				}
			}
		}
	}
}
