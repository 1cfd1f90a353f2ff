package blend

// Coat is one dip of a tile into the slip.
type Coat struct {
	Across bool    // the tile goes in sideways: MM runs along its width, else along its height
	MM     float64 // of the tile that the coat covers, from the edge that goes in first
}

// Dips are the coats of a tile in the order of dipping, each covering less than
// the one before by equal steps, so that the tile shows every thickness from
// all coats to none (common practice, no source).
//
// Straight coats all go in from the lower edge: of n coats the first covers
// Dip() and coat k the part (n−k+1)/n of it. Corner coats go in by a long side
// and by a short one in turn, a long one first; those of each direction step
// likewise, from Dip() along the height and from the same part of the width.
func (t Tiles) Dips() []Coat {
	coats := make([]Coat, t.Coats)
	if t.Bands != Corner {
		for k := range coats {
			coats[k].MM = t.Dip() * float64(t.Coats-k) / float64(t.Coats)
		}
		return coats
	}
	most := map[bool]float64{false: t.Dip(), true: t.WidthMM * t.Dip() / t.HeightMM}
	first := t.HeightMM >= t.WidthMM // the long side down measures across the width
	for k := range coats {
		across := first == (k%2 == 0)
		of := (t.Coats + 1) / 2 // coats that go in as the first does
		if across != first {
			of = t.Coats / 2
		}
		coats[k] = Coat{across, most[across] * float64(of-k/2) / float64(of)}
	}
	return coats
}

// DishMM is how wide a cup or dish must be for every one of the dips: a coat by
// a long side takes more than the tile's width.
func (t Tiles) DishMM() float64 {
	widest := 0.0
	for _, c := range t.Dips() {
		widest = max(widest, t.in(0, c).narrowestMM())
	}
	return widest
}

// downMM is how long the side is that goes in first.
func (t Tiles) downMM(c Coat) float64 {
	if c.Across {
		return t.HeightMM
	}
	return t.WidthMM
}
