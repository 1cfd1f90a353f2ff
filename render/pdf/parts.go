package pdf

import (
	"fmt"
	"strings"

	"pourboard/blend"
	"pourboard/render/wording"
)

// What a cup holds, in few signs: beside a spot there is no room for names.
// They go by the letters of blend.GlazeLetter and blend.SeriesLetter, in the
// order of the plan, and every page that uses them says what they stand for.

// named is a letter and what it stands for, held together on one line.
func named(letter, name string) string { return letter + "\u00A0=\u00A0" + name }

// shares is what a cell is made of: "P 50 %", "R 50 %", without what it lacks.
func (s *sheets) shares(c blend.Cell) []string {
	return s.sharesNamed(c, blend.GlazeLetter, blend.SeriesLetter, false)
}

// sharesBriefly is shares without what was asked where what is made is said.
func (s *sheets) sharesBriefly(c blend.Cell) []string {
	return s.sharesNamed(c, blend.GlazeLetter, blend.SeriesLetter, true)
}

// sharesByName is shares with names for letters: "Copper carbonate 0.5 %".
func (s *sheets) sharesByName(c blend.Cell) []string {
	return s.sharesNamed(c,
		func(end int) string { return s.test.Ends[end].Name },
		func(series int) string { return s.plan.Blend.Series[series].Material }, false)
}

func (s *sheets) sharesNamed(c blend.Cell, glaze, addition func(int) string, briefly bool) []string {
	var list []string
	if s.plan.Blend.HasSeries() {
		for i, d := range c.Doses {
			if d.Percent > 0 {
				list = append(list, addition(i)+" "+s.percentOf(d, briefly))
			}
		}
		if list == nil {
			return []string{"base alone"}
		}
		return list
	}
	for i, share := range c.Shares {
		if share > 0 {
			list = append(list, glaze(i)+" "+s.shareOf(c, i, briefly))
		}
	}
	return list
}

// shareOf is the share of an end as a tile is said to hold it; briefly is for
// where there is little room.
func (s *sheets) shareOf(c blend.Cell, end int, briefly bool) string {
	if briefly {
		return wording.ShareBrief(c, end)
	}
	return wording.ShareSaid(c, end)
}

// percentOf is shareOf for a dose.
func (s *sheets) percentOf(d blend.Dose, briefly bool) string {
	if briefly {
		return wording.DoseBrief(d)
	}
	return wording.DoseSaid(d)
}

// madeKey says what is said briefly.
const madeKey = "; percentages as made, where that differs noticeably from what was asked"

// shareKey says what the letters of shares stand for.
func (s *sheets) shareKey() string {
	var list []string
	if s.plan.Blend.HasSeries() {
		for i, series := range s.plan.Blend.Series {
			list = append(list, named(blend.SeriesLetter(i), series.Material))
		}
		return strings.Join(list, ", ") + ", " + s.shareBase()
	}
	for i, end := range s.test.Ends {
		list = append(list, named(blend.GlazeLetter(i), end.Name))
	}
	return strings.Join(list, ", ") + ", " + s.shareBase()
}

// shareBase says what shares are percentages of.
func (s *sheets) shareBase() string {
	if s.plan.Blend.HasSeries() {
		return "% of the dry base"
	}
	return "in % " + wording.BasisText(s.plan.Blend.Basis)
}

// An amount is one thing that goes into a cup.
type amount struct {
	letter, name string
	text         string // with its unit
}

// pourAmount is a pour with its unit, said as blend.DoseAmount says a dose: "70
// mL", "none, too little".
func (s *sheets) pourAmount(p blend.Pour) string {
	if p.Steps == 0 {
		return "none, too little"
	}
	return wording.PourText(s.test, p) + " " + string(s.plan.Kit.Pour.Unit)
}

// amounts is what is measured into a cup: pours, then doses.
func (s *sheets) amounts(c blend.Cell) []amount {
	var list []amount
	series := s.plan.Blend.HasSeries()
	for i, p := range c.Pours {
		if p.ML == 0 {
			continue
		}
		a := amount{blend.GlazeLetter(i), s.test.Ends[i].Name, s.pourAmount(p)}
		if s.test.OnScale() && len(c.Pours) > 1 && p.Steps > 0 {
			a.text = "to " + wording.ReadingText(s.test, p) + " " + string(s.plan.Kit.Pour.Unit)
		}
		if series && s.plan.Blend.Method != blend.ByPour {
			a.letter = "base"
		}
		list = append(list, a)
	}
	if s.plan.Blend.Method == blend.ByPour {
		return list
	}
	for i, d := range c.Doses {
		if d.Percent == 0 {
			continue
		}
		a := amount{blend.SeriesLetter(i), s.plan.Blend.Series[i].Material, wording.DoseAmount(s.test, d)}
		if s.plan.Blend.Method == blend.ByStock {
			a.letter, a.name = s.test.StockLabel(d.Stock), s.test.Stocks[d.Stock].Name
		}
		list = append(list, a)
	}
	return list
}

