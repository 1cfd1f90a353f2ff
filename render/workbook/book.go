package workbook

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"github.com/tealeg/xlsx/v3"
)

// The largest sheet that the format allows.
const (
	maxRows    = 1048576
	maxColumns = 16384
)

// book is a workbook while it is written. The first thing that goes wrong is
// kept and returned by Bytes, so that the writing itself reads as one piece.
type book struct {
	title    string
	file     *xlsx.File
	sheets   []*sheet
	taken    map[string]bool // names of sheets, folded
	names    map[string]bool // defined names, folded
	formats  []cellFormat    // by index in the written style table
	places   map[cellFormat]int
	strings  sharedStrings
	lists    *sheet // hidden, the items of drop-downs that do not fit into a check
	warnings []string
	err      error
}

// newBook starts a workbook. The title stands in the file's properties.
func newBook(title string) *book {
	b := &book{
		title:   clean(title),
		file:    xlsx.NewFile(),
		taken:   map[string]bool{},
		names:   map[string]bool{},
		places:  map[cellFormat]int{},
		strings: newSharedStrings(),
	}
	b.place(cellFormat{lookPlain, general}) // index 0 is what unformatted cells have
	return b
}

// Warnings are the texts that had to be cut, one sentence each.
func (b *book) Warnings() []string { return b.warnings }

func (b *book) fail(err error) {
	if b.err == nil {
		b.err = err
	}
}

// place is the index of a format in the style table.
func (b *book) place(f cellFormat) int {
	if i, ok := b.places[f]; ok {
		return i
	}
	i := len(b.formats)
	b.formats = append(b.formats, f)
	b.places[f] = i
	return i
}

// Sheet adds a sheet. Its name is made safe and unique: read it from Name.
func (b *book) Sheet(name string) *sheet {
	s := &sheet{book: b, Name: sheetName(name, b.taken), index: len(b.sheets)}
	made, err := b.file.AddSheet(s.Name)
	if err != nil {
		b.fail(fmt.Errorf("sheet %q: %w", s.Name, err))
		made, _ = xlsx.NewSheet("Sheet")
	}
	s.made = made
	b.sheets = append(b.sheets, s)
	return s
}

// Define names a cell or range, given as At or Range of a sheet write it.
// Names are letters, digits, points and underscores, begin with a letter and
// cannot be mistaken for the address of a cell.
func (b *book) Define(name, target string) {
	switch folded := foldName(name); {
	case !validName(name) || len(name) > longestDefined || looksLikeAddress(name):
		b.fail(fmt.Errorf("%q cannot be the name of a cell", name))
	case b.names[folded]:
		b.fail(fmt.Errorf("the name %q is given to two cells", name))
	default:
		b.names[folded] = true
		b.define(xlsx.DefinedName{Name: name, Data: target})
	}
}

func (b *book) define(n xlsx.DefinedName) {
	if err := b.file.AddDefinedName(n); err != nil {
		b.fail(err)
	}
}

// longestDefined is the longest name of a cell in the format.
const longestDefined = 255

// validName reports whether name is made of signs that the name of a cell can
// have.
func validName(name string) bool {
	for i, c := range []byte(name) {
		switch {
		case 'A' <= c && c <= 'Z', 'a' <= c && c <= 'z', c == '_':
		case i > 0 && ('0' <= c && c <= '9' || c == '.'):
		default:
			return false
		}
	}
	return name != ""
}

// looksLikeAddress reports whether a spreadsheet program takes name for a cell,
// a row or a column: B7, R, C, R1C1.
func looksLikeAddress(name string) bool {
	const digits = "0123456789"
	name = strings.ToUpper(name)
	if name == "R" || name == "C" {
		return true
	}
	column := strings.TrimRight(name, digits)
	if n := len(column); 1 <= n && n <= 3 && n < len(name) && strings.Trim(column, "ABCDEFGHIJKLMNOPQRSTUVWXYZ") == "" {
		return true
	}
	row, column, isCell := strings.Cut(strings.TrimPrefix(name, "R"), "C")
	return name[0] == 'R' && isCell && strings.Trim(row+column, digits) == ""
}

