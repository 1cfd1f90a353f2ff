package blend

import (
	"pourboard/blend/design"
	"pourboard/blend/measure"
	"pourboard/blend/oxide"
)

// Test is the finished table of a test: everything that is printed about its
// cups comes from here. Renderers read it, and work
// out no more themselves than DEVELOPERS.md says.
type Test struct {
	Plan    *Plan
	Ends    []End   // the slips that are poured into cups, in the order of pouring
	Cells   []Cell  // in order, Cells[i].Number == i+1
	Layers  int     // boards of a quadraxial, otherwise 1
	Rows    int     // rows of the largest layer
	Columns int     // columns of the widest row
	Batches []Batch // by end
	Stocks  []Stock // method stock only, by series, from weak to strong
	Notes   []Note

	Smallest CupSize // that is good enough

	CommonSG  float64    // of the thinnest cup, to which water can bring all
	Dilutions []Dilution // method dose: mixes in which doses that are too small are weighed

	Base      End           // of a series, before anything is stirred in; otherwise the first end
	Densities []float64     // g/mL of each series' material
	Library   oxide.Library // the materials that are known, the plan's own first

	// AsWeighed is by end its recipe and additions as its batch is weighed. A batch's
	// ticket has each material in whole steps of a scale: 0.5 % that comes to 0.52 %
	// there is in every cup that the batch is poured into. So it belongs to what a cup
	// is made of (Measured), and not to its ±, which is of readings alone. How much
	// recipe a mL holds stays as planned, for the SG is taken when the batch is mixed,
	// and water or glaze added until it is right.
	AsWeighed []End

	points     []design.Point // of Cells
	order      []DryMaterial  // WeighOrder
	unmeasured []End          // whose specific gravity is assumed, before anything is stirred in
}

// End is one slip that is poured.
type End struct {
	Name      string
	Recipe    []Part    // percent of the dry recipe, sums to 100
	Additions []Part    // percent of the dry recipe, over the 100
	Percents  []float64 // series: percent of each one's material over the recipe, among the additions too
	SG        float64   // specific gravity used for the arithmetic
	Solids    float64   // density of the solids, g/mL
	DryPerML  float64   // g dry (additions and series included) per mL slip
	WaterPerG float64   // g water per g dry
	Assumed   bool      // SG was not given and is assumed alike for all slips

	Bucket      bool    // it has no recipe: it is bought or ready in a bucket, nothing is mixed
	Over        float64 // g of additions per g of recipe
	RecipePerML float64 // g of recipe, without additions, per mL
}

// Cell is one mixture of the design, and the cup that it is mixed in.
type Cell struct {
	Number             int          // from 1
	Row, Column, Layer int          // from 0, places in the lattice
	Shares             []float64    // asked, by end, sum 1, of the plan's basis (series: of the base's recipe)
	Pours              []Pour       // by end; a pour of nothing has ML 0
	Doses              []Dose       // by series; a blend of end glazes has none
	WaterML            float64      // brought in by stock suspensions
	Contents                        // the whole cup as asked
	Parts              []float64    // a list's: shares as its maker wrote them, 2 and 1; nil where they are percent
	Repeats            int          // number of the cup that this one makes again, 0 for none
	Weighings          []CupWeighed // method weigh: by material, in the order of the recipes
	WaterG             float64      // method weigh: brings the cup to its planned SG
	AsMade             bool         // one end or colourant is noticeably off: all ends are labelled as made
	Got                Got          // the cup as its measured amounts make it
}

// Pour is slip of one end into one cup.
type Pour struct {
	Contents            // exact
	Got        Contents // as measured
	Steps      int64    // the measured amount, in whole steps of the pouring instrument
	Other      bool     // it came out otherwise than planned: Got is in no whole steps
	Reading    int64    // in steps: what the scale reads when this pour is in (slips poured on a scale)
	Percent    float64  // share asked, in percent with one decimal; those of a cup sum to 100
	GotPercent float64  // the same of GotShare
	GotShare   float64  // share that the measured pours make, of the plan's basis
	PlusMinus  float64  // ± of that share (2u)
}

