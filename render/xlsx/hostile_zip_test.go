package xlsx

import (
	"archive/zip"
	"bytes"
	"compress/flate"
	"encoding/binary"
	"fmt"
	"hash/crc32"
	"io"
	"maps"
	"pourboard/render/xlsx/xlsxtest"
	"slices"
	"strings"
)

func withAlso(part, content string) []byte {
	parts := goodParts()
	parts[part] = content
	return xlsxtest.Zipped(parts)
}

func renamed(from, to string) []byte {
	parts := map[string]string{}
	for name, content := range goodParts() {
		parts[strings.Replace(name, from, to, 1)] = content
	}
	return xlsxtest.Zipped(parts)
}

func manyParts(n int) []byte {
	parts := goodParts()
	for i := len(parts); i < n; i++ {
		parts[fmt.Sprintf("x%d", i)] = ""
	}
	return xlsxtest.Zipped(parts)
}

// withBoth is the whole workbook with two parts changed.
func withBoth(part, content, other, otherContent string) []byte {
	parts := goodParts()
	parts[part], parts[other] = content, otherContent
	return xlsxtest.Zipped(parts)
}

// strict is the whole workbook in the names of ISO/IEC 29500-1, strict.
func strict() []byte {
	parts := goodParts()
	for name, content := range parts {
		content = strings.ReplaceAll(content, "http://schemas.openxmlformats.org/officeDocument/2006/relationships", "http://purl.oclc.org/ooxml/officeDocument/relationships")
		parts[name] = strings.ReplaceAll(content, "http://schemas.openxmlformats.org/spreadsheetml/2006/main", "http://purl.oclc.org/ooxml/spreadsheetml/main")
	}
	return xlsxtest.Zipped(parts)
}

// longName is a workbook whose sheet is said to be in a part of a name of n
// signs; longBroken has a part of that name, cut short.
func longName(n int) []byte {
	return with("xl/_rels/workbook.xml.rels", strings.Replace(goodRels, "worksheets/sheet1.xml", strings.Repeat("s", n), 1))
}

func longBroken(n int) []byte {
	parts := goodParts()
	parts["xl/_rels/workbook.xml.rels"] = strings.Replace(goodRels, "worksheets/sheet1.xml", strings.Repeat("s", n), 1)
	parts["xl/"+strings.Repeat("s", n)] = sheetHead + goodRows
	return xlsxtest.Zipped(parts)
}

// inOnePlace is a workbook of n sheets in parts of their own that are all the
// same bytes of the file.
func inOnePlace(n int) []byte {
	var sheets, relations strings.Builder
	parts := map[string]string{"sheet": sheetHead + strings.Repeat("<x>"+strings.Repeat(" ", 100_000)+"</x>", 10) + sheetTail}
	for i := range n {
		fmt.Fprintf(&sheets, `<sheet name="Tiles" sheetId="%d" r:id="s%d"/>`, i, i)
		fmt.Fprintf(&relations, `<Relationship Id="s%d" Type="worksheet" Target="/s%d"/>`, i, i)
		parts[fmt.Sprintf("s%d", i)] = ""
	}
	parts["xl/workbook.xml"] = "<workbook>" + sheets.String() + "</workbook>"
	parts["xl/_rels/workbook.xml.rels"] = "<Relationships>" + relations.String() + "</Relationships>"
	data := xlsxtest.Zipped(parts)
	// The part "sheet" comes last but for the two of the workbook, in the order
	// of names: s0 … s499, sheet, xl/….
	var whole []byte
	eachEntry(data, func(entry []byte, name string) {
		if name == "sheet" {
			whole = slices.Clone(entry)
		}
	})
	eachEntry(data, func(entry []byte, name string) {
		if strings.HasPrefix(name, "s") {
			copy(entry[8:28], whole[8:28])   // method, times, checksum, sizes
			copy(entry[42:46], whole[42:46]) // place
		}
	})
	return data
}

