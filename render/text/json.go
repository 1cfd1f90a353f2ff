package text

import (
	"encoding/json"
	"io"
	"slices"

	"pourboard/blend"
	"pourboard/layout"
	"pourboard/render/wording"
)

// JSON writes a test, the places of its tiles, and the notes on both. Amounts are
// in the unit that the key names, shares are fractions. A cell is as it was asked
// for; "measured" is what was measured into it, and what it fires to, its "oxides"
// (weight %), "mol_percent" and "unity", is of that.
func JSON(w io.Writer, t *blend.Test, places *layout.Places, notes []string) error {
	alike := map[int][]int{} // cups made as one is, by its number
	for _, group := range t.IdenticalCups() {
		for i, n := range group {
			alike[n] = slices.Delete(slices.Clone(group), i, i+1)
		}
	}
	sg := t.CommonSG
	cells := list(t.Cells, func(c blend.Cell) object {
		return append(cellObject(t, c, sg), field{"made_like_cells", given(alike[c.Number])})
	})
	var batches []object
	for i, b := range t.Batches {
		batches = append(batches, batchObject(b, t.Ends[i]))
	}
	return writeJSON(w, object{
		{"title", t.Plan.Title}, {"kind", t.Plan.Blend.Kind}, {"basis", t.Plan.Blend.Basis},
		{"ends", list(t.Ends, func(e blend.End) string { return e.Name })},
		{"method", given(t.Plan.Blend.Method)}, {"cells", cells}, {"batches", batches},
		{"stocks", given(list(t.Stocks, stockObject))},
		{"mixes", given(list(t.Dilutions, func(d blend.Dilution) object { return mixObject(t, d) }))},
		{"tiles", tileObjects(t, places)}, {"warnings", append([]string{}, notes...)},
	})
}

// writeJSON writes a value with an indent of a blank.
func writeJSON(w io.Writer, v any) error {
	out := json.NewEncoder(w)
	out.SetEscapeHTML(false)
	out.SetIndent("", " ")
	return out.Encode(v)
}

// cellObject is a cup; commonSG is that of the thinnest.
func cellObject(t *blend.Test, c blend.Cell, commonSG float64) object {
	cup := c.Number - 1
	askedRecipe, askedAdditions := t.Recipe(cup, blend.Asked)
	recipe, additions := t.Recipe(cup, blend.Measured)
	asked, measured, water := contents(c.Contents), contents(c.Got.Contents), c.WaterTo(commonSG)
	if noGrams(t, c) { // nothing is guessed of a bucket without SG
		asked = contents(blend.Contents{ML: c.ML, RecipeG: unknown, DryG: unknown, G: unknown, SG: unknown})
		measured = contents(blend.Contents{ML: c.Got.ML, RecipeG: unknown, DryG: unknown, G: unknown, SG: unknown})
		commonSG, water = unknown, unknown
	}
	chemistry := t.Chemistry(cup, blend.Measured)
	return slices.Concat(object{
		{"number", c.Number}, {"row", c.Row}, {"column", c.Column}, {"layer", c.Layer},
		{"parts", given(c.Parts)}, {"repeats", given(c.Repeats)}, {"shares", c.Shares},
		{"pours", pourObjects(t, c)}, {"doses", doseObjects(t, c)},
		{"weighings", given(list(c.Weighings, func(x blend.CupWeighed) object { return weighingObject(t, x) }))},
		{"water_g", given(c.WaterG)},
	}, asked, object{
		{"measured", measured},
		{"got", slices.Concat(measured, object{ // kept for programs that were written for it
			{"common_sg", commonSG}, {"water_ml_to_common_sg", water},
			{"worst_plus_minus_percent", 100 * c.Got.Worst}, {"worst_cause", wording.Cause(c.Got.Cause)},
			{"recipe", parts(recipe)}, {"additions", parts(additions)},
		})},
		{"recipe", parts(recipe)}, {"additions", parts(additions)}, {"asked_recipe", parts(askedRecipe)},
		{"asked_additions", parts(askedAdditions)}, {"oxides", given(oxides(chemistry.WeightPercent))},
		{"mol_percent", given(oxides(chemistry.MolPercent))}, {"unity", given(oxides(chemistry.Unity))},
		{"without_analysis", given(chemistry.Missing)},
	})
}

// contents is how much is in a cup.
func contents(c blend.Contents) object {
	return object{{"recipe_g", c.RecipeG}, {"dry_g", c.DryG}, {"ml", c.ML}, {"g", c.G}, {"sg", c.SG}}
}

func pourObjects(t *blend.Test, c blend.Cell) []object {
	all := []object{}
	for e, p := range c.Pours {
		if p.ML == 0 || t.Plan.Blend.Method == blend.ByWeigh {
			continue
		}
		g, recipeG, dryG := p.G, p.RecipeG, p.DryG
		if t.Ends[e].Bucket && t.Ends[e].Assumed {
			g, recipeG, dryG = unknown, unknown, unknown
		}
		var reading any
		if t.Plan.Kit.OnScale() {
			reading = t.Plan.Kit.Pour.Amount(p.Reading)
		}
		all = append(all, object{
			{"glaze", t.Ends[e].Name}, {"ml", p.ML}, {"g", g}, {"recipe_g", recipeG}, {"dry_g", dryG},
			{"measured", p.Got.Shown(t.Plan.Kit)}, {"unit", t.Plan.Kit.Pour.Unit}, {"reading", reading},
			{"measured_share", p.GotShare}, {"plus_minus_percent", 100 * p.PlusMinus},
		})
	}
	return all
}

