package pourbook

import (
	"fmt"
	"slices"
	"strings"

	"pourboard/blend"
	"pourboard/blend/oxide"
	"pourboard/render/xlsx"
)

// dryColumns adds the recipe of each end and each dose that was measured
// into a cup.
func (b *pourBook) dryColumns(g *grid) {
	for e := range b.q {
		g.add(column{head: b.endHead(e) + "\ng of recipe", look: xlsx.Worked, format: xlsx.Decimals(2), formula: "Working!" + xlsx.Letters(b.at.dry+e) + "#",
			value: func(i int) float64 { return b.t.Cells[i].Pours[e].GotRecipeG }})
	}
	for s := range b.doses {
		g.add(column{head: b.t.Plan.Blend.Series[s].Material + "\ng", look: xlsx.Worked, format: xlsx.Decimals(2), formula: "Working!" + xlsx.Letters(b.at.dry+b.q+s) + "#",
			value: func(i int) float64 { return b.t.Cells[i].Doses[s].MeasuredG }})
	}
}

// nameOf is the name of the k-th of several rows.
func nameOf(what string, k int) string { return fmt.Sprintf("%s_%d", what, k+1) }

// writeRecipes writes what each cup's dry matter is made of.
func (b *pourBook) writeRecipes() {
	t, g, r := b.t, &b.recipes, b.rows
	grams := make([]map[string]float64, len(t.Cells))
	whole := make([]float64, len(t.Cells))
	for i := range t.Cells {
		recipe, additions := t.Grams(i, blend.Measured)
		grams[i] = make(map[string]float64, len(recipe)+len(additions))
		for _, p := range recipe {
			whole[i] += p.Amount
			grams[i][p.Material] += p.Amount
		}
		for _, p := range additions {
			grams[i]["+"+p.Material] += p.Amount
		}
	}
	g.add(b.cupOfRow())
	// What the rest is worked out from stands behind it.
	behind := 1 + len(r.recipes) + len(r.additions)
	recipe, dry := xlsx.Letters(behind), cupSpan("", behind+1, b.q+b.doses)
	add := func(head, key, name string) {
		g.add(column{head: head, look: xlsx.Worked, format: hundredths,
			formula: fmt.Sprintf("IF($%[1]s#>0,100*SUMPRODUCT(%[2]s,%[3]s)/$%[1]s#,0)", recipe, dry, name),
			value: func(i int) float64 {
				if whole[i] == 0 {
					return 0
				}
				return 100 * grams[i][key] / whole[i]
			}})
	}
	for k, m := range r.recipes {
		add(m+"\n%", m, nameOf("Recipe", k))
	}
	for k, m := range r.additions {
		add("+ "+m+"\n%", "+"+m, nameOf("Addition", k))
	}
	g.add(column{head: "Recipe\ng in the cup", look: xlsx.Worked, format: xlsx.Decimals(2),
		formula: "SUM(" + cupSpan("", behind+1, b.q) + ")",
		value:   func(i int) float64 { return whole[i] }})
	b.dryColumns(g)
	g.sheet.Page.Columns = behind
	g.troubles = []trouble{noAmounts}
	g.write("Recipes", "Dry recipe of each cup as its measured amounts make it, to 100; additions (+) are percent of it, over the 100.", len(t.Cells))
}

// unityFormat shows moles as blend.UnityText prints them.
const unityFormat xlsx.Format = `[=0]"–";[<0.0995]0.000;0.00`

