package text

import (
	"bytes"
	"encoding/json"
	"io"
	"math"
	"slices"
	"strconv"

	"pourboard/blend"
	"pourboard/blend/oxide"
	"pourboard/layout"
	"pourboard/render/wording"
)

// The keys below are an interface: they are added to, never renamed. Amounts
// are in the unit that the key names, shares are fractions. A cell is as it was
// asked for; what is measured into it is its "got", and what it fires to, its
// "oxides" (weight %), "mol_percent" and "unity", is of that.
type (
	document struct {
		Title    string     `json:"title"`
		Kind     blend.Kind `json:"kind"`
		Basis    string     `json:"basis"`
		Ends     []string   `json:"ends"`
		Method   string     `json:"method,omitempty"`
		Cells    []cell     `json:"cells"`
		Batches  []batch    `json:"batches"`
		Stocks   []stock    `json:"stocks,omitempty"`
		Mixes    []mix      `json:"mixes,omitempty"`
		Tiles    []tile     `json:"tiles"`
		Warnings []string   `json:"warnings"`
	}
	cell struct {
		Number    int        `json:"number"`
		Row       int        `json:"row"`
		Column    int        `json:"column"`
		Layer     int        `json:"layer"`
		Parts     []number   `json:"parts,omitempty"`
		Repeats   int        `json:"repeats,omitempty"`
		Shares    []number   `json:"shares"`
		Pours     []pour     `json:"pours"`
		Doses     []dose     `json:"doses"`
		Weighings []weighing `json:"weighings,omitempty"`
		WaterG    number     `json:"water_g,omitempty"`
		contents
		Measured       contents `json:"measured"`
		Got            got      `json:"got"`
		Recipe         []part   `json:"recipe"`
		Additions      []part   `json:"additions"`
		AskedRecipe    []part   `json:"asked_recipe"`
		AskedAdditions []part   `json:"asked_additions"`
		Oxides         amounts  `json:"oxides,omitempty"`
		Mol            amounts  `json:"mol_percent,omitempty"`
		Unity          amounts  `json:"unity,omitempty"`
		Missing        []string `json:"without_analysis,omitempty"`
		MadeLike       []int    `json:"made_like_cells,omitempty"`
	}
	pour struct {
		Glaze     string  `json:"glaze"`
		ML        number  `json:"ml"`
		G         number  `json:"g"`
		RecipeG   number  `json:"recipe_g"`
		DryG      number  `json:"dry_g"`
		Measured  number  `json:"measured"`
		Unit      string  `json:"unit"`
		Reading   *number `json:"reading,omitempty"`
		Share     number  `json:"measured_share"`
		PlusMinus number  `json:"plus_minus_percent"`
	}
	weighing struct {
		Material  string `json:"material"`
		Addition  bool   `json:"addition"`
		G         number `json:"g"`
		MeasuredG number `json:"measured_g"`
		ReadingG  number `json:"reading_g"`
		Percent   number `json:"measured_percent"`
		PlusMinus number `json:"plus_minus_percent"`
	}
	dose struct {
		Material   string  `json:"material"`
		Percent    number  `json:"percent"`
		G          number  `json:"g"`
		MeasuredG  number  `json:"measured_g"`
		Stock      string  `json:"stock,omitempty"`
		ML         *number `json:"stock_ml,omitempty"`
		MeasuredML *number `json:"measured_stock_ml,omitempty"`
		GotPercent number  `json:"measured_percent"`
		PlusMinus  number  `json:"plus_minus_percent"`
		NotDosed   string  `json:"not_dosed,omitempty"`
	}
	// contents is how much is in a cup.
	contents struct {
		RecipeG number `json:"recipe_g"`
		DryG    number `json:"dry_g"`
		ML      number `json:"ml"`
		G       number `json:"g"`
		SG      number `json:"sg"`
	}
	// got says of the measured cup what its contents do not; the rest of it is
	// there for programs that were written for it.
	got struct {
		contents
		WaterToSG   number `json:"common_sg"`
		WaterML     number `json:"water_ml_to_common_sg"`
		WorstPlus   number `json:"worst_plus_minus_percent"`
		WorstSource string `json:"worst_cause"`
		Recipe      []part `json:"recipe"`
		Additions   []part `json:"additions"`
	}
	batch struct {
		Glaze     string `json:"glaze"`
		NeedML    number `json:"need_ml"`
		ML        number `json:"ml"`
		RecipeG   number `json:"recipe_g"`
		DryG      number `json:"dry_g"`
		WaterG    number `json:"water_g"`
		SG        number `json:"sg"`
		Materials []part `json:"materials"`
		WeighedG  number `json:"weighed_g"`
		Apart     []fine `json:"weighed_apart,omitempty"`
	}
	fine struct {
		Material string `json:"material"`
		G        number `json:"g"`
		ScaleG   number `json:"scale_g"`
	}
	stock struct {
		Name     string `json:"name"`
		Material string `json:"material"`
		GPerML   number `json:"g_per_ml"`
		ML       number `json:"ml"`
		G        number `json:"g"`
		WaterG   number `json:"water_g"`
	}
	tile struct {
		Mark  string `json:"mark"`
		Under string `json:"mark_underneath"`
		Cell  int    `json:"cell"`
		Body  string `json:"body"`
		XMM   number `json:"x_mm"`
		YMM   number `json:"y_mm"`
		Board int    `json:"board"`
		Tray  *tray  `json:"tray,omitempty"` // none where a tile is larger than the paper
	}
	tray struct {
		Page int    `json:"page"`
		XMM  number `json:"x_mm"`
		YMM  number `json:"y_mm"`
	}
)

