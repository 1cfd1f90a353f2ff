package xlsx

import (
	"fmt"
	"math"
	"strings"

	"pourboard/blend/quantity"
)

// printNames defines the names by which the format knows what is printed.
func (s *Sheet) printNames() {
	if head := s.Page.HeadRows; head[0] > 0 {
		titles := fmt.Sprintf("%s$%d:$%d", s.Ref(), head[0], head[1])
		if n := s.Page.HeadColumns; n > 0 {
			titles = fmt.Sprintf("%s$A:$%s,%s", s.Ref(), Letters(n-1), titles)
		}
		s.book.define("_xlnm.Print_Titles", titles, fmt.Sprintf(` localSheetId="%d"`, s.index))
	}
	if s.wide > 0 && s.row > 0 {
		columns := s.wide
		if n := s.Page.Columns; n > 0 {
			columns = min(columns, n)
		}
		s.book.define("_xlnm.Print_Area", s.Range(0, 1, columns-1, s.row), fmt.Sprintf(` localSheetId="%d"`, s.index))
	}
}

// The margins of a page in inches.
const (
	sideMargin = 0.5
	headMargin = 0.75 // and at the foot
)

// paperCodes are the format's numbers for papers (ECMA-376-1, 18.3.1.63,
// pageSetup).
var paperCodes = map[string]int{
	"Letter": 1, "Tabloid": 3, "Legal": 5, "A3": 8, "A4": 9, "A5": 11, "A2": 66,
}

// paper is what the sheet prints on, and the format's number for it.
func (p Page) paper() (size quantity.Paper, code int) {
	size, err := quantity.ReadPaper(p.Paper)
	if code = paperCodes[size.Name]; err != nil || code == 0 {
		size, _ = quantity.ReadPaper("A4")
		code = paperCodes["A4"]
	}
	return size, code
}

// Room is how much there is on a page between the margins, in points.
func (p Page) Room() (width, height float64) {
	size, _ := p.paper()
	if p.Landscape {
		size.W, size.H = size.H, size.W
	}
	const inch = 72
	return size.W/25.4*inch - 2*sideMargin*inch, size.H/25.4*inch - 2*headMargin*inch
}

// smallestPrint is the part of the full size below which the figures of a table
// are too small to read on paper: 7 points.
const smallestPrint = 0.65

// Scale is the size in percent at which so many digits beside each other go onto a
// page, up to the full one; 65 where that would be too small to read, and more pages
// are beside each other.
func (p Page) Scale(digits float64) int {
	width, _ := p.Room()
	return int(100 * max(smallestPrint, min(1, width/(digits*widestDigit))))
}

// FitPages turns the page where so many digits beside each other would print too
// small, and takes as many pages below each other as the rows need; a last page
// with few rows goes onto the others, a little smaller.
func (s *Sheet) FitPages(digits float64) {
	s.Page.Landscape = false
	width, height := s.Page.Room()
	if width < digits*widestDigit*smallestPrint {
		s.Page.Landscape = true
		width, height = s.Page.Room()
	}
	pages := s.height * min(1, width/(digits*widestDigit)) / height
	s.Page.Pages = max(1, int(math.Ceil(pages-0.15)))
}

// widestDigit is the width in points that programs give a digit of a column's
// width, at most: 9 dots of 96 to the inch, where another font takes its place.
const widestDigit = 7

func (p Page) setup() string {
	_, code := p.paper()
	turn := "portrait"
	if p.Landscape {
		turn = "landscape"
	}
	size := fmt.Sprintf(`fitToWidth="1" fitToHeight="%d"`, p.Pages)
	if p.Percent > 0 {
		size = fmt.Sprintf(`scale="%d"`, p.Percent)
	}
	return fmt.Sprintf(`<pageSetup paperSize="%d" %s orientation="%s"/>`, code, size, turn)
}

func (p Page) headerFooter() string {
	// Each text gets a share of the 255 characters that a header can have.
	field := func(code, text string) string {
		text, _ = Cut(strings.Join(strings.Fields(clean(text)), " "), 90)
		if text == "" {
			return ""
		}
		return code + strings.ReplaceAll(text, "&", "&&")
	}
	header := field("&L", p.Left) + field("&R", p.Right)
	footer := field("&L", p.Foot) + "&RPage &P of &N"
	header, _ = Cut(header, maxHeader)
	footer, _ = Cut(footer, maxHeader)
	return "<headerFooter><oddHeader>" + escaped(header) + "</oddHeader>" +
		"<oddFooter>" + escaped(footer) + "</oddFooter></headerFooter>"
}
