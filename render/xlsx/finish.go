package xlsx

import (
	"cmp"
	"encoding/xml"
	"fmt"
	"io"
	"maps"
	"math"
	"slices"
	"strconv"
	"strings"

	tealeg "github.com/tealeg/xlsx/v3"

	"pourboard/blend/quantity"
)

// program is named in the file's properties as its maker.
const program = "pourboard"

// Bytes is the workbook as an xlsx file: the same bytes for the same content.
// It can be called once.
func (b *Book) Bytes() ([]byte, error) {
	if b.err == nil && len(b.sheets) == 0 {
		b.Fail(fmt.Errorf("a workbook needs at least one sheet"))
	}
	for _, s := range b.sheets {
		s.endRow()
		s.printNames()
	}
	b.sampleFormats()
	if b.err != nil {
		return nil, b.err
	}
	parts, err := b.file.MakeStreamParts()
	if err != nil {
		return nil, fmt.Errorf("making the workbook: %w", err)
	}
	if err := b.finish(parts); err != nil {
		return nil, fmt.Errorf("finishing the workbook: %w", err)
	}
	packed := map[string]*packed{}
	for name, part := range parts {
		if name != coreProperties {
			packed[name] = b.pack(name, part)
		}
	}
	packed[coreProperties] = b.pack(coreProperties, sealed(parts[coreProperties], packed))
	if b.err != nil {
		return nil, b.err
	}
	return zipped(packed)
}

// printNames defines the names by which the format knows what is printed.
func (s *Sheet) printNames() {
	index := s.index
	if head := s.Page.HeadRows; head[0] > 0 {
		titles := fmt.Sprintf("%s$%d:$%d", s.Ref(), head[0], head[1])
		if n := s.Page.HeadColumns; n > 0 {
			titles = fmt.Sprintf("%s$A:$%s,%s", s.Ref(), Letters(n-1), titles)
		}
		s.book.define(tealeg.DefinedName{Name: "_xlnm.Print_Titles", LocalSheetID: &index, Data: titles})
	}
	if s.wide > 0 && s.row > 0 && !s.made.Hidden {
		columns := s.wide
		if n := s.Page.Columns; n > 0 {
			columns = min(columns, n)
		}
		s.book.define(tealeg.DefinedName{
			Name: "_xlnm.Print_Area", LocalSheetID: &index,
			Data: s.Range(0, 1, columns-1, s.row),
		})
	}
}

// sampleFormats gives the library one cell of each format, so that it makes
// the table of styles. The cells are dropped in finish; what they refer to is
// read from them there.
func (b *Book) sampleFormats() {
	if len(b.sheets) == 0 {
		return
	}
	var styles [looks]*tealeg.Style
	row := b.sheets[0].made.AddRow()
	for _, f := range b.formats {
		if styles[f.look] == nil {
			styles[f.look] = newStyle(f.look)
		}
		cell := row.AddCell()
		cell.SetStyle(styles[f.look])
		cell.SetFormat(string(f.format))
	}
}

// finish puts the rows and all that the library does not know into its parts.
func (b *Book) finish(parts map[string]string) error {
	samples, err := styleIndexes(parts[partOfSheet(0)])
	if err != nil {
		return err
	}
	if parts["xl/styles.xml"], err = b.restyle(parts["xl/styles.xml"], samples); err != nil {
		return err
	}
	for i, s := range b.sheets {
		name := partOfSheet(i)
		if parts[name], err = s.frame(parts[name]); err != nil {
			return fmt.Errorf("sheet %q: %w", s.Name, err)
		}
	}
	parts["xl/sharedStrings.xml"] = b.strings.xml()
	parts["xl/workbook.xml"] = strings.Replace(parts["xl/workbook.xml"],
		`appName="Go XLSX"`, `appName="`+program+`"`, 1)
	parts["docProps/app.xml"] = strings.Replace(parts["docProps/app.xml"],
		"<Application>Go XLSX<", "<Application>"+program+"<", 1)
	parts[coreProperties] = strings.Replace(parts[coreProperties],
		"</cp:coreProperties>", "<dc:title>"+string(appendEscaped(nil, b.title))+"</dc:title><dc:creator>"+
			program+"</dc:creator></cp:coreProperties>", 1)
	return nil
}

