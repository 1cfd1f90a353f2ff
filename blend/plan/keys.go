package plan

import (
	"math"
	"sync"

	"pourboard/blend"
)

// Designs by the keys of [blend] that they share.
var (
	ofEnds     = []string{"line", "biaxial", "triaxial", "quadraxial", "list", "centroid", "pairs"}
	ofSeries   = []string{"line-series", "biaxial-series", "triaxial-series", "rows"}
	ofTriangle = []string{"triaxial", "quadraxial", "triaxial-series"}
	ofBounds   = []string{"line", "triaxial", "quadraxial"}
)

// Ranges that several keys share. Steps of instruments run from a laboratory
// balance to a bucket scale; a cup from a drop to a vat.
const (
	finest, coarsest     = 0.0001, 1000
	leastCup, largestCup = 0.01, 100_000
	mostPlaces           = 2000 // mm
	largestSeed          = math.MaxInt32
)

// sections is the schema.
var sections = sync.OnceValue(func() []Section {
	return []Section{
		{Path: "", Keys: topKeys()},
		{Path: "cup", Keys: cupKeys(), Needed: `what goes into each cup: [cup] with dry = "100 g"`,
			Help: `What goes into each cup: dry glaze, volume or weight of wet glaze. Or batch: this much is mixed once and shared out.`},
		{Path: "measure", Keys: measureKeys(), Help: `Your instruments, and how far off you accept.`},
		{Path: "glaze", Several: true, Keys: glazeKeys(), Needed: "one for each glaze, with its name and recipe",
			Help: `A glaze: dry materials, usually to 100. Leave the recipe out when the glaze is bought or ready in a bucket.`},
		{Path: "blend", Keys: blendKeys(), Needed: `the design: [blend] with kind = "triaxial" and its ends`},
		{Path: "blend.series", Several: true, Keys: seriesKeys(),
			Help: `A colourant in steps, in percent of the dry glaze in each cup, not of the batch.`},
		{Path: "tiles", Keys: tileKeys(), Help: `The tiles that are dipped.`},
		{Path: "board", Keys: boardKeys(), Help: `The paper, and how tiles lie on it.`},
		{Path: "print", Keys: []Key{
			{Name: "also", Label: "Also print", Help: "more parts of the sheets", Example: `["trays", "labels"]`,
				Choices: []string{"trays", "board", "mat", "labels", "chemistry"}, at: func(d *draft) place { return (*nameList)(&d.plan.Also) }},
		}},
		{Path: "labels", Keys: labelKeys(), Help: `A sheet of self-adhesive labels, as its box says.`},
		{Path: "log", Keys: logKeys(), Help: `What the log has beyond the usual columns.`},
		{Path: "poured", Several: true, Keys: pouredKeys(), Help: `Cups that were poured otherwise than planned.`},
		{Path: "chemistry", Keys: []Key{
			{Name: "colourants-in-unity", Label: "Colourants in unity", Help: "count colouring oxides in the unity formula", Example: "true",
				at: func(d *draft) place { return (*yes)(&d.plan.Chemistry.ColourantsInUnity) }},
			{Name: "maps", Label: "Oxide maps", Help: "maps that show an oxide in every cup", Example: `["SiO2", "Al2O3"]`,
				at: func(d *draft) place { return (*nameList)(&d.plan.Chemistry.Maps) }},
		}},
		{Path: "material", Several: true, Keys: materialKeys(), Help: `A material of your own, or with your supplier's analysis.`},
	}
})

func topKeys() []Key {
	return []Key{
		{Name: "title", Label: "Title", Help: "what is tested", Example: `"Copper over a magnesia matt"`, Needed: true,
			at: func(d *draft) place { return (*words)(&d.plan.Title) }},
		{Name: "mark", Label: "Mark", Help: "painted on every tile before its number: 1 to 4 of A-Z and 0-9", Example: `"MR"`,
			at: func(d *draft) place { return (*words)(&d.plan.Mark) }},
	}
}

