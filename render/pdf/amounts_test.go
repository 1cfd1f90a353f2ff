package pdf

import (
	"bytes"
	"fmt"
	"strconv"
	"strings"
	"testing"

	"pourboard/blend"
	"pourboard/blend/measure"
	"pourboard/blend/quantity"
	"pourboard/layout"
	"pourboard/render/wording"
)

// onSheet is the text of some sections of a packet as poppler reads it, in the
// order in which it is drawn.
func onSheet(t *testing.T, p Packet, only ...string) *reader {
	t.Helper()
	p.Only = only
	var b bytes.Buffer
	if _, err := p.Write(&b); err != nil {
		t.Fatal(err)
	}
	text := outside(t, b.Bytes(), "pdftotext", "-raw", "FILE", "-")
	return &reader{t: t, rest: " " + strings.Join(strings.Fields(text), " ") + " "}
}

// A reader reads on in the text of a sheet.
type reader struct {
	t    *testing.T
	rest string
}

// then fails unless the words come next, after whatever stands between.
func (r *reader) then(what string, wanted ...string) bool {
	r.t.Helper()
	text := " " + strings.Join(strings.Fields(strings.Join(wanted, " ")), " ") + " "
	at := strings.Index(r.rest, text)
	if at < 0 {
		r.t.Errorf("%s: %q is not on the sheet, or not in its place", what, text)
		return false
	}
	r.rest = r.rest[at+len(text)-1:]
	return true
}

// inSteps writes a measured amount of the engine with the digits of its step,
// by another way than the sheets do.
func inSteps(amount float64, step float64) string {
	digits := strconv.FormatFloat(step, 'f', -1, 64)
	_, after, _ := strings.Cut(digits, ".")
	return fmt.Sprintf("%.*f", len(after), amount)
}

// Every amount that the engine measured stands on its sheet, with its cup and
// in the order of the work.
func TestAmountsOnSheets(t *testing.T) {
	for _, name := range planNames(t) {
		t.Run(name, func(t *testing.T) {
			p := packetOf(t, name)
			checkPours(t, p)
			checkDoses(t, p)
			checkTickets(t, p)
		})
	}
}

func checkPours(t *testing.T, p Packet) {
	test, kit := p.Test, p.Test.Plan.Kit
	sheet := onSheet(t, p, "pour")
	for end := range test.Ends {
		poured := 0.0
		order := layout.PourOrder(test, layout.Mat(test), end)
		for _, i := range order {
			c := test.Cells[i]
			pour := c.Pours[end]
			amount := pour.Measured
			poured += amount
			row := []string{fmt.Sprint(c.Number)}
			if test.OnScale() {
				amount = 0
				for _, q := range c.Pours[:end+1] { // the scale shows what is in already
					amount += q.Measured
				}
				if end > 0 {
					row = append(row, inSteps(amount-pour.Measured, kit.Pour.Size))
				}
			}
			if pour.Measured == 0 && !test.OnScale() {
				row = append(row, "none") // less than half a graduation
			} else {
				row = append(row, inSteps(amount, kit.Pour.Size), string(kit.Pour.Unit))
			}
			if len(test.Ends) > 1 {
				row = append(row, wording.SharePercent(c.Pours[end]))
			}
			if !sheet.then(fmt.Sprintf("pour of %s into cup %d", test.Ends[end].Name, c.Number), row...) {
				return
			}
		}
		total := 0
		for _, c := range test.Cells {
			if c.Pours[end].ML > 0 {
				total++
			}
		}
		if total != len(order) {
			t.Errorf("%s goes into %d cups and is poured into %d", test.Ends[end].Name, total, len(order))
		}
	}
}

func checkDoses(t *testing.T, p Packet) {
	test := p.Test
	if !test.Dosed() {
		return
	}
	sheet := onSheet(t, p, "dose")
	check := func(series, stock int) {
		for _, c := range test.Cells {
			d := c.Doses[series]
			if d.Percent == 0 || stock >= 0 && d.Stock != stock {
				continue
			}
			amount, step, unit := d.MeasuredG, test.Plan.Kit.Dosing(), "g"
			if stock >= 0 {
				amount, step, unit = d.MeasuredML, test.Plan.Kit.Syringe, "mL"
			}
			percent := strconv.FormatFloat(d.Percent, 'f', -1, 64)
			if len(percent) > 6 {
				percent = quantity.PercentText(d.Percent)
			}
			if !sheet.then(fmt.Sprintf("dose of series %d into cup %d", series, c.Number), fmt.Sprint(c.Number), percent, inSteps(amount, step.Size), unit) {
				return
			}
		}
	}
	for s := range test.Plan.Blend.Series {
		if len(test.Stocks) == 0 {
			check(s, -1)
		}
	}
	for i, stock := range test.Stocks {
		check(stock.Series, i)
	}
	if len(test.Stocks) > 0 {
		sheet := onSheet(t, p, "stock")
		for _, stock := range test.Stocks {
			sheet.then("stock of "+stock.Name, inSteps(stock.G, test.Plan.Kit.Dosing().Size))
			sheet.then("water of "+stock.Name, "Water", inSteps(stock.WaterG, test.Plan.Kit.Scale.Size))
		}
	}
}