func doseObjects(t *blend.Test, c blend.Cell) []object {
	all := []object{}
	for s, d := range c.Doses {
		var stock, ml, measuredML, skipped any
		if t.Plan.Blend.Method == blend.ByStock {
			stock, ml, measuredML = t.Stocks[d.Stock].Name, d.ML, d.MeasuredML
		}
		if d.None() {
			skipped = "too small for this " + wording.DoseInstrument(t)
		}
		all = append(all, object{
			{"material", t.Plan.Blend.Series[s].Material}, {"percent", d.Percent}, {"g", d.G},
			{"measured_g", d.MeasuredG}, {"stock", stock}, {"stock_ml", ml}, {"measured_stock_ml", measuredML},
			{"measured_percent", d.GotPercent}, {"plus_minus_percent", d.PlusMinus}, {"not_dosed", skipped},
		})
	}
	return all
}

func weighingObject(t *blend.Test, x blend.CupWeighed) object {
	return object{
		{"material", x.Material}, {"addition", x.Addition}, {"g", x.G},
		{"measured_g", t.Plan.Kit.Dosing().Amount(x.Steps)}, {"reading_g", x.ReadingG},
		{"measured_percent", x.Percent}, {"plus_minus_percent", x.PlusMinus},
	}
}

func batchObject(b blend.Batch, e blend.End) object {
	recipeG, dryG, waterG, sg := b.RecipeG, b.DryG, b.WaterG, b.SG
	if e.Bucket {
		recipeG, dryG, waterG = unknown, unknown, unknown
		if e.Assumed {
			sg = unknown
		}
	}
	masses := make([]blend.Mass, len(b.Weighings)+len(b.Apart)) // by Part; loads of one material are put together
	for _, w := range slices.Concat(b.Weighings, b.Apart) {
		masses[w.Part].Material = w.Material
		masses[w.Part].G += w.G
	}
	masses = slices.DeleteFunc(masses, func(m blend.Mass) bool { return m.Material == "" })
	return object{
		{"glaze", b.Glaze}, {"need_ml", b.NeedML}, {"ml", b.ML}, {"recipe_g", recipeG}, {"dry_g", dryG},
		{"water_g", waterG}, {"sg", sg},
		{"materials", list(masses, func(m blend.Mass) []any { return pair(m.Material, m.G) })},
		{"weighed_g", b.WeighedG},
		{"weighed_apart", given(list(b.Apart, func(x blend.Weighing) object {
			return object{{"material", x.Material}, {"g", x.G}, {"scale_g", x.Step.Size}}
		}))},
	}
}

func stockObject(s blend.Stock) object {
	return object{{"name", s.Name}, {"material", s.Material}, {"g_per_ml", s.GPerML}, {"ml", s.ML}, {"g", s.G},
		{"water_g", s.WaterG}}
}

// mixObject is a colourant ground with dry base, for doses that are too small.
// "pour_less" is in the pouring instrument's unit, "take_out_g" is wet glaze.
func mixObject(t *blend.Test, d blend.Dilution) object {
	return object{
		{"material", t.Plan.Blend.Series[d.Series].Material}, {"parts", d.Parts}, {"colourant_g", d.ColourantG},
		{"base_dry_g", d.BaseG},
		{"doses", list(d.Doses, func(x blend.DilutedDose) object {
			return object{
				{"percent", x.Percent}, {"cells", x.Cups}, {"mix_g", x.MixG}, {"base_dry_g", x.BaseG},
				{"pour_less", t.Plan.Kit.Pour.Amount(x.LessSteps)}, {"take_out_g", x.LessG},
				{"water_g", x.WaterG}, {"plus_minus_percent", x.PlusMinus * x.Percent},
			}
		})},
	}
}

// tileObjects are the tiles; one that is larger than the paper is on no tray card.
func tileObjects(t *blend.Test, places *layout.Places) []object {
	trays := map[int]object{}
	for k, card := range layout.Trays(t, places, layout.SheetOf(t.Plan.Board)) {
		for _, spot := range card.Board.Spots {
			at := card.Pages[0].RectOnPaper(spot.Rect)
			trays[spot.Tile] = object{{"page", k + 1}, {"x_mm", at.X}, {"y_mm", at.Y}}
		}
	}
	return list(places.Tiles, func(p layout.Placed) object {
		spot := places.Spot(p.Index)
		return object{
			{"mark", p.Mark}, {"mark_underneath", p.Under}, {"cell", p.Cell},
			{"body", t.Plan.Tiles.Bodies[p.Body]}, {"x_mm", spot.X}, {"y_mm", spot.Y},
			{"board", places.Boards[p.Board].Number}, {"tray", given(trays[p.Index])},
		}
	})
}