func cupKeys() []Key {
	return []Key{
		{Name: "dry", Label: "Dry glaze", Help: "dry glaze in each cup, by its recipe's 100", Example: `"100 g"`, Least: leastCup, Most: largestCup, Unit: "g", Needed: true, Instead: []string{"volume", "weight", "batch"},
			at: func(d *draft) place { return &cupSize{&d.plan.Cup.Size, blend.Dry} }},
		{Name: "volume", Label: "Volume", Help: "wet glaze in each cup", Example: `"180 mL"`, Least: leastCup, Most: largestCup, Unit: "mL",
			at: func(d *draft) place { return &cupSize{&d.plan.Cup.Size, blend.Volume} }},
		{Name: "weight", Label: "Wet weight", Help: "weight of wet glaze in each cup", Example: `"250 g"`, Least: leastCup, Most: largestCup, Unit: "g",
			at: func(d *draft) place { return &cupSize{&d.plan.Cup.Size, blend.Weight} }},
		{Name: "batch", Label: "Batch", Help: "this much dry recipe is mixed once and shared between all cups", Example: `"1000 g"`, Least: 1, Most: 1e6, Unit: "g", Designs: ofSeries,
			at: func(d *draft) place { return (*amount)(&d.plan.Cup.BatchG) }},
		{Name: "diameter", Label: "Cup width", Help: "inside; checks that the glaze is deep enough to dip", Example: `"70 mm"`, Least: 5, Most: 2000, Unit: "mm",
			at: func(d *draft) place { return (*amount)(&d.plan.Cup.DiameterMM) }},
		{Name: "even", Label: "Thin to one SG", Help: "thin all cups to the SG of the thinnest: closer coats, not the same coat", Example: "true",
			at: func(d *draft) place { return (*yes)(&d.plan.Cup.Even) }},
	}
}

func measureKeys() []Key {
	return []Key{
		{Name: "scale", Label: "Scale", Help: "smallest step that your scale shows", Example: `"0.1 g"`, Default: `"0.1 g"`, Least: finest, Most: coarsest, Unit: "g",
			at: func(d *draft) place { return (*amount)(&d.plan.Kit.Scale.Size) }},
		{Name: "capacity", Label: "Scale's most", Help: "the most that the scale weighs, container included", Example: `"5 kg"`, Least: finest, Most: 1e6, Unit: "g", None: true,
			at: func(d *draft) place { return (*amount)(&d.plan.Kit.Capacity) }},
		{Name: "fine", Label: "Fine scale", Help: "a second, finer scale for small doses", Example: `"0.01 g"`, Least: finest, Most: coarsest, Unit: "g", None: true,
			at: func(d *draft) place { return (*amount)(&d.plan.Kit.Fine.Size) }},
		{Name: "pour", Label: "Jug", Help: `smallest mark of the jug; "1 g" when you pour on a scale`, Example: `"5 mL"`, Default: `"5 mL"`, Least: finest, Most: coarsest,
			at: func(d *draft) place { return (*step)(&d.plan.Kit.Pour) }},
		{Name: "syringe", Label: "Syringe", Help: "smallest mark of the syringe for a stock of colourant", Example: `"1 mL"`, Default: `"1 mL"`, Least: finest, Most: coarsest, Unit: "mL", None: true,
			at: func(d *draft) place { return (*amount)(&d.plan.Kit.Syringe.Size) }},
		{Name: "fill", Label: "Filled by eye", Help: "how far off a cup filled by eye can be, in mL or g", Example: `"3 mL"`, Most: 10_000,
			at: func(d *draft) place { return (*wetAmount)(&d.fill) }},
		{Name: "dead", Label: "Left in jug", Help: "wet glaze that stays in the container and cannot be poured", Example: `"30 mL"`, Most: 10_000, Unit: "mL",
			at: func(d *draft) place { return (*amount)(&d.plan.Kit.Dead) }},
		{Name: "loss", Label: "Lost per pour", Help: "wet glaze lost at each pour", Example: `"1 mL"`, Most: 10_000, Unit: "mL",
			at: func(d *draft) place { return (*amount)(&d.plan.Kit.Loss) }},
		{Name: "extra", Label: "Extra", Help: "mixed beyond what the cups need", Example: `"10 %"`, Default: `"10 %"`, Most: 100, Unit: "%",
			at: func(d *draft) place { return (*fraction)(&d.plan.Kit.Extra) }},
		{Name: "worst", Label: "Limit", Help: "your limit: the largest error for a dose or share", Example: `"5 %"`, Default: `"5 %"`, Least: 0.001, Most: 50, Unit: "%",
			at: func(d *draft) place { return (*fraction)(&d.plan.Kit.Worst) }},
	}
}

