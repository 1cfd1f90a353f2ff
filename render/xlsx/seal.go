package xlsx

import (
	"crypto/sha256"
	"fmt"
	"io"
	"slices"
	"strings"
)

// coreProperties is the part with the file's title and maker. Its identifier
// (ECMA-376-2, core properties) is the seal of all other parts, by which a file
// is known again that nobody has changed: to have made it is not enough, since
// some libraries change a cell and leave the properties as they are.
const coreProperties = "docProps/core.xml"

// seal is what a part is summed up by; the list of parts of a zip has both
// figures, so that no part need be unpacked to compare them.
type seal struct {
	size uint64
	crc  uint32
}

// sealText is the seal of a workbook's parts, by their names as partName has
// them.
func sealText(parts map[string]seal) string {
	var names []string
	for name := range parts {
		if name != partName(coreProperties) {
			names = append(names, name)
		}
	}
	slices.Sort(names)
	sum := sha256.New()
	for _, name := range names {
		fmt.Fprintf(sum, "%q %d %08x\n", name, parts[name].size, parts[name].crc)
	}
	return fmt.Sprintf("%s %x", program, sum.Sum(nil)[:16])
}

// sealed is the part of the properties with the seal of the other parts.
func sealed(properties string, parts map[string]seal) string {
	return strings.Replace(properties, "</cp:coreProperties>",
		"<dc:identifier>"+sealText(parts)+"</dc:identifier></cp:coreProperties>", 1)
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
	seals := map[string]seal{}
	for name, f := range a.parts {
		seals[name] = seal{f.UncompressedSize64, f.CRC32}
	}
	identifier := ""
	err = (&reading{archive: a}).each(coreProperties, func(s *scanner) (err error) {
		if string(s.name) == "identifier" {
			identifier, err = s.readText("/identifier")
		}
		return err
	})
	return err == nil && identifier == sealText(seals)
}
