package pdf

import (
	"fmt"
	"slices"
	"strings"

	"pourboard/blend"
	"pourboard/blend/measure"
	"pourboard/blend/quantity"
	"pourboard/render/wording"
)

// How much of the long lists the summary prints.
const (
	mostDifferences  = 10
	leastDifferences = 3
	mostPairs        = 24
)

// summary says what the test is, how well it can be measured, and what to take
// care of.
func (s *sheets) summary() {
	f := s.begin("")
	f.blanks("Date:", "By:")
	f.facts(s.testFacts())
	s.mixed(f)
	f.para(s.percentLine(), bold(benchPt))
	s.order(f)
	s.notes(f)
	s.cautions(f)
	f.need(40)
	f.subheading("Measured with")
	f.facts(s.kitFacts())
	s.advice(f)
	s.realised(f)
	f.longTexts()
}

// testFacts are the plan in short.
func (s *sheets) testFacts() []fact {
	p, t := s.plan, s.test
	facts := []fact{{"Design", s.design()}, {"Each cup", wording.AmountText(p.Cup.Size, p.Cup.Of)}}
	if p.Blend.HasSeries() {
		facts[1].text += " of base, before its doses"
	}
	if p.Cup.DiameterMM > 0 {
		facts[1].text += fmt.Sprintf("; cups of %s mm inside", quantity.PercentText(p.Cup.DiameterMM))
	}
	tiles := p.Tiles
	text := fmt.Sprintf("%d, of %s x %s mm, %s", s.Places.Scheme.Tiles(), quantity.PercentText(tiles.WidthMM), quantity.PercentText(tiles.HeightMM), counted(tiles.Coats, "coat", "coats"))
	if tiles.Repeats > 1 {
		text += fmt.Sprintf(", %d of each body for each cup", tiles.Repeats)
	}
	return append(facts,
		fact{"Bodies", strings.Join(tiles.Bodies, ", ")},
		fact{"Tiles", text},
		fact{"Marks", s.Places.Scheme.Form()},
		fact{"Cups", cupRange(len(t.Cells))},
	)
}

func cupRange(n int) string {
	if n == 1 {
		return "1"
	}
	return fmt.Sprintf("1 to %d", n)
}

// design says what is blended with what.
func (s *sheets) design() string {
	p := s.plan
	var names []string
	if !p.Blend.HasSeries() {
		for _, e := range s.test.Ends {
			names = append(names, e.Name)
		}
		return fmt.Sprintf("%s of %s; shares %s", p.Blend.Kind, strings.Join(names, ", "), wording.BasisText(p.Blend.Basis))
	}
	for _, series := range p.Blend.Series {
		names = append(names, series.Material)
	}
	return fmt.Sprintf("%s of %s in %s; %s", p.Blend.Kind, strings.Join(names, ", "), p.Glazes[p.Blend.Base].Name, wording.MethodText(p.Blend.Method))
}

// mixed is the table of the batches.
func (s *sheets) mixed(f *flow) {
	f.need(40)
	f.subheading("Mixed for it")
	t := table{columns: []column{
		{title: "Glaze", grow: 1},
		{title: "SG", align: right, whole: true},
		{title: "cups need mL", align: right, whole: true},
		{title: "mix mL", align: right, whole: true, bold: true},
		{title: "dry g", align: right, whole: true},
		{title: "water g", align: right, whole: true},
	}}
	for i, b := range s.test.Batches {
		sg := quantity.SGText(s.test.Ends[i].SG)
		if s.test.Ends[i].Assumed {
			sg += "?"
		}
		if b.Mixed {
			t.rows = append(t.rows, row{cells: []cell{
				words(b.Glaze + " (mixed already)"), words(sg), words(quantity.VolumeText(b.NeedML)), words(quantity.VolumeText(b.ML)), {}, {},
			}})
			continue
		}
		t.rows = append(t.rows, row{cells: []cell{
			words(b.Glaze), words(sg), words(quantity.VolumeText(b.NeedML)),
			words(quantity.VolumeText(b.ML)), words(wording.ScaleText(s.test, b.RecipeG)), words(wording.ScaleText(s.test, b.WaterG)),
		}})
	}
	for _, stock := range s.test.Stocks {
		t.rows = append(t.rows, row{cells: []cell{
			words(stock.Name), {}, words(quantity.VolumeText(stock.NeedML)),
			words(quantity.VolumeText(stock.ML)), words(wording.DosingText(s.test, stock.G)), words(wording.ScaleText(s.test, stock.WaterG)),
		}})
	}
	f.table(t)
}

