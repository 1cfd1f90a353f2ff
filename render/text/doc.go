// Package text prints a test for the terminal and for other programs: aligned
// tables, JSON and CSV, one function for each output. It computes nothing:
// every number comes from a finished blend.Test or results.Results, and how it
// looks is said in blend/words.go and render/wording/results.go. The packet on paper
// is package pdf, the workbooks are package workbook.
package text
