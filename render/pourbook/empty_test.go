package pourbook

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"pourboard/blend"
	"pourboard/render/xlsx"
	"pourboard/render/xlsx/xlsxtest"
)

// TestPour_emptied empties each input, or pastes what cannot be: a line says
// what is needed or possible, all amounts are 0, and no cell has an error. An
// input that may be empty is 0 then.
func TestPour_emptied(t *testing.T) {
	if testing.Short() {
		t.Skip("starting LibreOffice takes seconds")
	}
	xlsxtest.Tool(t, "soffice")
	type emptied struct {
		test    *pourBook
		nothing bool // no amounts, and a line that says why
		text    bool
	}
	files, want := map[string][]byte{}, map[string]emptied{}
	plans, seen := plansToChange(t), map[string]bool{}
	for _, plan := range []string{"capped", "one-stock", "line-pour"} {
		p := settled(t, plans[plan])
		p.Kit.Dead, p.Kit.Loss = 15, 0.5
		test := xlsxtest.Test(t, p)
		data := pourOf(t, p)
		b := newPourBook(test)
		b.writeInputs()
		for i, in := range b.typed {
			if seen[in.name] {
				continue
			}
			seen[in.name] = true
			for k, x := range []any{math.NaN(), []float64{-1, 1e9}[i%2], []string{"1,5", "about 5", " "}[i%3]} {
				if k > 0 && k%2 == i%2 { // one or the other: LibreOffice takes its time
					continue
				}
				name := fmt.Sprintf("%s-%s-%d", plan, in.name, k)
				want[name] = emptied{b, k > 0 || in.need, k == 2}
				files[name] = retyped(t, data, map[string]any{in.name: x})
			}
		}
	}
	for name, data := range recalculate(t, files) {
		values, b := valuesOf(t, data), want[name].test
		said, texts := 0, 0
		for at, v := range values {
			switch {
			case v.Kind == xlsx.KindFault || strings.HasPrefix(v.Text, "#"):
				t.Errorf("%s: %s is %s", name, at, v.Text)
			case strings.HasPrefix(v.Text, "NEEDED"), strings.HasPrefix(v.Text, "NOT POSSIBLE"):
				if said++; strings.Contains(v.Text, " (what stands there is text, no number): ") {
					texts++
				}
			}
		}
		if !want[name].nothing {
			if said != 0 || values["Pours!A1"].Text != "Pours" {
				t.Errorf("%s: %d lines say what is needed, and the pours say %q", name, said, values["Pours!A1"].Text)
			}
			continue
		}
		// A gravity beyond all solids lets the solids be too light as well.
		if said != 1 && !(strings.Contains(name, "-SG_") && strings.HasSuffix(name, "-1") && said == 2) {
			t.Errorf("%s: %d lines say what is needed", name, said)
		}
		if texts > 0 != want[name].text {
			t.Errorf("%s: %d lines say that it is text", name, texts)
		}
		if title := values["Pours!A1"].Text; title != "Pours: all amounts are 0 until the sheet Inputs has what is needed" {
			t.Errorf("%s: the pours say %q", name, title)
		}
		for i := range b.t.Cells {
			for e := range b.q {
				at := "Pours!" + xlsx.Address(b.at.pour+e, firstRow+i)
				if v := values[at]; v.Kind != xlsx.KindNumber || v.Number != 0 {
					t.Errorf("%s: %s is %q", name, at, v.Text)
				}
			}
		}
	}
	t.Logf("%d workbooks with an emptied input", len(files))
}