// writeChemistry writes the oxides of each cup and its unity formula.
func (b *pourBook) writeChemistry() {
	t, g, r := b.t, &b.chemistry, b.rows
	options := oxide.Options{ColourantsInUnity: t.Plan.Chemistry.ColourantsInUnity}
	rows := make([]oxide.Row, len(t.Cells))
	fired, moles, flux := make([]float64, len(t.Cells)), make([]float64, len(t.Cells)), make([]float64, len(t.Cells))
	unknown := make([]bool, len(t.Cells))
	for i := range t.Cells {
		v, missing := t.Vector(i, blend.Measured)
		if unknown[i] = missing != nil; unknown[i] {
			continue
		}
		rows[i].Fill(&v, options)
		for _, g := range v.G {
			fired[i] += g * t.Cells[i].Got.DryG
		}
		moles[i] = b.allMol(v) * t.Cells[i].Got.DryG
		flux[i] = b.fluxMol(v) * t.Cells[i].Got.DryG
	}
	g.add(b.cupOfRow())
	// What the rest is worked out from stands behind it.
	n := len(r.oxideList)
	behind := 1 + n + n + n + 2
	mass, all, sum, dry := xlsx.Letters(behind), xlsx.Letters(behind+1), xlsx.Letters(behind+2), cupSpan("", behind+3, b.q+b.doses)
	product := func(name string) string { return "SUMPRODUCT(" + dry + "," + name + ")" }
	known := func(formula string) string { // nothing where a material without analysis is in the cup
		if t.Unanalysed() == nil {
			return formula
		}
		return "IF(" + product("Unanalysed") + ">0,0," + formula + ")"
	}
	for _, o := range r.oxideList {
		place, _ := o.Place()
		g.add(column{head: string(o) + "\nwt %", width: 7.5, look: xlsx.Worked, format: hundredths,
			formula: "IF($" + mass + "#>0,100*" + product("Oxide_"+string(o)) + "/$" + mass + "#,0)",
			value:   func(i int) float64 { return rows[i].Weight[place] }})
	}
	for k, o := range r.oxideList {
		place, _ := o.Place()
		g.add(column{head: string(o) + "\nmol %", width: 7.5, look: xlsx.Worked, format: hundredths,
			formula: fmt.Sprintf("IF($%[1]s#>0,%[2]s#/%[3]s*$%[4]s#/$%[1]s#,0)", all, xlsx.Letters(1+k), xlsx.Literal(o.MolarMass()), mass),
			value:   func(i int) float64 { return rows[i].Mol[place] }})
	}
	for _, o := range r.oxideList {
		place, _ := o.Place()
		g.add(column{head: string(o) + "\nunity", width: 7.5, look: xlsx.Worked, format: unityFormat,
			formula: fmt.Sprintf("IF($%[1]s#>0,%[2]s/%[3]s/$%[1]s#,0)", sum, product("Oxide_"+string(o)), xlsx.Literal(o.MolarMass())),
			value:   func(i int) float64 { return rows[i].Unity[place] }})
	}
	ratio := column{head: "SiO2:\nAl2O3\nmol", width: 7.5, look: xlsx.Worked, format: hundredths, value: func(i int) float64 { return rows[i].SiAl }}
	if si, al := slices.Index(r.oxideList, "SiO2"), slices.Index(r.oxideList, "Al2O3"); si >= 0 && al >= 0 {
		ratio.formula = fmt.Sprintf("IF(%[1]s#>0,%[2]s#/%[1]s#*%[3]s,0)", xlsx.Letters(1+al), xlsx.Letters(1+si),
			xlsx.Literal(oxide.Oxide("Al2O3").MolarMass()/oxide.Oxide("SiO2").MolarMass()))
	}
	g.add(ratio)
	g.add(column{head: "Loss on\nignition\n%", width: 9, look: xlsx.Worked, format: xlsx.WithNought(xlsx.Decimals(1), "–"),
		formula: "IF($" + mass + "#>0,100*" + product("Loss_part") + "/" + product("Dry_part") + ",0)",
		value:   func(i int) float64 { return rows[i].LOI }})
	g.add(column{head: "Fired\ng", look: xlsx.Worked, format: hundredths, formula: known(product("Fired_part")),
		value: func(i int) float64 { return fired[i] }})
	g.add(column{head: "All oxides\nmol", look: xlsx.Worked, format: xlsx.WithNought(xlsx.Decimals(4), "–"), formula: known(product("Mol_part")),
		value: func(i int) float64 { return moles[i] }})
	g.add(column{head: "R2O + RO\nmol", look: xlsx.Worked, format: xlsx.WithNought(xlsx.Decimals(4), "–"), formula: known(product("Flux_part")),
		value: func(i int) float64 { return flux[i] }})
	b.dryColumns(g)
	g.sheet.Page.Columns = behind
	weight := "Weight % of the fired glaze, as the measured amounts of each cup make it"
	if missing := t.Unanalysed(); missing != nil {
		weight += ". No figures where a cup holds " + strings.Join(missing, ", ") + ", which have no analysis"
	}
	unity := "Unity formula, mol, with R2O + RO = 1"
	if options.ColourantsInUnity {
		unity += ", colouring oxides of RO type counted"
	}
	g.parts = []gridPart{{"", 1}, {weight, n}, {"Mol % of the fired glaze", n}, {unity, n + 1}, {"", 1}, {"What the rest is worked out from", len(g.columns) - behind}}
	g.parts = slices.DeleteFunc(g.parts, func(p gridPart) bool { return p.columns == 0 }) // no oxides
	g.troubles = []trouble{noAmounts}
	g.write("Chemistry", "", len(t.Cells))
}
