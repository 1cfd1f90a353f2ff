package pdf

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"pourboard/blend"
	"pourboard/blend/oxide"
	"pourboard/blend/quantity"
)

// The table has a row for each cup with its silica, alumina and ratio as the
// engine has them; the cups without are named.
func TestChemistry_table(t *testing.T) {
	for _, name := range []string{"triaxial", "line-series", "quadraxial", "cells-500"} {
		p := packetOf(t, name)
		sheet := onSheet(t, p, "chemistry")
		if !sheet.then("heading", "Unity formula cup") {
			continue
		}
		for i := range p.Test.Cells {
			x := p.Test.Chemistry(i, blend.Measured)
			row := []string{fmt.Sprint(i + 1)}
			al, si := amountOf(x.Unity, "Al2O3"), amountOf(x.Unity, "SiO2")
			sheet.then("cup", row...)
			if !sheet.then(fmt.Sprintf("%s, cup %d", name, i+1), fmt.Sprintf("%.2f %.2f", al, si)) {
				break
			}
			sheet.then("ratio and loss", fmt.Sprintf("%.2f %.1f", si/al, x.LOI))
		}
	}
}

// figures is a number to three digits, at most two after the point for one of
// one or more: what GotText prints, written another way.
func figures(x float64) string {
	switch {
	case x >= 9.995:
		return fmt.Sprintf("%.1f", x)
	case x >= 0.9995:
		return fmt.Sprintf("%.2f", x)
	}
	return fmt.Sprintf("%.3f", x)
}

func TestChemistry_missing(t *testing.T) {
	p := packetOf(t, "triaxial", func(p *blend.Plan) {
		p.Materials = nil
		for i := range p.Glazes {
			for k := range p.Glazes[i].Recipe {
				if p.Glazes[i].Recipe[k].Material == "Wood ash" {
					p.Glazes[i].Recipe[k].Material = "Ash of the old oak"
				}
			}
		}
	})
	var without []int
	for i, c := range p.Test.Cells {
		if c.Pours[1].Steps > 0 {
			without = append(without, i+1)
		}
	}
	sheet := onSheet(t, p, "chemistry")
	sheet.then("missing", "Without an analysis: Ash of the old oak. What is in "+quantity.Cups(without, 60)+" is therefore not known.")
	sheet.then("table", "Unity formula cup")
	sheet.then("the first cup, which has none of it", "1")
	// A map has every cup, and a question mark for those.
	sheet.then("map", "SiO₂, weight % of the fired glaze")
	for i := range p.Test.Cells {
		x := p.Test.Chemistry(i, blend.Measured)
		text := "?"
		if x.Missing == nil {
			text = figures(amountOf(x.WeightPercent, "SiO2"))
		}
		sheet.then("map", fmt.Sprint(i+1), text)
	}

	if hasChemistry(packetOf(t, "odd-text").Test) {
		t.Error("a plan of unknown materials has a section of chemistry")
	}
}

// Every cup has its number in the plot, or in the list below it.
func TestChemistry_plotHasAll(t *testing.T) {
	for _, name := range []string{"triaxial", "cells-66", "quadraxial", "line"} {
		p := packetOf(t, name)
		p.Only = []string{"chemistry"}
		s, _ := mustDraw(t, p)
		var texts []string
		for _, page := range s.doc.pages {
			points := 0
			for _, o := range page.ops {
				switch {
				case o.kind == opFill && len(o.at) >= 8 && math.Abs(math.Abs(o.at[len(o.at)/2].x-o.at[0].x)-2*pointMM) < 1e-6:
					points++
				case o.kind == opText && o.font == pointFont && points > 0:
					texts = append(texts, o.text)
				case o.kind == opText && strings.Contains(o.text, " at "):
					texts = append(texts, o.text)
				}
			}
		}
		var cells []int
		for _, text := range texts {
			for part := range strings.SplitSeq(text, ";") {
				part, _, _ = strings.Cut(part, " at ")
				part = strings.NewReplacer("cups", "", "cup", "").Replace(part)
				for span := range strings.SplitSeq(part, ",") {
					from, to, ranged := strings.Cut(strings.TrimSpace(span), "-")
					a, err := strconv.Atoi(from)
					if err != nil {
						continue
					}
					b := a
					if ranged {
						b, _ = strconv.Atoi(to)
					}
					for c := a; c <= b; c++ {
						cells = append(cells, c)
					}
				}
			}
		}
		seen := map[int]int{}
		for _, c := range cells {
			seen[c]++
		}
		for _, c := range p.Test.Cells {
			if seen[c.Number] == 0 {
				t.Errorf("%s: cup %d is neither in the plot nor in its list", name, c.Number)
			}
		}
	}
}

// Axes hold what they are made for with a margin, and not much more.
func TestTicks(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 2000 {
		lo := r.Float64() * math.Pow(10, float64(r.IntN(4)-1))
		hi := lo + r.Float64()*r.Float64()*5
		from, to, step := ticks(lo, hi, 8)
		n := (to - from) / step
		if from > lo || to <= hi || to-from > 1.2*max(hi-lo, 0.1) || n < 2 || n > 8+1e-9 || from < 0 {
			t.Fatalf("ticks(%g, %g): from %g to %g in %g steps of %g", lo, hi, from, to, n, step)
		}
	}
}

func TestFormula(t *testing.T) {
	for o, want := range map[oxide.Oxide]string{"Al2O3": "Al₂O₃", "CaO": "CaO", "P2O5": "P₂O₅"} {
		if got := formula(o); got != want {
			t.Errorf("%s is printed %s, want %s", o, got, want)
		}
	}
}

// Of several tables the fluxes have one by themselves, and SiO2 stands last,
// beside its ratio to Al2O3.
func TestUnityParts(t *testing.T) {
	d := mustDoc(t, "t")
	shown := []oxide.Oxide{"Li2O", "Na2O", "K2O", "MgO", "CaO", "Al2O3", "B2O3", "SiO2", "TiO2", "P2O5", "CoO"}
	for _, c := range []struct {
		wMM  float64
		want string
	}{
		{297, "[[Li2O Na2O K2O MgO CaO Al2O3 B2O3 SiO2 TiO2 P2O5 CoO]]"},
		{148, "[[Li2O Na2O K2O MgO CaO] [Al2O3 B2O3 TiO2 P2O5 CoO SiO2]]"},
	} {
		_, parts := unityParts(&flow{doc: d, wMM: c.wMM, hMM: 297}, shown)
		if got := fmt.Sprint(parts); got != c.want {
			t.Errorf("%g mm: %s, want %s", c.wMM, got, c.want)
		}
	}
}