// sheet is one sheet while it is written, row by row and in each row from left
// to right.
type sheet struct {
	Name         string // safe and unique
	Page         page
	book         *book
	made         *xlsx.Sheet // the library's sheet: columns, panes, checks, no cells
	index        int
	rows         []byte   // the rows as they stand in the file
	row          int      // number of the row that is written, from 1; 0 before the first
	col          int      // index of the next cell, from 0
	open         bool     // a row is begun and not closed
	wide         int      // cells of the widest row
	shared       int      // formulas that several cells share
	merged       []string // ranges of cells that are one
	height       float64  // of the rows so far, in points
	breaks       []int    // rows that a page ends with
	columnBreaks []int    // columns that a page ends with
	lock         bool
}

// page is how a sheet prints.
type page struct {
	Paper       string // A2, A3, A4, A5, Letter, Legal or Tabloid; anything else prints on A4
	Landscape   bool
	HeadRows    [2]int // first and last row repeated on every page, from 1; zero for none
	HeadColumns int    // how many are repeated on every page
	Columns     int    // how many are printed; 0 for all
	Percent     int    // size at which it is printed; 0 for as large as all columns go onto a page
	Left        string // at the top left of every page
	Right       string // at the top right
	Foot        string // at the bottom left; the bottom right numbers the pages
}

// Freeze keeps the first columns and rows in sight.
func (s *sheet) Freeze(columns, rows int) {
	if columns == 0 && rows == 0 {
		return
	}
	pane := "bottomRight"
	switch {
	case columns == 0:
		pane = "bottomLeft"
	case rows == 0:
		pane = "topRight"
	}
	s.made.SheetViews = []xlsx.SheetView{{Pane: &xlsx.Pane{
		XSplit: float64(columns), YSplit: float64(rows),
		TopLeftCell: address(columns, rows+1), ActivePane: pane, State: "frozen",
	}}}
}

// Width sets how wide columns are, in digits of the default font. Columns are
// counted from 0.
func (s *sheet) Width(first, last int, digits float64) {
	s.made.SetColWidth(first+1, last+1, digits)
}

// Filter puts filter buttons on the head row of a table.
func (s *sheet) Filter(firstColumn, headRow, lastColumn, lastRow int) {
	s.made.AutoFilter = &xlsx.AutoFilter{
		TopLeftCell:     address(firstColumn, headRow),
		BottomRightCell: address(lastColumn, lastRow),
	}
}

// Lock protects the sheet, without a password: only cells whose look is Open
// can be typed into. Widths and heights stay free.
func (s *sheet) Lock() { s.lock = true }

// Hide hides the sheet. The first sheet cannot be hidden.
func (s *sheet) Hide() {
	if s.index == 0 {
		s.book.fail(errors.New("the first sheet of a workbook cannot be hidden"))
		return
	}
	s.made.Hidden = true
}

// At is the absolute address of a cell, with the sheet's name: 'Pours'!$B$7.
// Columns are counted from 0, rows from 1.
func (s *sheet) At(column, row int) string {
	return s.quoted() + absolute(column, row)
}

// Range is the absolute address of a range of cells, corners included.
func (s *sheet) Range(firstColumn, firstRow, lastColumn, lastRow int) string {
	return s.quoted() + absolute(firstColumn, firstRow) + ":" + absolute(lastColumn, lastRow)
}

func (s *sheet) quoted() string { return "'" + strings.ReplaceAll(s.Name, "'", "''") + "'!" }

func absolute(column, row int) string {
	return "$" + letters(column) + "$" + strconv.Itoa(row)
}

// address is a cell's address within its sheet: B7 for column 1, row 7.
func address(column, row int) string { return letters(column) + strconv.Itoa(row) }

// letters is the name of a column, counted from 0: A, B, … Z, AA.
func letters(column int) string { return string(appendLetters(nil, column)) }

// appendLetters appends the name of a column.
func appendLetters(dst []byte, column int) []byte {
	if column >= 26 {
		dst = appendLetters(dst, column/26-1)
	}
	return append(dst, byte('A'+column%26))
}