func glazeKeys() []Key {
	return []Key{
		{Name: "name", Label: "Name", Help: "as you call it", Example: `"Magnesia matt"`, Needed: true,
			at: func(d *draft) place { return (*words)(&d.item.glaze.Name) }},
		{Name: "recipe", Label: "Recipe", Help: "dry materials and their parts", Example: `[["Potash feldspar", 44], ["Silica", 22]]`, Least: leastPart, Most: 1e6,
			at: func(d *draft) place { return (*partList)(&d.item.glaze.Recipe) }},
		{Name: "additions", Label: "Additions", Help: "over the 100, in percent of the recipe", Example: `[["Bentonite", 2]]`, Least: leastPart, Most: 100,
			at: func(d *draft) place { return (*partList)(&d.item.glaze.Additions) }},
		{Name: "specific-gravity", Label: "SG", Help: "weigh 100 mL of wet glaze in g and divide by 100", Example: "1.45", Instead: []string{"water"},
			at: func(d *draft) place { return (*gravity)(&d.item.glaze.SG) }},
		{Name: "water", Label: "Water", Help: "instead of the SG: water for 100 g of dry glaze", Example: `"98 g"`, Least: 15, Most: 10_000, Unit: "g",
			at: func(d *draft) place { return (*amount)(&d.item.glaze.WaterPer) }},
		{Name: "solids-density", Label: "Solids density", Help: "g/mL of the dry materials, if you know it better", Example: "2.6", Least: 1.5, Most: 20,
			at: func(d *draft) place { return (*decimal)(&d.item.glaze.Solids) }},
	}
}

func blendKeys() []Key {
	most := float64(blend.MaxCells)
	return []Key{
		{Name: "kind", Label: "Design", Help: "the shape of the test", Example: `"triaxial"`, Choices: []string{"line", "biaxial", "triaxial", "quadraxial", "list", "centroid", "pairs", "rows"}, Needed: true,
			at: func(d *draft) place { return (*words)(&d.plan.Blend.Kind) }},
		{Name: "ends", Label: "End glazes", Help: "the glazes that are blended", Example: `["Magnesia matt", "Soda blue"]`, Designs: ofEnds,
			at: func(d *draft) place { return (*nameList)(&d.ends) }},
		{Name: "base", Label: "Base", Help: "the glaze that all cups have", Example: `"Magnesia matt"`, Designs: ofSeries, Needed: true,
			at: func(d *draft) place { return (*words)(&d.base) }},
		{Name: "method", Label: "Method", Help: "dose: weigh into each cup; stock: pour from a stock; pour: blend end glazes; weigh: weigh every cup dry", Example: `"dose"`,
			Choices: []string{"dose", "stock", "pour", "weigh"}, at: func(d *draft) place { return (*words)(&d.plan.Blend.Method) }},
		{Name: "basis", Label: "Shares of", Help: "what a share counts: dry glaze, volume or weight of wet glaze", Example: `"dry"`, Choices: []string{"dry", "volume", "weight"}, Designs: ofEnds,
			at: func(d *draft) place { return (*words)(&d.plan.Blend.Basis) }},
		{Name: "cells", Label: "Cups", Help: "how many cups", Example: "6", Least: 1, Most: most, Designs: []string{"line", "list"}, Instead: []string{"tiles"},
			at: func(d *draft) place { return &cupList{&d.plan.Blend.Cells, &d.plan.Blend.Parts} }},
		{Name: "columns", Label: "Columns", Help: "cups across", Example: "5", Least: 2, Most: most / 2, Designs: []string{"biaxial"}, Needed: true,
			at: func(d *draft) place { return (*whole)(&d.plan.Blend.Columns) }},
		{Name: "rows", Label: "Rows", Help: "cups down", Example: "4", Least: 2, Most: most / 2, Designs: []string{"biaxial"}, Needed: true,
			at: func(d *draft) place { return (*whole)(&d.plan.Blend.Rows) }},
		{Name: "divisions", Label: "Divisions", Help: "steps along each side; or the number of cups: tiles = 21", Example: "5", Least: 1, Most: most, Designs: ofTriangle, Needed: true, Instead: []string{"tiles"},
			at: func(d *draft) place { return (*whole)(&d.plan.Blend.Divisions) }},
		{Name: "tiles", Label: "Cups", Help: "how many cups, instead of divisions", Example: "28", Least: 1, Most: most, Designs: append([]string{"line"}, ofTriangle...),
			at: func(d *draft) place { return (*whole)(&d.tiles) }},
		{Name: "interior", Label: "Inside only", Help: "leaves out cups that lack an end glaze", Example: "true", Designs: ofBounds,
			at: func(d *draft) place { return (*yes)(&d.plan.Blend.Interior) }},
		{Name: "shares", Label: "Shares", Help: "of the first glaze of each pair, in percent", Example: "[25, 50, 75]", Designs: []string{"pairs"},
			at: func(d *draft) place { return (*percents)(&d.plan.Blend.PairShares) }},
		{Name: "alone", Label: "Each alone", Help: "each glaze in a cup of its own as well, last", Example: "true", Designs: []string{"pairs"},
			at: func(d *draft) place { return (*yes)(&d.plan.Blend.Alone) }},
		{Name: "shared-zero", Label: "One base cup", Help: "one cup of base alone for all rows, cup 1", Example: "true", Designs: []string{"rows"},
			at: func(d *draft) place { return (*yes)(&d.plan.Blend.SharedZero) }},
		{Name: "bounds", Label: "Bounds", Help: "only cups with this share of an end glaze", Example: `{ "Soda blue" = ["20 %", "60 %"] }`, Designs: ofBounds,
			at: func(d *draft) place { return &d.bounds }},
		{Name: "repeat", Label: "Repeated cups", Help: "these cups are made again, numbered after the last", Example: "[1, 3]",
			at: func(d *draft) place { return (*cupNumbers)(&d.plan.Blend.Repeat) }},
	}
}

