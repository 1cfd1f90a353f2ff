package xlsxtest

import (
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"pourboard/blend"
	"pourboard/blend/measure"
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
		set(p.Blend.Base, test.Base)
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
		p.Cup.Size.Value = x
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
		"Cup_size": {p.Cup.Size.Value * 1.37, 37, p.Cup.Size.Value * 20}, "Scale_step": {0.5, 0.01, 1}, "Pour_step": {1, 2.5, 10, 0.1},
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
// and kind of design with other sizes of cup and other instruments. Where outside
// checks are not asked for, those whose formulas others have too are left out.
func plansToChange(t *testing.T) map[string]*blend.Plan {
	plans := Plans(t)
	outside := os.Getenv("POURBOARD_OUTSIDE") == "1"
	if !outside {
		for _, name := range []string{"bodies-4", "cells-500", "line", "line-bounds", "line-interior", "quadraxial-bounds", "triaxial-bounds", "triaxial-interior"} {
			delete(plans, name)
		}
	}
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
		p.Poured = []blend.Poured{{Cups: []int{2, 4}, Glaze: p.Blend.Base, Amount: blend.Amount{Value: 132, Of: blend.Volume}}}
	})
	with("poured-triaxial", "triaxial", func(p *blend.Plan) {
		p.Poured = []blend.Poured{{Cups: []int{5, 8}, Glaze: p.Blend.Ends[1], Amount: blend.Amount{Value: 25, Of: blend.Volume}}}
	})
	with("diluted", "line-series", func(p *blend.Plan) {
		p.Kit.Fine, p.Blend.Series = measure.Step{}, []blend.Series{{Material: "Copper carbonate", Percents: []float64{0, 0.5, 1, 2, 1}}}
	})
	with("diluted-scale", "line-series", func(p *blend.Plan) { p.Kit.Fine, p.Kit.Pour = measure.Step{}, gram(1) })
	with("two-scales", "biaxial-pour", func(p *blend.Plan) { p.Kit.Scale, p.Kit.Fine, p.Kit.Capacity = gram(1), gram(0.05), 120 })
	for _, of := range []string{"line-series", "one-stock", "line-pour", "triaxial", "quadraxial"} {
		for i, size := range []blend.Amount{{Value: 90, Of: blend.Dry}, {Value: 150, Of: blend.Volume}, {Value: 210, Of: blend.Weight}} {
			if !outside && (of == "quadraxial" || of == "one-stock" && i < 2 || of == "line-pour" && i > 0) {
				continue
			}
			with(fmt.Sprintf("%s-%s", of, size.Of), of, func(p *blend.Plan) {
				p.Cup = blend.Cup{Size: size, Even: true}
				if !p.Blend.HasSeries() { // which is dry
					p.Blend.Basis = []blend.Basis{blend.Weight, blend.Dry, blend.Volume}[i]
				}
				if i == 2 {
					p.Kit.Pour = gram(1)
				}
			})
		}
	}
	return plans
}

// sameMixes reports whether every cup draws from the same stocks, and the same
// doses are weighed in the same mixes. Others take a new workbook.
func sameMixes(a, b *blend.Test) bool {
	for i, c := range a.Cells {
		for s, d := range c.Doses {
			if d.Stock != b.Cells[i].Doses[s].Stock {
				return false
			}
		}
	}
	mixes := func(t *blend.Test) (all []string) {
		for _, d := range t.Dilutions {
			for _, x := range d.Doses {
				all = append(all, fmt.Sprint(d.Series, d.Parts, x.Cups))
			}
		}
		return all
	}
	return len(a.Stocks) == len(b.Stocks) && slices.Equal(mixes(a), mixes(b))
}

// strengths types the strengths of stocks as a changed plan has them, for they
// stay as they were mixed otherwise.
func strengths(typed map[string]any, changed *blend.Test) {
	for s, stock := range changed.Stocks {
		typed[fmt.Sprintf("Strength_%d_typed", s+1)] = stock.GPerML
	}
}
