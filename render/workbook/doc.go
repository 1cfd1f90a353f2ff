// Package workbook writes and reads spreadsheet workbooks, and reads logs that
// were saved as CSV.
//
// The ground, in this order:
//
//  1. book.go and cells.go hold a workbook while it is written: sheets with
//     safe names, rows of text, numbers and formulas that carry their values,
//     names, checks on what may be typed.
//  2. style.go holds the looks and number formats, shared by every sheet.
//  3. finish.go turns a book into the bytes of an xlsx file. The spreadsheet
//     library makes the parts that frame the sheets (workbook, styles,
//     columns, panes, checks); the rows, page set-up and protection are set
//     between them here. The library makes every cell by reflection, about
//     five microseconds each, and knows neither page set-up nor protection.
//  4. guard.go, sheet.go, parts.go and csv.go read a file that a person has
//     filled in, or that pretends to be one, within limits that the caller
//     derives from the plan.
//
// The two workbooks on it:
//
//  5. pour.go and its sheets, in the order in which they stand: pourinputs.go,
//     pour.go, pourdoses.go, pourbatches.go, pourrecipes.go (with the
//     chemistry), slips.go and slipoxides.go, working.go (hidden). formulas.go
//     holds the tables of cups and the rules of rounding as formulas. untouched.go
//     tells whether a person has saved one.
//  6. log.go writes the log, logread.go reads it back.
//
// It computes no amounts: what is printed comes from package blend, and a
// formula carries the value that the engine has. Only the steps between, which
// nobody measures, are taken here from the engine's amounts. It opens
// and writes no files, and it never runs a formula: a cell whose value is
// missing is reported as such.
package workbook
