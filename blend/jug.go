package blend

// Jug is what is left of a batch while it is poured out.
type Jug struct {
	Steps   int64   // poured so far, in steps of the pouring instrument
	ML      float64 // the same in mL, with what is lost at each pour
	LeftML  float64 // of the batch; negative when it does not reach
	LeftG   float64 // the same in g of slip
	Pouring int     // cups that got some
}

// Jug is what is left of an end's batch once it has been poured into the given
// cells (indexes into t.Cells).
func (t *Test) Jug(end int, cells []int) Jug {
	var j Jug
	for _, i := range cells {
		p := t.Cells[i].Pours[end]
		if p.ML == 0 {
			continue
		}
		j.Pouring++
		j.Steps += p.Steps
		j.ML += p.GotML + t.Plan.Kit.Loss
	}
	j.LeftML = t.Batches[end].ML - j.ML
	j.LeftG = j.LeftML * t.Ends[end].SG
	return j
}
