package blend

// Fault is what makes a plan impossible though each of its keys can be read: a
// batch too small for its cups, say.
type Fault struct {
	Line int    // of the plan's file, 0 when it is not about one
	What string // what is wrong
	Fix  string // what would be right, a number that works
}

// Error is the fault and its fix.
func (f *Fault) Error() string {
	if f.Fix == "" {
		return f.What
	}
	return f.What + " (" + f.Fix + ")"
}
