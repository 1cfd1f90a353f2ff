package blend

import (
	"pourboard/blend/design"
	"pourboard/blend/measure"
	"pourboard/blend/oxide"
)

// Kind is the shape of a design, by its trade name.
type Kind = design.Kind

// The kinds of design; see package design.
const (
	Line       = design.Line
	Biaxial    = design.Biaxial
	Triaxial   = design.Triaxial
	Quadraxial = design.Quadraxial
	List       = design.List
	Centroid   = design.Centroid
	Pairs      = design.Pairs
	Rows       = design.Rows
)

// Basis says what a share or a cup's size is counted in.
type Basis string

// The bases of a share and of a cup's size.
const (
	Dry    Basis = "dry"    // g of dry solids
	Volume Basis = "volume" // mL of slip
	Weight Basis = "weight" // g of slip
)

// Method is how the additions of a series get into the cups.
type Method string

// The methods of a series.
const (
	ByDose  Method = "dose"  // each weighed dry into its cup
	ByStock Method = "stock" // poured from a suspension of the colourant in water
	ByPour  Method = "pour"  // end slips with the colourant mixed in are blended
	ByWeigh Method = "weigh" // no batch: every cup's dry materials are weighed into it; of a blend of end glazes too
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
}

// Series is one dry addition in steps.
type Series struct {
	Name     string // kind rows: what the row is called, may be empty
	Material string
	Percents []float64 // of the dry base in the cup; for line and biaxial, in order
	To       float64   // percent at the series' own corner of a triaxial
}

// Label is what a series is called: its material, behind its name if it has one.
func (s Series) Label() string {
	if s.Name == "" {
		return s.Material
	}
	return s.Name + ": " + s.Material
}

// Bound limits an end's share, as fractions of the whole.
type Bound = design.Bound

// Blend is the design: a blend of end glazes when Ends is filled, a series on one
// base when Series is.
type Blend struct {
	Kind      Kind
	Ends      []int    // end glazes: indexes into Plan.Glazes
	Base      int      // series: index into Plan.Glazes
	Series    []Series // 1 for a line, 2 for a biaxial, 3 for a triaxial, one for each of rows
	Method    Method   // series; of end glazes ByWeigh or ""
	Basis     Basis    // what the shares of end glazes are shares of
	Cells     int      // line: how many cups there will be, interior or not
	Columns   int      // biaxial
	Rows      int      // biaxial
	Divisions int      // triaxial, quadraxial: m of {q,m}
	Interior  bool     // leave out cells that lack an end

	PairShares []float64 // pairs: shares of the first of the two, percent
	Alone      bool      // pairs: each end alone as well, last
	SharedZero bool      // rows: one cup of base alone, cup 1, for all rows
	Repeat     []int     // these cups are made again, numbered after the last
	Bounds     []Bound   // by end, nil when not bounded
	Parts      [][]float64
	// Parts are the cells of a list, in parts, one number for each end.
}

// HasSeries reports whether the design is a series on one base.
func (b Blend) HasSeries() bool { return len(b.Series) > 0 }

// Glazes are the glazes that the design is made from, as indexes into
// Plan.Glazes: its end glazes, or its base.
func (b Blend) Glazes() []int {
	if b.HasSeries() {
		return []int{b.Base}
	}
	return b.Ends
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