// partOfSheet is the name of the part of sheet i, from 0.
func partOfSheet(i int) string { return fmt.Sprintf("xl/worksheets/sheet%d.xml", i+1) }

func (t *sharedStrings) xml() string {
	return fmt.Sprintf(`%s<sst xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" count="%d" uniqueCount="%d">%s</sst>`,
		xml.Header, t.uses, len(t.places), t.part)
}

// element is a piece of a part: an element with all that it holds.
type element struct{ name, text string }

// children cuts a part into what is before its root's content, the root's
// children, and what is after. Parts are the library's own: there are no
// comments in them, and no ">" that does not end a tag.
func children(part string) (head string, inner []element, tail string, err error) {
	depth, from := 0, 0
	for at := 0; ; {
		begin, end := strings.IndexByte(part[at:], '<'), strings.IndexByte(part[at:], '>')
		if begin < 0 || end < begin {
			return "", nil, "", io.ErrUnexpectedEOF
		}
		begin, end = at+begin, at+end+1
		at = end
		closes := part[begin+1] == '/'
		if part[begin+1] == '?' {
			continue
		}
		if !closes {
			switch depth++; depth {
			case 1:
				head = part[:end]
			case 2:
				from = begin
			}
			closes = part[end-2] == '/'
		}
		if closes {
			switch depth--; depth {
			case 0:
				return head, inner, part[begin:], nil
			case 1:
				name := strings.TrimLeft(part[from:end], "<")
				name = name[:strings.IndexAny(name, " />")]
				inner = append(inner, element{name, part[from:end]})
			}
		}
	}
}

// styleIndexes reads the style of each sample cell.
func styleIndexes(sheet string) ([]int, error) {
	_, inner, _, err := children(sheet)
	if err != nil {
		return nil, err
	}
	data := slices.IndexFunc(inner, func(e element) bool { return e.name == "sheetData" })
	if data < 0 {
		return nil, fmt.Errorf("no sheetData in the library's sheet")
	}
	_, rows, _, err := children(inner[data].text)
	if err != nil || len(rows) != 1 {
		return nil, fmt.Errorf("%d rows of samples in place of 1: %w", len(rows), err)
	}
	_, cells, _, err := children(rows[0].text)
	if err != nil {
		return nil, err
	}
	indexes := make([]int, len(cells))
	for i, cell := range cells {
		if _, style, found := strings.Cut(cell.text, ` s="`); found {
			style, _, _ = strings.Cut(style, `"`)
			if indexes[i], err = strconv.Atoi(style); err != nil {
				return nil, err
			}
		}
	}
	return indexes, nil
}

// restyle puts the table of cell formats into the order in which the rows
// count them, and unlocks those that are open.
func (b *Book) restyle(styles string, samples []int) (string, error) {
	head, inner, tail, err := children(styles)
	if err != nil {
		return "", err
	}
	if len(samples) != len(b.formats) {
		return "", fmt.Errorf("%d samples of %d formats", len(samples), len(b.formats))
	}
	out := []byte(head)
	for _, e := range inner {
		if e.name != "cellXfs" {
			out = append(out, e.text...)
			continue
		}
		_, made, _, err := children(e.text)
		if err != nil {
			return "", err
		}
		out = fmt.Appendf(out, `<cellXfs count="%d">`, len(b.formats))
		for i, f := range b.formats {
			if samples[i] >= len(made) {
				return "", fmt.Errorf("no style %d in a table of %d", samples[i], len(made))
			}
			xf := made[samples[i]].text
			if f.look.Open() {
				xf = strings.Replace(xf, `applyProtection="0"`, `applyProtection="1"`, 1)
				xf = strings.Replace(xf, "</xf>", `<protection locked="0"/></xf>`, 1)
			}
			out = append(out, xf...)
		}
		out = append(out, "</cellXfs>"...)
		out = append(out, `<cellStyles count="1"><cellStyle name="Normal" xfId="0" builtinId="0"/></cellStyles>`...)
	}
	return string(append(out, tail...)), nil
}

// sheetOrder is the order of the children of a worksheet (ECMA-376-1, 18.3.1.99,
// CT_Worksheet), as far as they occur here.
var sheetOrder = []string{
	"sheetPr", "dimension", "sheetViews", "sheetFormatPr", "cols", "sheetData",
	"sheetProtection", "autoFilter", "mergeCells", "dataValidations",
	"pageMargins", "pageSetup", "headerFooter", "rowBreaks",
}

