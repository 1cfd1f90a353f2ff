package blend

import (
	"pourboard/blend/measure"
	"pourboard/blend/oxide"
)

// Note is something that the maker should know; it never stops a run. It is one
// of the types below, each with the figures of one matter, however many cups
// that is about. Package render/wording makes the line that is read.
type Note any

// CauseKind is what measures an amount that is uncertain.
type CauseKind int

// The kinds of causes; the zero value is none.
const (
	CausePour      CauseKind = iota + 1 // the pour of a glaze
	CauseFill                           // the fill by eye
	CauseDose                           // the dose of a material
	CauseStock                          // the strength of a stock
	CauseBatchDose                      // the dose of a material in the batch of a glaze
	CauseWeighing                       // method weigh: a material weighed into the cup
)

// Cause is what contributes most to a ±.
type Cause struct {
	Kind     CauseKind
	Name     string // of the glaze, the material or the stock
	Batch    string // CauseBatchDose: of the glaze
	TooSmall bool   // the amount is less than half a step, so none is measured
}

// The notes of a test.
type (
	// NoGravity is about glazes whose specific gravity is assumed.
	NoGravity struct {
		Glazes   []string
		DryPerML float64
	}
	// OddAnalysis is about a material whose analysis does not add up to 100 %.
	OddAnalysis struct {
		Material string
		Total    float64 // weight %, its LOI included
		NoLOI    bool    // it gives none
	}
	// FillUnused is about a fill by eye where nothing is filled by eye.
	FillUnused struct{}
	// ManyLoads is about a batch that is far beyond what the scale takes.
	ManyLoads struct {
		Glaze     string
		DryG      float64
		CapacityG float64
	}
	// OverCapacity is about cups whose pours, or dry materials with their
	// water, are more than the scale takes.
	OverCapacity struct {
		Cups      []int
		MostG     float64 // in whole steps of Step
		Step      measure.Step
		CapacityG float64
	}
	// CoarseScale is about materials of a batch that the scale is too coarse for.
	CoarseScale struct {
		Glaze     string
		Scale     measure.Step
		Materials []CoarseMaterial
	}
	// LostPours is about pours that round to nothing.
	LostPours struct {
		Cups   []int
		Step   measure.Step
		Enough CupSize
	}
	// SkippedDoses is about doses of one material too small for their instrument.
	SkippedDoses struct {
		Cups     []int
		Material string
		Method   Method
		Most     Dose         // the largest of them
		Alike    bool         // all are as large
		Step     measure.Step // of their instrument
		Twins    [][]int      // groups of cups that are identical then
		Finer    measure.Step // method dose: a scale that would do
		Enough   CupSize      // the other methods
	}
	// Identical is about groups of cups that are made alike though asked to differ.
	Identical struct{ Groups [][]int }
	// LargeStocks is about stocks of which much more is made than is poured.
	LargeStocks struct {
		Stocks []Stock
		Scale  measure.Step
	}
	// OverLimit is about cups that can be further off than the plan's limit.
	OverLimit struct {
		Cups      []int
		Limit     float64
		Worst     int     // number of the cup that can be furthest off
		PlusMinus float64 // of it
		Cause     Cause
		Enough    CupSize
	}
	// StockWater is about the cup that stocks thin most, too much.
	StockWater struct {
		Cup     int
		ML      float64
		MostML  float64
		SG      float64
		Syringe measure.Step
	}
	// Inseparable is about neighbours that cannot be told apart.
	Inseparable struct{ Pairs [][2]int }
	// NarrowCup is about a cup that does not take the tile.
	NarrowCup struct {
		TileWidthMM, TileThicknessMM float64
		DiameterMM                   float64
		NeedMM                       float64
	}
	// ShallowCup is about cups in which a coat cannot be dipped as far as it goes.
	ShallowCup struct {
		Cups     []int
		ML       float64 // in the emptiest of them
		LevelMM  float64 // of it, with the tile in
		Coat     int     // from 1
		WantMM   float64
		NeedML   float64
		WidestMM float64 // a cup that takes the tile and is deep enough; 0 when there is none
	}
	// RunsShort is about cups that may not cover their last tile.
	RunsShort struct {
		Cups         []int
		Tiles, Coats int     // of each cup
		ML           float64 // in the emptiest of them
		TakenML      float64 // by all coats of its tiles
		NeedML       float64 // a cup that would do
		PickupG      float64 // dry glaze on a cm² and coat
		Rough        bool    // PickupG is the usual figure, not the maker's own
	}
	// BoundMissed is about a glaze whose upper bound the steps of a lattice do not reach.
	BoundMissed struct {
		Glaze       string
		Most, Bound float64 // the largest share that a cup has, and the bound, as fractions
		Step        float64 // of the lattice, as a fraction
	}
	// Unusual is about more of a colourant than glazes usually get. Usual has no
	// Colourant where no figure is known.
	Unusual struct {
		Material  string
		Glaze     string // whose addition it is; "" for a series
		Percent   float64
		Usual     oxide.Usual
		Cups      int
		BatchDose bool // divided by the number of cups it would be usual
	}
	// UnevenGravity is about cups that differ in specific gravity.
	UnevenGravity struct {
		Thin, Thick     int // numbers of the cups
		ThinSG, ThickSG float64
		Water           string // the most that thins a cup to ThinSG, as its instrument shows it
		Unit            measure.Unit
		Even            bool // the plan has the water on its pour card
	}
	// Supplied is about the batches that you have already, and whether the cups
	// keep their size.
	Supplied struct {
		Cup, Was Amount
		Short    bool   // the cups are smaller than planned
		Left     []Have // what stays over of each batch, mL
		More     int    // cups more that it would serve, where all are filled from one base
		Dead     float64
		Others   bool // there are end glazes that no batch is given of
	}
)

// CoarseMaterial is a material that a scale weighs too badly, and the step of
// one that weighs it well enough.
type CoarseMaterial struct {
	Material string
	G        float64
	Step     measure.Step
}
