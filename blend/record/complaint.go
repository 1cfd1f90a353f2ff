package record

import (
	"fmt"
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

// skipped is the complaint that something below a head was skipped.
func skipped(head, what, fix string) *Complaint {
	return &Complaint{Column: head, What: what + "; skipped", Right: fix}
}

// String is the complaint as one line: `sheet "Tiles", row 7, Rating: 8 skipped
// (1 to 5, whole or half)`.
func (c Complaint) String() string {
	place := fmt.Sprintf("line %d", c.Row)
	if c.Sheet != "" {
		place = fmt.Sprintf("sheet %q, row %d", c.Sheet, c.Row)
	}
	if c.Column != "" {
		place += ", " + c.Column
	}
	if c.Right != "" {
		return place + ": " + c.What + " (" + c.Right + ")"
	}
	return place + ": " + c.What
}

// fewAlike is how many complaints of one kind are told one by one.
const fewAlike = 3

// Alike joins complaints of one column that ask for the same, after the first few:
// the last of those told has the other rows, so that none is lost.
func Alike(all []Complaint) []Complaint {
	kind := func(c Complaint) Complaint { return Complaint{Sheet: c.Sheet, Column: c.Column, Right: c.Right} }
	rows := map[Complaint][]string{}
	for _, c := range all {
		rows[kind(c)] = append(rows[kind(c)], strconv.Itoa(c.Row))
	}
	seen := map[Complaint]int{}
	var told []Complaint
	for _, c := range all {
		k := kind(c)
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

// short is a text as a message quotes it.
func short(s string) string {
	s = strings.Join(strings.Fields(s), " ")
	if r := []rune(s); len(r) > 40 {
		s = string(r[:40]) + "…"
	}
	return s
}

// someOf lists the first texts, and says how many more there are.
func someOf(texts []string) string {
	const most = 8
	if n := len(texts); n > most {
		texts = append(texts[:most:most], fmt.Sprintf("and %d more", n-most))
	}
	return strings.Join(texts, ", ")
}
