package pdf

import (
	"fmt"
	"pourboard/blend/quantity"
	"pourboard/render/wording"
	"strings"
	"testing"
)

// Every summary has the cautions, and no sheet calls a glaze safe.
func TestSummary_cautions(t *testing.T) {
	for _, name := range planNames(t) {
		p := packetOf(t, name)
		sheet := onSheet(t, p, "summary", "tickets", "pour", "log")
		for _, line := range strings.SplitAfter(sheet.rest, ". ") {
			for word := range strings.FieldsSeq(strings.ToLower(line)) {
				if word = strings.Trim(word, ".,;:()"); strings.HasPrefix(word, "safe") && word != "safety" || strings.Contains(word, "food-safe") {
					t.Errorf("%s: %q", name, line)
				}
			}
		}
		for _, want := range []string{"respirator", "Test tiles prove nothing about food", "safety data sheets, local codes and licensed practice"} {
			if !strings.Contains(sheet.rest, want) {
				t.Errorf("%s: the summary does not say %q", name, want)
			}
		}
	}
}

// A warning is printed once, however often it was given.
func TestSummary_notesOnce(t *testing.T) {
	p := packetOf(t, "triaxial")
	if len(wording.Lines(p.Test.Notes)) == 0 {
		t.Fatal("the plan has no warnings to test with")
	}
	p.Notes = append(p.Notes, p.Notes...)
	sheet := onSheet(t, p, "summary")
	for _, w := range wording.Lines(p.Test.Notes) {
		if n := strings.Count(sheet.rest, strings.Join(strings.Fields(w.String()), " ")); n != 1 {
			t.Errorf("%q stands there %d times", w, n)
		}
	}
}

// The summary names batches, methods and the largest differences as the
// engine has them.
func TestSummary_figures(t *testing.T) {
	p := packetOf(t, "biaxial-series")
	sheet := onSheet(t, p, "summary")
	for _, b := range p.Test.Batches {
		sheet.then("batch", b.Glaze, quantity.SGText(b.SG), quantity.VolumeText(b.NeedML), quantity.VolumeText(b.ML), inSteps(b.RecipeG, p.Test.Plan.Kit.Scale.Size), inSteps(b.WaterG, p.Test.Plan.Kit.Scale.Size))
	}
	for _, o := range p.Advice.Options {
		sheet.then("method", quantity.FractionText(o.Worst), fmt.Sprint(o.Cell), fmt.Sprint(o.Weighings))
	}
	for i, d := range p.Test.Differences() {
		if i < mostDifferences && figures(d.Asked) != figures(d.Got) {
			sheet.then("difference", fmt.Sprint(d.Cell), d.Of, figures(d.Asked), figures(d.Got))
		}
	}
}
