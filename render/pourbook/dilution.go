package pourbook

import (
	"fmt"
	"strings"

	"pourboard/render/wording"
	"pourboard/render/xlsx"
)

// cardDilutions writes below the card how the doses that are too small for the scale
// are weighed in a mix with dry base. Another mix is for pourboard make to work out:
// the lines show as long as nothing has changed that they rest on.
func (b *pourBook) cardDilutions() {
	lines := wording.Dilutions(b.t)
	if lines == nil {
		return
	}
	g := &b.card
	width := g.printWidth()
	g.SkipRow()
	line := func(text, otherwise string) {
		g.TallRow(xlsx.LineHeight(text, width))
		g.TextFormula(xlsx.Remark, fmt.Sprintf("IF(As_planned,%s,%s)", xlsx.Quoted(text), xlsx.Quoted(otherwise)), text)
		g.Merge(0, g.Page.Columns-1)
	}
	line("Too little for the scale: weigh a mix with dry base.", "Inputs have changed: run pourboard make with them for the mixes with dry base.")
	for _, text := range lines {
		line(strings.TrimSpace(text), "")
	}
}
