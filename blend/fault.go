package blend

import "fmt"

// Key is what a Fault is about, where a flag can have said it.
type Key string

// The keys of faults; "" is of the plan.
const (
	KeyGravity Key = "specific-gravity" // of a glaze
	KeyHave    Key = "have"             // Plan.Have, which no file says
)

// Fault is what makes a plan impossible though each of its keys can be read: a
// batch too small for its cups, say.
type Fault struct {
	Key  Key
	Line int    // of the plan's file, 0 when that is not known
	What string // what is wrong
	Fix  string // what would be right, a number that works
}

// faultf is a Fault, with what is wrong as by Sprintf.
func faultf(key Key, fix, format string, args ...any) *Fault {
	return &Fault{Key: key, What: fmt.Sprintf(format, args...), Fix: fix}
}

// Error is the fault and its fix.
func (f *Fault) Error() string {
	if f.Fix == "" {
		return f.What
	}
	return f.What + " (" + f.Fix + ")"
}
