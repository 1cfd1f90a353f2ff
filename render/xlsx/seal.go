package xlsx

import (
	"archive/zip"
	"crypto/sha256"
	"fmt"
	"io"
	"slices"
)

// coreProperties is the part with the file's title and maker. Its identifier
// (ECMA-376-2, core properties) is the seal of all other parts. It tells whether
// anybody has changed the file. The name of its maker does not: some libraries change
// a cell and leave the properties as they are.
const coreProperties = "docProps/core.xml"

// seal sums the parts of a workbook up, by name, size and checksum: the list of parts
// of a zip has them, so that no part need be unpacked to compare.
func seal(parts []*zip.FileHeader) string {
	var lines []string
	for _, p := range parts {
		if name := partName(p.Name); name != partName(coreProperties) {
			lines = append(lines, fmt.Sprintf("%q %d %08x\n", name, p.UncompressedSize64, p.CRC32))
		}
	}
	slices.Sort(lines)
	return fmt.Sprintf("%s %x", program, sha256.Sum256(fmt.Append(nil, lines)))
}

// Untouched reports whether a file is a workbook as this package wrote it, so
// that nothing that a person filled in is in it. It reads the list of parts and
// no more than 64 KiB beside; of whatever cannot be read it says no.
func Untouched(r io.ReaderAt, size int64) bool {
	limits := LimitsFor(0, 0)
	limits.PartBytes, limits.TotalBytes = 64<<10, 64<<10 // the properties are all that is unpacked
	a, err := openArchive(r, size, limits)
	if err != nil {
		return false
	}
	var parts []*zip.FileHeader
	for _, f := range a.parts {
		parts = append(parts, &f.FileHeader)
	}
	identifier := ""
	err = (&reading{archive: a}).each(coreProperties, func(s *scanner) (err error) {
		if string(s.name) == "identifier" {
			identifier, err = s.readText("/identifier")
		}
		return err
	})
	return err == nil && identifier == seal(parts)
}