// order is the jobs of the test, one after the other, with the sheets that they
// are done by.
func (s *sheets) order(f *flow) {
	t := s.test
	jobs := []string{"Number the cups 1 to " + fmt.Sprint(len(t.Cells)) + "."}
	if len(t.Cells) == 1 {
		jobs[0] = "Number the cup: 1."
	}
	switch {
	case hasLabels(t):
		jobs[0] += " (Labels)"
	case hasMat(t):
		jobs[0] += " (Cup mat, the places to stand them on)"
	}
	jobs = append(jobs, "Paint the mark of every tile on it, above and underneath. (Mark list)")
	if slices.ContainsFunc(t.Batches, func(b blend.Batch) bool { return !b.Mixed && b.ML > 0 }) {
		jobs = append(jobs, "Mix each batch by its ticket, sieve it, take its specific gravity. (Batch tickets)")
	}
	if hasStocks(t) {
		jobs = append(jobs, "Make the stock suspensions and write their labels on the bottles. (Stock suspensions)")
	}
	jobs = append(jobs, "Pour the slips into the cups. (Pour sheet)")
	last := "Pour sheet"
	if t.Dosed() {
		last = "Dose sheet"
		jobs = append(jobs, "Put each dose into its cup. (Dose sheet)")
	}
	jobs = append(jobs, "Stir every cup.")
	if _, _, uneven := t.Thickness(); uneven {
		jobs = append(jobs, "Even the cups out with water and stir again, unless thickness is part of the test. ("+last+")")
	}
	board := "Board maps"
	if isLife(t) {
		board = "Boards at life size"
	}
	jobs = append(jobs,
		"Dip the tiles, and lay each back on its place on its board. (Dip sheet, "+board+")",
		"Fire, and write down what came out. (Log)")
	var list []fact
	for i, job := range jobs {
		list = append(list, fact{fmt.Sprint(i + 1), job})
	}
	f.need(40)
	f.subheading("Order of work")
	f.facts(list)
}

// percentLine says what a percentage is of.
func (s *sheets) percentLine() string {
	if s.plan.Blend.HasSeries() {
		return "Every percentage of an addition is of the dry base in that cup."
	}
	return "Every percentage of an addition is of the dry recipe that it is added to."
}

// notes are the warnings of the plan and of the test, each once.
func (s *sheets) notes(f *flow) {
	var texts []string
	seen := map[string]bool{}
	for _, n := range append(s.Notes[:len(s.Notes):len(s.Notes)], wording.Lines(s.test.Notes)...) {
		if text := n.String(); !seen[text] {
			seen[text] = true
			texts = append(texts, text)
		}
	}
	if len(texts) == 0 {
		return
	}
	f.subheading("To know before mixing")
	f.items("–", texts, regular(benchPt))
}

// cautions are the hazards of the materials and what to do about them.
func (s *sheets) cautions(f *flow) {
	names := s.test.Materials()
	f.subheading("Take care")
	f.items("–", s.careLines(names), regular(benchPt))
	hazards := s.test.HazardsOf(names)
	f.need(5 * regular(benchPt).lineMM()) // it stays with the first of them
	f.para("Classes and sources", bold(benchPt))
	f.items("–", append(wording.CareClasses(hazards), wording.CareSources(hazards)...), regular(benchPt))
}

// kitFacts are the instruments with their steps, and what the plan left out.
func (s *sheets) kitFacts() []fact {
	kit, p := s.plan.Kit, s.plan
	scale := kit.Scale.String()
	if kit.Capacity > 0 {
		scale += fmt.Sprintf(", up to %s g", quantity.PercentText(kit.Capacity))
	}
	facts := []fact{{"Scale", "reads to " + scale}}
	if kit.Fine.Size > 0 {
		facts = append(facts, fact{"Fine scale", "reads to " + kit.Fine.String() + ", for doses and what the scale is too coarse for"})
	}
	if s.test.OnScale() {
		facts = append(facts, fact{"Slips", "poured onto a scale that reads to " + kit.Pour.String()})
	} else {
		facts = append(facts, fact{"Jug", "read to " + kit.Pour.String()})
	}
	if kit.Fill > 0 && s.test.Dosed() {
		facts = append(facts, fact{"Fill by eye", "± " + quantity.PercentText(kit.Fill) + " mL"})
	}
	if _, _, uneven := s.test.Thickness(); p.Blend.Method == blend.ByStock || uneven && !s.test.OnScale() {
		facts = append(facts, fact{"Syringe", "read to " + kit.Syringe.String()})
	}
	facts = append(facts, fact{"Extra", quantity.FractionText(kit.Extra) + " beyond what the cups need"})
	if kit.Dead > 0 {
		facts = append(facts, fact{"Left behind", quantity.PercentText(kit.Dead) + " mL in each jug"})
	}
	if kit.Loss > 0 {
		facts = append(facts, fact{"Lost", quantity.PercentText(kit.Loss) + " mL at each pour"})
	}
	facts = append(facts, fact{"Wished", fmt.Sprintf("every dose and share right to %s", quantity.FractionText(kit.Worst))})
	if len(kit.Defaults) > 0 {
		facts = append(facts, fact{"Usual values", "not in the plan, and so taken as usual: " + strings.Join(kit.Defaults, ", ")})
	}
	return facts
}

