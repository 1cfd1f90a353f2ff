// Package record is the log of a test: what its columns are, and which tile a
// row that a person has filled in is of.
//
//	columns := record.Columns(plan)                   // what the log has columns for
//	log, err := record.Read(test, scheme, sheets, …)  // readings by tile, and what was skipped and why
//
// The heads, choices and labels of the log are in columns.go and firing.go,
// for whoever writes a log and for Read alike. A row is matched with its tile by
// its mark, never by its place, and what cannot be read with certainty is listed
// and skipped, never guessed. What is wrong with a row is an error, and so is
// worded here, as a parser words its own.
//
// It opens no file and knows no file format: package render/xlsx turns workbooks
// and CSV into sheets of cells.
package record