func seriesKeys() []Key {
	return []Key{
		{Name: "name", Label: "Name", Help: "what the row is called", Example: `"Ana"`, Designs: []string{"rows"},
			at: func(d *draft) place { return (*words)(&d.item.series.Name) }},
		{Name: "material", Label: "Colourant", Help: "the material of the dose", Example: `"Copper carbonate"`, Needed: true,
			at: func(d *draft) place { return (*words)(&d.item.series.Material) }},
		{Name: "percent", Label: "Percent", Help: "of each cup's dry glaze, in order", Example: "[0, 0.5, 1, 2]", Designs: []string{"line-series", "biaxial-series", "rows"},
			at: func(d *draft) place { return (*percents)(&d.item.series.Percents) }},
		{Name: "from", Label: "From", Help: "instead of percent: the first percent", Example: "0.25", Designs: []string{"line-series", "biaxial-series", "rows"}, Most: 100,
			at: func(d *draft) place { return (*percentage)(&d.item.from) }},
		{Name: "to", Label: "To", Help: "the last percent; in a triaxial, that at its corner", Example: "4", Most: 100,
			at: func(d *draft) place { return (*percentage)(&d.item.series.To) }},
		{Name: "cells", Label: "Cups", Help: "how many steps", Example: "5", Least: 2, Most: float64(blend.MaxCells), Designs: []string{"line-series", "biaxial-series", "rows"},
			at: func(d *draft) place { return (*whole)(&d.item.cells) }},
		{Name: "spacing", Label: "Spacing", Help: "even, or doubling: each step the same factor", Example: `"doubling"`, Choices: []string{"even", "doubling"}, Designs: []string{"line-series", "biaxial-series", "rows"},
			at: func(d *draft) place { return (*words)(&d.item.spacing) }},
	}
}

