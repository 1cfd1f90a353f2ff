package pagetest

import "os"

// Papers are the papers that plan number i is drawn on in a test: all of them
// under POURBOARD_OUTSIDE=1, otherwise one by turns, since reading every page
// back takes longer than anything else in the tests.
func Papers(i int) []string {
	all := []string{"A4", "Letter", "A5"}
	if os.Getenv("POURBOARD_OUTSIDE") == "1" {
		return all
	}
	return all[i%len(all) : i%len(all)+1]
}
