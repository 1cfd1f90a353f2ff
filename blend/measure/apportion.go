package measure

// Apportion turns the exact amounts of one cup into whole steps by largest
// remainder, so that they sum to the cup's total in whole steps: every amount
// is rounded down, and the steps that are then missing go one each to the
// largest remainders, to the earlier amount where two are alike. into has the
// length of amounts.
//
// The method is that of A. Hamilton (1792) for seats; among all whole numbers
// with the given sum it has the least sum of squared errors.
func (s Step) Apportion(amounts []float64, into []int64) {
	total, given := 0.0, int64(0)
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
			return
		}
		into[best]++
	}
}

// Running turns amounts that are poured onto one scale, one after the other,
// into what the scale reads after each: the running sums are rounded, so that
// no rounding adds up. readings[i] is in steps; parts[i] is what the pour adds.
func (s Step) Running(amounts []float64, parts, readings []int64) {
	sum, last := 0.0, int64(0)
	for i, x := range amounts {
		sum += x
		readings[i] = s.Count(sum)
		parts[i] = readings[i] - last
		last = readings[i]
	}
}