// advice says how well the test can be measured and what would be better.
func (s *sheets) advice(f *flow) {
	f.subheading("How well it can be measured")
	f.items("–", wording.Advice(s.Advice, s.plan), regular(benchPt))
	if len(s.Advice.Options) == 0 {
		return
	}
	t := table{columns: []column{
		{title: "Method", grow: 1},
		{title: "worst ±", align: right, whole: true},
		{title: "in cup", align: right, whole: true},
		{title: "weighings", align: right, whole: true},
		{title: "smallest", align: right, whole: true},
		{title: "water in a cup", align: right, whole: true},
	}}
	best := "recommended"
	if !s.Advice.GoodEnough {
		best = "comes nearest"
	}
	for i, o := range s.Advice.Options {
		name := wording.OptionName(o)
		if i == s.Advice.Best {
			name += ", " + best
		}
		t.rows = append(t.rows, row{bold: i == s.Advice.Best, cells: []cell{
			words(name), words(quantity.FractionText(o.Worst)), words(fmt.Sprint(o.Cell)), words(fmt.Sprint(o.Weighings)),
			words(wording.Smallest(o)), words(quantity.VolumeText(o.WaterML) + " " + string(measure.Millilitre)),
		}})
	}
	f.table(t)
}

// shortText is a percentage with three significant digits at most.
func shortText(percent float64) string {
	if text := quantity.GotText(percent); len(text) > len("99.9") && percent >= 1 {
		return strings.TrimSuffix(text, ".0")
	}
	return quantity.GotText(percent)
}

// realised is what whole steps make of the design: where cups differ most from
// what is asked, and which of them cannot be told apart.
func (s *sheets) realised(f *flow) {
	all := slices.DeleteFunc(s.test.Differences(), func(d blend.Difference) bool {
		return shortText(d.Asked) == shortText(d.Got)
	})
	if len(all) > 0 {
		f.need(50) // what is said of the table stays with it
	}
	f.subheading("What measuring in whole steps makes of it")
	if apart := s.toldApart(); apart != "" {
		f.para(apart, regular(benchPt))
	}
	if len(all) == 0 {
		f.para("The cups hold what was asked, as far as figures are printed here.", regular(benchPt))
	} else {
		t := table{columns: []column{
			{title: "cup", align: right, whole: true},
			{title: "of what", grow: 1},
			{title: "asked %", align: right, whole: true},
			{title: "made %", align: right, whole: true},
			{title: "±", align: right, whole: true},
		}}
		// A few on a page of their own are not worth it.
		line := regular(benchPt).lineMM()
		most := mostDifferences
		if fits := int((f.room() - line - 1.5) / (line + 2*usualPadMM)); fits > leastDifferences {
			most = min(most, fits-1) // one is the head
		}
		for _, d := range all[:min(most, len(all))] {
			made, off := shortText(d.Got), quantity.PlusMinusText(d.PlusMinus)
			if d.Got == 0 {
				made, off = "none", "–"
			}
			t.rows = append(t.rows, row{cells: []cell{
				words(fmt.Sprint(d.Cell)), words(d.Of), words(shortText(d.Asked)), words(made), words(off),
			}})
		}
		order := "The furthest from what was asked stand first, by percentage points"
		if s.plan.Blend.HasSeries() {
			order = "The furthest from what was asked stand first, by how much of what was asked they are off"
		}
		if more := len(all) - most; more > 0 {
			order += fmt.Sprintf("; %s nearer", counted(more, "other is", "others are"))
		}
		if len(all) > 1 {
			f.para(order+".", regular(benchPt))
		}
		f.table(t)
	}
}

// toldApart says which neighbours cannot be told apart; "" where the design
// has none, or too few cups.
func (s *sheets) toldApart() string {
	pairs := s.test.Indistinguishable()
	if len(pairs) == 0 {
		if s.plan.Blend.Kind == blend.List || s.plan.Blend.Kind == blend.Centroid || len(s.test.Cells) == 1 {
			return ""
		}
		return "All neighbours in the design differ by more than they can be off."
	}
	var names []string
	for i, p := range pairs {
		if i == mostPairs {
			names = append(names, fmt.Sprintf("and %d more pairs", len(pairs)-mostPairs))
			break
		}
		names = append(names, fmt.Sprintf("%d–%d", p[0], p[1]))
	}
	return "Neighbours that cannot be told apart, since they differ by less than they can be off: " + strings.Join(names, ", ") + "."
}
