package pdf

import (
	"encoding/xml"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"
	"testing"

	"pourboard/blend"
	"pourboard/layout"
	"pourboard/render/wording"
)

// only draws some sections of a packet.
func only(p Packet, names ...string) Packet {
	p.Only = names
	return p
}

// sizes counts the paths of a file that measure w x h mm within 0.05 mm on a
// printer whose 100 mm bar measures so much, as MuPDF finds them.
func sizes(paths [][2]float64, measured, w, h float64) (n int) {
	const within = 0.05
	for _, p := range paths {
		if math.Abs(p[0]*measured/100-w) <= within && math.Abs(p[1]*measured/100-h) <= within {
			n++
		}
	}
	return n
}

// The printed lengths are those that the plan asks for, measured in the file
// by MuPDF, which shares no code with the library that wrote it.
func TestLifeSize_measured(t *testing.T) {
	for _, paper := range []string{"A4", "Letter", "A5", "A3"} {
		for _, measured := range []float64{100, 97.4, 103} {
			if paper != "A4" && measured != 97.4 {
				continue
			}
			t.Run(fmt.Sprintf("%s/%g", paper, measured), func(t *testing.T) {
				p := packetOf(t, "triaxial", onPaper(t, paper))
				p.MeasuredMM = measured
				paths := func(section string) [][2]float64 {
					_, out := mustDraw(t, only(p, section))
					return tracedPaths(t, outside(t, out, "mutool", "trace", "FILE"))
				}
				board := paths("board")
				if n := sizes(board, measured, 50, 100); n != 84 {
					t.Errorf("%d tile outlines of 50 x 100 mm, want one for each of 84 tiles", n)
				}
				if n := sizes(board, measured, 100, 0); n != 1 {
					t.Errorf("%d bars of 100 mm, want 1", n)
				}
				if n := sizes(board, measured, 50, 50); n != 1 {
					t.Errorf("%d squares of 50 mm, want 1", n)
				}
				if n := sizes(paths("mat"), measured, 70, 70); n != 28 {
					t.Errorf("%d circles of 70 mm, want one for each of 28 cups", n)
				}
				dip := paths("dip")
				if n := sizes(dip, measured, 50, 100); n != 1 {
					t.Errorf("%d tiles of 50 x 100 mm on the dip sheet, want 1", n)
				}
				if n := sizes(dip, measured, 0, 80); n == 0 {
					t.Error("no dip of 80 mm is drawn")
				}
			})
		}
	}
}

// The rulers of all pages count the same board: the spots on a page lie at the
// readings that the layout gives them.
func TestLifeSize_rulersReadTheBoard(t *testing.T) {
	p := packetOf(t, "cells-66")
	s, _ := mustDraw(t, only(p, "board"))
	checked := 0
	for _, page := range s.doc.pages {
		// A number of the upper ruler stands 0.6 mm right of its mark.
		var at []float64 // reading − x of numbers along the top
		for _, o := range page.ops {
			var mm float64
			if o.kind == opText && o.font.pt == 6.5 && o.degrees == 0 && !strings.Contains(o.text, "in") {
				if _, err := fmt.Sscan(o.text, &mm); err == nil {
					at = append(at, mm-(o.at[0].x-0.6))
				}
			}
		}
		for _, o := range page.ops {
			if o.kind != opRect || at == nil || math.Abs(o.at[1].x-o.at[0].x-50) > 1e-6 {
				continue
			}
			reads := o.at[0].x + at[0]
			if !slices.ContainsFunc(p.Places.Boards[0].Spots, func(spot layout.Spot) bool { return math.Abs(spot.X-reads) < 1e-6 }) {
				t.Errorf("%s: a tile at %.3f mm of the ruler, where the board has none", page.section, reads)
			}
			checked++
		}
	}
	if checked != 198 {
		t.Errorf("%d tiles checked, want 198", checked)
	}
}

