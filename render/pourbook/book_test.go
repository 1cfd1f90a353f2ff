package pourbook

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
	"testing"

	tealeg "github.com/tealeg/xlsx/v3"

	"pourboard/blend"
	"pourboard/blend/measure"
	"pourboard/render/wording"
	"pourboard/render/xlsx/xlsxtest"
)

// written is the workbook of a plan as the library reads it.
func written(t *testing.T, p *blend.Plan) (*tealeg.File, *blend.Test) {
	t.Helper()
	test := xlsxtest.Test(t, p)
	var out bytes.Buffer
	if warnings, err := Write(&out, test); err != nil || len(warnings) > 0 {
		t.Fatalf("%v, warnings %q", err, warnings)
	}
	file, err := tealeg.OpenBinary(out.Bytes())
	if err != nil {
		t.Fatal(err)
	}
	return file, test
}

// shown is what the cells of the n-th column of the card, from 0, whose head
// contains some words show, cup by cup.
func shown(t *testing.T, file *tealeg.File, head string, n, cups int) (all []string) {
	t.Helper()
	s := file.Sheets[0]
	for c := range s.MaxCol {
		cell, err := s.Cell(headRow-1, c)
		if err != nil {
			t.Fatal(err)
		}
		if !strings.Contains(cell.Value, head) {
			continue
		}
		if n--; n >= 0 {
			continue
		}
		for i := range cups {
			cell, _ := s.Cell(firstRow-1+i, c)
			// The library does not know General as a part of a format.
			if _, nought, found := strings.Cut(cell.NumFmt, `;"`); found && cell.Value == "0" {
				all = append(all, strings.TrimSuffix(nought, `"`))
				continue
			}
			text, err := cell.FormattedValue()
			if err != nil {
				text = cell.Value
			}
			all = append(all, text)
		}
		return all
	}
	t.Fatalf("no column %q", head)
	return nil
}

// An asked pour that rounds to nothing is called none; one that is not asked is
// a dash. By hand: 1 % of 100 mL is 1 mL, in a jug marked every 5 mL nothing.
func TestWrite_none(t *testing.T) {
	p := *xlsxtest.Plans(t)["list"]
	p.Blend.Basis, p.Cup = blend.Volume, blend.Cup{Size: blend.Amount{Value: 100, Of: blend.Volume}}
	p.Kit.Pour = measure.Step{Size: 5, Unit: measure.Millilitre}
	p.Blend.Parts = [][]float64{{99, 1, 0}, {50, 50, 0}}
	for _, unit := range []measure.Unit{measure.Millilitre, measure.Gram} {
		p.Kit.Pour.Unit = unit
		file, _ := written(t, &p)
		if got := shown(t, file, blend.GlazeLetter(1)+": ", 0, 2); len(got) != 2 || got[0] != "none" || got[1] == "none" {
			t.Errorf("%s: the second glaze shows %q", unit, got)
		}
		if got := shown(t, file, blend.GlazeLetter(2)+": ", 0, 2); !slices.Equal(got, []string{"–", "–"}) {
			t.Errorf("%s: the third glaze shows %q", unit, got)
		}
	}
}

// Percentages are shown as on paper, each column with as many digits as its
// percentages need.
func TestWrite_percentages(t *testing.T) {
	for name, p := range xlsxtest.Plans(t) {
		if !p.Blend.HasSeries() {
			continue
		}
		file, test := written(t, p)
		for s, series := range p.Blend.Series {
			got := shown(t, file, series.Material+"\nasked, %", 0, len(test.Cells))
			for i, text := range got {
				paper := strings.TrimSuffix(wording.DosePercent(test.Cells[i].Doses[s]), " %")
				if strings.Contains(text, ".") {
					text = strings.TrimSuffix(strings.TrimRight(text, "0"), ".")
				}
				if text != paper {
					t.Errorf("%s, cup %d: %s %% of %s, on paper %s", name, i+1, text, series.Material, paper)
				}
			}
		}
	}
}

// A bought glaze without SG has no SG to fill in, and none that is assumed.
func TestWrite_bought(t *testing.T) {
	file, test := written(t, xlsxtest.Plans(t)["bucket-glazes"])
	var inputs []string
	for _, n := range file.DefinedNames {
		if strings.HasSuffix(n.Name, "_typed") {
			inputs = append(inputs, n.Name)
		}
	}
	for e, end := range test.Ends {
		if got := slices.Contains(inputs, fmt.Sprintf("SG_%d_typed", e+1)); got == end.Assumed {
			t.Errorf("%s: SG to fill in: %v", end.Name, got)
		}
	}
	got := shown(t, file, "SG", 0, len(test.Cells))
	for i, c := range test.Cells {
		if known := c.Pours[2].ML == c.ML; known == (got[i] == "–") {
			t.Errorf("cup %d shows SG %s", c.Number, got[i])
		}
	}
}
