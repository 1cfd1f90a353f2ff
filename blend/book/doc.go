// Package book joins the tests of a studio to a record book: a row for each
// fired tile that something is recorded of, with what it was made of, what was
// entered, and the firing it was in.
//
// Plans and logs are the truth; a book is worked out anew from them and never
// edited. A test is read into a Chapter by itself, so that a thousand of them
// need not be in memory at once; Bind puts the chapters together.
package book