// Small boards share a page, each under its own title and with its own rulers,
// and the first page says that they are cut apart.
func TestBoards_shared(t *testing.T) {
	s, _ := mustDraw(t, only(packetOf(t, "quadraxial"), "board"))
	checkPages(t, s.doc)
	tiles, said := 0, false
	boards := map[string]int{} // pages by title
	for i, page := range s.doc.pages {
		for _, o := range page.ops {
			if o.kind == opRect && math.Abs(o.at[1].x-o.at[0].x-50) < 1e-6 && math.Abs(o.at[1].y-o.at[0].y-100) < 1e-6 {
				tiles++
			}
			if strings.HasPrefix(o.text, "Board ") && strings.Contains(o.text, ": ") {
				boards[o.text] = i
			}
			said = said || strings.Contains(o.text, "cut them apart along the dashed line")
		}
	}
	if tiles != 105 {
		t.Errorf("%d tiles, want 105", tiles)
	}
	for _, two := range [][2]string{
		{"Board 4: Porcelain, layer 4 of 5", "Board 5: Porcelain, layer 5 of 5"},
		{"Board 14: Red, layer 4 of 5", "Board 15: Red, layer 5 of 5"},
	} {
		if a, b := boards[two[0]], boards[two[1]]; a == 0 || a != b {
			t.Errorf("%q on page %d, %q on page %d: want them on one", two[0], a+1, two[1], b+1)
		}
	}
	if !said {
		t.Error("nobody says to cut them apart")
	}
}

// A corrected packet keeps off the edges of the paper, and no part of it lies
// off the page of the file.
func TestCorrectedPacket(t *testing.T) {
	for _, paper := range []string{"A5", "A4", "Letter", "A3", "A2", "Tabloid"} {
		for _, measured := range []float64{95, 97.4, 105} {
			p := packetOf(t, "triaxial", onPaper(t, paper))
			p.MeasuredMM = measured
			s, _ := mustDraw(t, only(p, "mat", "board", "map", "dip", "marks"))
			checkPages(t, s.doc)
			for i, page := range s.doc.pages {
				noted := false
				for _, o := range page.ops {
					noted = noted || strings.Contains(o.text, fmt.Sprintf("corrected: bar measured %g mm", measured))
					for _, at := range o.at {
						x := page.wMM/2 + (at.x-page.wMM/2)*page.scale
						y := page.hMM/2 + (at.y-page.hMM/2)*page.scale
						if x < -1e-6 || y < -1e-6 || x > page.wMM+1e-6 || y > page.hMM+1e-6 {
							t.Fatalf("%s, bar %g, page %d: something at %.2f, %.2f mm in the file, off the page", paper, measured, i+1, x, y)
						}
					}
				}
				if !noted {
					t.Errorf("%s, bar %g, page %d (%s): the footer does not say so", paper, measured, i+1, page.section)
				}
			}
		}
	}
}

// What other programs find in the file: it is sound, the words lie beside each
// other and away from the edges, and every tile is named with what is in it.
func TestBoards_asOthersReadThem(t *testing.T) {
	for _, name := range []string{"triaxial", "biaxial-series", "line-stock", "biaxial-pour", "cells-500"} {
		t.Run(name, func(t *testing.T) {
			p := packetOf(t, name, func(p *blend.Plan) { p.Labels = nil })
			s, out := mustDraw(t, only(p, "mat", "board", "map", "marks", "dip"))
			outside(t, out, "qpdf", "--check", "FILE")
			boxes(t, outside(t, out, "pdftotext", "-bbox", "FILE", "-"))

			_, out = mustDraw(t, only(p, "board"))
			text := strings.Join(strings.Fields(outside(t, out, "pdftotext", "-raw", "FILE", "-")), " ")
			for _, tile := range p.Places.Tiles {
				cell := p.Test.Cells[tile.Cell-1]
				head := tile.Mark + " " + cupText(tile.Cell) + " "
				names, letters := strings.Join(s.sharesByName(cell), " "), strings.Join(s.shares(cell), " ")
				if !strings.Contains(text, head+names) && !strings.Contains(text, head+letters) && !strings.Contains(text, head+strings.Join(s.sharesBriefly(cell), " ")) {
					t.Errorf("the boards do not say %q", head+letters)
				}
			}
			_, out = mustDraw(t, only(p, "map"))
			text = strings.Join(strings.Fields(outside(t, out, "pdftotext", "-raw", "FILE", "-")), " ")
			plan := s.mapPlan()
			for _, tile := range p.Places.Tiles {
				want := fmt.Sprintf("%d %s", tile.Cell, tile.Mark)
				if plan.full {
					for _, a := range plan.texts[tile.Cell-1] {
						want += " " + a.letter + " " + a.text
					}
				}
				if !strings.Contains(text, want) {
					t.Errorf("the maps do not say %q", want)
				}
			}
		})
	}
}

