// Package logbook writes the workbook in which fired tiles are recorded, and
// reads it back.
package logbook
