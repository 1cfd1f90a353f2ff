package text

import (
	"io"
	"strings"
	"unicode/utf8"
)

// grid is rows of cells that are printed in aligned columns.
type grid struct {
	left  []bool // by column: set to the left, otherwise to the right
	rows  [][]string
	rules []int // a rule is drawn before the row with this index
}

func (g *grid) add(cells ...string) { g.rows = append(g.rows, cells) }

func (g *grid) rule() { g.rules = append(g.rules, len(g.rows)) }

// write prints the grid with two spaces between columns and none at the ends
// of lines.
func (g *grid) write(w io.Writer) error {
	var widths []int
	for _, row := range g.rows {
		for i, cell := range row {
			if i == len(widths) {
				widths = append(widths, 0)
			}
			widths[i] = max(widths[i], utf8.RuneCountInString(cell))
		}
	}
	whole := max(0, 2*(len(widths)-1))
	for _, n := range widths {
		whole += n
	}
	var b strings.Builder
	rules := g.rules
	for r, row := range g.rows {
		if len(rules) > 0 && rules[0] == r {
			b.WriteString(strings.Repeat("-", whole) + "\n")
			rules = rules[1:]
		}
		var line strings.Builder
		for i, cell := range row {
			if i > 0 {
				line.WriteString("  ")
			}
			pad := strings.Repeat(" ", widths[i]-utf8.RuneCountInString(cell))
			if i < len(g.left) && g.left[i] {
				line.WriteString(cell + pad)
			} else {
				line.WriteString(pad + cell)
			}
		}
		b.WriteString(strings.TrimRight(line.String(), " ") + "\n")
	}
	_, err := io.WriteString(w, b.String())
	return err
}

// oneLine makes a name fit for a terminal: control characters, which could
// move the cursor or ring, become spaces.
func oneLine(s string) string {
	return strings.Map(func(r rune) rune {
		if r < ' ' || r == 0x7f || 0x80 <= r && r < 0xa0 {
			return ' '
		}
		return r
	}, s)
}