// Where a coarse instrument makes cups other than they were asked, the maps say
// what the tiles hold: in the places, or in the list where those are too small.
func TestMaps_asMade(t *testing.T) {
	coarse := func(p *blend.Plan) { p.Kit.Pour.Size, p.Kit.Syringe.Size = 20, 20 }
	halfGram := func(p *blend.Plan) { p.Kit.Scale.Size, p.Cup.Size = 1, 102 }
	for _, c := range []struct {
		plan, paper string
		change      func(*blend.Plan)
		briefly     bool
		say, not    []string
	}{
		// 140 mL in steps of 20 mL; doses of 0.501 g on a scale of 1 g.
		{"triaxial", "A4", coarse, true, []string{"percentages as made"}, []string{" asked, "}},
		{"cells-66", "A4", coarse, false, []string{"What the cups hold", " asked, "}, nil},
		{"biaxial-series", "A4", halfGram, false, []string{"0.5 % asked, 1 made"}, []string{"percentages as made"}},
		{"biaxial-series", "A5", halfGram, true, []string{"X 1 %, 1 g", "percentages as made"}, []string{" asked, "}},
	} {
		t.Run(c.plan+"/"+c.paper, func(t *testing.T) {
			p := packetOf(t, c.plan, onPaper(t, c.paper), c.change)
			s, _ := mustDraw(t, only(p, "map"))
			checkPages(t, s.doc)
			var text strings.Builder
			for _, page := range s.doc.pages {
				for _, o := range page.ops {
					text.WriteString(o.text + "\n")
				}
			}
			if plan := s.mapPlan(); plan.briefly != c.briefly {
				t.Errorf("briefly %t", plan.briefly)
			}
			flat := strings.Join(strings.Fields(text.String()), " ")
			for _, want := range c.say {
				if !strings.Contains(flat, want) {
					t.Errorf("the maps do not say %q", want)
				}
			}
			for _, not := range c.not {
				if strings.Contains(flat, not) {
					t.Errorf("the maps say %q", not)
				}
			}
			told := 0
			for _, c := range p.Test.Cells {
				for i := range c.Pours {
					if c.MadeOther(i) && !p.Test.Plan.Blend.HasSeries() {
						told++
						if made := wording.ShareBrief(c, i); !strings.Contains(flat, made) && !strings.Contains(flat, strings.TrimSuffix(made, " %")+" made") {
							t.Errorf("cup %d: the maps do not say %q", c.Number, made)
						}
					}
				}
				for i := range c.Doses {
					if c.Doses[i].AsMade {
						told++
					}
				}
			}
			if told == 0 {
				t.Error("nothing is made other than asked: this tests nothing")
			}
		})
	}
}

// boxes fails if words of a page that pdftotext found overlap or lie near an
// edge. Poppler takes a word's height from the font's, as the sheets do.
func boxes(t *testing.T, report string) {
	t.Helper()
	type word struct {
		X0   float64 `xml:"xMin,attr"`
		Y0   float64 `xml:"yMin,attr"`
		X1   float64 `xml:"xMax,attr"`
		Y1   float64 `xml:"yMax,attr"`
		Text string  `xml:",chardata"`
	}
	var doc struct {
		Pages []struct {
			W     float64 `xml:"width,attr"`
			H     float64 `xml:"height,attr"`
			Words []word  `xml:"word"`
		} `xml:"body>doc>page"`
	}
	dec := xml.NewDecoder(strings.NewReader(report))
	dec.Strict, dec.Entity = false, xml.HTMLEntity
	if err := dec.Decode(&doc); err != nil {
		t.Fatal(err)
	}
	const hair, edge = 0.1, edgeMM / mmPerPt // pt
	words := 0
	for i, p := range doc.Pages {
		for k, a := range p.Words {
			words++
			if a.X0 < edge-hair || a.Y0 < edge-hair || a.X1 > p.W-edge+hair || a.Y1 > p.H-edge+hair {
				t.Errorf("page %d: %q is within %g mm of an edge", i+1, a.Text, edgeMM)
			}
			for _, b := range p.Words[k+1:] {
				if a.X0 < b.X1-hair && b.X0 < a.X1-hair && a.Y0 < b.Y1-hair && b.Y0 < a.Y1-hair {
					t.Errorf("page %d: %q and %q overlap", i+1, a.Text, b.Text)
				}
			}
		}
	}
	if words == 0 {
		t.Error("pdftotext found no words")
	}
}

