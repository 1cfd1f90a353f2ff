package xlsxtest

import (
	"fmt"
	"maps"
	"math"
	"os"
	"slices"
	"strings"
	"testing"

	"pourboard/blend"
	"pourboard/blend/measure"
	"pourboard/blend/oxide"
)

// settled is a plan whose glazes have their gravity and solids written out, as
// the workbook has them in its inputs: a change of one then leaves the other.
func settled(t testing.TB, p *blend.Plan) *blend.Plan {
	t.Helper()
	test := Test(t, p)
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

// glazeOf is the glaze that an input is about: SG_1, Solids_base.
func glazeOf(p *blend.Plan, input string) *blend.Glaze {
	_, suffix, _ := strings.Cut(input, "_")
	if p.Blend.HasSeries() {
		return &p.Glazes[p.Blend.Base]
	}
	n := 0
	fmt.Sscan(suffix, &n)
	return &p.Glazes[p.Blend.Ends[n-1]]
}

// change makes in a plan the change that typing x into an input makes in the
// workbook.
func change(p *blend.Plan, input string, x float64) {
	kit := &p.Kit
	switch input {
	case "Cup_size":
		p.Cup.Size = x
	case "Batch_size":
		p.Cup.BatchG = x
	case "Limit":
		kit.Worst = x / 100
	case "Scale_step":
		kit.Scale.Size = x
	case "Fine_step":
		kit.Fine = measure.Step{Size: x, Unit: measure.Gram}
	case "Pour_step":
		kit.Pour.Size = x
	case "Syringe_step":
		kit.Syringe.Size = x
	case "Capacity":
		kit.Capacity = x
	case "Extra":
		kit.Extra = x / 100
	case "Dead":
		kit.Dead = x
	case "Loss":
		kit.Loss = x
	default:
		if strings.HasPrefix(input, "SG_") {
			glazeOf(p, input).SG = x
		} else {
			glazeOf(p, input).Solids = x
		}
	}
}

// changes are the numbers that are typed into each input of a workbook.
func changes(p *blend.Plan, test *blend.Test) map[string][]float64 {
	all := map[string][]float64{
		"Cup_size": {p.Cup.Size * 1.37, 37, p.Cup.Size * 20}, "Scale_step": {0.5, 0.01, 1}, "Pour_step": {1, 2.5, 10, 0.1},
		"Extra": {0, 7, 33.3}, "Dead": {12.5}, "Loss": {1.5}, "Fine_step": {0.005, 0.001}, "Limit": {2.5, 10},
	}
	glaze := func(suffix string) {
		all["SG_"+suffix] = []float64{1.3, 1.62}
		all["Solids_"+suffix] = []float64{2.45, 2.9}
	}
	if p.Blend.Method == blend.ByWeigh {
		for _, input := range []string{"Pour_step", "Extra", "Dead", "Loss"} {
			delete(all, input)
		}
	}
	if p.Blend.Method == blend.ByPour {
		glaze("base")
	} else {
		for e := range test.Ends {
			glaze(fmt.Sprint(e + 1))
		}
	}
	if len(test.Stocks) > 0 {
		all["Syringe_step"] = []float64{0.2, 1}
	}
	if p.Cup.BatchG > 0 {
		delete(all, "Cup_size")
		all["Batch_size"] = []float64{1500, 740}
	}
	if p.Kit.Capacity > 0 && p.Blend.Method != blend.ByWeigh {
		all["Capacity"] = []float64{100, 37, 250, 1000, 2}
	}
	return all
}

// plansToChange are the test plans, but for one that is large, with more: a scale
// that takes little, doses so near each other that one stock serves them at every
// size, batches of which some is weighed apart on a finer scale, and every method
// and kind of design with other sizes of cup and other instruments.
func plansToChange(t *testing.T) map[string]*blend.Plan {
	plans := Plans(t)
	delete(plans, "cells-500")
	with := func(name, of string, change func(*blend.Plan)) {
		p := *plans[of]
		p.Glazes, p.Blend.Series = slices.Clone(p.Glazes), slices.Clone(p.Blend.Series)
		change(&p)
		plans[name] = &p
	}
	gram := func(x float64) measure.Step { return measure.Step{Size: x, Unit: measure.Gram} }
	with("capped", "biaxial", func(p *blend.Plan) { p.Kit.Capacity = 300 })
	with("one-stock", "line-stock", func(p *blend.Plan) {
		p.Blend.Series = []blend.Series{{Material: "Cobalt carbonate", Percents: []float64{1, 1.1, 1.2}}}
	})
	with("poured-series", "line-series", func(p *blend.Plan) {
		p.Poured = []blend.Poured{{Cups: []int{2, 4}, Glaze: p.Blend.Base, Amount: 132, Unit: measure.Millilitre}}
	})
	with("poured-triaxial", "triaxial", func(p *blend.Plan) {
		p.Poured = []blend.Poured{{Cups: []int{5, 8}, Glaze: p.Blend.Ends[1], Amount: 25, Unit: measure.Millilitre}}
	})
	with("two-scales", "biaxial-pour", func(p *blend.Plan) { p.Kit.Scale, p.Kit.Fine, p.Kit.Capacity = gram(1), gram(0.05), 120 })
	for _, of := range []string{"line-series", "one-stock", "line-pour", "triaxial", "quadraxial"} {
		for i, size := range []blend.Cup{{Size: 90, Of: blend.Dry}, {Size: 150, Of: blend.Volume}, {Size: 210, Of: blend.Weight}} {
			with(fmt.Sprintf("%s-%s", of, size.Of), of, func(p *blend.Plan) {
				p.Cup = blend.Cup{Size: size.Size, Of: size.Of, Even: true}
				p.Blend.Basis = []blend.Basis{blend.Weight, blend.Dry, blend.Volume}[i]
				if i == 2 {
					p.Kit.Pour = gram(1)
				}
			})
		}
	}
	return plans
}

// sameStocks reports whether every cup draws from the same stocks. Others take a
// new workbook.
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

// strengths types the strengths of stocks as a changed plan has them, for they
// stay as they were mixed otherwise.
func strengths(typed map[string]any, changed *blend.Test) {
	for s, stock := range changed.Stocks {
		typed[fmt.Sprintf("Strength_%d_typed", s+1)] = stock.GPerML
	}
}

// TestPourChanged types other numbers into the inputs of every plan, all of them
// together and one after the other, and compares all formulas with the workbook
// of a plan that is changed in the same way.
func TestPourChanged(t *testing.T) {
	o := theOffice(t)
	formulas, books, turn := 0, 0, 0
	plans := plansToChange(t)
	for _, name := range slices.Sorted(maps.Keys(plans)) {
		p := settled(t, plans[name])
		test := Test(t, p)
		written := pourBytes(t, p)
		o.open(t, written)
		all := changes(p, test)
		try := func(inputs map[string]float64) {
			q := *p
			q.Glazes = slices.Clone(p.Glazes)
			typed := map[string]any{}
			for input, x := range inputs {
				change(&q, input, x)
				typed[input+"_typed"] = x
			}
			var help string // says that the second scale is not used
			if q.Kit.Fine.Size >= q.Kit.Scale.Size {
				q.Kit.Fine = measure.Step{}
				help = strings.Replace(addressOf(t, written, "Fine_step_typed"), "!B", "!D", 1)
			}
			changed, err := blend.New(&q)
			if err != nil || !sameStocks(test, changed) {
				return
			}
			strengths(typed, changed)
			books++
			formulas += compare(t, fmt.Sprint(name, typed), pourBytes(t, &q), o.typed(t, typed), func(at string) bool { return at == help })
		}
		together := map[string]float64{}
		for _, input := range slices.Sorted(maps.Keys(all)) {
			turn++
			x := all[input][turn%len(all[input])]
			together[input] = x
			if os.Getenv("POURBOARD_OUTSIDE") == "1" || turn%20 == 0 {
				try(map[string]float64{input: x})
			}
		}
		try(together)
	}
	t.Logf("%d formulas of %d changed workbooks agree with LibreOffice", formulas, books)
}

// TestPourMixed types what was actually mixed. Where it is enough nothing but the
// batch changes; where it is not the cups shrink, every batch serves them, and all
// is as in a plan with cups of that size.
func TestPourMixed(t *testing.T) {
	o := theOffice(t)
	plans := plansToChange(t)
	formulas, books := 0, 0
	for _, name := range []string{"line-series", "line-series-weight", "one-stock", "line-pour", "triaxial", "biaxial", "list", "quadraxial", "triaxial-weight"} {
		p := settled(t, plans[name])
		p.Kit.Dead, p.Kit.Loss = 15, 0.5
		test := Test(t, p)
		written := pourBytes(t, p)
		o.open(t, written)
		at := addressOf(t, written, "Cup_used")
		for _, factor := range []float64{1.4, 0.8, 0.45} {
			q := *p
			typed := map[string]any{}
			for e, end := range test.Ends {
				if e > 0 && e < len(test.Ends)-1 || test.Batches[e].NeedML == 0 {
					continue
				}
				ml := math.Round((factor + 0.03*float64(e)) * test.Batches[e].ML)
				typed[fmt.Sprintf("Mixed_%d_typed", e+1)] = ml
				q.Have = append(q.Have, blend.Have{Glaze: end.Name, ML: ml})
			}
			got := o.typed(t, typed)
			size, _ := got[at].(float64)
			if q.Cup.Size = size; factor > 1 && size != p.Cup.Size || factor < 0.5 && size >= p.Cup.Size || size > p.Cup.Size || size < p.Cup.Size*factor*0.7 {
				t.Errorf("%s, %v: cups of %v, asked %v", name, typed, size, p.Cup.Size)
				continue
			}
			changed := Test(t, &q)
			if !sameStocks(test, changed) {
				continue
			}
			strengths(typed, changed)
			got = o.typed(t, typed)
			short := false
			for _, h := range q.Have {
				for e, end := range changed.Ends {
					short = short || end.Name == h.Glaze && changed.Batches[e].NeedML+p.Kit.Dead > h.ML+1e-6
				}
			}
			if short {
				t.Errorf("%s, %v: cups of %v are too large for what was mixed", name, typed, size)
			}
			books++
			sizeAsked := addressOf(t, written, "Cup_size")
			formulas += compare(t, fmt.Sprint(name, typed), pourBytes(t, &q), got, func(at string) bool { return at == sizeAsked })
		}
	}
	t.Logf("%d formulas of %d workbooks with what was mixed agree with LibreOffice", formulas, books)
}

// TestPourEmptied empties each input, or pastes what cannot be: a line says what
// is needed or possible, all amounts are 0, and no cell has an error. An input
// that may be empty is 0 then.
func TestPourEmptied(t *testing.T) {
	o := theOffice(t)
	plans := plansToChange(t)
	const incomplete = "amounts stay 0 until Inputs is complete"
	seen := map[string]bool{}
	n := 0
	for _, name := range []string{"capped", "one-stock", "line-pour"} {
		data := pourBytes(t, settled(t, plans[name]))
		o.open(t, data)
		for _, m := range definedName.FindAllStringSubmatch(Unzipped(t, data)["xl/workbook.xml"], -1) {
			input, isInput := strings.CutSuffix(m[1], "_typed")
			if !isInput || seen[input] {
				continue
			}
			seen[input] = true
			optional := strings.HasPrefix(input, "Mixed") || slices.Contains([]string{"Fine_step", "Extra", "Dead", "Loss"}, input)
			for k, x := range []any{nil, -1.0, 1e9, "1,5", " "} {
				if k > 2 && k%2 == len(seen)%2 && os.Getenv("POURBOARD_OUTSIDE") != "1" {
					continue // one text or the other
				}
				n++
				got := o.typed(t, map[string]any{m[1]: x})
				said, texts := 0, 0
				for at, v := range got {
					text, _ := v.(string)
					if strings.HasPrefix(text, "NEEDED") || strings.HasPrefix(text, "NOT POSSIBLE") {
						said++
					}
					if strings.Contains(text, "the cell holds text, not a number") {
						texts++
					}
					if number, _ := v.(float64); k > 0 && number != 0 && strings.HasPrefix(at, "Pour card!B") {
						t.Errorf("%s = %v: %s is %v", input, x, at, v)
					}
				}
				title, _ := got["Pour card!A1"].(string)
				if k == 0 && optional {
					if said > 0 || title != "Pour card" {
						t.Errorf("%s empty: %d lines complain, and the card is headed %q", input, said, title)
					}
					continue
				}
				// A gravity beyond all solids lets the solids be too light as well.
				if said < 1 || said > 2 || (texts > 0) != (k > 2) || !strings.HasSuffix(title, incomplete) {
					t.Errorf("%s = %v: %d lines complain, %d of text, and the card is headed %q", input, x, said, texts, title)
				}
			}
		}
	}
	t.Logf("%d impossible inputs", n)
}

// TestPourUnlocked changes shares and percentages, for which a sheet has to be
// unlocked: all amounts are those of a plan with the same change, or the title
// says what cannot be.
func TestPourUnlocked(t *testing.T) {
	o := theOffice(t)
	plans := plansToChange(t)
	list := settled(t, plans["list"])
	written := pourBytes(t, list)
	o.open(t, written)
	share := func(cup, end int) string {
		return columnOf(t, written, "Pour card", "asked, %", end) + fmt.Sprint(3+cup)
	}
	other := *list
	other.Blend.Parts = slices.Clone(list.Blend.Parts)
	other.Blend.Parts[0] = []float64{20, 0, 80}
	got := o.typed(t, map[string]any{share(1, 0): 20.0, share(1, 1): 0.0, share(1, 2): 80.0})
	compare(t, "shares", pourBytes(t, &other), got, nil)
	for _, typed := range []map[string]any{
		{share(2, 1): "0,5"}, {share(2, 1): nil}, {share(1, 2): 30.0}, {share(5, 1): -50.0, share(5, 2): 150.0},
	} {
		if title, want := o.typed(t, typed)["Pour card!A1"], "Pour card: shares of a cup do not add up to 100 %; it gets nothing"; title != want {
			t.Errorf("%v: the card is headed %q", typed, title)
		}
	}
	p := settled(t, plans["line-series"])
	written = pourBytes(t, p)
	o.open(t, written)
	other = *p
	series := p.Blend.Series[0]
	series.Percents = slices.Clone(series.Percents)
	typed := map[string]any{}
	for i := range series.Percents {
		series.Percents[i] = float64(i) * 0.97
		typed[columnOf(t, written, "Pour card", "asked, %", 0)+fmt.Sprint(4+i)] = series.Percents[i]
	}
	other.Blend.Series = []blend.Series{series}
	compare(t, "percentages", pourBytes(t, &other), o.typed(t, typed), nil)
	if title := o.typed(t, map[string]any{"Pour card!A4": 2.0, "Pour card!A5": 1.0})["Pour card!A1"]; title != "Pour card: rows were sorted: amounts no longer match cups. Undo." {
		t.Errorf("after sorting, the card is headed %q", title)
	}
}

// TestPourOther types another amount for a pour of the card: its dose follows, by
// hand: 120 mL of the base hold 120 times its recipe in a mL.
func TestPourOther(t *testing.T) {
	o := theOffice(t)
	p := Plans(t)["line-series"]
	test := Test(t, p)
	data := pourBytes(t, p)
	o.open(t, data)
	other := columnOf(t, data, "Pour card", "other", 0) + "6"
	dose := columnOf(t, data, "Pour card", "Copper carbonate\ng", 0) + "6"
	before, after := o.typed(t, nil), o.typed(t, map[string]any{other: 120.0})
	want := p.Kit.Dosing().Amount(p.Kit.Dosing().Count(test.Cells[2].Doses[0].Percent / 100 * 120 * test.Ends[0].RecipePerML))
	if after[dose] != want || before[dose] == want {
		t.Errorf("a pour of 120 mL gets a dose of %v, want %v; before %v", after[dose], want, before[dose])
	}
	if ticked := o.typed(t, map[string]any{other: "x"}); ticked[dose] != before[dose] {
		t.Errorf("a tick changes the dose to %v", ticked[dose])
	}
}

// TestPourChemistry chooses each view of the oxides: they are those of package
// oxide for what was measured.
func TestPourChemistry(t *testing.T) {
	o := theOffice(t)
	for _, name := range []string{"triaxial", "line-series", "odd-text"} {
		p := Plans(t)[name]
		test := Test(t, p)
		data := pourBytes(t, p)
		o.open(t, data)
		for view, of := range map[string]func(oxide.Chemistry) []oxide.Amount{
			"weight %": func(c oxide.Chemistry) []oxide.Amount { return c.WeightPercent },
			"mol %":    func(c oxide.Chemistry) []oxide.Amount { return c.MolPercent },
		} {
			got := o.typed(t, map[string]any{"Chemistry!A2": view})
			for i := range test.Cells {
				for _, a := range of(test.Chemistry(i, blend.Measured)) {
					at := columnOf(t, data, "Chemistry", string(a.Oxide), 0) + fmt.Sprint(4+i)
					if x, _ := got[at].(float64); math.Abs(x-a.Value) > 1e-9 {
						t.Errorf("%s, cup %d: %v %s of %s, want %v", name, i+1, x, view, a.Oxide, a.Value)
					}
				}
			}
		}
	}
}
