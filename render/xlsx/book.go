package xlsx

import (
	"archive/zip"
	"bytes"
	"fmt"
	"io"
	"strconv"
	"strings"
)

// The largest sheet that the format allows.
const (
	maxRows    = 1048576
	maxColumns = 16384
)

// Book is a workbook while it is written. The first thing that goes wrong is
// kept and returned by Write, so that the writing itself reads as one piece.
type Book struct {
	title    string
	sheets   []*Sheet
	formats  []cellFormat // by index in the written style table
	places   map[cellFormat]int
	file     bytes.Buffer // its parts so far
	zip      *zip.Writer
	parts    []*zip.FileHeader
	current  io.Writer // into the part that was begun last
	packing  *Sheet    // of which that is the part
	names    []byte    // elements of the names
	warnings []string
	err      error
}

// New starts a workbook. The title is in the file's properties.
func New(title string) *Book {
	b := &Book{title: clean(title), places: map[cellFormat]int{}}
	b.begin()
	b.place(cellFormat{Plain, General}) // index 0 is what unformatted cells have
	return b
}

// Warnings are the texts that had to be cut, one sentence each.
func (b *Book) Warnings() []string { return b.warnings }

// Fail keeps the first error, which Write returns.
func (b *Book) Fail(err error) {
	if b.err == nil {
		b.err = err
	}
}

// place is the index of a format in the style table.
func (b *Book) place(f cellFormat) int {
	if i, ok := b.places[f]; ok {
		return i
	}
	i := len(b.formats)
	b.formats = append(b.formats, f)
	b.places[f] = i
	return i
}

// Sheet adds a sheet.
func (b *Book) Sheet(name string) *Sheet {
	s := &Sheet{Name: name, book: b, index: len(b.sheets)}
	b.sheets = append(b.sheets, s)
	return s
}

// Define names a cell or range, given as At or Range of a sheet write it.
func (b *Book) Define(name, target string) { b.define(name, target, "") }

func (b *Book) define(name, target, attributes string) {
	b.names = fmt.Appendf(b.names, `<definedName name="%s"%s>%s</definedName>`, name, attributes, escaped(target))
}

// Sheet is one sheet while it is written, row by row and in each row from left
// to right.
type Sheet struct {
	Name     string
	Page     Page
	book     *Book
	filter   string   // element
	checks   []string // elements
	frozen   [2]int   // columns and rows that stay in sight
	widths   []byte   // elements of the columns
	index    int
	rows     []byte // the last ones, as they are in the file
	finished bool
	row      int      // number of the row that is written, from 1; 0 before the first
	col      int      // index of the next cell, from 0
	open     bool     // a row is begun and not closed
	wide     int      // cells of the widest row
	merged   []string // ranges of cells that are one
	height   float64  // of the rows so far, in points
	lock     bool
}

// Page is how a sheet prints.
type Page struct {
	Paper       string // A2, A3, A4, A5, Letter, Legal or Tabloid; anything else prints on A4
	Landscape   bool
	HeadRows    [2]int // first and last row repeated on every page, from 1; zero for none
	HeadColumns int    // how many of the first are repeated on every page, where rows are
	Columns     int    // how many are printed; 0 for all
	Percent     int    // size at which it is printed; 0 for as large as all columns go onto a page
	Pages       int    // on how many pages, one below the other, all rows go; 0 for any
	Left        string // at the top left of every page
	Right       string // at the top right
	Foot        string // at the bottom left; the bottom right numbers the pages
}

// Freeze keeps the first columns and rows in sight. It is called before the rows.
func (s *Sheet) Freeze(columns, rows int) { s.frozen = [2]int{columns, rows} }

// Width sets how wide columns are, in digits of the default font, from left to right
// and before the rows below them. Columns are counted from 0.
func (s *Sheet) Width(first, last int, digits float64) {
	s.widths = fmt.Appendf(s.widths, `<col min="%d" max="%d" width="%g" customWidth="1"/>`, first+1, last+1, digits)
}

// Filter puts filter buttons on the first row of a table that begins the sheet.
func (s *Sheet) Filter(lastColumn, lastRow int) {
	s.filter = fmt.Sprintf(`<autoFilter ref="A1:%s"/>`, Address(lastColumn, lastRow))
}

// Lock protects the sheet, without a password: only cells whose look is Open
// can be typed into. Widths and heights stay free.
func (s *Sheet) Lock() { s.lock = true }

// At is the absolute address of a cell, with the sheet's name: 'Pours'!$B$7.
// Columns are counted from 0, rows from 1.
func (s *Sheet) At(column, row int) string { return s.Ref() + absolute(column, row) }

// Range is the absolute address of a range of cells, corners included.
func (s *Sheet) Range(firstColumn, firstRow, lastColumn, lastRow int) string {
	return s.Ref() + absolute(firstColumn, firstRow) + ":" + absolute(lastColumn, lastRow)
}

// Ref is how formulas of other sheets name this one.
func (s *Sheet) Ref() string { return "'" + strings.ReplaceAll(s.Name, "'", "''") + "'!" }

func absolute(column, row int) string {
	return "$" + Letters(column) + "$" + strconv.Itoa(row)
}

// Address is a cell's address within its sheet: B7 for column 1, row 7.
func Address(column, row int) string { return Letters(column) + strconv.Itoa(row) }

// Letters is the name of a column, counted from 0: A, B, … Z, AA.
func Letters(column int) string {
	if column < 26 {
		return string(rune('A' + column))
	}
	return Letters(column/26-1) + Letters(column%26)
}