// Plans at the limits: nothing overlaps, nothing is lost.
func TestBoards_extremes(t *testing.T) {
	long := strings.Repeat("Überlange Glasur mit Äpfeln und Öl ", 3)
	for name, c := range map[string]struct {
		plan   string
		change func(p *blend.Plan)
	}{
		"long names": {"triaxial", func(p *blend.Plan) {
			p.Title = long + "title"
			for i := range p.Glazes {
				p.Glazes[i].Name = fmt.Sprint(long, i)
			}
			for i := range p.Tiles.Bodies {
				p.Tiles.Bodies[i] = fmt.Sprint(long, strings.Repeat("Ton", 30), i)
			}
		}},
		"long series":  {"biaxial-series", func(p *blend.Plan) { p.Blend.Series[0].Material = long; p.Blend.Series[1].Material = long + "2" }},
		"tile as wide": {"line", func(p *blend.Plan) { p.Tiles.WidthMM, p.Tiles.HeightMM = 320, 90 }},
		"huge tile":    {"line", func(p *blend.Plan) { p.Tiles.WidthMM, p.Tiles.HeightMM = 400, 500 }},
		"tiny tile":    {"triaxial", func(p *blend.Plan) { p.Tiles.WidthMM, p.Tiles.HeightMM, p.Tiles.DipMM = 8, 12, 8 }},
		"huge cup":     {"line", func(p *blend.Plan) { p.Cup.DiameterMM = 290 }},
		"tiny cup":     {"triaxial", func(p *blend.Plan) { p.Cup.DiameterMM = 12 }},
		"many coats":   {"line", func(p *blend.Plan) { p.Tiles.Coats = 20 }},
		"corner coats": {"line", func(p *blend.Plan) { p.Tiles.Coats, p.Tiles.Bands = 9, blend.Corner }},
		"wide corner": {"line", func(p *blend.Plan) {
			p.Tiles.WidthMM, p.Tiles.HeightMM, p.Tiles.DipMM, p.Tiles.Bands = 170, 60, 40, blend.Corner
		}},
		"600 tiles": {"triaxial", func(p *blend.Plan) {
			p.Blend.Divisions, p.Mark, p.Tiles.Repeats, p.Tiles.Bodies = 9, "WXYZ", 3, []string{"a", "b", "c", "d"}
		}},
		"fit":            {"triaxial", func(p *blend.Plan) { p.Board.Scale = blend.Fit }},
		"no prefix":      {"line", func(p *blend.Plan) { p.Mark = "" }},
		"bodies as rows": {"line", func(p *blend.Plan) { p.Tiles.Bodies = []string{long, "b"} }},
	} {
		for _, paper := range []string{"A4", "A5", "Letter", "A3"} {
			t.Run(name+"/"+paper, func(t *testing.T) {
				p := packetOf(t, c.plan, c.change, onPaper(t, paper))
				names := []string{"mat", "labels", "marks", "map", "dip"}
				if p.Test.Plan.Board.Scale == blend.Life {
					names = append(names, "board")
				}
				s, _ := mustDraw(t, only(p, names...))
				checkPages(t, s.doc)
				whole := map[string]int{}
				for _, page := range s.doc.pages {
					for _, o := range page.ops {
						whole[page.section+" "+o.text]++
					}
				}
				for _, tile := range p.Places.Tiles {
					for section, mark := range map[string]string{"Mark list": tile.Under, "Board maps": tile.Mark, "Dip sheet": tile.Mark} {
						if whole[section+" "+mark] == 0 {
							t.Errorf("%s: no %s", section, mark)
						}
					}
					if len(names) == 6 && whole["Boards at life size "+tile.Mark] == 0 {
						t.Errorf("boards: no %s", tile.Mark)
					}
				}
			})
		}
	}
}