func tileKeys() []Key {
	return []Key{
		{Name: "bodies", Label: "Bodies", Help: "every cup is dipped onto each of them", Example: `["Porcelain", "Buff"]`, Default: `["Test body"]`, Most: 12,
			at: func(d *draft) place { return (*nameList)(&d.plan.Tiles.Bodies) }},
		{Name: "size", Label: "Tile size", Help: "width x height, in mm, cm or in", Example: `"50 x 100 mm"`, Default: `"50 x 100 mm"`, Least: 5, Most: 1000, Unit: "mm",
			at: func(d *draft) place { t := &d.plan.Tiles; return (*tileSize)(&sheet{&t.Size, &t.WidthMM, &t.HeightMM}) }},
		{Name: "coats", Label: "Coats", Help: "dips of each tile", Example: "2", Default: "1", Least: 1, Most: 12,
			at: func(d *draft) place { return (*whole)(&d.plan.Tiles.Coats) }},
		{Name: "repeats", Label: "Repeats", Help: "tiles of each body for each cup", Example: "1", Default: "1", Least: 1, Most: 20,
			at: func(d *draft) place { return (*whole)(&d.plan.Tiles.Repeats) }},
		{Name: "thickness", Label: "Thickness", Help: "of a tile", Example: `"6 mm"`, Least: 0.5, Most: 200, Unit: "mm", None: true,
			at: func(d *draft) place { return (*amount)(&d.plan.Tiles.ThicknessMM) }},
		{Name: "dip", Label: "Dip height", Help: "how far up the tile the glaze reaches", Example: `"80 mm"`, Least: 1, Most: 1000, Unit: "mm", None: true,
			at: func(d *draft) place { return (*amount)(&d.plan.Tiles.DipMM) }},
		{Name: "hold", Label: "Dip time", Help: "how long a tile stays in the glaze", Example: `"3 s"`, Least: 0.1, Most: 3600, Unit: "s", None: true,
			at: func(d *draft) place { return (*amount)(&d.plan.Tiles.HoldS) }},
		{Name: "pickup", Label: "Pick-up", Help: "dry glaze that a coat takes up on each cm²", Example: `"0.06 g"`, Least: 0.001, Most: 1, Unit: "g", None: true,
			at: func(d *draft) place { return (*amount)(&d.plan.Tiles.Pickup) }},
		{Name: "bands", Label: "Coats overlap", Help: "straight: each coat lower; corner: from two sides", Example: `"corner"`, Default: `"straight"`, Choices: []string{"straight", "corner"},
			at: func(d *draft) place { return (*words)(&d.plan.Tiles.Bands) }},
	}
}

func boardKeys() []Key {
	return []Key{
		{Name: "paper", Label: "Paper", Help: "A5, A4, A3, A2, Letter, Legal, Tabloid, or such as 300 x 420 mm", Example: `"A4"`, Default: `"A4"`,
			at: func(d *draft) place { b := &d.plan.Board; return &sheet{&b.Paper, &b.PaperW, &b.PaperH} }},
		{Name: "scale", Label: "Board scale", Help: "of the board on request: life size, or fit on one page", Example: `"fit"`, Default: `"life"`, Choices: []string{"life", "fit"},
			at: func(d *draft) place { return (*words)(&d.plan.Board.Scale) }},
		{Name: "gap", Label: "Gap", Help: "between tiles", Example: `"4 mm"`, Least: 0.1, Most: 200, Unit: "mm",
			at: func(d *draft) place { return (*amount)(&d.plan.Board.GapMM) }},
		{Name: "bodies-as-rows", Label: "Bodies as rows", Help: "a row of the board for each body", Example: "true", Designs: []string{"line", "line-series"},
			at: func(d *draft) place { return (*yes)(&d.plan.Board.BodiesAsRows) }},
		{Name: "order", Label: "Order", Help: "of the tiles on the board; random evens out the kiln", Example: `"random"`, Choices: []string{"plan", "random"},
			at: func(d *draft) place { return (*words)(&d.order) }},
		{Name: "seed", Label: "Seed", Help: "another number, another random order", Example: "1", Most: largestSeed,
			at: func(d *draft) place { return (*whole)(&d.seed) }},
	}
}

