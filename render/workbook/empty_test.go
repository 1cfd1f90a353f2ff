package workbook

import (
	"fmt"
	"math"
	"strings"
	"testing"
)

// TestPour_emptied empties each input that is needed, or types what cannot be,
// as a paste can: a line says what is needed, all amounts are 0, and no cell
// has an error.
func TestPour_emptied(t *testing.T) {
	if testing.Short() {
		t.Skip("starting LibreOffice takes seconds")
	}
	tool(t, "soffice")
	type emptied struct {
		input string
		test  *pourBook
	}
	files, want := map[string][]byte{}, map[string]emptied{}
	plans := plansToChange(t)
	for _, plan := range []string{"capped", "one-stock", "line-pour"} {
		p := settled(t, plans[plan])
		p.Kit.Dead, p.Kit.Loss = 15, 0.5
		test := testOf(t, p)
		data := pourOf(t, p)
		b := newPourBook(test)
		b.writeInputs()
		for i, in := range b.needed {
			for k, x := range []float64{math.NaN(), []float64{-1, 1e9}[i%2]} {
				if k > 0 && plan != "capped" {
					continue
				}
				name := fmt.Sprintf("%s-%s-%d", plan, in.name, k)
				want[name] = emptied{in.name, b}
				files[name] = bare(t, data, map[string]float64{in.name: x})
			}
		}
	}
	for name, data := range recalculate(t, files) {
		values, b := valuesOf(t, data), want[name].test
		needed := 0
		for at, v := range values {
			switch {
			case v.Kind == kindFault || strings.HasPrefix(v.Text, "#"):
				t.Errorf("%s: %s is %s", name, at, v.Text)
			case strings.HasPrefix(v.Text, "NEEDED: "):
				needed++
			}
		}
		// A gravity beyond all solids lets the solids be too light as well.
		if needed != 1 && !(strings.Contains(name, "-SG_") && strings.HasSuffix(name, "-1") && needed == 2) {
			t.Errorf("%s: %d lines say what is needed", name, needed)
		}
		for i := range b.t.Cells {
			for e := range b.q {
				at := "Pours!" + address(b.at.pour+e, firstRow+i)
				if v := values[at]; v.Kind != kindNumber || v.Number != 0 {
					t.Errorf("%s: %s is %q", name, at, v.Text)
				}
			}
		}
	}
	t.Logf("%d workbooks with an emptied input", len(files))
}
