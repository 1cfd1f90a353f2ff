package text

import (
	"fmt"
	"strings"
	"unicode/utf8"
)

// printer collects the lines of one output.
type printer struct{ strings.Builder }

// line adds a line.
func (p *printer) line(format string, args ...any) {
	p.WriteString(strings.TrimRight(oneLine(fmt.Sprintf(format, args...)), " ") + "\n")
}

// grid is rows of cells that are printed in aligned columns.
type grid struct {
	align string // by column: l to the left, r or nothing to the right
	rows  [][]string
	heads int // so many rows are heads, with a rule beneath
}

// table is a grid with a row of heads.
func table(align string, heads ...string) *grid {
	return &grid{align: align, rows: [][]string{heads}, heads: 1}
}

func (g *grid) add(cells ...string) { g.rows = append(g.rows, cells) }

// terminal is how many characters a usual terminal has in a line.
const terminal = 80

// grid adds a grid, with two spaces between columns. A rule goes on under texts at
// the end of rows up to the terminal's edge, and under the heads beyond it.
func (p *printer) grid(g *grid) {
	var widths []int
	for _, row := range g.rows {
		for i, cell := range row {
			if i == len(widths) {
				widths = append(widths, 0)
			}
			row[i] = oneLine(cell)
			widths[i] = max(widths[i], utf8.RuneCountInString(row[i]))
		}
	}
	rule, all := 0, 2*(len(widths)-1)
	for _, n := range widths {
		all += n
	}
	for r, row := range g.rows {
		if r == g.heads && r > 0 {
			p.line("%s", strings.Repeat("-", max(rule, min(all, terminal))))
		}
		var cells []string
		for i, cell := range row {
			width := widths[i]
			if i < len(g.align) && g.align[i] == 'l' {
				width = -width
			}
			cells = append(cells, fmt.Sprintf("%*s", width, cell))
		}
		line := strings.TrimRight(strings.Join(cells, "  "), " ")
		rule = max(rule, utf8.RuneCountInString(line))
		p.line("%s", line)
	}
}

// String is the grid alone.
func (g *grid) String() string {
	var p printer
	p.grid(g)
	return p.String()
}

// oneLine makes a text fit for a line: control characters, which could move the
// cursor or ring, become spaces.
func oneLine(s string) string {
	return strings.Map(func(r rune) rune {
		if r < ' ' || r == 0x7f || 0x80 <= r && r < 0xa0 {
			return ' '
		}
		return r
	}, s)
}
