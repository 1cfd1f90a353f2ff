package text

import (
	"strconv"
	"strings"

	"pourboard/blend"
	"pourboard/blend/measure"
	"pourboard/blend/quantity"
	"pourboard/render/wording"
)

// Bucket prints the ticket of a large batch of the glaze of one cup; amounts are
// as the bucket's scale shows them, as on paper.
func Bucket(t *blend.Test, b blend.Bucket, kit measure.Kit) string {
	var p printer
	contents := wording.Contents(t, t.Cells[b.Cell-1])
	shown := func(g float64) string { return kit.Scale.Format(kit.Scale.Count(g)) }
	p.line("%s", t.Plan.Title)
	p.line("cup %d, %s: %s g dry, %s mL of wet glaze at SG %s", b.Cell, viewText(b.View),
		shown(b.Batch.RecipeG), quantity.VolumeText(b.Batch.ML), quantity.SGText(b.Batch.SG))
	p.line("%s", contents)
	if b.View == blend.Measured && strings.Contains(contents, " asked, ") {
		p.line("the recipe below is as measured; --asked gives the plan's own")
	}
	p.line("")
	g := table("l", "material", "%", "weigh g", "scale reads g")
	load, percents := 1, wording.PercentTexts(b.Batch, b.View)
	for _, x := range b.Batch.Weighings {
		if x.Load > load {
			load = x.Load
			g.add("empty the scale into the bucket: load " + strconv.Itoa(load))
		}
		g.add(partName(x.Material, x.Addition), percents[x.Part], kit.Scale.Format(x.Steps), shown(x.ReadingG))
	}
	p.grid(g)
	if len(b.Batch.Apart) > 0 {
		p.line("")
		p.line("too little for a %s scale; weigh separately on a finer one", kit.Scale)
		g := &grid{align: "l"}
		for _, x := range b.Batch.Apart {
			g.add(partName(x.Material, x.Addition), percents[x.Part]+" %", x.Text()+" g",
				"on a "+x.Step.String()+" scale")
		}
		p.grid(g)
	}
	loads := list(b.Batch.WaterLoads, func(g float64) string { return wording.BatchWaterText(g) + " g" })
	water := strings.Join(loads, " + ")
	if water == "" {
		water = "less than the scale shows"
	}
	p.line("")
	p.line("water: %s", water)
	p.line("%% of the dry recipe; + = addition, over the 100")
	return p.String()
}

// partName is a material of a recipe, with a + where it is over the 100.
func partName(material string, addition bool) string {
	if addition {
		return "+ " + material
	}
	return material
}

// WetBucket prints what to pour and weigh for a large batch of a cup that has a
// glaze without recipe in it; kit is that of the bucket.
func WetBucket(t *blend.Test, b blend.WetBucket, kit measure.Kit) string {
	ml := 0.0
	g := table("l", "into the bucket", "amount")
	for e, amount := range b.ML {
		if ml += amount; amount > 0 {
			g.add(t.Ends[e].Name, quantity.VolumeText(amount)+" mL")
		}
	}
	for _, d := range b.Doses {
		cells := []string{"+ " + d.Material, d.Text() + " g"}
		if d.Step != kit.Scale {
			cells = append(cells, "on a "+d.Step.String()+" scale")
		}
		g.add(cells...)
	}
	if b.Water > 0 {
		g.add("water", quantity.VolumeText(b.Water)+" mL")
	}
	var p printer
	p.line("%s", t.Plan.Title)
	p.line("cup %d, %s: %s mL of wet glaze", b.Cell, viewText(b.View), quantity.VolumeText(ml))
	p.line("")
	p.grid(g)
	p.line("")
	p.line("Stir each glaze well before you pour it. Weigh colourants dry, stir them in, and sieve.")
	return p.String()
}

// viewText says which of its two recipes a bucket has.
func viewText(v blend.View) string {
	if v == blend.Asked {
		return "as asked"
	}
	return "as measured"
}
