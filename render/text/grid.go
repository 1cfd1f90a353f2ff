package text

import (
	"io"
	"slices"
	"strings"
	"unicode/utf8"
)

// grid is rows of cells that are printed in aligned columns.
type grid struct {
	left  []bool // by column: set to the left, otherwise to the right
	rows  [][]string
	rules []int // a rule is drawn before the row with this index
	cut   int   // the column that is cut short where the grid is too wide, 0 for none
}

// A grid with a column to cut is kept to the width of a usual terminal, as long
// as that leaves enough to know a name by.
const (
	terminal = 80
	leastCut = 16
)

func (g *grid) add(cells ...string) { g.rows = append(g.rows, cells) }

func (g *grid) rule() { g.rules = append(g.rules, len(g.rows)) }

// layout is how wide each column is, and the rules. Texts of any length can end
// a row; a rule goes on under them up to the terminal's edge, and under the heads
// beyond it.
func (g *grid) layout() (widths []int, rule int) {
	for _, row := range g.rows {
		for i, cell := range row {
			if i == len(widths) {
				widths = append(widths, 0)
			}
			widths[i] = max(widths[i], utf8.RuneCountInString(cell))
		}
	}
	rule = max(0, 2*(len(widths)-1))
	for _, n := range widths {
		rule += n
	}
	if over := rule - terminal; g.cut > 0 && over > 0 {
		widths[g.cut] = min(widths[g.cut], max(leastCut, widths[g.cut]-over))
	}
	if last := len(widths) - 1; last >= 0 && g.isLeft(last) && last < len(g.rows[0]) {
		heads := rule - widths[last] + utf8.RuneCountInString(g.rows[0][last])
		rule = min(rule, max(terminal, heads))
	}
	return widths, rule
}

func (g *grid) isLeft(column int) bool { return column < len(g.left) && g.left[column] }

// write prints the grid with two spaces between columns and none at the ends
// of lines.
func (g *grid) write(w io.Writer) error {
	widths, rule := g.layout()
	var b strings.Builder
	for r, row := range g.rows {
		if slices.Contains(g.rules, r) {
			b.WriteString(strings.Repeat("-", rule) + "\n")
		}
		line := ""
		for i, cell := range row {
			if i > 0 {
				line += "  "
			}
			if i == g.cut && i > 0 {
				cell = cutShort(cell, widths[i])
			}
			pad := strings.Repeat(" ", widths[i]-utf8.RuneCountInString(cell))
			if g.isLeft(i) {
				line += cell + pad
			} else {
				line += pad + cell
			}
		}
		b.WriteString(strings.TrimRight(line, " ") + "\n")
	}
	_, err := io.WriteString(w, b.String())
	return err
}

// cutShort is s in at most n characters, the last of them … where it is longer.
func cutShort(s string, n int) string {
	if r := []rune(s); len(r) > n {
		return strings.TrimRight(string(r[:n-1]), " ") + "…"
	}
	return s
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
