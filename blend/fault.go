package blend

// Key is what of a plan a Fault is about.
type Key string

// The keys of faults; "" is of no single key.
const (
	KeyBatch   Key = "batch"            // of [cup]
	KeyGravity Key = "specific-gravity" // of a [[glaze]]
	KeyPoured  Key = "poured"           // a [[poured]]
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

// Error is the fault and its fix.
func (f *Fault) Error() string {
	if f.Fix == "" {
		return f.What
	}
	return f.What + " (" + f.Fix + ")"
}
