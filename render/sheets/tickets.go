package sheets

import (
	"fmt"
	"strconv"
	"strings"

	"pourboard/blend"
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

// A weighing is a line of a ticket: what goes onto the scale or into the bucket.
type weighing struct {
	name, percent, amount, reads string
	note                         string // a line of words alone
}

// A ticket is what is mixed of one glaze or stock.
type ticket struct {
	name, about string
	care        []string
	weighings   []weighing
	steps       []string
	sg          float64 // expected; 0 where none is known
	assumed     bool
	short       bool // on the bench page, which has little room
	bucket      bool // of one chosen cup, for which no pour card is printed
}

// tickets are the batches, two to a page where they go.
func (d *drawer) tickets() {
	top := func(p *page.Page, _ bool) float64 { return p.Inside().Y }
	f := page.NewFlow(d.doc.Add(d.part.title, d.w, d.h), top)
	half := (f.Rest().H - ticketGap) / 2
	for i, t := range d.allTickets() {
		scrap := page.NewFlow(d.doc.Scrap(d.w, 10*d.h), top) // drawn elsewhere, and measured
		if d.ticket(scrap, t); i > 0 && f.Rest().H < scrap.Y-page.Margin {
			f.Break()
		} else if i > 0 {
			f.Page.Line(page.Margin, f.Y-ticketGap/2, d.w-page.Margin, f.Y-ticketGap/2, page.Thin.Dashed(3, 2))
		}
		from := f.Y
		d.ticket(f, t)
		f.Y = max(f.Y, from+half) + ticketGap
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
	made, needed := quantity.VolumeText(b.ML), quantity.VolumeText(b.NeedML)
	switch {
	case b.Mixed:
		k.about = fmt.Sprintf("Mixed already: %s mL. The cups need %s mL.", made, needed)
	case b.ML == 0:
		k.about = "No cup needs any. Mix nothing."
	case d.fromBucket(i):
		k.about = haveReady(b)
	default:
		k.about = fmt.Sprintf("Makes %s mL from %s g of recipe. The cups need %s mL.",
			made, quantity.MassText(b.RecipeG), needed)
		k.care, k.sg = d.careOf(e.Materials()), b.SG
		d.mix(&k, b, blend.Asked)
	}
	return k
}

// haveReady is what to have of a glaze without a recipe.
func haveReady(b blend.Batch) string {
	return fmt.Sprintf("Have %s mL of %s ready.", quantity.VolumeText(b.ML), b.Glaze)
}

// mix fills in what a batch is mixed of, and how.
func (d *drawer) mix(k *ticket, b blend.Batch, view blend.View) {
	add := func(w weighing) { k.weighings = append(k.weighings, w) }
	percents := wording.PercentTexts(b, view)
	for n, g := range b.WaterLoads {
		name := "Water into the bucket"
		if len(b.WaterLoads) > 1 {
			name = fmt.Sprintf("Water, load %d", n+1)
		}
		add(weighing{name: name, amount: wording.BatchWaterText(g)})
	}
	add(weighing{note: "Tare a container, then add:"})
	for n, w := range b.Weighings {
		if w.Load > 1 && w.Load != b.Weighings[n-1].Load {
			add(weighing{note: fmt.Sprintf("Load %d: empty the container into the bucket, tare", w.Load)})
		}
		add(weighing{name: plus(w.Addition, w.Material), percent: percents[w.Part],
			amount: d.plan.Kit.Scale.Format(w.Steps), reads: wording.ScaleText(d.Test, w.ReadingG)})
	}
	for n, x := range b.Apart {
		if n == 0 {
			add(weighing{note: "Weigh separately on a finer scale:"})
		}
		add(weighing{name: plus(x.Addition, x.Material), percent: percents[x.Part], amount: x.Text(),
			reads: "on " + x.Step.String()})
	}
	k.steps = []string{"Add the powder to the water. Slake. Stir.", "Sieve, then stir until nothing lies at the bottom."}
}

// plus is the name of a material, with a + before that of an addition.
func plus(addition bool, name string) string {
	if addition {
		return "+ " + name
	}
	return name
}

// stockTicket is the ticket of a stock.
func (d *drawer) stockTicket(i int) ticket {
	t, s := d.Test, d.Test.Stocks[i]
	k := ticket{name: t.Stocks[i].Label + " " + s.Material + " stock"}
	if s.NeedML == 0 {
		k.about = "No cup needs any. Mix nothing."
		return k
	}
	k.about = fmt.Sprintf("Write %s on the bottle. %s; makes %s mL, the cups need %s mL.",
		t.Stocks[i].Label, quantity.StrengthText(s.GPerML), quantity.VolumeText(s.ML), quantity.VolumeText(s.NeedML))
	k.care = d.careOf([]string{s.Material})
	k.weighings = []weighing{
		{name: "Water into the bottle", amount: wording.ScaleText(t, s.WaterG)},
		{name: s.Material, amount: wording.DosingText(t, s.G)},
	}
	k.steps = []string{
		"Wet the colourant with a little of the water. Grind until no grain is felt. Add the rest.",
		"Shake before each draw: it settles within seconds.",
		"Never pour leftovers down the drain. Keep them.",
	}
	return k
}

// ticket draws a ticket.
func (d *drawer) ticket(f *page.Flow, t ticket) {
	name := f.Take(glazeName.LineH())
	f.Page.Blanks(page.Rect{X: name.X + name.W*0.62, Y: name.Y, W: name.W * 0.38, H: name.H}, "name", "date")
	f.Page.Text(page.Rect{X: name.X, Y: name.Y, W: name.W * 0.6, H: name.H}, glazeName, t.name)
	f.Para(body, t.about)
	f.Items(body, t.care)
	f.Page.Rule(f.Rest(), page.Medium)
	f.Y += 1
	left, right := f.Split(leftPart, columnsGap)
	if t.weighings == nil {
		d.decision(left, t)
	} else {
		d.mixing(left, right, t)
	}
	f.Join(left, right)
}

// mixing draws what is weighed, and beside it what to do and to decide.
func (d *drawer) mixing(left, right *page.Flow, t ticket) {
	if t.weighings != nil {
		d.weighingList(left, t.weighings)
	}
	right.Y++
	for _, text := range t.steps {
		r := right.Take(0)
		right.Page.Tick(page.Rect{X: r.X, Y: r.Y, H: page.Tick})
		y := right.Page.Para(page.Rect{X: r.X + page.Tick + 2, Y: r.Y + 0.3, W: r.W - page.Tick - 2}, body, text)
		right.Y = max(y, r.Y+page.Tick) + 1.5
	}
	d.decision(right, t)
}

// weighingList draws what is weighed, a box behind each.
func (d *drawer) weighingList(f *page.Flow, list []weighing) {
	columns := []page.Column{{Grow: 1, Draw: func(p *page.Page, r page.Rect, row int) {
		if w := list[row]; w.note != "" {
			p.Text(r.Before(f.Rest().W), fine, w.note)
		} else {
			p.Fitted(r.Before(r.W-1), reading, w.name)
		}
	}}}
	texts := func(of func(weighing) string) []string { return page.Each(list, of) }
	for _, c := range []page.Column{
		{Head: "%", Style: body.To(page.Decimal), Texts: texts(func(w weighing) string { return w.percent })},
		{Head: "weigh g", Style: weight.To(page.Right), Texts: texts(func(w weighing) string { return w.amount })},
		{Head: "scale reads", Style: reading.To(page.Right), Texts: texts(func(w weighing) string { return w.reads })},
	} {
		if strings.Join(c.Texts, "") != "" {
			columns = append(columns, c)
		}
	}
	columns = append(columns, page.Column{W: page.Tick, Draw: func(p *page.Page, r page.Rect, row int) {
		if list[row].note == "" {
			p.Tick(r)
		}
	}})
	f.Grid(page.Grid{Columns: columns, Rows: len(list), HeadH: fine.LineH() + 0.5, RowH: weighingH, LeastH: 5.6})
}

// decision is what to do by the specific gravity that is read.
func (d *drawer) decision(f *page.Flow, t ticket) {
	if t.sg == 0 {
		return
	}
	f.Para(partName, "Check the specific gravity (SG)")
	f.Para(fine, "Weigh 100 mL of the sieved glaze in g, and divide by 100.")
	f.Y += 3.5 // to write the figure by hand
	sg := quantity.SGText(t.sg)
	if t.assumed {
		f.Para(strong, "SG read ________")
		f.Para(body, "The plan gives no SG; "+sg+" is assumed. Give the SG that you read with --sg, and print again.")
		return
	}
	f.Para(strong, "SG read ________ expected\u00A0"+sg)
	f.Table([]page.Column{{Style: strong}, {Style: body, Grow: 1}}, d.sgRows(t))
	if !t.short {
		f.Para(fine, "Between two lines: take the nearer. After adding water, stir and read again.")
	}
}

// sgRows is the table of the specific gravities that may be read, and what to do.
func (d *drawer) sgRows(t ticket) [][]string {
	check := blend.CheckSG(t.sg, d.plan.Kit.Worst, t.short)
	low, high := quantity.SGText(check.Low), quantity.SGText(check.High)
	as := low + " to " + high
	if low == high {
		as = low
	}
	rows := [][]string{{as, "as expected: use it"}}
	for _, x := range check.Thinnings {
		water := strconv.FormatFloat(x.WaterPerLitre, 'f', 0, 64)
		rows = append(rows, []string{quantity.SGText(x.SG), "add " + water + " mL of water a litre"})
	}
	if t.bucket {
		return append(rows, []string{"below " + low, "too thin: let it settle, take off clear water"})
	}
	return append(rows, []string{"below " + low, "type it into the pour workbook, or use --sg; print the pour card again"})
}