// frame puts the rows, the page and the protection into the library's part.
func (s *Sheet) frame(part string) (string, error) {
	head, inner, tail, err := children(part)
	if err != nil {
		return "", err
	}
	texts := map[string]string{}
	for _, e := range inner {
		if !slices.Contains(sheetOrder, e.name) {
			return "", fmt.Errorf("unexpected element %q", e.name)
		}
		texts[e.name] = e.text
	}
	texts["sheetPr"] = ""
	if s.Page.Percent == 0 {
		texts["sheetPr"] = `<sheetPr><pageSetUpPr fitToPage="1"/></sheetPr>`
	}
	texts["dimension"] = `<dimension ref="A1:` + Address(max(s.wide, 1)-1, max(s.row, 1)) + `"/>`
	texts["sheetFormatPr"] = fmt.Sprintf(`<sheetFormatPr defaultRowHeight="%d"/>`, rowHeight)
	texts["pageMargins"] = fmt.Sprintf(`<pageMargins left="%[1]g" right="%[1]g" top="%[2]g" bottom="%[2]g" header="0.3" footer="0.3"/>`, sideMargin, headMargin)
	texts["pageSetup"] = s.Page.setup()
	texts["headerFooter"] = s.Page.headerFooter()
	if n := len(s.merged); n > 0 {
		texts["mergeCells"] = fmt.Sprintf(`<mergeCells count="%d"><mergeCell ref="%s"/></mergeCells>`, n, strings.Join(s.merged, `"/><mergeCell ref="`))
	}
	texts["rowBreaks"] = s.breaksText()
	if s.lock {
		texts["sheetProtection"] = `<sheetProtection sheet="1" objects="1" scenarios="1" formatColumns="0" formatRows="0"/>`
	}
	var out strings.Builder
	out.Grow(len(part) + 1024)
	out.WriteString(head)
	for _, name := range sheetOrder {
		if name == "sheetData" {
			out.WriteString(rowsBegin + rowsEnd) // the rows come between when the part is packed
			continue
		}
		out.WriteString(texts[name])
	}
	out.WriteString(tail)
	return out.String(), nil
}

// breaksText is the element of the rows that pages end with.
func (s *Sheet) breaksText() string {
	if len(s.breaks) == 0 {
		return ""
	}
	breaks := fmt.Sprintf(`<rowBreaks count="%[1]d" manualBreakCount="%[1]d">`, len(s.breaks))
	for _, at := range s.breaks {
		breaks += fmt.Sprintf(`<brk id="%d" max="%d" man="1"/>`, at, maxColumns-1)
	}
	return breaks + "</rowBreaks>"
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

// KeepTogether begins a page before each block of rows that would be cut by the
// end of one. Programs keep to that only on a sheet that is printed at a set
// size: the largest, up to the full one, at which a width in digits goes onto
// the page. Blocks are given by their first row and its distance from the top.
func (s *Sheet) KeepTogether(digits float64, blocks []Block) {
	width, height := s.Page.Room()
	s.Page.Percent = min(100, int(100*width/(digits*widestDigit)))
	height = height*100/float64(s.Page.Percent) - rowHeight // a row to spare: programs differ
	top := 0.0
	for i, b := range blocks {
		end := s.height
		if i+1 < len(blocks) {
			end = blocks[i+1].Top
		}
		if end-top > height && b.Top > top {
			s.breaks = append(s.breaks, b.Row-1)
			top = b.Top
		}
		for end-top > height { // longer than a page
			top += height
		}
	}
}

// Block is rows that belong together: the first, and its distance from the top
// of the sheet in points.
type Block struct {
	Row int
	Top float64
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
	out := []byte("<headerFooter><oddHeader>")
	out = appendEscaped(out, header)
	out = append(out, "</oddHeader><oddFooter>"...)
	out = appendEscaped(out, footer)
	return string(append(out, "</oddFooter></headerFooter>"...))
}

// partOrder is the order of the parts in the file.
func partOrder(parts map[string]*packed) []string {
	return slices.SortedFunc(maps.Keys(parts), func(x, y string) int {
		first := []string{"_rels/.rels", "[Content_Types].xml"} // the last comes first
		return cmp.Or(slices.Index(first, y)-slices.Index(first, x), strings.Compare(x, y))
	})
}