func labelKeys() []Key {
	side := func(name, label, help, example string, least float64, needed bool, at func(l *blend.Labels) *float64) Key {
		return Key{Name: name, Label: label, Help: help, Example: example, Least: least, Most: mostPlaces, Unit: "mm", Needed: needed,
			at: func(d *draft) place { return (*amount)(at(&d.labels)) }}
	}
	return []Key{
		{Name: "columns", Label: "Columns", Help: "labels across", Example: "3", Least: 1, Most: 100, Needed: true,
			at: func(d *draft) place { return (*whole)(&d.labels.Columns) }},
		{Name: "rows", Label: "Rows", Help: "labels down", Example: "8", Least: 1, Most: 200, Needed: true,
			at: func(d *draft) place { return (*whole)(&d.labels.Rows) }},
		side("width", "Label width", "of a label", `"70 mm"`, 1, true, func(l *blend.Labels) *float64 { return &l.WidthMM }),
		side("height", "Label height", "of a label", `"37 mm"`, 1, true, func(l *blend.Labels) *float64 { return &l.HeightMM }),
		side("left", "Left margin", "of the sheet to the first label", `"0 mm"`, 0, true, func(l *blend.Labels) *float64 { return &l.LeftMM }),
		side("top", "Top margin", "of the sheet to the first label", `"0.5 mm"`, 0, true, func(l *blend.Labels) *float64 { return &l.TopMM }),
		side("gap-x", "Gap across", "between labels", `"0 mm"`, 0, false, func(l *blend.Labels) *float64 { return &l.GapXMM }),
		side("gap-y", "Gap down", "between labels", `"0 mm"`, 0, false, func(l *blend.Labels) *float64 { return &l.GapYMM }),
		{Name: "sheet", Label: "Label sheet", Help: "the sheet of labels; otherwise A4, or Letter where the board is", Example: `"A4"`,
			at: func(d *draft) place { l := &d.labels; return &sheet{&l.Sheet, &l.SheetW, &l.SheetH} }},
	}
}

func logKeys() []Key {
	return []Key{
		{Name: "numbers", Label: "Measured columns", Help: "columns for numbers that you measure", Example: `["Gloss"]`, Most: 20,
			at: func(d *draft) place { return (*nameList)(&d.plan.Log.Numbers) }},
		{Name: "block", Label: "Block column", Help: "a column that says which tiles shared a shelf or a kiln", Example: `"Shelf"`,
			at: func(d *draft) place { return (*words)(&d.plan.Log.Block) }},
		{Name: "check", Label: "Check cups", Help: "cups kept out of the models, to test them", Example: "[2, 4]",
			at: func(d *draft) place { return (*cupNumbers)(&d.plan.Log.Check) }},
	}
}

func pouredKeys() []Key {
	return []Key{
		{Name: "cups", Label: "Cups", Help: "their numbers", Example: `"2-4"`, Needed: true,
			at: func(d *draft) place { return (*cupNumbers)(&d.item.poured.Cups) }},
		{Name: "glaze", Label: "Glaze", Help: "not needed with one base", Example: `"Magnesia matt"`,
			at: func(d *draft) place { return (*words)(&d.item.pouredGlaze) }},
		{Name: "amount", Label: "Amount", Help: "what was poured into each", Example: `"140 mL"`, Most: largestCup, Needed: true,
			at: func(d *draft) place { return (*wetAmount)(&d.item.poured.Amount) }},
	}
}

func materialKeys() []Key {
	return []Key{
		{Name: "name", Label: "Name", Help: "as in the recipes", Example: `"Wood ash"`, Needed: true,
			at: func(d *draft) place { return (*words)(&d.item.material.Name) }},
		{Name: "analysis", Label: "Analysis", Help: "weight percent", Example: "{ SiO2 = 38.2, CaO = 27.5, K2O = 9.1, MgO = 4.0, P2O5 = 2.6, LOI = 18.6 }",
			at: func(d *draft) place { return &d.item.analysis }},
		{Name: "analysis-of", Label: "Analysis of", Help: "the raw material, or fired: then LOI is given beside 100 %", Example: `"fired"`, Choices: []string{"raw", "fired"},
			at: func(d *draft) place { return (*words)(&d.item.analysisOf) }},
		{Name: "density", Label: "Density", Help: "of the particles, g/mL", Example: "2.6", Least: 0.1, Most: 25,
			at: func(d *draft) place { return (*decimal)(&d.item.material.Density) }},
	}
}
