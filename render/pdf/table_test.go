package pdf

import (
	"fmt"
	"io"
	"strings"
	"testing"
)

// pourTable has n rows whose names are of very unequal length.
func pourTable(n int) table {
	t := table{
		columns: []column{
			{title: "Cup", align: right, bold: true, whole: true},
			{title: "Glaze", grow: 1},
			{title: "Pour until it reads, mL", align: right, whole: true},
			{title: "Done", align: centre},
			{title: "Note", least: 30},
		},
		subtotal: func(from, to int) *row {
			return &row{cells: []cell{{}, words("Sum of this page"), words(fmt.Sprint(5 * (to - from))), {}, {}}}
		},
	}
	for i := range n {
		name := strings.TrimSpace(strings.Repeat("matte ", 1+i*i%23))
		if i == 13 {
			name = strings.Repeat("a name without any end ", 500)
		}
		if i == 17 {
			name = strings.Repeat("Donaudampfschiff", 20)
		}
		t.rows = append(t.rows, row{cells: []cell{words(fmt.Sprint(i + 1)), words(name), words(fmt.Sprint(5 * i)), tickBox, writeLine}})
	}
	return t
}

func pageTexts(p *page) string {
	var b strings.Builder
	for _, o := range p.ops {
		if o.kind == opText {
			b.WriteString(o.text + "\n")
		}
	}
	return b.String()
}

func TestTable(t *testing.T) {
	for _, paper := range [][2]float64{{210, 297}, {297, 210}, {148, 210}, {279.4, 431.8}} {
		for _, n := range []int{0, 1, 2, 60, 500} {
			t.Run(fmt.Sprintf("%gx%g %d", paper[0], paper[1], n), func(t *testing.T) {
				d := mustDoc(t, "A test")
				f := d.startSection("Pour sheet", paper[0], paper[1])
				turned := 0
				tb := pourTable(n)
				tb.onPage = func(*flow) { turned++ }
				f.table(tb)
				f.longTexts()
				mustWrite(t, d)
				checkPages(t, d)

				// Every header is there, and the sums of the pages add up.
				sums := 0
				for i, p := range d.pages {
					text := pageTexts(p)
					if i <= turned && !strings.Contains(text, "Done\n") {
						t.Errorf("page %d has no header", i+1)
					}
					if i <= turned && n > 0 {
						_, after, found := strings.Cut(strings.ReplaceAll(text, "\n", " "), "Sum of this page ")
						if !found {
							t.Errorf("page %d has no subtotal", i+1)
						}
						var sum int
						if _, err := fmt.Sscan(after, &sum); err != nil {
							t.Errorf("page %d: the subtotal is %q", i+1, after)
						}
						sums += sum
					}
				}
				if sums != 5*n {
					t.Errorf("the pages' sums add up to %d, want %d", sums, 5*n)
				}
				if ticks := countBoxes(d); ticks != n {
					t.Errorf("%d boxes to tick, want %d", ticks, n)
				}
				if n == 500 && turned < 5 {
					t.Errorf("500 rows on %d pages", turned+1)
				}
			})
		}
	}
}

func countBoxes(d *doc) int {
	n := 0
	for _, p := range d.pages {
		for _, o := range p.ops {
			if o.kind == opRect {
				n++
			}
		}
	}
	return n
}

func TestLevel(t *testing.T) {
	for _, tt := range []struct {
		least, most []float64
		width       float64
		want        []float64
	}{
		{[]float64{0, 0, 0}, []float64{10, 20, 90}, 60, []float64{10, 20, 30}},
		{[]float64{5, 40, 5}, []float64{50, 90, 50}, 80, []float64{20, 40, 20}},
		{[]float64{10, 10}, []float64{10, 50}, 60, []float64{10, 50}},
	} {
		got := level(tt.least, tt.most, tt.width)
		for i := range got {
			if diff := got[i] - tt.want[i]; diff > 1e-6 || diff < -1e-6 {
				t.Errorf("level(%v, %v, %g) = %v, want %v", tt.least, tt.most, tt.width, got, tt.want)
			}
		}
	}
}

// TestColumnWidths: figures are never broken while words can give way.
func TestColumnWidths(t *testing.T) {
	d := mustDoc(t, "t")
	f := d.startSection("s", 210, 297)
	tb := table{columns: []column{{title: "Glaze"}, {title: "Amount", whole: true, align: right}}}
	tb.rows = []row{{cells: []cell{words(strings.Repeat("magnesia ", 60)), words("12 345.678 g")}}}
	tb.pt = benchPt
	s := setter{flow: f, table: tb}
	widths := s.columnWidths()
	if want := d.width("12 345.678 g", regular(benchPt)) + 2*gutterMM; widths[1] < want-1e-9 {
		t.Errorf("the column of amounts is %.2f mm wide, want %.2f", widths[1], want)
	}
	if got := sum(widths); got > f.width()+1e-9 {
		t.Errorf("the table is %.2f mm wide on %.2f", got, f.width())
	}
}

func TestFooters(t *testing.T) {
	d := mustDoc(t, strings.Repeat("A very long title of a test ", 20))
	d.note = "corrected: bar measured 97.4 mm"
	for _, s := range []string{"Pour sheet", "Pour sheet", "Board"} {
		d.addPage(s, 148, 210)
	}
	d.addPage("Board", 148, 210).bare = true
	mustWrite(t, d)
	checkPages(t, d)
	for i, want := range []string{"Pour sheet 1 of 2", "Pour sheet 2 of 2", "Board 1 of 2"} {
		text := pageTexts(d.pages[i])
		if !strings.Contains(text, want+"\n") || !strings.Contains(text, fmt.Sprintf("97.4 mm · page %d of 4\n", i+1)) {
			t.Errorf("footer of page %d: %q, want %q", i+1, text, want)
		}
	}
	if text := pageTexts(d.pages[3]); text != "" {
		t.Errorf("a bare page has the footer %q", text)
	}
}

// BenchmarkTable sets a table of 500 rows.
func BenchmarkTable(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		d := mustDoc(b, "t")
		f := d.startSection("Pour sheet", 210, 297)
		f.table(pourTable(500))
		if err := d.write(io.Discard); err != nil {
			b.Fatal(err)
		}
	}
}
