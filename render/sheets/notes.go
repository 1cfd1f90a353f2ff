package sheets

import (
	"fmt"
	"slices"
	"strings"

	"pourboard/blend"
	"pourboard/blend/quantity"
	"pourboard/render/page"
	"pourboard/render/wording"
)

// How many rows of differences, and of pairs of cups, the notes print.
const (
	mostDifferences = 12
	mostPairs       = 24
)

// leastLines are the fewest lines that are worth a page of their own: with
// fewer the notes are set in another size.
const leastLines = 5

// notes is what is longer and looked up: notes on the plan, instruments, what
// rounding does, hazards with their sources, and shortened names in full. They go
// below the unity formulas or on the first sheet where all of them do, otherwise on
// pages of their own, in the first size with which the last page is not for a few
// lines.
func (d *drawer) notes() {
	for _, room := range d.rooms {
		top := func(*page.Page, bool) float64 { return room.Y }
		if d.drawNotes(page.NewFlow(d.doc.Scrap(d.w, d.h), top), page.Least).Breaks == 0 {
			room.Page.Bookmark(d.part.title)
			d.drawNotes(room, page.Least)
			return
		}
	}
	p := d.doc.Add(d.part.title, d.w, d.h)
	for _, pt := range []float64{page.Small, page.Least, 9} {
		f := d.drawNotes(page.NewFlow(p, d.titles(d.part.title, "").Draw), pt)
		if f.Breaks == 0 || f.Lines >= leastLines || pt == 9 {
			return
		}
		p.Clear(f.Breaks)
	}
}

func (d *drawer) drawNotes(f *page.Flow, pt float64) *page.Flow {
	fine := page.Regular(pt)
	var texts []string
	for _, n := range d.Notes {
		if text := wording.Sentence(n); !slices.Contains(texts, text) {
			texts = append(texts, text)
		}
	}
	f.List("Before you mix", fine, texts)
	d.measuring(f, fine)
	d.rounding(f, fine)
	d.hazards(f, fine)
	f.List("Names in full", fine, d.doc.Cut())
	return f
}

// measuring is the instruments, and what of the advice Start has no room for.
func (d *drawer) measuring(f *page.Flow, fine page.Style) {
	kit := d.plan.Kit
	tools := []string{"a " + kit.Scale.String() + " scale"}
	if kit.Fine.Size > 0 {
		tools = append(tools, "a "+kit.Fine.String()+" scale for doses")
	}
	for _, b := range d.Test.Batches {
		for _, w := range b.Apart {
			if text := "a " + w.Step.String() + " scale for small additions"; !slices.Contains(tools, text) {
				tools = append(tools, text)
			}
		}
	}
	tools = append(tools, pouringTool(kit.Pour))
	if d.plan.Blend.Method == blend.ByStock || d.plan.Cup.Even {
		tools = append(tools, "a syringe marked every "+kit.Syringe.String())
	}
	lines := []string{
		"Instruments: " + strings.Join(tools, ", ") + ".",
		fmt.Sprintf("Your limit: ± %s for every dose and share. Mixed beyond what the cups need: %s.",
			quantity.FractionText(kit.Worst), quantity.FractionText(kit.Extra)),
	}
	if len(kit.Defaults) > 0 {
		lines = append(lines, "Defaults used: "+strings.Join(kit.Defaults, ", ")+".")
	}
	advice := wording.Advice(d.Advice, d.plan)
	if d.first["start"] != nil {
		advice = advice[min(d.advised, len(advice)):]
	}
	f.List("Instruments", fine, append(lines, advice...))
}

// rounding is where cups differ most from what is asked, and which of them
// cannot be told apart.
func (d *drawer) rounding(f *page.Flow, fine page.Style) {
	var rows []blend.Difference
	for _, x := range d.Test.Differences() {
		came := strings.TrimRight(strings.TrimRight(quantity.GotText(x.Got), "0"), ".")
		if came != quantity.PercentText(x.Asked) && len(rows) < mostDifferences {
			rows = append(rows, x)
		}
	}
	var pairs []string
	for _, p := range d.Test.Indistinguishable() {
		pairs = append(pairs, fmt.Sprintf("%d–%d", p[0], p[1]))
	}
	if more := len(pairs) - mostPairs; more > 0 {
		pairs = append(pairs[:mostPairs], fmt.Sprintf("and %d more", more))
	}
	if rows == nil && pairs == nil {
		return
	}
	f.Heading("Asked and measured", 30)
	if pairs != nil {
		f.Para(fine, "These neighbours may come out the same, as the step is smaller than the error: "+
			strings.Join(pairs, ", ")+".")
	}
	if rows == nil {
		return
	}
	point := fine.To(page.Decimal)
	column := func(head string, s page.Style, of func(blend.Difference) string) page.Column {
		return page.Column{Head: head, Style: s, Texts: page.Each(rows, of)}
	}
	f.Grid(page.Grid{Rows: len(rows), HeadH: 4.5, RowH: 4.4, Strips: 2, Columns: []page.Column{
		column("cup", fine.To(page.Right), func(x blend.Difference) string { return fmt.Sprint(x.Cell) }),
		column("of", fine, func(x blend.Difference) string { return x.Of }),
		column("asked %", point, func(x blend.Difference) string { return quantity.GotText(x.Asked) }),
		column("comes to %", point, func(x blend.Difference) string { return quantity.GotText(x.Got) }),
		column("could be off by", point, func(x blend.Difference) string { return quantity.PlusMinusText(x.PlusMinus) }),
	}})
}

// care is what to take care of before anything is weighed, in five lines at most.
func (d *drawer) care(materials []string) []string {
	return wording.CareLines(d.Test.Library.Hazards(materials))
}

// careOf is the worst of some materials, in one line.
func (d *drawer) careOf(materials []string) []string {
	if line := wording.Worst(d.Test.Library.Hazards(materials)); line != "" {
		return []string{line}
	}
	return nil
}

// hazards are the materials' hazards with their classes and sources.
func (d *drawer) hazards(f *page.Flow, fine page.Style) {
	names := d.Test.Materials()
	list := d.Test.Library.Hazards(names)
	var lines []string
	for _, h := range list {
		lines = append(lines, wording.CareLine(h))
	}
	if unknown := d.Test.Library.Unlisted(names); len(unknown) > 0 {
		lines = append(lines, "Unknown here: "+strings.Join(unknown, ", ")+". The supplier’s safety data sheet decides.")
	}
	lines = slices.Concat(lines, wording.CareClasses(list), wording.CareSources(list))
	f.List("Take care", fine, append(lines, wording.NoProof))
}
