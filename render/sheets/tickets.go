package sheets

import (
	"cmp"
	"fmt"
	"slices"

	"pourboard/blend"
	"pourboard/blend/measure"
	"pourboard/blend/quantity"
	"pourboard/render/page"
	"pourboard/render/wording"
)

// What is read with wet hands at the scale.
var (
	weight     = page.Bold(page.Amount)
	reading    = page.Regular(page.Head)
	glazeName  = page.Bold(page.Title)
	partName   = page.Bold(page.Head)
	weighingH  = 7.4
	ticketGap  = 9.0 // between two tickets of a page
	leftPart   = 0.53
	columnsGap = 8.0
)

// lacksTickets says why there are none: nothing is mixed for a test whose cups
// are weighed dry.
func (d *drawer) lacksTickets() string {
	if d.plan.Blend.Method == blend.ByWeigh {
		return "every cup is weighed by itself"
	}
	for i := range d.Test.Ends {
		if !d.fromBucket(i) {
			return ""
		}
	}
	return "nothing is mixed: all glazes come from a bucket"
}

// A weighing is a line of a ticket: what goes onto the scale or into the bucket.
type weighing struct {
	name, percent, amount, reads string
	note                         bool // a line of words alone
}

// A ticket is what is mixed of one glaze or stock.
type ticket struct {
	name, about string
	care        []string
	water       []weighing
	dry         []weighing
	steps       []string
	sg          float64 // expected; 0 where none is known
	assumed     bool
	short       bool // on the bench page, which has little room
	bucket      bool // of one chosen cup, for which no pour card is printed
}

// tickets are the batches, two to a page where they go.
func (d *drawer) tickets() {
	var f *page.Flow
	for _, t := range d.allTickets() {
		h := d.ticketH(t)
		half := (d.h - 2*page.Margin - page.FootH - ticketGap) / 2
		switch {
		case f == nil:
			f = page.NewFlow(d.doc.Add(d.part.title, d.w, d.h), func(p *page.Page, _ bool) float64 { return p.Inside().Y })
		case f.Rest().H < h:
			f.Break()
		default:
			f.Page.Line(page.Margin, f.Y-ticketGap/2, d.w-page.Margin, f.Y-ticketGap/2, page.Thin.Dashed(3, 2))
		}
		top := f.Y
		d.ticket(f, t)
		f.Y = max(f.Y, top+half) + ticketGap
	}
}

// allTickets are those of the batches and of the stocks.
func (d *drawer) allTickets() []ticket {
	var list []ticket
	for i := range d.Test.Batches {
		if !d.fromBucket(i) {
			list = append(list, d.batchTicket(i))
		}
	}
	for i := range d.Test.Stocks {
		list = append(list, d.stockTicket(i))
	}
	return list
}

// fromBucket reports whether an end glaze is bought or ready: nothing is mixed,
// and the first sheet says how much to have.
func (d *drawer) fromBucket(end int) bool {
	e := d.Test.Ends[end]
	return e.Bucket || len(e.Recipe) == 0
}

// batchTicket is the ticket of the batch of an end.
func (d *drawer) batchTicket(i int) ticket {
	b, e := d.Test.Batches[i], d.Test.Ends[i]
	k := ticket{name: b.Glaze, sg: e.SG, assumed: e.Assumed}
	if d.fromBucket(i) && b.ML > 0 && !b.Mixed {
		k.about = haveReady(b)
		return k
	}
	cups := fmt.Sprintf("The cups need %s mL.", quantity.VolumeText(b.NeedML))
	switch {
	case b.Mixed:
		k.about = fmt.Sprintf("Mixed already: %s mL. %s", quantity.VolumeText(b.ML), cups)
		return k
	case b.ML == 0:
		k.about = "No cup needs any. Mix nothing."
		return k
	}
	k.about = fmt.Sprintf("Makes %s mL from %s g of recipe. %s", quantity.VolumeText(b.ML), quantity.MassText(b.RecipeG), cups)
	k.care, k.sg = d.careOf(e.Materials()), b.SG
	d.mix(&k, b, blend.Asked)
	return k
}

