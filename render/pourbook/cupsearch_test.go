package pourbook

import (
	"fmt"
	"maps"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"pourboard/blend"
	"pourboard/blend/measure"
	"pourboard/render/xlsx"
	"pourboard/render/xlsx/xlsxtest"
)

// namedCell is the address of a named cell, "Inputs!B30", and its row.
func namedCell(t *testing.T, data []byte, name string) (at string, row int) {
	t.Helper()
	m := regexp.MustCompile(`<definedName name="` + name + `"[^>]*>(?:&#39;|')?([A-Za-z]+)(?:&#39;|')?!\$([A-Z]+)\$([0-9]+)<`).FindStringSubmatch(xlsxtest.Unzipped(t, data)["xl/workbook.xml"])
	if m == nil {
		t.Fatalf("no cell %s", name)
	}
	row, _ = strconv.Atoi(m[3])
	return m[1] + "!" + m[2] + m[3], row
}

// haves is what was mixed as blend.Stretch takes it.
func haves(test *blend.Test, mixed map[int]float64) []blend.Have {
	var all []blend.Have
	for _, e := range slices.Sorted(maps.Keys(mixed)) {
		all = append(all, blend.Have{Glaze: test.Ends[e].Name, ML: mixed[e]})
	}
	return all
}

// serves reports whether batches serve the cups of a test.
func serves(test *blend.Test, mixed map[int]float64) bool {
	for e, ml := range mixed {
		if test.Batches[e].NeedML+test.Plan.Kit.Dead > ml*(1+1e-9) {
			return false
		}
	}
	return true
}

// limePlan is a line of eight cups from one glaze whose pours a jug of 2 mL
// rounds, so that an exact share of the batch is more than it serves.
func limePlan(t *testing.T) *blend.Plan {
	p := *xlsxtest.Plans(t)["line-series"]
	p.Cup = blend.Cup{Size: 60, Of: blend.Dry}
	p.Kit.Pour = measure.Step{Size: 2, Unit: measure.Millilitre}
	p.Kit.Dead, p.Kit.Loss, p.Kit.Extra = 15, 0, 0.1
	series := p.Blend.Series[0]
	series.Percents = []float64{0, 0.5, 1, 2, 3, 4, 6, 8}
	p.Blend.Series = []blend.Series{series}
	return settled(t, &p)
}

