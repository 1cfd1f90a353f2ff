package pourbook

import (
	"bytes"
	"math"
	"slices"
	"testing"

	tealeg "github.com/tealeg/xlsx/v3"

	"pourboard/blend"
	"pourboard/blend/oxide"
	"pourboard/render/xlsx/xlsxtest"
)

func pourOf(t testing.TB, p *blend.Plan) []byte {
	t.Helper()
	test, err := blend.New(p)
	if err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	warnings, err := Write(&out, test)
	if err != nil || len(warnings) > 0 {
		t.Fatalf("%v, warnings %q", err, warnings)
	}
	return out.Bytes()
}

// TestPercentages holds that a percentage of a dose is shown with the digits
// that it is printed with, and stands there with all that it has.
func TestPercentages(t *testing.T) {
	plans := xlsxtest.Plans(t)
	thirds := *plans["biaxial-series"]
	series := slices.Clone(thirds.Blend.Series)
	series[0].Percents = []float64{0, 4. / 3, 8. / 3, 0.0625}
	thirds.Blend.Series = series
	plans["thirds"] = &thirds
	longer := 0
	for name, p := range plans {
		if !p.Blend.HasSeries() {
			continue
		}
		test := xlsxtest.Test(t, p)
		at := newPourBook(test).at
		pour, err := tealeg.OpenBinary(pourOf(t, p))
		if err != nil {
			t.Fatal(err)
		}
		check := func(s *tealeg.Sheet, row, column int, d blend.Dose) {
			t.Helper()
			cell, err := s.Cell(row, column)
			if err != nil {
				t.Fatal(err)
			}
			shown, err := cell.FormattedValue()
			if err != nil {
				t.Fatal(err)
			}
			if x, err := cell.Float(); err != nil || x != d.Percent || shown != d.PercentText() {
				t.Errorf("%s, %s row %d: %v is shown as %q, want %v as %q", name, s.Name, row+1, x, shown, d.Percent, d.PercentText())
			}
			if blend.PercentText(d.Percent) != d.PercentText() {
				longer++
			}
		}
		for i, c := range test.Cells {
			for s, d := range c.Doses {
				if d.Percent > 0 {
					check(pour.Sheet["Doses"], firstRow-1+i, at.percent[s], d)
				}
			}
		}
	}
	if longer == 0 {
		t.Error("no plan has a percentage of more digits than are printed")
	}
}

// TestMolPercent holds the mol % of every cup against those of package oxide,
// as the wt % beside them: oxides that there are none of stand as 0.
func TestMolPercent(t *testing.T) {
	for name, p := range xlsxtest.Plans(t) {
		test := xlsxtest.Test(t, p)
		b := newPourBook(test)
		file, err := tealeg.OpenBinary(pourOf(t, p))
		if err != nil {
			t.Fatal(err)
		}
		s, n := file.Sheet["Chemistry"], len(b.rows.oxideList)
		options := oxide.Options{ColourantsInUnity: p.Chemistry.ColourantsInUnity}
		for i := range test.Cells {
			v, missing := test.Vector(i, blend.Measured)
			want := map[oxide.Oxide]float64{}
			if missing == nil {
				for _, a := range v.Chemistry(options).MolPercent {
					want[a.Oxide] = a.Value
				}
			}
			for k, o := range b.rows.oxideList {
				head, err := s.Cell(headRow-1, 1+n+k)
				if err != nil || head.String() != string(o)+"\nmol %" {
					t.Fatalf("%s: the head is %q, want that of %s", name, head.String(), o)
				}
				cell, err := s.Cell(firstRow-1+i, 1+n+k)
				if err != nil {
					t.Fatal(err)
				}
				if x, err := cell.Float(); err != nil || math.Abs(x-want[o]) > 1e-9 {
					t.Errorf("%s, cup %d: %v mol %% of %s, want %v", name, i+1, x, o, want[o])
				}
			}
		}
	}
}
