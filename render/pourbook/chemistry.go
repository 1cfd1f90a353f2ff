package pourbook

import (
	"fmt"
	"slices"
	"strings"

	"pourboard/blend"
	"pourboard/blend/oxide"
	"pourboard/render/xlsx"
)

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
	b.addCups(g, "", 8, "{cup}")
	known, remark := "{recipe}>0", "Dry recipe of each cup as measured, to 100. + = addition, over the 100."
	if without := b.pouredOf(bucket); without != "" {
		known = "AND(" + known + "," + without + "=0)"
		remark += " Blank where a cup holds a glaze without recipe."
	}
	for k, m := range b.dry {
		b.add(g, column{key: fmt.Sprint("mat", k+1), head: materialHead(m) + "\n%", look: xlsx.Worked, format: hundredths,
			formula: "IF(" + known + ",100*" + b.product(name("Material", k)) + "/{recipe},0)", value: func(i int) float64 { return grams[i][m] }})
	}
	g.troubles = []trouble{{"Cup_used=0", xlsx.Quoted("amounts stay 0 until Inputs is complete")}}
	b.write(g, "Recipes", remark)
}

// hundredths shows two digits after the point, and nothing as a dash.
const hundredths xlsx.Format = `0.00;-0.00;"–"`

// oxideFormat has a third digit where a unity formula needs it.
const oxideFormat xlsx.Format = `[=0]"–";[<0.0995]0.000;0.00`

// The views of the oxides, in the order of the list.
var views = [...]string{"unity formula", "weight %", "mol %"}

// writeChemistry writes the oxides of each cup, in the view that is chosen.
func (b *pourBook) writeChemistry() {
	t, g := b.t, &b.chemistry
	oxides := b.oxides
	options := oxide.Options{ColourantsInUnity: t.Plan.Chemistry.ColourantsInUnity}
	rows := make([]oxide.Row, len(t.Cells))
	for i := range t.Cells {
		if v, missing := t.Vector(i, blend.Measured); missing == nil {
			rows[i].Fill(&v, options)
		}
	}
	b.addCups(g, "", 8, "{cup}")
	made := func(row string) string { return fmt.Sprintf("SUMPRODUCT({mat1:mat%d},%s)", len(b.dry), row) }
	known := made("Dry_matter") + ">0"
	if t.Unanalysed() != nil {
		known = "AND(" + known + "," + made("Unanalysed") + "=0)"
	}
	for _, o := range oxides {
		place, _ := o.Place()
		b.add(g, column{key: "oxide" + string(o), head: string(o), width: 7.5, look: xlsx.Worked, format: oxideFormat,
			formula: fmt.Sprintf("IF({whole}>0,%s/IF(View=2,1,%s)/{whole},0)", made("Oxide_"+string(o)), xlsx.Literal(o.MolarMass())),
			value:   func(i int) float64 { return rows[i].Unity[place] }})
	}
	if slices.Contains(oxides, "SiO2") && slices.Contains(oxides, "Al2O3") {
		al := made("Oxide_Al2O3")
		b.add(g, column{head: "SiO2:\nAl2O3\nmol", width: 7.5, look: xlsx.Worked, format: hundredths,
			formula: fmt.Sprintf("IF(AND(%[4]s,%[1]s>0),%[2]s/%[1]s*%[3]s,0)", al, made("Oxide_SiO2"),
				xlsx.Literal(oxide.Oxide("Al2O3").MolarMass()/oxide.Oxide("SiO2").MolarMass()), known),
			value: func(i int) float64 { return rows[i].SiAl }})
	}
	b.add(g, column{head: "LOI\n%", width: 7.5, look: xlsx.Worked, format: xlsx.WithNought("0.0", "–"),
		formula: "IF(" + known + ",100*" + made("Loss_part") + "/" + made("Dry_matter") + ",0)", value: func(i int) float64 { return rows[i].LOI }})
	g.Page.Columns = len(g.columns)
	b.add(g, column{key: "whole", head: "Sum of\nthe view", look: xlsx.Worked, format: xlsx.General,
		formula: "IF(" + known + ",CHOOSE(View," + made("Flux_part") + "," + made("Fired_part") + "/100," + made("Mol_part") + "/100),0)",
		value:   func(i int) float64 { return b.flux(i) }})
	g.choices = views[:]
	g.troubles = []trouble{{"Cup_used=0", xlsx.Quoted("amounts stay 0 until Inputs is complete")}}
	remark := "Of the fired glaze of each cup as measured."
	if missing := t.Unanalysed(); missing != nil {
		remark += " Blank where a cup holds " + strings.Join(missing, ", ") + ", which have no analysis."
	}
	if options.ColourantsInUnity {
		remark += " Colouring oxides count in the unity."
	}
	g.columns[0].width = 16 // of the choice above it
	b.write(g, "Chemistry", remark)
}

// flux is the R2O + RO of a cup in mol, by the plan's convention.
func (b *pourBook) flux(i int) float64 {
	v, missing := b.t.Vector(i, blend.Measured)
	if missing != nil {
		return 0
	}
	got := b.t.Cells[i].Got
	if flux := mol(v, b.fluxes) * got.DryG; b.weigh || flux == 0 {
		return flux
	} else {
		return flux * 100 / got.RecipeG // as the sheet Recipes has it
	}
}