// number is written to the fifteen digits that a float64 holds of any number,
// which leaves out the noise behind them, and without an exponent.
type number float64

func (n number) MarshalJSON() ([]byte, error) {
	if math.IsNaN(float64(n)) {
		return []byte("null"), nil
	}
	x, err := strconv.ParseFloat(strconv.FormatFloat(float64(n), 'g', 15, 64), 64)
	return strconv.AppendFloat(nil, x+0, 'f', -1, 64), err // +0 turns −0 into 0
}

// unknown is printed as null.
var unknown = number(math.NaN())

// part is a material with its amount, written as a pair.
type part struct {
	name  string
	value float64 // percent of the recipe, or g
}

func (p part) MarshalJSON() ([]byte, error) {
	return pair(p.name, p.value)
}

func pair(name string, x float64) ([]byte, error) {
	text, err := json.Marshal(name)
	if err != nil {
		return nil, err
	}
	value, err := number(x).MarshalJSON()
	return append(append(append(append([]byte{'['}, text...), ','), value...), ']'), err
}

// amounts are oxides with their values, in the order of package oxide.
type amounts []oxide.Amount

func (a amounts) MarshalJSON() ([]byte, error) {
	out := []byte{'{'}
	for i, x := range a {
		if i > 0 {
			out = append(out, ',')
		}
		value, err := number(x.Value).MarshalJSON()
		if err != nil {
			return nil, err
		}
		out = append(out, `"`+string(x.Oxide)+`":`...)
		out = append(out, value...)
	}
	return append(out, '}'), nil
}

func parts(list []blend.Part) []part {
	all := make([]part, len(list))
	for i, p := range list {
		all[i] = part{p.Material, p.Percent}
	}
	return all
}

func optional(x float64) *number { n := number(x); return &n }

// JSON writes a test, the places of its tiles, and the notes on both.
func JSON(w io.Writer, t *blend.Test, places *layout.Places, notes []wording.Line) error {
	d := document{
		Title: t.Plan.Title, Kind: t.Plan.Blend.Kind, Basis: string(t.Plan.Blend.Basis),
		Method: string(t.Plan.Blend.Method), Warnings: []string{},
	}
	for _, e := range t.Ends {
		d.Ends = append(d.Ends, e.Name)
	}
	sg := t.CommonSG()
	for i := range t.Cells {
		d.Cells = append(d.Cells, jsonCell(t, i, sg))
	}
	for _, group := range t.IdenticalCups() {
		for i, n := range group {
			d.Cells[n-1].MadeLike = slices.Delete(slices.Clone(group), i, i+1)
		}
	}
	for i, b := range t.Batches {
		d.Batches = append(d.Batches, jsonBatch(b, t.Ends[i]))
	}
	for _, s := range t.Stocks {
		d.Stocks = append(d.Stocks, stock{s.Name, s.Material, number(s.GPerML), number(s.ML), number(s.G), number(s.WaterG)})
	}
	d.Mixes = jsonMixes(t)
	for i, p := range places.Tiles {
		spot := places.Spot(i)
		d.Tiles = append(d.Tiles, tile{
			Mark: p.Mark, Under: p.Under, Cell: p.Cell, Body: t.Plan.Tiles.Bodies[p.Body],
			XMM: number(spot.X), YMM: number(spot.Y), Board: places.Boards[p.Board].Number,
		})
	}
	for k, card := range layout.Trays(t, places, layout.SheetOf(t.Plan.Board)) {
		for _, spot := range card.Spots {
			d.Tiles[spot.Tile].Tray = &tray{Page: k + 1, XMM: number(spot.X), YMM: number(spot.Y)}
		}
	}
	for _, warning := range notes {
		d.Warnings = append(d.Warnings, warning.String())
	}
	var out bytes.Buffer
	enc := json.NewEncoder(&out)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", " ")
	if err := enc.Encode(d); err != nil {
		return err
	}
	_, err := w.Write(out.Bytes())
	return err
}

