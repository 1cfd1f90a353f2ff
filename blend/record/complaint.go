package record

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// Complaint is something in a log that was left out, or that should be looked
// at.
type Complaint struct {
	Sheet  string // empty for CSV
	Row    int    // in the sheet, from 1; of CSV the line
	Column string // its head; empty when it is about the whole row
	What   string // what is wrong, and what was made of it
	Right  string // what would be right; empty when only the person who read the tile knows
}

// String is the complaint as one line: `sheet "Tiles", row 7, Rating: 8 is left
// out (a whole number from 1 to 5)`.
func (c Complaint) String() string {
	var b strings.Builder
	if c.Sheet == "" {
		b.WriteString("line ")
	} else {
		fmt.Fprintf(&b, "sheet %q, row ", c.Sheet)
	}
	b.WriteString(strconv.Itoa(c.Row))
	if c.Column != "" {
		b.WriteString(", ")
		b.WriteString(c.Column)
	}
	b.WriteString(": ")
	b.WriteString(c.What)
	if c.Right != "" {
		b.WriteString(" (" + c.Right + ")")
	}
	return b.String()
}

// byPlace sorts complaints by row and keeps those of one row in their order.
func byPlace(all []Complaint) {
	slices.SortStableFunc(all, func(a, b Complaint) int { return a.Row - b.Row })
}

// short is a text as a message quotes it.
func short(s string) string {
	s = strings.Join(strings.Fields(s), " ")
	if r := []rune(s); len(r) > 40 {
		s = string(r[:40]) + "…"
	}
	return s
}
