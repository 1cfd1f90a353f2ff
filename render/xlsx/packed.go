package xlsx

import (
	"archive/zip"
	"bytes"
	"compress/flate"
	"hash/crc32"
	"slices"
)

// packed is a part as it is in a zip. Parts are packed while they are written: a test
// of 5000 cups has 50 MB of rows, which are a tenth of it then.
type packed struct {
	blocks bytes.Buffer
	seal
}

// mostRows is how many bytes of rows are kept as text.
const mostRows = 256 << 10

// newPacker packs at the fastest level, which takes half the time of the usual one
// for files a quarter larger.
func newPacker() *flate.Writer {
	packer, _ := flate.NewWriter(nil, flate.BestSpeed) // the level is valid
	return packer
}

// write packs a text behind those before it. The blocks of a stream can follow each
// other (RFC 1951), so that one packer, which takes 1 MB, does for all parts.
func (p *packed) write(packer *flate.Writer, text []byte) {
	packer.Reset(&p.blocks)
	packer.Write(text) // into memory, which does not fail
	packer.Flush()
	p.size += uint64(len(text))
	p.crc = crc32.Update(p.crc, crc32.IEEETable, text)
}

// add adds the part to a zip, and forgets it.
func (p *packed) add(z *zip.Writer, packer *flate.Writer, name string) error {
	packer.Reset(&p.blocks)
	packer.Close()
	w, err := z.CreateRaw(&zip.FileHeader{
		Name: name, Method: zip.Deflate, CRC32: p.crc,
		UncompressedSize64: p.size, CompressedSize64: uint64(p.blocks.Len()),
		CreatorVersion: 20, ReaderVersion: 20, // APPNOTE 4.4.3.2: packed by deflate
		//lint:ignore SA1019 the only form of the date that a raw header takes
		ModifiedDate: 1<<5 | 1, // 1 January 1980, the first day of a zip
	})
	if err == nil {
		_, err = p.blocks.WriteTo(w)
		p.blocks = bytes.Buffer{}
	}
	return err
}

// pack packs the rows so far, behind the head of the sheet.
func (s *Sheet) pack() {
	if s.part.size == 0 {
		s.rows = slices.Insert(s.rows, 0, []byte(s.head())...)
	}
	s.part.write(s.book.packer, s.rows)
	s.rows = s.rows[:0]
}