func checkTickets(t *testing.T, p Packet) {
	test := p.Test
	step := test.Plan.Kit.Scale.Size
	sheet := onSheet(t, p, "tickets")
	for _, b := range test.Batches {
		for _, g := range b.WaterLoads {
			sheet.then("water for "+b.Glaze, inSteps(g, step), "g")
		}
		for _, w := range b.Weighings {
			if !sheet.then(fmt.Sprintf("%s in %s", w.Material, b.Glaze), inSteps(w.G, step), inSteps(w.ReadingG, step)) {
				return
			}
		}
		for _, x := range b.Apart {
			if !sheet.then(fmt.Sprintf("%s apart in %s", x.Material, b.Glaze), inSteps(x.G, x.Step.Size), x.Step.String()) {
				return
			}
		}
		if len(b.Apart) > 0 {
			sheet.then("sum of "+b.Glaze, "All dry materials together: "+wording.WeighedText(test, b)+" g.")
		}
		if b.NeedML > 0 {
			sheet.then("specific gravity of "+b.Glaze, "Expected:", fmt.Sprintf("%.2f.", b.SG))
		}
	}
}

// A scale that takes little splits a batch, on the ticket too.
func TestTicket_loads(t *testing.T) {
	p := packetOf(t, "triaxial", func(p *blend.Plan) { p.Kit.Capacity = 400 })
	checkTickets(t, p)
	sheet := onSheet(t, p, "tickets")
	sheet.then("water", "Water, load 1 of 3: 400.0 g")
	sheet.then("how", "Begin each load with the vessel emptied into the bucket and the scale at zero again.")
	sheet.then("materials", "Load 1 of 3")
	sheet.then("materials", "Load 3 of 3")
}

// With a finer scale, the ticket sets apart what the other is too coarse for,
// and does not advise to do so; the readings are of the rest.
func TestTicket_apart(t *testing.T) {
	for _, size := range []string{"A4", "Letter", "A5"} {
		t.Run(size, func(t *testing.T) {
			p := packetOf(t, "biaxial-pour", onPaper(t, size), func(p *blend.Plan) {
				p.Kit.Scale.Size = 1
				p.Kit.Fine = measure.Step{Size: 0.05, Unit: measure.Gram}
			})
			apart := 0
			for _, b := range p.Test.Batches {
				apart += len(b.Apart)
			}
			if apart == 0 {
				t.Fatal("nothing to weigh apart in this fixture")
			}
			drawn := p
			drawn.Only = []string{"tickets"}
			s, _ := mustDraw(t, drawn)
			checkPages(t, s.doc)
			checkTickets(t, p)
			sheet := onSheet(t, p, "tickets")
			sheet.then("needs", "You need: a scale, a finer one of 0.05 g, a bucket,")
			sheet.then("how", "Weigh apart on the fine scale, each by itself, for a scale of 1 g is too coarse:")
			if strings.Contains(onSheet(t, p, "tickets").rest, "It is better to") {
				t.Error("what is weighed apart is advised to be")
			}
		})
	}
}

// The subtotals of the pour sheet add up to what the batch needs, page by page.
func TestPourSheet_subtotals(t *testing.T) {
	p := packetOf(t, "cells-500")
	sheet := onSheet(t, p, "pour")
	for end, b := range p.Test.Batches {
		poured, cups := 0.0, 0
		for cups < len(layout.PourOrder(p.Test, layout.Mat(p.Test), end)) {
			at := strings.Index(sheet.rest, " cups here: ")
			if at < 0 {
				t.Fatalf("%s: no subtotal after %d cups", b.Glaze, cups)
			}
			before := strings.Fields(sheet.rest[:at])
			n, err := strconv.Atoi(before[len(before)-1])
			if err != nil {
				t.Fatal(err)
			}
			cups += n
			sheet.rest = sheet.rest[at+len(" cups here: "):]
			var here float64
			if _, err := fmt.Sscanf(sheet.rest, "%g mL", &here); err != nil {
				t.Fatal(err)
			}
			poured += here
			if cups > n {
				sheet.then("so far", fmt.Sprintf("poured so far: %.0f mL", poured))
			}
		}
		if poured != b.NeedML {
			t.Errorf("%s: %g mL by the subtotals, %g are needed", b.Glaze, poured, b.NeedML)
		}
		sheet.then("left", fmt.Sprintf("left in the bucket: %.0f mL", b.ML-b.NeedML))
	}
}

// A fill by eye and readings on a scale are told of on the sheet.
func TestPourSheet_ways(t *testing.T) {
	p := packetOf(t, "line-series", func(p *blend.Plan) { p.Kit.Fill = 3 })
	onSheet(t, p, "pour").then("fill", "fill all others to the same line. By eye that is taken to be right to ±3 mL.")
	p = packetOf(t, "triaxial-weight")
	onSheet(t, p, "pour").then("scale", "set it to zero, and take it off again; do not zero after that.")
}