func TestMapTexts_legible(t *testing.T) {
	for _, name := range planNames(t) {
		for _, paper := range []string{"A4", "A5"} {
			s, _ := mustDraw(t, only(packetOf(t, name, onPaper(t, paper)), "map"))
			for i, p := range s.doc.pages {
				for _, o := range p.ops {
					if o.kind == opText && o.font.pt < headLeastPt-1e-9 {
						t.Errorf("%s on %s, page %d: %q in %.1f pt", name, paper, i+1, o.text, o.font.pt)
					}
				}
			}
			for _, m := range s.mapPlan().maps {
				if m.pt < mapLeastPt-1e-9 {
					t.Errorf("%s on %s: places in %.1f pt", name, paper, m.pt)
				}
			}
		}
	}
}

// A map of 216 places goes on one page of A4, turned; where a map does not, a
// note says so and names paper on which it does.
func TestMapsOnOnePage(t *testing.T) {
	grid := func(p *blend.Plan) {
		p.Blend.Columns, p.Blend.Rows = 18, 12
		p.Board.Scale = blend.Fit
	}
	for _, c := range []struct {
		paper string
		pages int
		fix   string
	}{{"A4", 1, ""}, {"A3", 1, ""}, {"A5", 3, "--paper A4 takes it on one page"}} {
		p := only(packetOf(t, "biaxial", grid, onPaper(t, c.paper)), "map")
		s, _ := mustDraw(t, p)
		for _, m := range s.mapPlan().maps {
			if len(m.pages) != c.pages || m.pt < mapLeastPt-1e-9 {
				t.Errorf("%s: %d pages in %.1f pt, want %d in %g pt at least", c.paper, len(m.pages), m.pt, c.pages, mapLeastPt)
			}
		}
		notes, err := p.Write(io.Discard)
		if err != nil {
			t.Fatal(err)
		}
		fix := ""
		for _, n := range notes {
			if n.Place == "board map" {
				fix += n.Fix
			}
		}
		if fix != c.fix {
			t.Errorf("%s: told %q, want %q", c.paper, fix, c.fix)
		}
	}
}

// A mark has a line below each sign that is painted with one, and below no other.
func TestMark_underlined(t *testing.T) {
	d := mustDoc(t, "t")
	p := d.addPage("s", 200, 100)
	f := bold(20)
	p.mark(50, 50, "MR96A", []bool{false, false, true, true, false}, f, left)
	var lines []op
	for _, o := range p.ops {
		if o.kind == opLine {
			lines = append(lines, o)
		}
	}
	if len(lines) != 2 {
		t.Fatalf("%d lines, want 2", len(lines))
	}
	at := 50 + d.width("MR", f)
	for i, l := range lines {
		end := at + d.width("9", f)
		if l.at[0].x < at || l.at[1].x > end || l.at[1].x-l.at[0].x < 0.7*(end-at) || l.at[0].y <= 50 {
			t.Errorf("line %d from %v to %v, want below the sign from %.2f to %.2f", i+1, l.at[0], l.at[1], at, end)
		}
		at = end
	}
}

func TestSpelled(t *testing.T) {
	for mark, want := range map[string]string{"MR28A": "M R two eight A", "7": "seven", "K906": "K nine zero six"} {
		if got := spelled(mark); got != want {
			t.Errorf("%s is %q, want %q", mark, got, want)
		}
	}
}

func TestOrdinal(t *testing.T) {
	for n, want := range map[int]string{1: "1st", 2: "2nd", 3: "3rd", 4: "4th", 11: "11th", 12: "12th", 13: "13th", 21: "21st", 112: "112th"} {
		if got := ordinal(n); got != want {
			t.Errorf("%d is %q, want %q", n, got, want)
		}
	}
}

