package measure

// Apportion turns the exact amounts of one cup into whole steps by largest
// remainder, so that they sum to the cup's total in whole steps: every amount
// is rounded down, and the steps that are then missing go one each to the
// largest remainders, to the earlier amount where two are alike.
//
// The method is that of A. Hamilton (1792) for seats; among all whole numbers
// with the given sum it has the least sum of squared errors.
func (s Step) Apportion(amounts []float64) []int64 {
	into, total, given := make([]int64, len(amounts)), 0.0, int64(0)
	for i, x := range amounts {
		total += x
		into[i] = s.Floor(x)
		given += into[i]
	}
	missing := s.Count(total) - given
	for ; missing > 0; missing-- {
		best, bestRemainder := -1, 0.0
		for i, x := range amounts {
			r := settle(settle(x/s.Size) - float64(into[i]))
			// An amount that has had its step has a negative remainder now.
			if r > bestRemainder {
				best, bestRemainder = i, r
			}
		}
		if best < 0 {
			break
		}
		into[best]++
	}
	return into
}

// Running turns amounts that are poured onto one scale, one after the other,
// into whole steps: the sums that the scale reads after each are rounded, so that
// no rounding adds up, and a part is what its reading adds to the one before.
func (s Step) Running(amounts []float64) []int64 {
	parts, sum, last := make([]int64, len(amounts)), 0.0, int64(0)
	for i, x := range amounts {
		sum += x
		reading := s.Count(sum)
		parts[i], last = reading-last, reading
	}
	return parts
}
