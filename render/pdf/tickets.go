package pdf

import (
	"cmp"
	"fmt"
	"slices"

	"pourboard/blend"
	"pourboard/blend/measure"
	"pourboard/blend/quantity"
	"pourboard/render/wording"
)

// ticketPt is the size of what is weighed.
const ticketPt = 13.0

// tickets has one page for each batch: what is weighed, what the scale reads
// as it goes, how much water, and what should come out.
func (s *sheets) tickets() {
	var f *flow
	for i, b := range s.test.Batches {
		needs := "a scale" + finerScales(b.Apart) + ", a bucket, a sieve, a weighed measuring cylinder, a respirator"
		if f == nil {
			f = s.begin(needs)
		} else {
			s.again(f, needs)
		}
		f.doc.bookmark(1, b.Glaze)
		s.ticket(f, i)
		f.longTexts()
	}
}

func (s *sheets) ticket(f *flow, i int) {
	t, b, e := s.test, s.test.Batches[i], s.test.Ends[i]
	f.lines(numbered("Batch", i, len(t.Batches), b.Glaze), bold(15), left, 40)
	f.space(2)
	if b.NeedML == 0 {
		f.para("No cup is poured from this glaze: there is nothing to mix.", regular(benchPt))
		return
	}
	if b.Mixed {
		f.para(fmt.Sprintf("This batch is mixed already: %s mL of it, and the cups need %s mL. Nothing is weighed for it.",
			quantity.VolumeText(b.ML), quantity.VolumeText(b.NeedML)), regular(benchPt))
		return
	}
	f.para(s.batchLine(b), regular(benchPt))

	f.space(1)
	f.items("", s.waterLines(b), bold(ticketPt))
	f.space(1)
	onPage := func(f *flow) { f.further(f.hMM, b.Glaze) }
	if len(b.Weighings) > 0 {
		f.para(weighingText(b), regular(benchPt))
		weighings := s.weighingTable(b)
		weighings.onPage = onPage
		f.table(weighings)
	}
	if len(b.Apart) > 0 {
		f.further(30, b.Glaze)
		f.para(fmt.Sprintf("Weigh apart on the fine scale, each by itself, for a scale of %s is too coarse:", s.plan.Kit.Scale), bold(benchPt))
		apart := apartTable(b.Apart, ticketPt)
		apart.onPage = onPage
		f.table(apart)
		f.para(fmt.Sprintf("All dry materials together: %s g.", wording.WeighedText(t, b)), regular(benchPt))
	}
	f.para(fmt.Sprintf("Percentages are of the dry recipe: here 100 %% is %s g. What has a + comes on top of that.", quantity.MassText(b.RecipeG)), regular(benchPt))

	if n, ok := t.CoarseScale(i); ok {
		then := "its line above is then left out, and every reading after it is lower by what stands there"
		if len(b.Apart) > 0 {
			then = "that then takes the place of what stands above"
		}
		what, fix := wording.Coarse(n)
		f.para("Take care: "+what+". It is better to "+fix+"; "+then+".", bold(benchPt))
	}

	s.careBlock(f, b.Glaze, e.Materials(), benchPt)
	steps := []string{
		"Dry materials onto the water, left to soak, then stirred.",
		"Sieved and stirred again; nothing left at the bottom.",
		fmt.Sprintf("Specific gravity taken: the weight in g of 100 mL, divided by 100. Expected: %s.%s", quantity.SGText(b.SG), assumedText(e)),
	}
	f.further(f.itemsMM("", steps, regular(benchPt))+2*blankMM, b.Glaze)
	f.items("", steps, regular(benchPt))
	f.blanks("Specific gravity:", "Volume, mL:", "Mixed by:", "Date:")
}

// waterLines are the loads of water into the bucket, a line each.
func (s *sheets) waterLines(b blend.Batch) []string {
	var lines []string
	for k, g := range b.WaterLoads {
		name := "Water into the bucket"
		if n := len(b.WaterLoads); n > 1 {
			name = fmt.Sprintf("Water, load %d of %d", k+1, n)
		}
		lines = append(lines, fmt.Sprintf("%s: %s g", name, wording.ScaleText(s.test, g)))
	}
	return lines
}

// weighingText says how the dry materials of a batch are weighed.
func weighingText(b blend.Batch) string {
	how := "Dry materials: set the scale to zero with the empty vessel on it, and add one after the other. After each the scale reads the last figure."
	if last := b.Weighings[len(b.Weighings)-1]; last.Load > 1 {
		how += " Begin each load with the vessel emptied into the bucket and the scale at zero again. The scale carries the vessel too: the capacity given must leave room for it."
	}
	return how
}

// batchLine says what is mixed and what for.
func (s *sheets) batchLine(b blend.Batch) string {
	kit := s.plan.Kit
	rest := "rounding up"
	if kit.Dead > 0 {
		rest = fmt.Sprintf("%s mL that stay in the jug, ", quantity.VolumeText(kit.Dead)) + rest
	}
	if kit.Extra > 0 {
		rest = fmt.Sprintf("%s extra, ", quantity.FractionText(kit.Extra)) + rest
	}
	return fmt.Sprintf("Makes %s mL of slip, %s g, with %s g dry matter and %s g water. The cups need %s mL; the rest is %s.",
		quantity.VolumeText(b.ML), quantity.MassText(b.G), wording.WeighedText(s.test, b), wording.ScaleText(s.test, b.WaterG), quantity.VolumeText(b.NeedML), rest)
}

