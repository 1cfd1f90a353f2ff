package plan

// Note is something about a plan that its maker should know; it never stops a
// run.
type Note struct {
	Place string // the key or material, with its line
	What  string // what is the matter
	Why   string // what it leads to, may be empty
	Fix   string // what would be right, may be empty
	Loud  bool   // said even where no notes are wanted
}

// String is the note on one line.
func (n Note) String() string {
	s := n.Place + ": " + n.What
	if n.Why != "" {
		s += "; " + n.Why
	}
	if n.Fix != "" {
		s += " (" + n.Fix + ")"
	}
	return s
}
