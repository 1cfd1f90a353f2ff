package xlsx

import (
	"archive/zip"
	"bytes"
	"compress/flate"
	"hash/crc32"
	"io"
	"strings"
)

// mostRows is how many bytes of rows are kept as text. Rows before them are packed
// as they are in the file, in a tenth of the room: a test of 5000 cups has a
// hundred times as many.
const mostRows = 256 << 10

// packed is some text of a part, packed: the blocks of a deflate stream (RFC 1951),
// which can follow each other, and what a zip records of the text.
type packed struct {
	blocks bytes.Buffer
	size   uint64 // of the text
	crc    uint32
}

// add packs texts one behind the other; last ends the stream.
func (p *packed) add(b *Book, last bool, texts ...[]byte) {
	b.packer.Reset(&p.blocks)
	for _, text := range texts {
		if _, err := b.packer.Write(text); err != nil {
			b.Fail(err)
		}
		p.size += uint64(len(text))
		p.crc = crc32.Update(p.crc, crc32.IEEETable, text)
	}
	end := b.packer.Flush
	if last {
		end = b.packer.Close
	}
	if err := end(); err != nil {
		b.Fail(err)
	}
}

// join puts what other has packed behind it.
func (p *packed) join(other *packed) {
	p.blocks.Write(other.blocks.Bytes())
	p.size += other.size
	// Of one length, two texts differ in their sums as the sums before them do,
	// whatever the texts are: here zeros.
	before, nothing := p.crc, uint32(0)
	zeros := make([]byte, mostRows)
	for left := other.size; left > 0; left -= uint64(len(zeros)) {
		zeros = zeros[:min(left, uint64(len(zeros)))]
		before = crc32.Update(before, crc32.IEEETable, zeros)
		nothing = crc32.Update(nothing, crc32.IEEETable, zeros)
	}
	p.crc = before ^ nothing ^ other.crc
}

// newPacker packs at the fastest level, which takes half the time of the usual one
// for files a quarter larger. Packing was half the time of writing a workbook.
func newPacker() *flate.Writer {
	packer, err := flate.NewWriter(io.Discard, flate.BestSpeed)
	if err != nil {
		panic(err) // of an unknown level
	}
	return packer
}

// packRows packs the rows so far if they have become many.
func (s *Sheet) packRows() {
	if len(s.rows) >= mostRows {
		s.packed.add(s.book, false, s.rows)
		s.rows, s.began = s.rows[:0], 0
	}
}

// What comes before and after the rows in the part of a sheet.
const (
	rowsBegin = "<sheetData>"
	rowsEnd   = "</sheetData>"
)

// pack packs a part; the rows of a sheet come into their place.
func (b *Book) pack(name, part string) *packed {
	p := &packed{}
	for i, s := range b.sheets {
		if name != partOfSheet(i) {
			continue
		}
		head, tail, _ := strings.Cut(part, rowsBegin+rowsEnd)
		head, tail = head+rowsBegin, rowsEnd+tail
		if s.packed.size == 0 {
			p.add(b, true, []byte(head), s.rows, []byte(tail))
			return p
		}
		p.add(b, false, []byte(head))
		p.join(&s.packed)
		p.add(b, true, s.rows, []byte(tail))
		return p
	}
	p.add(b, true, []byte(part))
	return p
}

// zipped is a zip of parts: those that say what the rest is first, the rest by
// name, all at one time.
func zipped(parts map[string]*packed) ([]byte, error) {
	var out bytes.Buffer
	size := 0
	for name, p := range parts {
		size += p.blocks.Len() + 2*len(name) + 256
	}
	out.Grow(size)
	z := zip.NewWriter(&out)
	for _, name := range partOrder(parts) {
		p := parts[name]
		w, err := z.CreateRaw(&zip.FileHeader{
			Name: name, Method: zip.Deflate, CRC32: p.crc,
			UncompressedSize64: p.size, CompressedSize64: uint64(p.blocks.Len()),
			CreatorVersion: 20, ReaderVersion: 20, // APPNOTE 4.4.3.2: packed by deflate
			//lint:ignore SA1019 the only form of the date that a raw header takes
			ModifiedDate: 1<<5 | 1, // 1 January 1980, the first day of a zip
		})
		if err != nil {
			return nil, err
		}
		if _, err := w.Write(p.blocks.Bytes()); err != nil {
			return nil, err
		}
		delete(parts, name)
	}
	if err := z.Close(); err != nil {
		return nil, err
	}
	return out.Bytes(), nil
}