func assumedText(e blend.End) string {
	if e.Assumed {
		return " The plan gives none: it is assumed."
	}
	return ""
}

// weighingTable is the dry materials of a batch.
func (s *sheets) weighingTable(b blend.Batch) table {
	loads := b.Weighings[len(b.Weighings)-1].Load
	t := table{pt: ticketPt, columns: []column{
		{title: "", whole: true},
		{title: "Material", grow: 1},
		{title: "%", align: right, whole: true},
		{title: "weigh g", align: right, whole: true, bold: true},
		{title: "scale reads", align: right, whole: true, bold: true},
	}}
	for i, w := range b.Weighings {
		if loads > 1 && (i == 0 || w.Load != b.Weighings[i-1].Load) {
			name := fmt.Sprintf("Load %d of %d", w.Load, loads)
			t.rows = append(t.rows, row{bold: true, rule: true, cells: []cell{{}, words(name), {}, {}, {}}})
		}
		name := w.Material
		if w.Addition {
			name = "+ " + name
		}
		t.rows = append(t.rows, row{
			rule: w.Addition && i > 0 && !b.Weighings[i-1].Addition,
			cells: []cell{
				tickBox, words(name), words(quantity.RecipeText(w.Percent)),
				words(s.plan.Kit.Scale.Format(w.Steps)), words(wording.ScaleText(s.test, w.ReadingG)),
			},
		})
	}
	return t
}

// apartTable is the materials that are weighed apart on finer scales.
func apartTable(apart []blend.FineScale, pt float64) table {
	t := table{pt: pt, columns: []column{
		{title: "", whole: true},
		{title: "Material", grow: 1},
		{title: "%", align: right, whole: true},
		{title: "weigh g", align: right, whole: true, bold: true},
		{title: "scale of", align: right, whole: true},
	}}
	for _, x := range apart {
		name := x.Material
		if x.Addition {
			name = "+ " + name
		}
		t.rows = append(t.rows, row{cells: []cell{
			tickBox, words(name), words(quantity.RecipeText(x.Percent)), words(x.Text()), words(x.Step.String()),
		}})
	}
	return t
}

// finerScales names the finer scales that are needed beside the one for the
// batch.
func finerScales(apart []blend.FineScale) string {
	var steps []measure.Step
	for _, x := range apart {
		if !slices.Contains(steps, x.Step) {
			steps = append(steps, x.Step)
		}
	}
	slices.SortFunc(steps, func(a, b measure.Step) int { return cmp.Compare(b.Size, a.Size) })
	text := ""
	for _, s := range steps {
		text += ", a finer one of " + s.String()
	}
	return text
}

// stock has one page for each suspension of a colourant.
func (s *sheets) stock() {
	t := s.test
	needs := "a scale that reads to " + s.plan.Kit.Dosing().String() + ", a bottle with a lid, a syringe or a small cylinder, a respirator"
	var f *flow
	for i, stock := range t.Stocks {
		if f == nil {
			f = s.begin(needs)
		} else {
			s.again(f, needs)
		}
		f.doc.bookmark(1, stock.Name)
		f.lines("Stock suspension "+t.StockLabel(i)+": "+stock.Material, bold(15), left, 40)
		f.space(2)
		if stock.NeedML == 0 {
			f.para("No cup gets any of it: there is nothing to mix.", regular(benchPt))
			continue
		}
		f.para(fmt.Sprintf("Write %s on the bottle: every other sheet calls it so.", t.StockLabel(i)), bold(benchPt))
		f.para(fmt.Sprintf("Holds %s. The cups need %s mL; made are %s mL.",
			quantity.StrengthText(stock.GPerML), quantity.VolumeText(stock.NeedML), quantity.VolumeText(stock.ML)), regular(benchPt))
		f.table(table{pt: ticketPt, columns: []column{
			{title: "", whole: true}, {title: "Into the bottle", grow: 1}, {title: "weigh g", align: right, bold: true, whole: true},
		}, rows: []row{
			{cells: []cell{tickBox, words(stock.Material), words(wording.DosingText(t, stock.G))}},
			{cells: []cell{tickBox, words("Water"), words(wording.ScaleText(t, stock.WaterG))}},
		}})
		s.careBlock(f, stock.Name, []string{stock.Material}, benchPt)
		f.items("", []string{
			"Colourant wetted with a little of the water, ground until no grain is felt, then the rest of the water.",
			fmt.Sprintf("Volume checked: it should be %s mL.", quantity.VolumeText(stock.ML)),
		}, regular(benchPt))
		f.para("It settles within seconds: shake or stir before each draw. How many mL go into each cup is on the dose sheet.", bold(benchPt))
		f.blanks("Volume, mL:", "Mixed by:", "Date:")
		f.longTexts()
	}
}