// TestPour_mixed types what was really mixed: the cups are as large as those of
// blend.Stretch, or hardly smaller where several slips are rounded together,
// every batch serves them and not those of the next size, and everything is
// that of a plan with cups of that size.
func TestPour_mixed(t *testing.T) {
	if testing.Short() {
		t.Skip("starting LibreOffice takes seconds")
	}
	xlsxtest.Tool(t, "soffice")
	type expected struct {
		plan  *blend.Plan
		size  float64 // of blend.Stretch
		unit  float64
		mixed map[int]float64
	}
	want, written, files := map[string]expected{}, map[string][]byte{}, map[string][]byte{}
	add := func(name string, p *blend.Plan, mixed map[int]float64) {
		test := xlsxtest.Test(t, p)
		q := *p
		if _, err := blend.Stretch(&q, haves(test, mixed)); err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		q.Have = nil
		changed := xlsxtest.Test(t, &q)
		if !sameStocks(test, changed) {
			t.Errorf("%s: other cups draw from other stocks", name)
			return
		}
		exact := math.Inf(1)
		typed := map[string]float64{}
		for e, ml := range mixed {
			sum, cups := 0.0, 0.0
			for _, c := range test.Cells {
				if sum += c.Pours[e].ML; c.Pours[e].ML > 0 {
					cups++
				}
			}
			exact = min(exact, p.Cup.Size*(ml-p.Kit.Dead-p.Kit.Loss*cups)/sum)
			typed["Mixed_"+letter(e)] = ml
		}
		for s, stock := range changed.Stocks {
			typed[fmt.Sprintf("Strength_%d", s+1)] = stock.GPerML
		}
		want[name] = expected{p, q.Cup.Size, math.Pow(10, math.Floor(math.Log10(exact))-2), mixed}
		files[name] = bare(t, pourOf(t, p), typed)
	}
	plans := plansToChange(t)
	for i, plan := range changedPlans {
		p := settled(t, plans[plan])
		p.Kit.Dead, p.Kit.Loss = 15, 0.5
		test := xlsxtest.Test(t, p)
		for k, factor := range [][]float64{{0.8, 0.37}, {1.3, 0.61}}[i%2] {
			mixed := map[int]float64{0: math.Round(factor * test.Batches[0].ML)}
			if last := len(test.Ends) - 1; last > 0 {
				mixed[last] = math.Round((factor + 0.05) * test.Batches[last].ML)
			}
			if k > 0 && len(test.Stocks) > 0 { // cups so much smaller draw from other stocks
				continue
			}
			add(fmt.Sprintf("%s-%g", plan, factor), p, mixed)
		}
	}
	lime := limePlan(t)
	for _, ml := range []float64{300, 297, 294, 60} {
		add(fmt.Sprintf("lime-%g", ml), lime, map[int]float64{0: ml})
	}
	smaller := 0
	for name, data := range recalculate(t, files) {
		values, w := valuesOf(t, data), want[name]
		at, _ := namedCell(t, files[name], "Cup_used")
		size := values[at].Number
		if d := size/w.size - 1; d > 1e-9 || d < -0.03 || len(w.plan.Blend.Ends) == 0 && d < -1e-9 && w.plan.Blend.Method != blend.ByPour {
			t.Errorf("%s: cups of %g, %g by blend.Stretch", name, size, w.size)
		} else if d < -1e-9 {
			smaller++
			t.Logf("%s: cups of %g, %g by blend.Stretch", name, size, w.size)
		}
		q := *w.plan
		q.Cup.Size = size
		test := xlsxtest.Test(t, &q)
		more := q
		more.Cup.Size = roundTo9(size + w.unit)
		if !serves(test, w.mixed) || serves(xlsxtest.Test(t, &more), w.mixed) {
			t.Errorf("%s: cups of %g are served: %v, and those of the next size too: %v", name, size, serves(test, w.mixed), serves(xlsxtest.Test(t, &more), w.mixed))
		}
		written[name] = pourOf(t, &q)
		_, row := namedCell(t, files[name], "Cup_exact")
		compareFormulas(t, name, written[name], values, func(at, formula string) bool {
			search := false
			if cell, found := strings.CutPrefix(at, "Working!"); found {
				n, _ := strconv.Atoi(strings.TrimLeft(cell, "ABCDEFGHIJKLMNOPQRSTUVWXYZ"))
				search = n >= row && !strings.HasPrefix(formula, "MIN(") // the thinnest stands below
			}
			return search || strings.Contains(formula, "Mixed_") || strings.Contains(formula, "Cup_size_typed")
		})
		over := 0
		for e, ml := range w.mixed {
			hint := values[strings.Replace(mustAt(t, files[name], of("Mixed", e)+"_typed"), "!B", "!D", 1)].Text
			left := math.Round(10*(ml-test.Batches[e].NeedML)) / 10
			if hint == fmt.Sprintf("%g mL stay over", left) {
				over++
			} else {
				t.Errorf("%s: the hint is %q, and %g mL stay over", name, hint, left)
			}
		}
	}
	if smaller > len(files)/2 {
		t.Errorf("%d of %d workbooks have smaller cups than blend.Stretch", smaller, len(files))
	}
	t.Logf("%d workbooks with what was really mixed, %d with cups smaller than those of blend.Stretch", len(files), smaller)
}

func mustAt(t *testing.T, data []byte, name string) string {
	t.Helper()
	at, _ := namedCell(t, data, name)
	return at
}

// TestPour_tooLittle types a batch that serves no cup: no amounts, no error in
// any cell, and the sheet says why.
func TestPour_tooLittle(t *testing.T) {
	if testing.Short() {
		t.Skip("starting LibreOffice takes seconds")
	}
	xlsxtest.Tool(t, "soffice")
	p := limePlan(t)
	says := map[string]string{"10": "NOTHING IS LEFT TO POUR", "15": "NOTHING IS LEFT TO POUR", "17": "TOO LITTLE", "31": "15 mL stay over"}
	files := map[string][]byte{}
	for ml := range says {
		x, _ := strconv.ParseFloat(ml, 64)
		files[ml] = bare(t, pourOf(t, p), map[string]float64{"Mixed_P": x})
		q := *p
		if _, err := blend.Stretch(&q, haves(xlsxtest.Test(t, p), map[int]float64{0: x})); (err == nil) != (ml == "31") {
			t.Errorf("%s mL: blend.Stretch says %v", ml, err)
		}
	}
	for ml, data := range recalculate(t, files) {
		values := valuesOf(t, data)
		for at, v := range values {
			if v.Kind == xlsx.KindFault || strings.HasPrefix(v.Text, "#") {
				t.Errorf("%s mL: %s is %s", ml, at, v.Text)
			}
		}
		hint := values[strings.Replace(mustAt(t, files[ml], "Mixed_P_typed"), "!B", "!D", 1)].Text
		size := values[mustAt(t, files[ml], "Cup_used")].Number
		if !strings.HasPrefix(hint, says[ml]) || (size > 0) != (ml == "31") {
			t.Errorf("%s mL: cups of %g, and the hint is %q", ml, size, hint)
		}
		if title := values["Pours!A1"].Text; strings.Contains(title, "all amounts are 0") == (ml == "31") {
			t.Errorf("%s mL: the pours are headed %q", ml, title)
		}
	}
}
