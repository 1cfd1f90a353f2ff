package results

// For the tests, which lie outside the package so that they may print results
// in words.
const Classes = classes

var (
	Tied     = tied
	PointOf  = pointOf
	Classify = (*Measure).classify
)
