// Package text prints a test for the terminal and for other programs: aligned
// tables, JSON and CSV. It computes nothing; every number comes from a
// finished blend.Test or crate.Results. The packet on paper is package pdf, the workbooks are
// package workbook.
package text