func TestPack(t *testing.T) {
	d := mustDoc(t, "t")
	f := regular(10)
	two := d.width("A 50 %  B 50 %", f)
	for _, c := range []struct {
		lines int
		width float64
		want  []string
	}{
		{1, two, nil},
		{2, two, []string{"A 50 %  B 50 %", "C 100 %"}},
		{3, two - 0.01, []string{"A 50 %", "B 50 %", "C 100 %"}},
		{3, 5, nil},
		{1, 200, []string{"A 50 %  B 50 %  C 100 %"}},
	} {
		if got := d.pack([]string{"A 50 %", "B 50 %", "C 100 %"}, c.lines, c.width, f); !slices.Equal(got, c.want) {
			t.Errorf("%d lines of %.1f mm: %q, want %q", c.lines, c.width, got, c.want)
		}
	}
}

func BenchmarkBoards(b *testing.B) {
	p := only(packetOf(b, "cells-66"), "mat", "marks", "board", "map", "dip")
	b.ReportAllocs()
	for b.Loop() {
		if _, err := p.Write(io.Discard); err != nil {
			b.Fatal(err)
		}
	}
}

// What is a part of a tile larger than a page is said outside its outline where
// the paper is free, and clear of crosses and cut lines everywhere.
func TestCaptionsOfLargeTiles(t *testing.T) {
	for _, c := range []struct {
		size    [2]float64
		paper   string
		covered bool
	}{
		{[2]float64{200, 200}, "A4", false},
		{[2]float64{200, 200}, "Letter", false},
		{[2]float64{290, 230}, "A4", true},
	} {
		s, _ := mustDraw(t, only(packetOf(t, "line", onPaper(t, c.paper), func(p *blend.Plan) {
			p.Tiles.WidthMM, p.Tiles.HeightMM = c.size[0], c.size[1]
		}), "board"))
		checkPages(t, s.doc)
		spreads := s.lifeSize(s.Places.Boards)
		if got := covered(spreads); got != c.covered {
			t.Errorf("%v on %s: covered %t, want %t", c.size, c.paper, got, c.covered)
		}
		parts := 0
		for _, sp := range spreads {
			for i := range sp.pages {
				from := &sp.pages[i]
				for _, k := range from.Parts {
					parts++
					at, where := besidePart(from, sp.board.Spots[k])
					outline := from.RectOnPaper(sp.board.Spots[k].Rect)
					meets := common(at, outline)
					switch {
					case where == nowhere:
						t.Errorf("%v on %s, page %s: not said what spot %d is", c.size, c.paper, from.Code, k)
					case where == besideIt && meets.W > 0 && meets.H > 0:
						t.Errorf("%v on %s, page %s: caption %v runs into the outline %v", c.size, c.paper, from.Code, at, outline)
					}
					for _, x := range from.Crosses {
						arms := from.RectOnPaper(layout.Rect{X: x.X - x.ArmX, Y: x.Y - x.ArmY, W: 2 * x.ArmX, H: 2 * x.ArmY})
						if meets := common(at, arms); meets.W > 0 && meets.H > 0 {
							t.Errorf("%v on %s, page %s: caption %v and a cross at %v", c.size, c.paper, from.Code, at, arms)
						}
					}
				}
			}
		}
		if parts == 0 {
			t.Errorf("%v on %s: no tile is larger than a page", c.size, c.paper)
		}
	}
}

// Every page at life size says which edge is the reader's, however narrow the
// board; the first and the last mark stand in its head in words.
func TestWhichWayUp(t *testing.T) {
	for _, paper := range []string{"Letter", "A5"} {
		s, _ := mustDraw(t, only(packetOf(t, "triaxial-bounds", onPaper(t, paper), func(p *blend.Plan) { p.Blend.Divisions = 4 }), "board", "mat"))
		checkPages(t, s.doc)
		life := 0
		for i, p := range s.doc.pages {
			if !p.toYou {
				continue
			}
			life++
			text := ""
			for _, o := range p.ops {
				text += o.text + " "
			}
			for _, want := range []string{"this edge to you", "to you"} {
				if !strings.Contains(text, want) {
					t.Errorf("%s, page %d: no %q", paper, i+1, want)
				}
			}
			if strings.Contains(text, "Board 1: ") && !strings.Contains(text, "TH1A (T H one A); last, at the bottom: TH12A (T H one two A)") {
				t.Errorf("%s, page %d: the marks are not in words: %s", paper, i+1, text)
			}
		}
		if life == 0 {
			t.Errorf("%s: no page at life size", paper)
		}
	}
}