// eachEntry calls on for each entry of a zip's directory, from its signature on.
func eachEntry(data []byte, on func(entry []byte, name string)) {
	end := len(data) - 22
	at := int(binary.LittleEndian.Uint32(data[end+16:]))
	for at < end {
		n := int(binary.LittleEndian.Uint16(data[at+28:]))
		extra := int(binary.LittleEndian.Uint16(data[at+30:]))
		on(data[at:], string(data[at+46:at+46+n]))
		at += 46 + n + extra
	}
}

// onePlace lets every part begin at the same place of the file.
func onePlace(data []byte, at uint32) []byte {
	data = slices.Clone(data)
	eachEntry(data, func(entry []byte, _ string) { binary.LittleEndian.PutUint32(entry[42:], at) })
	return data
}

// directoryAt says another place of the directory, endField another number of
// two bytes in the record at the end.
func directoryAt(data []byte, at uint32) []byte {
	data = slices.Clone(data)
	binary.LittleEndian.PutUint32(data[len(data)-22+16:], at)
	return data
}

func endField(data []byte, field int, value uint16) []byte {
	data = slices.Clone(data)
	binary.LittleEndian.PutUint16(data[len(data)-22+field:], value)
	return data
}

// remarked adds a remark that is said to have another length than it has.
func remarked(data []byte, said uint16, length int) []byte {
	return append(endField(data, 20, said), bytes.Repeat([]byte("r"), length)...)
}

// falseSize changes the unpacked size of every part in the directory.
func falseSize(data []byte, size uint32) []byte {
	data = slices.Clone(data)
	for at := 0; ; {
		i := bytes.Index(data[at:], []byte("PK\x01\x02"))
		if i < 0 {
			return data
		}
		at += i + 28
		binary.LittleEndian.PutUint32(data[at-4:], size)
	}
}

// zipOne is the whole workbook with one part written as change says, and once
// more under each of the other names.
func zipOne(part, content string, change func(*zip.FileHeader), others ...string) []byte {
	var out bytes.Buffer
	z := zip.NewWriter(&out)
	add := func(name, content string, change func(*zip.FileHeader)) {
		var packed bytes.Buffer
		f, _ := flate.NewWriter(&packed, 6)
		io.WriteString(f, content)
		f.Close()
		h := &zip.FileHeader{Name: name, Method: zip.Deflate, CRC32: crc32.ChecksumIEEE([]byte(content)),
			CompressedSize64: uint64(packed.Len()), UncompressedSize64: uint64(len(content))}
		if change != nil {
			change(h)
		}
		w, err := z.CreateRaw(h)
		if err != nil {
			panic(err)
		}
		w.Write(packed.Bytes())
	}
	parts := goodParts()
	delete(parts, part)
	for _, name := range slices.Sorted(maps.Keys(parts)) {
		add(name, parts[name], nil)
	}
	add(part, content, change)
	for _, name := range others {
		add(name, content, nil)
	}
	z.Close()
	return out.Bytes()
}

// zip64End is the end of a file of a size, of so many parts as it says (APPNOTE
// 6.3.10, 4.3.14 to 4.3.16).
func zip64End(size int64, parts uint64) string {
	const length = 56 + 20 + 22
	le := binary.LittleEndian
	b := le.AppendUint64([]byte("PK\x06\x06"), 44)
	b = append(b, 45, 0, 45, 0, 0, 0, 0, 0, 0, 0, 0, 0)
	for _, n := range []uint64{parts, parts, 46, uint64(size) - length - 46} {
		b = le.AppendUint64(b, n)
	}
	b = append(b, "PK\x06\x07\x00\x00\x00\x00"...)
	b = le.AppendUint32(le.AppendUint64(b, uint64(size)-length), 1)
	b = append(b, "PK\x05\x06\x00\x00\x00\x00"...)
	return string(append(b, "\xFF\xFF\xFF\xFF\xFF\xFF\xFF\xFF\xFF\xFF\xFF\xFF\x00\x00"...))
}