// TestPour_unlocked changes shares and percentages, for which a sheet has to be
// unlocked: all amounts are those of a plan with the same change, or the title
// says what cannot be.
func TestPour_unlocked(t *testing.T) {
	if testing.Short() {
		t.Skip("starting LibreOffice takes seconds")
	}
	xlsxtest.Tool(t, "soffice")
	plans := xlsxtest.Plans(t)
	written, files := map[string][]byte{}, map[string][]byte{}
	titles := map[string][2]string{} // cell and what it says
	add := func(name string, p, changed *blend.Plan, typed map[string]any) {
		written[name], files[name] = pourOf(t, changed), retyped(t, pourOf(t, p), typed)
	}
	says := func(name string, p *blend.Plan, typed map[string]any, cell, title string) {
		files[name], titles[name] = retyped(t, pourOf(t, p), typed), [2]string{cell, title}
	}

	list := settled(t, plans["list"])
	other := *list
	other.Blend.Parts = slices.Clone(list.Blend.Parts)
	other.Blend.Parts[0], other.Blend.Parts[4] = []float64{20, 0, 80}, []float64{10, 25, 65}
	add("shares", list, &other, map[string]any{"Pours!B4": 0.2, "Pours!C4": 0.0, "Pours!D4": 0.8, "Pours!B8": 0.1, "Pours!C8": 0.25, "Pours!D8": 0.65})
	bad := func(cup int) string {
		return fmt.Sprintf("Pours: cup %d has shares that are no numbers or do not come to 100 %%, and gets nothing", cup)
	}
	says("share as text", list, map[string]any{"Pours!C5": "0,5"}, "Pours!A1", bad(2))
	says("share empty", list, map[string]any{"Pours!C6": math.NaN()}, "Pours!A1", bad(3))
	says("share beyond the whole", list, map[string]any{"Pours!D4": 0.3}, "Pours!A1", bad(1))
	says("share below nothing", list, map[string]any{"Pours!C8": -0.5, "Pours!D8": 1.5}, "Pours!A1", bad(5))

	for _, plan := range []string{"line-series", "line-stock"} {
		p := settled(t, plans[plan])
		other := *p
		series := p.Blend.Series[0]
		series.Percents = slices.Clone(series.Percents)
		typed := map[string]any{}
		for i, x := range series.Percents {
			if x > 0 { // from the same stock, where there are stocks
				series.Percents[i] = x * 0.97
				typed["Doses!B"+fmt.Sprint(firstRow+i)] = x * 0.97
			}
		}
		if plan == "line-series" { // none was planned in the first cup
			series.Percents[0], series.Percents[1] = 1.25, 0
			typed["Doses!B4"], typed["Doses!B5"] = 1.25, 0.0
		}
		other.Blend.Series = []blend.Series{series}
		if plan == "line-stock" {
			for s, stock := range xlsxtest.Test(t, &other).Stocks {
				typed[fmt.Sprintf("Strength_%d", s+1)] = stock.GPerML
			}
		}
		add(plan, p, &other, typed)
		says(plan+" text", p, map[string]any{"Doses!B5": "1,5"}, "Doses!A1",
			"Doses: a percentage of "+series.Material+" is no number of 0 or more, and nothing is dosed for it")
		says(plan+" below nothing", p, map[string]any{"Doses!B6": -1.0}, "Doses!A1",
			"Doses: a percentage of "+series.Material+" is no number of 0 or more, and nothing is dosed for it")
		says(plan+" rows moved", p, map[string]any{"Doses!A4": 2.0, "Doses!A5": 1.0}, "Doses!A1",
			"Doses: rows were moved, and amounts stand beside other cups: undo the sorting")
	}
	n := 0
	for name, data := range recalculate(t, files) {
		values := valuesOf(t, data)
		for at, v := range values {
			if v.Kind == xlsx.KindFault || strings.HasPrefix(v.Text, "#") {
				t.Errorf("%s: %s is %s", name, at, v.Text)
			}
		}
		if title, troubled := titles[name]; !troubled {
			n += compareFormulas(t, name, written[name], values, nil)
		} else if got := values[title[0]].Text; got != title[1] {
			t.Errorf("%s: %q, want %q", name, got, title[1])
		}
	}
	t.Logf("%d formulas of %d workbooks agree with LibreOffice", n, len(written))
}