// amountKey says what the letters of amounts stand for.
func (s *sheets) amountKey() string {
	var list []string
	if b := s.plan.Blend; b.HasSeries() && b.Method != blend.ByPour {
		list = append(list, named("base", s.test.Ends[0].Name))
		for i, stock := range s.test.Stocks {
			list = append(list, named(s.test.StockLabel(i), stock.Name))
		}
		for i, series := range b.Series {
			if b.Method == blend.ByDose {
				list = append(list, named(blend.SeriesLetter(i), series.Material))
			}
		}
	} else {
		for i, end := range s.test.Ends {
			list = append(list, named(blend.GlazeLetter(i), end.Name))
		}
	}
	text := strings.Join(list, ", ")
	if s.test.OnScale() && len(s.test.Ends) > 1 {
		text += "; pour each until the scale reads so much"
	}
	return text
}

// both is the shares and the amounts of a cell, "50 %, 70 mL" of P, side by side
// where they are of the same things; briefly says only what was made where that
// differs noticeably from what was asked.
func (s *sheets) both(c blend.Cell, briefly bool) []amount {
	var list []amount
	b := s.plan.Blend
	if !b.HasSeries() {
		for i, p := range c.Pours {
			if c.Shares[i] > 0 {
				text := s.shareOf(c, i, briefly)
				if p.Steps > 0 { // else the share says that there is none
					text += ", " + s.pourAmount(p)
				}
				list = append(list, amount{blend.GlazeLetter(i), s.test.Ends[i].Name, text})
			}
		}
		return list
	}
	if b.Method != blend.ByPour {
		list = append(list, amount{"base", s.test.Ends[0].Name, s.pourAmount(c.Pours[0])})
	}
	for i, d := range c.Doses {
		if d.Percent == 0 {
			continue
		}
		text := s.percentOf(d, briefly)
		if b.Method != blend.ByPour && !d.None() {
			text += ", " + wording.DoseAmount(s.test, d)
			if len(s.test.Stocks) > 1 {
				text += " " + s.test.StockLabel(d.Stock)
			}
		}
		list = append(list, amount{blend.SeriesLetter(i), b.Series[i].Material, text})
	}
	if b.Method == blend.ByPour {
		for i, p := range c.Pours {
			if p.ML > 0 {
				list = append(list, amount{blend.GlazeLetter(i), s.test.Ends[i].Name, s.pourAmount(p)})
			}
		}
	}
	return list
}

// bothKey says what the letters of both stand for.
func (s *sheets) bothKey() string {
	b := s.plan.Blend
	switch {
	case !b.HasSeries():
		return s.shareKey() + ", and what is poured"
	case b.Method == blend.ByPour:
		return s.shareKey() + "; poured: " + s.amountKey()
	}
	what := "weighed in"
	if b.Method == blend.ByStock {
		what = "poured of its stock suspension"
	}
	return s.shareKey() + ", and what is " + what + "; base " + s.test.Ends[0].Name
}

// pack sets short texts in at most n lines no wider than wMM: as many on a line
// as go, in order. It is nil if they do not go.
func (d *doc) pack(texts []string, n int, wMM float64, f font) []string {
	const between = "  "
	var lines []string
	width, gap := 0.0, d.width(between, f)
	for _, text := range texts {
		w := d.width(text, f)
		switch {
		case w > wMM+1e-9:
			return nil
		case lines != nil && width+gap+w <= wMM+1e-9:
			lines[len(lines)-1] += between + text
			width += gap + w
		case len(lines) == n:
			return nil
		default:
			lines = append(lines, text)
			width = w
		}
	}
	return lines
}

// A packing is short texts of many cells, set in lines of one size that fits
// them all.
type packing struct {
	font   font
	lineMM float64
	lines  [][]string // by cell index; nil if no size fits
}

// packAll packs the texts of all cells in the largest size from mostPt down to
// leastPt in which they take at most n lines of lineMM.
func (s *sheets) packAll(texts func(c blend.Cell) []string, n int, wMM, lineMM, mostPt, leastPt float64) packing {
	all := make([][]string, len(s.test.Cells))
	for i, c := range s.test.Cells {
		all[i] = texts(c)
	}
	mostPt = min(mostPt, lineMM/((ascentEm+descentEm)*mmPerPt))
	for pt := mostPt; pt >= leastPt-1e-9; pt -= 0.5 {
		p := packing{regular(pt), lineMM, make([][]string, len(all))}
		whole := true
		for i, t := range all {
			if p.lines[i] = s.doc.pack(t, n, wMM, p.font); p.lines[i] == nil {
				whole = false
				break
			}
		}
		if whole {
			return p
		}
	}
	return packing{}
}

// fits says whether a text fits a box as fit would set it, without its number
// in the list of long texts.
func (d *doc) fits(text string, wMM, hMM float64, f font, leastPt float64) bool {
	_, ok := d.fitWhole(text, wMM, hMM, f, leastPt)
	return ok
}

// cupText names a cup by its number.
func cupText(n int) string { return fmt.Sprintf("cup %d", n) }
