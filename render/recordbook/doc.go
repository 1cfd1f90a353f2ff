// Package recordbook writes the record book of a studio: as a workbook with a
// row for each fired tile, as pages with its indexes, and as the sorting list
// of a crate. It prints what is in a book.Book and computes nothing.
package recordbook
