package xlsx

import (
	"archive/zip"
	"bytes"
	"cmp"
	"encoding/xml"
	"fmt"
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

// zipped is a zip of parts: those that say what the rest is first, the rest by name,
// all at one time.
func (b *Book) zipped(parts map[string]string) ([]byte, error) {
	all, seals := map[string]*packed{}, map[string]seal{}
	for name, part := range parts {
		if name != coreProperties {
			all[name] = new(packed)
			all[name].write([]byte(part))
		}
	}
	for i, s := range b.sheets {
		s.pack()
		s.part.write([]byte(s.tail(parts[partOfSheet(i)])))
		all[partOfSheet(i)] = &s.part
	}
	for name, p := range all {
		seals[partName(name)] = p.seal
	}
	all[coreProperties] = new(packed)
	all[coreProperties].write([]byte(sealed(parts[coreProperties], seals)))
	var out bytes.Buffer
	z := zip.NewWriter(&out)
	first := []string{"_rels/.rels", "[Content_Types].xml"} // the last comes first
	for _, name := range slices.SortedFunc(maps.Keys(all), func(x, y string) int {
		return cmp.Or(slices.Index(first, y)-slices.Index(first, x), strings.Compare(x, y))
	}) {
		if err := all[name].add(z, name); err != nil {
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

// head and tail are the part of a sheet before its rows and behind them: the library's
// with the page and the protection. The order is that of ECMA-376-1, 18.3.1.99,
// CT_Worksheet.
func (s *Sheet) head() string {
	fit, pane, columns := "", "", ""
	if s.Page.Percent == 0 {
		fit = `<sheetPr><pageSetUpPr fitToPage="1"/></sheetPr>`
	}
	if c, r := s.frozen[0], s.frozen[1]; r > 0 {
		pane = fmt.Sprintf(`<sheetViews><sheetView workbookViewId="0"><pane xSplit="%d" ySplit="%d" topLeftCell="%s" activePane="bottomRight" state="frozen"/></sheetView></sheetViews>`,
			c, r, Address(c, r+1))
	}
	if s.widths != nil {
		columns = "<cols>" + string(s.widths) + "</cols>"
	}
	return xml.Header + `<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main">` + fit + pane +
		fmt.Sprintf(`<sheetFormatPr defaultRowHeight="%d"/>`, rowHeight) + columns + "<sheetData>"
}

func (s *Sheet) tail(part string) string {
	protection, merged := "", ""
	if s.lock {
		protection = `<sheetProtection sheet="1" objects="1" scenarios="1" formatColumns="0" formatRows="0"/>`
	}
	if n := len(s.merged); n > 0 {
		merged = fmt.Sprintf(`<mergeCells count="%d"><mergeCell ref="%s"/></mergeCells>`, n, strings.Join(s.merged, `"/><mergeCell ref="`))
	}
	return "</sheetData>" + protection + inside(part, "autoFilter") + merged + inside(part, "dataValidations") +
		fmt.Sprintf(`<pageMargins left="%[1]g" right="%[1]g" top="%[2]g" bottom="%[2]g" header="0.3" footer="0.3"/>`, sideMargin, headMargin) +
		s.Page.setup() + s.Page.headerFooter() + s.breaksText() + "</worksheet>"
}
