package results

// For the tests, which lie outside the package so that they may print results
// in words.
const Classes = classes

var (
	Tied     = tied
	PointOf  = pointOf
	Classify = (*Measure).classify
)

// FitWithoutFiring models a column of several logs as if all were of one firing.
func FitWithoutFiring(all []*Results, head string) Model {
	samples := measured(all, head)
	for i := range samples {
		samples[i].firing = ""
	}
	return all[0].fit(samples, AllBodies, true)
}