// haveReady is what to have of a glaze without a recipe.
func haveReady(b blend.Batch) string {
	return fmt.Sprintf("Have %s mL of %s ready.", quantity.VolumeText(b.ML), b.Glaze)
}

// mix fills in what a batch is mixed of, and how.
func (d *drawer) mix(k *ticket, b blend.Batch, view blend.View) {
	t, scale, percents := d.Test, d.plan.Kit.Scale, wording.PercentTexts(b, view)
	for n, g := range b.WaterLoads {
		name := "Water into the bucket"
		if len(b.WaterLoads) > 1 {
			name = fmt.Sprintf("Water, load %d", n+1)
		}
		k.water = append(k.water, weighing{name: name, amount: wording.BatchWaterText(g)})
	}
	for n, w := range b.Weighings {
		if w.Load > 1 && w.Load != b.Weighings[n-1].Load {
			k.dry = append(k.dry, weighing{name: fmt.Sprintf("Load %d: empty the container into the bucket, tare", w.Load), note: true})
		}
		k.dry = append(k.dry, weighing{plus(w.Addition, w.Material), percents[w.Part], scale.Format(w.Steps), wording.ScaleText(t, w.ReadingG), false})
	}
	for n, x := range b.Apart {
		if n == 0 {
			k.dry = append(k.dry, weighing{name: "Weigh separately on a finer scale:", note: true})
		}
		k.dry = append(k.dry, weighing{plus(x.Addition, x.Material), percents[x.Part], x.Text(), "on " + x.Step.String(), false})
	}
	k.steps = []string{"Add the powder to the water. Slake. Stir.", "Sieve, then stir until nothing lies at the bottom."}
}

func plus(addition bool, name string) string {
	if addition {
		return "+ " + name
	}
	return name
}

// stockTicket is the ticket of a stock.
func (d *drawer) stockTicket(i int) ticket {
	t, s := d.Test, d.Test.Stocks[i]
	k := ticket{name: t.StockLabel(i) + " " + s.Material + " stock"}
	if s.NeedML == 0 {
		k.about = "No cup needs any. Mix nothing."
		return k
	}
	k.about = fmt.Sprintf("Write %s on the bottle. %s; makes %s mL, the cups need %s mL.",
		t.StockLabel(i), quantity.StrengthText(s.GPerML), quantity.VolumeText(s.ML), quantity.VolumeText(s.NeedML))
	k.care = d.careOf([]string{s.Material})
	k.water = []weighing{{name: "Water into the bottle", amount: wording.ScaleText(t, s.WaterG)}}
	k.dry = []weighing{{name: s.Material, amount: wording.DosingText(t, s.G)}}
	k.steps = []string{
		"Wet the colourant with a little of the water. Grind until no grain is felt. Add the rest.",
		"Shake before each draw: it settles within seconds.",
		"Never pour leftovers down the drain. Keep them.",
	}
	return k
}

// ticketH is the height that a ticket takes, mm: it is drawn on paper of its
// own and measured.
func (d *drawer) ticketH(t ticket) float64 {
	f := page.NewFlow(d.doc.Scrap(d.w, 10*d.h), func(p *page.Page, _ bool) float64 { return p.Inside().Y })
	top := f.Y
	d.ticket(f, t)
	return f.Y - top
}

// ticket draws a ticket.
func (d *drawer) ticket(f *page.Flow, t ticket) {
	name := f.Take(glazeName.LineH())
	f.Page.Blanks(page.Rect{X: name.X + name.W*0.62, Y: name.Y, W: name.W * 0.38, H: name.H}, "name", "date")
	f.Page.Text(page.Rect{X: name.X, Y: name.Y, W: name.W * 0.6, H: name.H}, glazeName, t.name)
	f.Para(body, t.about)
	f.Items(body, t.care)
	top := f.Rest()
	f.Page.Rule(top, page.Medium)
	if t.dry == nil && t.water == nil {
		f.Y = d.decision(f.Page, page.Rect{X: top.X, Y: top.Y + 2, W: top.W * 0.6}, t)
		return
	}
	left := page.Rect{X: top.X, Y: top.Y + 1, W: top.W * leftPart}
	right := page.Rect{X: left.Right() + columnsGap, Y: top.Y + 2, W: top.W*(1-leftPart) - columnsGap}
	y := d.weighingList(f.Page, left, t)
	for _, step := range t.steps {
		right.Y = d.step(f.Page, right, step)
	}
	right.Y = d.decision(f.Page, right, t)
	f.Y = max(y, right.Y)
}

