// Package xlsx is the format of spreadsheet workbooks: it writes them, and reads
// what a person filled in, within limits that the caller derives from the plan.
//
//  1. book.go and cells.go hold a workbook while it is written: sheets with safe
//     names, rows of text, numbers and formulas that carry their values, names,
//     checks on what may be typed.
//  2. style.go holds the looks and number formats of all sheets.
//  3. finish.go turns a Book into the bytes of a file.
//  4. seal.go tells whether another program has saved a workbook.
//  5. guard.go, read.go, parts.go, rows.go and csv.go read a file that a person
//     has filled in, or that pretends to be one.
//
// It opens and writes no files, and it never runs a formula: a cell whose value
// is missing is reported as such.
package xlsx
