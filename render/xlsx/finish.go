package xlsx

import (
	"archive/zip"
	"bytes"
	"cmp"
	"compress/flate"
	"encoding/xml"
	"fmt"
	"hash/crc32"
	"io"
	"maps"
	"slices"
	"strings"

	tealeg "github.com/tealeg/xlsx/v3"
)

// program is named in the file's properties as its maker.
const program = "pourboard"

// Bytes is the workbook as an xlsx file: the same bytes for the same content.
// It can be called once.
func (b *Book) Bytes() ([]byte, error) {
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
	return b.zipped(parts)
}

// pieces are a part as it is in the file: the rows of a sheet come between the first
// and the last.
func (b *Book) pieces(name, part string) [][]byte {
	for i, s := range b.sheets {
		if name == partOfSheet(i) {
			head, tail, _ := strings.Cut(part, noRows)
			return [][]byte{[]byte(head + "<sheetData>"), s.rows, []byte("</sheetData>" + tail)}
		}
	}
	return [][]byte{[]byte(part)}
}

// noRows is where the rows of a sheet come in.
const noRows = "<sheetData></sheetData>"

// zipped is a zip of parts: those that say what the rest is first, the rest by name.
// They are packed at the fastest level, which takes half the time of the usual one for
// files a quarter larger.
func (b *Book) zipped(parts map[string]string) ([]byte, error) {
	var out bytes.Buffer
	z := zip.NewWriter(&out)
	z.RegisterCompressor(zip.Deflate, func(w io.Writer) (io.WriteCloser, error) { return flate.NewWriter(w, flate.BestSpeed) })
	seals := map[string]seal{}
	for name, part := range parts {
		s := seal{}
		for _, piece := range b.pieces(name, part) {
			s = seal{s.size + uint64(len(piece)), crc32.Update(s.crc, crc32.IEEETable, piece)}
		}
		seals[partName(name)] = s
	}
	parts[coreProperties] = sealed(parts[coreProperties], seals)
	first := []string{"_rels/.rels", "[Content_Types].xml"} // the last comes first
	for _, name := range slices.SortedFunc(maps.Keys(parts), func(x, y string) int {
		return cmp.Or(slices.Index(first, y)-slices.Index(first, x), strings.Compare(x, y))
	}) {
		w, err := z.Create(name)
		for _, piece := range b.pieces(name, parts[name]) {
			if err == nil {
				_, err = w.Write(piece)
			}
		}
		if err != nil {
			return nil, err
		}
	}
	err := z.Close()
	return out.Bytes(), err
}

// sampleFormats gives the library one cell of each format, so that it makes
// the table of styles. The cells are dropped in finish; what they refer to is
// read from them there.
func (b *Book) sampleFormats() {
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
		parts[partOfSheet(i)] = s.frame(parts[partOfSheet(i)])
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

// inside is what an element of a part of the library's own holds, with its tags; ""
// where there is none. The library closes each element with a tag of its own.
func inside(part, name string) string {
	end := "</" + name + ">"
	before, _, found := strings.Cut(part, end)
	if !found {
		return ""
	}
	return before[strings.Index(before, "<"+name):] + end
}

// styleIndexes reads the style of each sample cell.
func styleIndexes(sheet string) ([]int, error) {
	var indexes []int
	for _, cell := range strings.Split(sheet, "<c ")[1:] {
		index := 0
		if _, style, found := strings.Cut(cell, ` s="`); found {
			if _, err := fmt.Sscan(strings.Replace(style, `"`, " ", 1), &index); err != nil {
				return nil, err
			}
		}
		indexes = append(indexes, index)
	}
	return indexes, nil
}

// restyle puts the table of cell formats into the order in which the rows
// count them, and unlocks those that are open.
func (b *Book) restyle(styles string, samples []int) (string, error) {
	table := inside(styles, "cellXfs")
	made := strings.Split(table, "<xf ")[1:]
	if len(samples) != len(b.formats) {
		return "", fmt.Errorf("%d samples of %d formats", len(samples), len(b.formats))
	}
	out := fmt.Appendf(nil, `<cellXfs count="%d">`, len(b.formats))
	for i, f := range b.formats {
		if samples[i] >= len(made) {
			return "", fmt.Errorf("no style %d in a table of %d", samples[i], len(made))
		}
		xf := "<xf " + strings.TrimSuffix(made[samples[i]], "</cellXfs>")
		if f.look.Open() {
			xf = strings.Replace(xf, `applyProtection="0"`, `applyProtection="1"`, 1)
			xf = strings.Replace(xf, "</xf>", `<protection locked="0"/></xf>`, 1)
		}
		out = append(out, xf...)
	}
	out = append(out, `</cellXfs><cellStyles count="1"><cellStyle name="Normal" xfId="0" builtinId="0"/></cellStyles>`...)
	return strings.Replace(styles, table, string(out), 1), nil
}

// frame is the part of a sheet: the library's with the page and the protection. The
// rows come into its sheetData when it is packed. Its children are in the order of
// ECMA-376-1, 18.3.1.99, CT_Worksheet.
func (s *Sheet) frame(part string) string {
	head, _, _ := strings.Cut(part, "<sheetPr")
	fit, protection, merged := "", "", ""
	if s.Page.Percent == 0 {
		fit = `<sheetPr><pageSetUpPr fitToPage="1"/></sheetPr>`
	}
	if s.lock {
		protection = `<sheetProtection sheet="1" objects="1" scenarios="1" formatColumns="0" formatRows="0"/>`
	}
	if n := len(s.merged); n > 0 {
		merged = fmt.Sprintf(`<mergeCells count="%d"><mergeCell ref="%s"/></mergeCells>`, n, strings.Join(s.merged, `"/><mergeCell ref="`))
	}
	return strings.Join([]string{
		head, fit,
		`<dimension ref="A1:` + Address(max(s.wide, 1)-1, max(s.row, 1)) + `"/>`,
		inside(part, "sheetViews"),
		fmt.Sprintf(`<sheetFormatPr defaultRowHeight="%d"/>`, rowHeight),
		inside(part, "cols"),
		noRows,
		protection,
		inside(part, "autoFilter"),
		merged,
		inside(part, "dataValidations"),
		fmt.Sprintf(`<pageMargins left="%[1]g" right="%[1]g" top="%[2]g" bottom="%[2]g" header="0.3" footer="0.3"/>`, sideMargin, headMargin),
		s.Page.setup(), s.Page.headerFooter(), s.breaksText(), "</worksheet>",
	}, "")
}
