package pdf

import (
	"fmt"
	"slices"
)

// longTexts are the texts that did not fit where they were wanted. Each has a
// number, drawn in its place, and is printed in full at the end of the section.
type longTexts struct {
	all   []string
	fresh []int // numbers met since they were last printed
}

// number gives the number of a long text, the same one each time.
func (l *longTexts) number(text string) int {
	n := slices.Index(l.all, text) + 1
	if n == 0 {
		l.all = append(l.all, text)
		n = len(l.all)
	}
	if !slices.Contains(l.fresh, n) {
		l.fresh = append(l.fresh, n)
	}
	return n
}

// label is what stands for a long text where it did not fit.
func label(n int) string { return fmt.Sprintf("[%d]", n) }

// fitted is a text made to fit a box: its lines, and the font they fit in.
type fitted struct {
	lines []string
	font  font
}

// fit makes a text fit a box of the given size, wrapped, in the font or in one
// smaller by half points down to leastPt. A word is not broken for it, nor a
// number parted from its unit, as long as a smaller font saves that. If all is in vain the text goes to the list of
// long texts and its number stands in for it.
func (d *doc) fit(text string, wMM, hMM float64, f font, leastPt float64) fitted {
	if whole, ok := d.fitWhole(text, wMM, hMM, f, leastPt); ok {
		return whole
	}
	short := fitted{[]string{label(d.long.number(d.clean(text)))}, f}
	short.font.pt = min(f.pt, max(leastPt, 1))
	if w := d.faces.widthMM(short.lines[0], short.font); w > wMM {
		short.font.pt *= wMM / w // a number must be seen, however small the place
	}
	return short
}

// fitWhole is fit for a text that must stand whole or not at all; it says
// whether it does.
func (d *doc) fitWhole(text string, wMM, hMM float64, f font, leastPt float64) (fitted, bool) {
	rows := func(f font) int {
		return int((hMM-(ascentEm+descentEm)*f.pt*mmPerPt+1e-9)/f.lineMM()) + 1
	}
	tall := func(f font) bool { return (ascentEm+descentEm)*f.pt*mmPerPt <= hMM+1e-9 }
	var broken *fitted
	brokenParts := false // a number from its unit, which is worse than a word
	for try := f; try.pt >= leastPt; try.pt -= 0.5 {
		if !tall(try) {
			continue
		}
		pieces := d.wrapPieces(text, try, wMM)
		if len(pieces) > rows(try) {
			continue
		}
		lines, whole, parts := make([]string, len(pieces)), true, false
		for i, p := range pieces {
			lines[i] = p.text
			if p.hyphen {
				lines[i] += "-"
			}
			whole = whole && !p.hyphen && !p.parted
			parts = parts || p.parted
		}
		if slices.ContainsFunc(lines, func(s string) bool { return d.faces.widthMM(s, try) > wMM+1e-9 }) {
			continue
		}
		if whole {
			return fitted{lines, try}, true
		}
		if broken == nil || brokenParts && !parts {
			broken, brokenParts = &fitted{lines, try}, parts
		}
	}
	if broken == nil {
		return fitted{}, false
	}
	return *broken, true
}

// textIn draws a text inside a box, made to fit it, in the middle of its
// height.
func (p *page) textIn(x, y, wMM, hMM float64, text string, f font, leastPt float64, a align) {
	p.fitted(x, y, wMM, hMM, p.doc.fit(text, wMM, hMM, f, leastPt), a)
}

// fitted draws a text that was made to fit a box.
func (p *page) fitted(x, y, wMM, hMM float64, t fitted, a align) {
	block := float64(len(t.lines)-1)*t.font.lineMM() + t.font.ascentMM() + t.font.descentMM()
	base := y + (hMM-block)/2 + t.font.ascentMM()
	for i, line := range t.lines {
		p.text(x+[...]float64{left: 0, centre: wMM / 2, right: wMM}[a], base+float64(i)*t.font.lineMM(), line, t.font, a)
	}
}
