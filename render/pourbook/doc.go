// Package pourbook writes the workbook of a test's amounts, with formulas that
// follow what is typed on the day. It computes no amounts: each formula carries
// the value that package blend has.
package pourbook
