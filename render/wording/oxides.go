package wording

import (
	"fmt"
	"strings"

	"pourboard/blend/oxide"
)

// Traces names the oxides that a table of unity formulas has no column for, ""
// when there are none.
func Traces(traces []oxide.Oxide) string {
	if len(traces) == 0 {
		return ""
	}
	names := make([]string, len(traces))
	for i, o := range traces {
		names[i] = string(o)
	}
	return fmt.Sprintf("Traces, below %g mol in every cup: %s.", oxide.LeastMol, strings.Join(names, ", "))
}
