package blend

// mostUnlisted is the percentage above which a material that nothing is known of
// is a lot of a colourant: more than the usual figure of any that is listed
// (common practice, no source).
const mostUnlisted = 20

// noteUnusual is about colourants of which there is more than is usual. Where
// the percentage divided by the number of cups would be a usual one, the dose of
// the whole batch may have been taken for that of one cup.
func (t *Test) noteUnusual() {
	cups := float64(len(t.Cells))
	check := func(material, glaze string, percent float64) {
		usual, ok := t.Library.Usual(material)
		if _, listed := t.Library.Find(material); !ok && !listed && glaze == "" {
			usual.High, ok = mostUnlisted, true
		}
		if !ok || percent <= usual.High {
			return
		}
		each := percent / cups
		t.note(Unusual{material, glaze, percent, usual, len(t.Cells), cups > 1 && usual.Low > 0 && each >= usual.Low && each <= usual.High})
	}
	for i, s := range t.Plan.Blend.Series {
		most := 0.0
		for _, c := range t.Cells {
			most = max(most, c.Doses[i].Percent)
		}
		check(s.Material, "", most)
	}
	if t.Plan.Blend.HasSeries() {
		return
	}
	for _, e := range t.Ends {
		for _, p := range e.Additions {
			check(p.Material, e.Name, p.Percent)
		}
	}
}
