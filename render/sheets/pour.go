package sheets

import (
	"fmt"

	"pourboard/blend"
	"pourboard/blend/quantity"
	"pourboard/render/page"
	"pourboard/render/wording"
)

// pourH and leastPourH are the height of a row of the pour card, and how low it
// may be where that saves a page, mm.
const (
	pourH      = 8.0
	leastPourH = 6.2
	cardHeadH  = 13.0
)

// pour is the pour card: cups down, glazes and doses across.
func (d *drawer) pour() {
	title := "Pour card"
	if d.plan.Blend.Method == blend.ByWeigh {
		title = "Weigh card"
	}
	f := d.begin(title, fmt.Sprintf("%s of %s. %s Behind each box: the amount, if it came out otherwise.",
		quantity.Plural(len(d.Test.Cells), "cup", "cups"), wording.AmountText(d.plan.Cup.Size), d.howToPour()), false)
	f.Page.Foot = "Cups are numbered as on the map."
	f.Items(body, d.cardCare())
	f.Para(fine, d.starLine())
	columns := d.cupColumns()
	for _, field := range d.fields() {
		columns = append(columns, d.column(field, leastRoom))
	}
	f.Grid(page.Grid{
		Columns: append(columns, d.inCup()...), Keep: 2, Rows: len(d.Test.Cells),
		HeadH: cardHeadH, RowH: pourH, LeastH: leastPourH, Strips: 3, Rule: d.rowRule(),
	})
	f.List("Too little for the scale: weigh a mix with dry base", body, wording.Dilutions(d.Test))
}

// cardCare is what to take care of where powder is weighed by the card: all of
// it for cups that are weighed dry, the worst of the colourants for doses.
func (d *drawer) cardCare() []string {
	switch {
	case d.plan.Blend.Method == blend.ByWeigh:
		return d.care(d.Test.Materials())
	case d.Test.Dosed() && d.plan.Blend.Method == blend.ByDose:
		var colourants []string
		for _, s := range d.plan.Blend.Series {
			colourants = append(colourants, s.Material)
		}
		return d.careOf(colourants)
	}
	return nil
}

// howToPour says how to go about it, in short sentences.
func (d *drawer) howToPour() string {
	t := d.Test
	text := "Pour down the column and tick."
	switch {
	case d.plan.Blend.Method == blend.ByWeigh:
		text = "Tare a dry cup. Weigh each material into it, one after the other, and tick. Then stir in the water."
	case t.Plan.Kit.OnScale() && len(t.Ends) > 1:
		text = "Tare the empty cup, then go cup by cup: pour each glaze until the scale shows the figure. Do not tare between."
	case t.Plan.Kit.OnScale():
		text = "Tare the empty cup. Pour until the scale shows the figure, and tick."
	case len(t.Ends) > 1:
		text = "Pour down each column, one glaze after the other, and tick."
	}
	switch {
	case len(t.Stocks) > 0:
		text += " Shake the stock before each draw."
	case t.Dosed():
		text += " Weigh each dose dry, tip it in, stir until no speck is left. Weakest cup first."
	}
	return text
}

// rowRule is heavier where a new row of the design begins.
func (d *drawer) rowRule() func(int) page.Pen {
	cells := d.Test.Cells
	kind := d.plan.Blend.Kind
	return func(row int) page.Pen {
		a, b := cells[row-1], cells[row]
		if kind != blend.Line && kind != blend.List && (a.Row != b.Row || a.Layer != b.Layer) {
			return page.Medium
		}
		return page.Hair
	}
}
