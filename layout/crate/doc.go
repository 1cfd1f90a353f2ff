// Package crate is what is learnt from a crate of fired tiles: it knows what
// the log of a test looks like, reads one that a person has filled in, and
// works out results.
//
// The way through it is
//
//	columns := crate.Columns(plan)                     // what the log has columns for
//	log, err := crate.Read(test, places, sheets, …)    // readings by tile, and what was left out and why
//	results := crate.Evaluate(test, log)               // means, scatter, best cells, maps, models
//
// The heads, choices and labels of the log stand in columns.go and firing.go,
// for whoever writes a log and for Read alike; the printed forms of all numbers
// stand in words.go. A row is matched with its tile by its mark, never by its
// place, and what cannot be read with certainty is listed and left out, never
// guessed.
//
// It opens no file and knows no file format: package render/workbook turns
// workbooks and CSV into sheets of cells. Nothing here is estimated beyond the
// cells that were read.
package crate
