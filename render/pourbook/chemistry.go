package pourbook

import (
	"slices"
	"strings"

	"pourboard/blend"
	"pourboard/blend/oxide"
	"pourboard/render/xlsx"
)

// The sheets Recipes and Chemistry have the cups as planned: they do not follow the
// inputs, and say when something has changed.

// plannedTrouble is behind the titles of these sheets then.
var plannedTrouble = []trouble{{"NOT(As_planned)", xlsx.Quoted("of the cups as planned; inputs have changed since")}}

// writeRecipes writes what each cup's dry matter is made of.
func (b *pourBook) writeRecipes() {
	t, g := b.t, &b.recipes
	grams := make([]map[blend.DryMaterial]float64, len(t.Cells))
	for i := range t.Cells {
		grams[i] = map[blend.DryMaterial]float64{}
		recipe, additions := t.Recipe(i, blend.Measured)
		for k, p := range slices.Concat(recipe, additions) {
			grams[i][blend.DryMaterial{Material: p.Material, Addition: k >= len(recipe)}] += p.Percent
		}
	}
	b.addCups(g, "", 8)
	for _, m := range b.dry {
		b.add(g, column{head: materialHead(m) + "\n%", look: xlsx.Given, format: hundredths,
			value: func(i int) float64 { return grams[i][m] }})
	}
	g.troubles = plannedTrouble
	remark := "Dry recipe of each cup as planned and measured, to 100. + = addition, over the 100."
	if slices.ContainsFunc(t.Ends, func(e blend.End) bool { return e.Bucket }) {
		remark += " Blank where a cup holds a glaze without recipe."
	}
	b.write(g, "Recipes", remark)
}

// hundredths shows two digits after the point, and nothing as a dash.
const hundredths xlsx.Format = `0.00;-0.00;"–"`

// oxideFormat has a third digit where a unity formula needs it.
const oxideFormat xlsx.Format = `[=0]"–";[<0.0995]0.000;0.00`

// writeChemistry writes the oxides of each cup: the unity formula, and for the screen
// weight % and mol %.
func (b *pourBook) writeChemistry() {
	t, g := b.t, &b.chemistry
	rows := make([]oxide.Chemistry, len(t.Cells))
	present := map[oxide.Oxide]bool{}
	for i := range t.Cells {
		rows[i] = t.Chemistry(i, blend.Measured)
		for _, a := range rows[i].WeightPercent {
			present[a.Oxide] = true
		}
	}
	b.addCups(g, "", 8)
	number := func(head string, format xlsx.Format, value func(c oxide.Chemistry) float64) {
		b.add(g, column{head: head, width: 7.5, look: xlsx.Given, format: format,
			value: func(i int) float64 { return value(rows[i]) }})
	}
	view := func(unit string, of func(c oxide.Chemistry) []oxide.Amount) {
		for _, o := range oxide.Oxides() {
			if present[o] {
				number(string(o)+unit, oxideFormat, func(c oxide.Chemistry) float64 { return oxide.Of(of(c), o) })
			}
		}
	}
	view("", func(c oxide.Chemistry) []oxide.Amount { return c.Unity })
	number("SiO2:\nAl2O3\nmol", hundredths, func(c oxide.Chemistry) float64 { return c.SiAl })
	number("LOI\n%", xlsx.WithNought("0.0", "–"), func(c oxide.Chemistry) float64 { return c.LOI })
	g.Page.Columns = len(g.columns)
	view("\nweight %", func(c oxide.Chemistry) []oxide.Amount { return c.WeightPercent })
	view("\nmol %", func(c oxide.Chemistry) []oxide.Amount { return c.MolPercent })
	g.troubles = plannedTrouble
	remark := "Unity formula of the fired glaze of each cup, as planned and measured."
	if missing := t.Unanalysed(); missing != nil {
		remark += " Blank where a cup holds " + strings.Join(missing, ", ") + ", which have no analysis."
	}
	if t.Plan.Chemistry.ColourantsInUnity {
		remark += " Colouring oxides count in the unity."
	}
	b.write(g, "Chemistry", remark)
}
