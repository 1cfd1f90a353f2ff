package blend

import (
	"pourboard/blend/design"
	"pourboard/blend/measure"
	"pourboard/blend/oxide"
)

// The design of a test; see package design.
type (
	Kind   = design.Kind
	Basis  = design.Basis
	Method = design.Method
	Series = design.Series
	Bound  = design.Bound
	Blend  = design.Blend
)

// The kinds of design, what shares are counted in, and how additions get into cups.
const (
	Line       = design.Line
	Biaxial    = design.Biaxial
	Triaxial   = design.Triaxial
	Quadraxial = design.Quadraxial
	List       = design.List
	Centroid   = design.Centroid
	Pairs      = design.Pairs
	Rows       = design.Rows

	Dry    = design.Dry
	Volume = design.Volume
	Weight = design.Weight

	ByDose  = design.ByDose
	ByStock = design.ByStock
	ByPour  = design.ByPour
	ByWeigh = design.ByWeigh
)

// MaxCells is the largest design that is accepted.
const MaxCells = design.MaxCups

// Plan is one test as its maker describes it: checked, complete, in the units
// that the field names carry. Package blend/plan makes one from a file.
type Plan struct {
	Title     string
	Mark      string // painted on every tile before its number, 1 to 4 characters, may be empty
	Cup       Cup
	Kit       measure.Kit
	Glazes    []Glaze
	Materials []oxide.Material // the maker's own, found before the built-in ones
	Blend     Blend
	Tiles     Tiles
	Board     Board
	Labels    *Labels // nil when the plan describes no label stock
	Log       Log
	Chemistry Chemistry
	Also      []string // parts of the sheets that are printed on request
	Poured    []Poured // pours that came out otherwise than planned
	Have      []Have   // batches that are mixed already; no file says so
	Letters   []string // marks keep these letters (package mark); a log says so, no file
	ShareAll  bool     // share all of Have between the cups; no file says so
}

// Poured is a pour that came out otherwise than planned, in some cups.
type Poured struct {
	Cups   []int  // numbers, from 1
	Glaze  int    // index into Plan.Glazes
	Amount Amount // of wet glaze, by Volume or Weight
	Line   int    // of the plan's file, for messages
}

// Amount is an amount of glaze with what it is counted in.
type Amount struct {
	Value float64
	Of    Basis
}

// Cup is what goes into each cup. In a series it is the base before its doses.
type Cup struct {
	Size       Amount
	BatchG     float64 // series: this much recipe is mixed once and shared between all cups; 0 when Size is asked
	DiameterMM float64 // inner diameter, 0 when not given
	Even       bool    // thin every cup to the specific gravity of the thinnest
}

// Part is one line of a recipe: percent of the dry recipe, or parts of a recipe
// that does not sum to 100.
type Part = oxide.Part

// Mass is an amount of one dry material.
type Mass struct {
	Material string
	G        float64
}

// Glaze is a recipe and how it is mixed with water.
type Glaze struct {
	Name      string
	Recipe    []Part  // dry, normally summing to 100, in the maker's order
	Additions []Part  // over the recipe, in every batch
	SG        float64 // specific gravity of the slip, 0 when not given
	WaterPer  float64 // g water per 100 g dry (additions included), 0 when not given
	Solids    float64 // density of the solids, g/mL, 0 when not given
	Line      int     // of its SG, or else of its heading, in the plan's file, for messages
}

// Bands says how the coats of a tile overlap.
type Bands string

// The ways of dipping coats.
const (
	Straight Bands = "straight" // each coat covers less of the tile's length than the one before
	Corner   Bands = "corner"   // first a long side, then turned by a right angle
)

// Tiles describes the tiles that are dipped.
type Tiles struct {
	Bodies      []string // at least one
	Size        string   // as the maker wrote it: "50 x 100 mm", "2 x 4 in"
	WidthMM     float64
	HeightMM    float64
	ThicknessMM float64 // 0 when not given
	Coats       int     // at least 1
	Repeats     int     // tiles of each body for each cell, at least 1
	DipMM       float64 // how far up the tile the glaze reaches, 0 when not given
	HoldS       float64 // seconds in the slip for each coat, 0 when not given
	Pickup      float64 // g of dry glaze that a coat takes up on a cm², 0 when not given
	Bands       Bands
}

// Scale says how large a board is printed.
type Scale string

// The scales of a board.
const (
	Life Scale = "life" // life size over as many pages as it takes
	Fit  Scale = "fit"  // each board on one page
)

// Board describes the paper that the sheets are printed on and how tiles lie.
type Board struct {
	Paper        string // as the maker wrote it: "A4", "Letter", "300 x 420 mm"
	PaperW       float64
	PaperH       float64 // mm, portrait unless the maker's own size says otherwise
	Scale        Scale
	GapMM        float64 // between tiles, captions included; 0 leaves it to the layout
	BodiesAsRows bool    // line: one board with a row for each body
	Shuffle      bool    // places of the tiles in random order
	Seed         uint64  // the seed of that order, printed on the board
}

// Labels describes a sheet of self-adhesive labels.
type Labels struct {
	Columns, Rows  int
	WidthMM        float64
	HeightMM       float64
	LeftMM, TopMM  float64 // margin of the sheet to the first label
	GapXMM, GapYMM float64 // between labels
	SheetW, SheetH float64 // mm
	Sheet          string  // as the maker wrote it
}

// Log says what the log has columns for beyond the usual ones.
type Log struct {
	Numbers []string // names of numeric columns
	Block   string   // name of a column that says which tiles shared a shelf or a kiln
	Check   []int    // cups kept out of the models, to test them
}

// Chemistry says how oxides are shown.
type Chemistry struct {
	ColourantsInUnity bool     // count colouring oxides of RO type in the unity sum
	Maps              []string // oxides that get a map of their own
}
