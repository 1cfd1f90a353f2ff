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

// fewAlike is how many complaints of one kind are told one by one.
const fewAlike = 3

// Alike joins complaints of one column that ask for the same, after the first few:
// the last of those told has the other rows, so that none is lost.
func Alike(all []Complaint) []Complaint {
	type kind struct{ sheet, column, right string }
	of := func(c Complaint) kind { return kind{c.Sheet, c.Column, c.Right} }
	rows := map[kind][]string{}
	for _, c := range all {
		rows[of(c)] = append(rows[of(c)], strconv.Itoa(c.Row))
	}
	seen := map[kind]int{}
	var told []Complaint
	for _, c := range all {
		k := of(c)
		seen[k]++
		if alike := rows[k]; c.Column != "" && c.Right != "" && len(alike) > fewAlike+1 {
			if seen[k] > fewAlike {
				continue
			}
			if seen[k] == fewAlike {
				c.What += fmt.Sprintf("; likewise in %d more rows: %s", len(alike)-fewAlike, strings.Join(alike[fewAlike:], ", "))
			}
		}
		told = append(told, c)
	}
	return told
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