// step draws a box and what to do.
func (d *drawer) step(p *page.Page, r page.Rect, text string) float64 {
	p.Tick(page.Rect{X: r.X, Y: r.Y, W: page.Tick, H: page.Tick})
	y := p.Para(page.Rect{X: r.X + page.Tick + 2, Y: r.Y + 0.3, W: r.W - page.Tick - 2}, body, text)
	return max(y, r.Y+page.Tick) + 1.5
}

// weighingList draws what is weighed, and gives the y below it.
func (d *drawer) weighingList(p *page.Page, r page.Rect, t ticket) float64 {
	all := append(slices.Clone(t.water), t.dry...)
	amounts, reads, percents := []string{"weigh g"}, []string{}, []string{}
	for _, w := range all {
		if !w.note {
			amounts, reads, percents = append(amounts, w.amount), append(reads, w.reads), append(percents, w.percent)
		}
	}
	readMM := d.doc.Widest(reads, reading)
	if readMM > 0 {
		readMM = max(readMM, d.doc.Width("scale reads", fine)) + 3
	}
	percentMM := d.doc.Widest(percents, body)
	amountMM := max(d.doc.Widest(amounts[1:], weight), d.doc.Width(amounts[0], fine)) + 3
	box := r.Right() - page.Tick
	read := page.Rect{X: box - 3 - readMM, W: readMM}
	weigh := page.Rect{X: read.X - amountMM, W: amountMM}
	percent := page.Rect{X: weigh.X - 1 - percentMM, W: percentMM}
	name := page.Rect{X: r.X, W: percent.X - 2 - r.X}
	figures := d.doc.Figures("", percents, body, 0)
	y, number := r.Y, 0
	row := func(w weighing) {
		if w.note {
			p.Text(page.Rect{X: r.X, Y: y, W: r.W, H: weighingH - 1.5}, fine, w.name)
			y += weighingH - 1.5
			return
		}
		at := func(q page.Rect) page.Rect { q.Y, q.H = y, weighingH; return q }
		p.Fitted(at(name), reading, w.name)
		figures.Cell(p, at(percent), number)
		p.Text(at(weigh), weight.To(page.Right), w.amount)
		p.Text(at(read), reading.To(page.Right), w.reads)
		p.Tick(page.Rect{X: box, Y: y, W: page.Tick, H: weighingH})
		y, number = y+weighingH, number+1
		p.Line(r.X, y, r.Right(), y, page.Hair)
	}
	for _, w := range t.water {
		row(w)
	}
	head := func(q page.Rect, text string) {
		p.Text(page.Rect{X: q.X, Y: y + 1, W: q.W, H: fine.LineH()}, fine.To(page.Right), text)
	}
	tare := "Tare a container, then add:"
	if d.doc.Width(tare, fine) > name.W {
		tare = "Tare, add:"
	}
	p.Text(page.Rect{X: r.X, Y: y + 1, W: name.W, H: fine.LineH()}, fine, tare)
	head(weigh, "weigh g")
	if readMM > 0 {
		head(read, "scale reads")
	}
	if percentMM > 0 {
		head(percent, "%")
	}
	y += fine.LineH() + 1.5
	p.Line(r.X, y, r.Right(), y, page.Medium)
	for _, w := range t.dry {
		row(w)
	}
	return y + 1
}

// finerScales names the scales that are needed beside the one for batches.
func finerScales(apart []blend.FineScale) []measure.Step {
	var steps []measure.Step
	for _, x := range apart {
		if !slices.Contains(steps, x.Step) {
			steps = append(steps, x.Step)
		}
	}
	slices.SortFunc(steps, func(a, b measure.Step) int { return cmp.Compare(b.Size, a.Size) })
	return steps
}
