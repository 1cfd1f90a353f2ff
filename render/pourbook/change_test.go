package pourbook

import (
	"fmt"
	"maps"
	"os"
	"slices"
	"strings"
	"testing"

	"pourboard/blend"
	"pourboard/blend/measure"
	"pourboard/render/xlsx/xlsxtest"
)

// settled is a plan whose slips have their gravity and solids written out, as
// the workbook has them in its inputs: a change of one then leaves the other.
func settled(t testing.TB, p *blend.Plan) *blend.Plan {
	t.Helper()
	test, err := blend.New(p)
	if err != nil {
		t.Fatal(err)
	}
	q := *p
	q.Glazes = slices.Clone(p.Glazes)
	set := func(glaze int, e blend.End) {
		g := &q.Glazes[glaze]
		g.SG, g.Solids, g.WaterPer = e.SG, e.Solids, 0
	}
	if p.Blend.HasSeries() {
		set(p.Blend.Base, test.Base())
	}
	for i, glaze := range p.Blend.Ends {
		set(glaze, test.Ends[i])
	}
	return &q
}

// glazeOf is the index of the glaze that an input is about: SG_A, Solids_base.
func glazeOf(p *blend.Plan, input string) int {
	_, suffix, _ := strings.Cut(input, "_")
	if suffix == "base" {
		return p.Blend.Base
	}
	return p.Blend.Ends[suffix[0]-blend.GlazeLetter(0)[0]]
}

// change makes in a plan the change that typing x into an input makes in the
// workbook.
func change(p *blend.Plan, input string, x float64) {
	switch input {
	case "Cup_size":
		p.Cup.Size = x
	case "Scale_step":
		p.Kit.Scale.Size = x
	case "Fine_step":
		p.Kit.Fine = measure.Step{Size: x, Unit: measure.Gram}
	case "Pour_step":
		p.Kit.Pour.Size = x
	case "Syringe_step":
		p.Kit.Syringe.Size = x
	case "Capacity":
		p.Kit.Capacity = x
	case "Extra":
		p.Kit.Extra = x / 100
	case "Dead":
		p.Kit.Dead = x
	case "Loss":
		p.Kit.Loss = x
	default:
		if strings.HasPrefix(input, "SG_") {
			p.Glazes[glazeOf(p, input)].SG = x
		} else {
			p.Glazes[glazeOf(p, input)].Solids = x
		}
	}
}

// changes are the numbers that are typed into each input of a workbook.
func changes(p *blend.Plan, test *blend.Test) map[string][]float64 {
	all := map[string][]float64{
		"Cup_size": {p.Cup.Size * 1.37, 7, p.Cup.Size * 20}, "Scale_step": {0.5, 0.01, 1}, "Pour_step": {1, 2.5, 10, 0.1},
		"Extra": {0, 7, 33.3}, "Dead": {12.5}, "Loss": {1.5}, "Fine_step": {0.02, 0.001},
	}
	slip := func(suffix string) {
		all["SG_"+suffix] = []float64{1.3, 1.62}
		all["Solids_"+suffix] = []float64{2.45, 2.9}
	}
	if p.Blend.HasSeries() {
		slip("base")
	} else {
		for e := range test.Ends {
			slip(letter(e))
		}
	}
	if len(test.Stocks) > 0 {
		all["Syringe_step"] = []float64{0.2, 1}
	}
	if p.Kit.Capacity > 0 {
		all["Capacity"] = []float64{100, 37, 250, 1000, 2}
	}
	return all
}

// changedPlans have every kind of design, basis of shares and of cups, method
// and instrument between them.
var changedPlans = []string{"line-volume", "list", "centroid", "quadraxial-bounds", "triaxial-weight",
	"line-series", "triaxial-series", "one-stock", "line-pour", "biaxial-pour"}