func jsonCell(t *blend.Test, i int, commonSG float64) cell {
	c := t.Cells[i]
	recipe, additions := t.Recipe(i, blend.Asked)
	gotRecipe, gotAdditions := t.Recipe(i, blend.Measured)
	chemistry := t.Chemistry(i, blend.Measured)
	out := cell{
		Number: c.Number, Row: c.Row, Column: c.Column, Layer: c.Layer, Repeats: c.Repeats,
		Parts: numbers(t.WrittenParts(i)), Shares: numbers(c.Shares), Pours: jsonPours(t, c), Doses: jsonDoses(t, c), WaterG: number(c.WaterG),
		contents: contents{number(c.RecipeG), number(c.DryG), number(c.ML), number(c.G), number(c.SG)},
		Measured: contents{number(c.Got.RecipeG), number(c.Got.DryG), number(c.Got.ML), number(c.Got.G), number(c.Got.SG)},
		Recipe:   parts(gotRecipe), Additions: parts(gotAdditions),
		AskedRecipe: parts(recipe), AskedAdditions: parts(additions),
		Oxides: chemistry.WeightPercent, Mol: chemistry.MolPercent, Unity: chemistry.Unity, Missing: chemistry.Missing,
	}
	toSG, water := number(commonSG), number(c.WaterTo(commonSG))
	if noGrams(t, c) { // nothing is guessed of a bucket without SG
		out.contents = contents{unknown, unknown, out.contents.ML, unknown, unknown}
		out.Measured = contents{unknown, unknown, out.Measured.ML, unknown, unknown}
		toSG, water = unknown, unknown
	}
	out.Got = got{out.Measured, toSG, water, number(100 * c.Got.Worst), wording.Cause(c.Got.Cause), out.Recipe, out.Additions}
	for _, x := range c.Weighings {
		out.Weighings = append(out.Weighings, weighing{x.Material, x.Addition, number(x.G), number(t.Plan.Kit.Dosing().Amount(x.Steps)),
			number(x.ReadingG), number(x.Percent), number(x.PlusMinus)})
	}
	return out
}

func numbers(xs []float64) []number {
	var all []number
	for _, x := range xs {
		all = append(all, number(x))
	}
	return all
}

func jsonPours(t *blend.Test, c blend.Cell) []pour {
	all := []pour{}
	for e, p := range c.Pours {
		if p.ML == 0 || t.Plan.Blend.Method == blend.ByWeigh {
			continue
		}
		q := pour{
			Glaze: t.Ends[e].Name, ML: number(p.ML), G: number(p.G), RecipeG: number(p.RecipeG), DryG: number(p.DryG),
			Measured: number(p.Measured), Unit: string(t.Plan.Kit.Pour.Unit),
			Share: number(p.GotShare), PlusMinus: number(100 * p.PlusMinus),
		}
		if t.Ends[e].Bucket && t.Ends[e].Assumed {
			q.G, q.RecipeG, q.DryG = unknown, unknown, unknown
		}
		if t.Plan.Kit.OnScale() {
			q.Reading = optional(t.Plan.Kit.Pour.Amount(p.Reading))
		}
		all = append(all, q)
	}
	return all
}

func jsonDoses(t *blend.Test, c blend.Cell) []dose {
	all := []dose{}
	for s, x := range c.Doses {
		q := dose{
			Material: t.Plan.Blend.Series[s].Material, Percent: number(x.Percent), G: number(x.G), MeasuredG: number(x.MeasuredG),
			GotPercent: number(x.GotPercent), PlusMinus: number(x.PlusMinus),
		}
		if x.None() {
			q.NotDosed = "too small for this " + wording.DoseInstrument(t)
		}
		if t.Plan.Blend.Method == blend.ByStock {
			q.Stock = t.Stocks[x.Stock].Name
			q.ML, q.MeasuredML = optional(x.ML), optional(x.MeasuredML)
		}
		all = append(all, q)
	}
	return all
}

func jsonBatch(b blend.Batch, e blend.End) batch {
	out := batch{
		Glaze: b.Glaze, NeedML: number(b.NeedML), ML: number(b.ML), RecipeG: number(b.RecipeG), DryG: number(b.DryG),
		WaterG: number(b.WaterG), SG: number(b.SG), Materials: []part{}, WeighedG: number(b.WeighedG),
	}
	if e.Bucket {
		out.RecipeG, out.DryG, out.WaterG = unknown, unknown, unknown
		if e.Assumed {
			out.SG = unknown
		}
	}
	whole := make([]part, len(b.Weighings)+len(b.Apart)) // by Part; what the scale's capacity split is put together again
	for _, w := range b.Weighings {
		whole[w.Part].name = w.Material
		whole[w.Part].value += w.G
	}
	for _, x := range b.Apart {
		whole[x.Part] = part{x.Material, x.G}
		out.Apart = append(out.Apart, fine{x.Material, number(x.G), number(x.Step.Size)})
	}
	for _, p := range whole {
		if p.name != "" {
			out.Materials = append(out.Materials, p)
		}
	}
	return out
}
