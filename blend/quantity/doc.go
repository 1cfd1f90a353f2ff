// Package quantity reads and prints numbers with their units. Every sheet,
// table and workbook takes its numbers from here, so that one amount looks
// alike wherever it is printed.
package quantity