// plansToChange are the test plans with three more: a scale that takes little,
// doses so near each other that one stock serves them at every size, and
// batches of which some is weighed apart on a finer scale.
func plansToChange(t *testing.T) map[string]*blend.Plan {
	plans := xlsxtest.Plans(t)
	capped := *plans["biaxial"]
	capped.Kit.Capacity = 300
	plans["capped"] = &capped
	stock := *plans["line-stock"]
	stock.Blend.Series = []blend.Series{{Material: "Cobalt carbonate", Percents: []float64{1, 1.1, 1.2}}}
	plans["one-stock"] = &stock
	two := *plans["biaxial-pour"]
	two.Kit.Scale, two.Kit.Fine = measure.Step{Size: 1, Unit: measure.Gram}, measure.Step{Size: 0.05, Unit: measure.Gram}
	two.Kit.Capacity = 120
	plans["two-scales"] = &two
	return plans
}

// TestPour_changed types other numbers into the inputs, has LibreOffice work
// everything out, and compares all formulas with the workbook of a plan that
// is changed in the same way: all inputs together, and where all outside checks
// are asked for each in turn, which takes minutes.
func TestPour_changed(t *testing.T) {
	if testing.Short() {
		t.Skip("starting LibreOffice takes seconds")
	}
	xlsxtest.Tool(t, "soffice")
	written, files := map[string][]byte{}, map[string][]byte{}
	unused := map[string]bool{} // workbooks with a second scale that is no finer
	plans := plansToChange(t)
	add := func(name string, data []byte, test *blend.Test, p *blend.Plan, typed map[string]float64) {
		q := *p
		q.Glazes = slices.Clone(p.Glazes)
		for input, x := range typed {
			change(&q, input, x)
		}
		if q.Kit.Fine.Size >= q.Kit.Scale.Size { // a plan with that is refused; here the finer scale does
			q.Kit.Fine = measure.Step{}
			unused[name] = true
		}
		changed := xlsxtest.Test(t, &q)
		if !sameStocks(test, changed) { // that takes a new workbook
			if len(typed) > 1 {
				t.Errorf("%s: other cups draw from other stocks", name)
			}
			return
		}
		for s, stock := range changed.Stocks { // the strength stays as it was mixed, unless it is typed too
			typed[fmt.Sprintf("Strength_%d", s+1)] = stock.GPerML
		}
		written[name], files[name] = pourOf(t, &q), bare(t, data, typed)
	}
	turn := 0
	for _, plan := range append([]string{"capped", "two-scales"}, changedPlans...) {
		p := settled(t, plans[plan])
		test := xlsxtest.Test(t, p)
		data := pourOf(t, p)
		all := changes(p, test)
		together := map[string]float64{}
		for _, input := range slices.Sorted(maps.Keys(all)) {
			values := all[input]
			turn++
			together[input] = values[turn%len(values)]
			if os.Getenv("POURBOARD_OUTSIDE") != "1" {
				continue
			}
			for i, x := range values {
				// One number for each input, another for the next plan; but
				// where loads come to whole ones, all of them.
				if plan == "capped" || plan == "two-scales" || i == turn%len(values) {
					add(fmt.Sprintf("%s-%s-%d", plan, input, i), data, test, p, map[string]float64{input: x})
				}
			}
		}
		add(plan, data, test, p, together)
	}
	n := 0
	values := recalculate(t, files)
	for _, name := range slices.Sorted(maps.Keys(values)) {
		values := valuesOf(t, values[name])
		n += compareFormulas(t, name, written[name], values, func(_, formula string) bool { return strings.Contains(formula, "NOT USED") })
		said := false
		for _, v := range values {
			said = said || strings.HasPrefix(v.Text, "NOT USED")
		}
		if said != unused[name] {
			t.Errorf("%s: a line says that the second scale is not used: %v", name, said)
		}
	}
	t.Logf("%d formulas of %d changed workbooks agree with LibreOffice", n, len(files))
}

// sameStocks reports whether every cup draws from the same stocks.
func sameStocks(a, b *blend.Test) bool {
	for i, c := range a.Cells {
		for s, d := range c.Doses {
			if d.Stock != b.Cells[i].Doses[s].Stock {
				return false
			}
		}
	}
	return len(a.Stocks) == len(b.Stocks)
}