// Dose is a dry addition of one cup.
type Dose struct {
	Percent    float64 // asked, of the recipe in the cup
	G          float64 // exact: Percent of the recipe in the cup's measured pours
	Steps      int64   // method dose: in steps of the dosing scale; stock: of the syringe; pour: 0
	MeasuredG  float64 // what the measured amounts bring, g
	Stock      int     // method stock: index into Test.Stocks
	ML         float64 // method stock: exact mL of suspension
	MeasuredML float64 // method stock
	GotPercent float64 // percent that the measured amounts make
	PlusMinus  float64 // ± of GotPercent in percentage points (2u)
	AsMade     bool    // GotPercent is noticeably other than Percent: the cup is labelled with it
}

// CupWeighed is a dry material weighed into one cup (method weigh).
type CupWeighed struct {
	DryMaterial
	G         float64 // exact
	Steps     int64   // in steps of the scale
	ReadingG  float64 // what the scale reads with this material in
	Percent   float64 // of the recipe, as weighed
	PlusMinus float64 // ± of Percent, in percentage points (2u)
}

// Contents is what is in a cup or a pour.
type Contents struct {
	RecipeG float64 // of the recipes' 100: a gram of dry glaze
	DryG    float64 // all dry matter
	G, ML   float64 // wet glaze
	SG      float64
}

// Shown is wet glaze as the instrument that pours it shows it: g on a scale, mL in a
// jug (Kit.Pour.Unit).
func (c Contents) Shown(kit measure.Kit) float64 {
	if kit.OnScale() {
		return c.G
	}
	return c.ML
}

// Got is a cup as its measured amounts make it.
type Got struct {
	Contents
	Worst float64 // largest relative ± (2u) of the cup's shares or percentages, as a fraction
	Cause Cause   // what contributes most to it
}

// Batch is what is mixed of one end to serve all cups.
type Batch struct {
	Glaze      string
	NeedML     float64    // sum of the measured pours
	ML         float64    // mixed, after extra, dead volume and rounding up
	RecipeG    float64    // of the recipe's 100: what is rounded to a convenient figure
	DryG       float64    // RecipeG with its additions
	WaterG     float64    // as measure.Kit.Water has it; of what is mixed already, in whole steps of the scale
	G          float64    // slip weight
	SG         float64    // expected
	Mixed      bool       // it is there already (Plan.Have): the amounts are of what there is
	Weighings  []Weighing // the dry materials in order, but for Apart
	Apart      []Weighing // the dry materials that the scale is too coarse for, in order
	WeighedG   float64    // what Weighings and Apart sum to: DryG but for their rounding
	WaterLoads []float64  // g, the water split by the scale's capacity, usually one
}

// Weighing is one material onto the scale, or apart, by itself, onto a finer one.
type Weighing struct {
	Part     int // which of the end's recipe and then its additions, from 0
	Material string
	Percent  float64      // of the dry recipe
	Addition bool         // over the 100
	Step     measure.Step // of the scale
	Steps    int64
	G        float64 // the same in g
	Load     int     // from 1: the vessel on the scale is emptied between loads; 0 apart
	ReadingG float64 // the scale's reading with this material in
}

// Text is the amount as its scale shows it, without the unit.
func (w Weighing) Text() string { return w.Step.Format(w.Steps) }

// Stock is a suspension of one series' material in water.
type Stock struct {
	Series   int
	Material string
	Label    string  // on its bottle: X1, X2 of the series X
	Name     string  // "Copper carbonate stock X1"
	From     float64 // g: the smallest dose that is poured from it
	GPerML   float64 // strength
	NeedML   float64 // sum of the measured pours
	ML       float64 // made up to
	G        float64 // of the material, in whole steps of the scale that weighs doses
	WaterG   float64 // in whole steps of the scale
}
