package text

import (
	"fmt"
	"io"
	"strings"

	"pourboard/blend"
	"pourboard/blend/measure"
	"pourboard/blend/quantity"
	"pourboard/render/wording"
)

// Bucket prints the ticket of a large batch of the glaze of one cup; amounts are
// as the bucket's scale shows them, as on paper.
func Bucket(w io.Writer, t *blend.Test, b blend.Bucket, kit measure.Kit) error {
	contents := wording.Contents(t, t.Cells[b.Cell-1])
	fmt.Fprintf(w, "%s\ncup %d, %s: %s g dry, %s mL of wet glaze at SG %s\n%s\n", oneLine(t.Plan.Title), b.Cell, viewText(b.View),
		kit.Scale.Format(kit.Scale.Count(b.Batch.RecipeG)), quantity.VolumeText(b.Batch.ML), quantity.SGText(b.Batch.SG), oneLine(contents))
	if b.View == blend.Measured && strings.Contains(contents, " asked, ") {
		fmt.Fprint(w, "the recipe below is as measured; --asked gives the plan's own\n")
	}
	fmt.Fprintln(w)
	g := grid{left: []bool{true}}
	g.add("material", "%", "weigh g", "scale reads g")
	load, percents := 1, wording.PercentTexts(b.Batch, b.View)
	g.rule()
	for _, x := range b.Batch.Weighings {
		if x.Load > load {
			load = x.Load
			g.add(fmt.Sprintf("empty the scale into the bucket: load %d", load))
		}
		g.add(partName(x.Material, x.Addition), percents[x.Part], kit.Scale.Format(x.Steps), kit.Scale.Format(kit.Scale.Count(x.ReadingG)))
	}
	if err := g.write(w); err != nil {
		return err
	}
	if len(b.Batch.Apart) > 0 {
		fmt.Fprintf(w, "\ntoo little for a %s scale; weigh separately on a finer one\n", kit.Scale)
		g := grid{left: []bool{true}}
		for _, x := range b.Batch.Apart {
			g.add(partName(x.Material, x.Addition), percents[x.Part]+" %", x.Text()+" g", "on a "+x.Step.String()+" scale")
		}
		if err := g.write(w); err != nil {
			return err
		}
	}
	fmt.Fprintf(w, "\nwater: ")
	if len(b.Batch.WaterLoads) == 0 {
		fmt.Fprint(w, "less than the scale shows")
	}
	for i, load := range b.Batch.WaterLoads {
		if i > 0 {
			fmt.Fprint(w, " + ")
		}
		fmt.Fprintf(w, "%s g", wording.BatchWaterText(load))
	}
	_, err := fmt.Fprintf(w, "\n%% of the dry recipe; + = addition, over the 100\n")
	return err
}

// partName is a material of a recipe, with a + where it is over the 100.
func partName(material string, addition bool) string {
	if addition {
		return "+ " + oneLine(material)
	}
	return oneLine(material)
}

// WetBucket prints what to pour and weigh for a large batch of a cup that has a
// glaze without recipe in it; kit is that of the bucket.
func WetBucket(w io.Writer, t *blend.Test, b blend.WetBucket, kit measure.Kit) error {
	ml := 0.0
	g := grid{left: []bool{true}}
	g.add("into the bucket", "amount")
	g.rule()
	for e, amount := range b.ML {
		if ml += amount; amount > 0 {
			g.add(oneLine(t.Ends[e].Name), quantity.VolumeText(amount)+" mL")
		}
	}
	for _, d := range b.Doses {
		cells := []string{"+ " + oneLine(d.Material), d.Text() + " g"}
		if d.Step != kit.Scale {
			cells = append(cells, "on a "+d.Step.String()+" scale")
		}
		g.add(cells...)
	}
	if b.Water > 0 {
		g.add("water", quantity.VolumeText(b.Water)+" mL")
	}
	fmt.Fprintf(w, "%s\ncup %d, %s: %s mL of wet glaze\n\n", oneLine(t.Plan.Title), b.Cell, viewText(b.View), quantity.VolumeText(ml))
	if err := g.write(w); err != nil {
		return err
	}
	_, err := fmt.Fprintln(w, "\nStir each glaze well before you pour it. Weigh colourants dry, stir them in, and sieve.")
	return err
}

// viewText says which of its two recipes a bucket has.
func viewText(v blend.View) string {
	if v == blend.Asked {
		return "as asked"
	}
	return "as measured"
}
