package xlsx

import (
	"archive/zip"
	"errors"
	"fmt"
	"io"
	"math"
	"strings"
)

// Limits are what a file may hold. They follow from the plan that the log was
// made for, so that a file that was made to do harm is refused before it costs
// time or memory.
type Limits struct {
	Bytes      int64  // of the file; pictures in it count here only
	Parts      int    // entries of its zip directory
	PartBytes  int64  // of one part when unpacked, and of a CSV
	TotalBytes int64  // of all parts that are read, when unpacked
	Rows       int    // number of the last row that holds a value
	Columns    int    // of the last column that holds a value
	Cells      int    // up to the last value of each row, in all sheets together
	Sheet      string // the only sheet that is read, "" for all
}

// LimitsFor are the limits of a file with tables of about so many rows and
// columns, with room for what a person adds.
func LimitsFor(rows, columns int) Limits {
	l := Limits{Rows: 2*rows + 1000, Columns: columns + 100}
	l.Cells = 2*rows*columns + 10_000
	// A cell takes 50 to 100 bytes when unpacked, a formula or a note more, but
	// a log fills less than half of the cells that it may.
	l.PartBytes = 2<<20 + 64*int64(l.Cells)
	l.TotalBytes = l.PartBytes + l.PartBytes/2
	l.Parts = 2000
	l.Bytes = 512 << 20 // pictures pasted beside the tiles
	return l
}

// maxDirectory is how much of a file may be read to find its parts: some
// 20 000 entries. A directory takes far more memory than it has bytes.
const maxDirectory = 1 << 20

// maxDepth is how deep elements may lie in each other: a workbook needs ten.
const maxDepth = 40

// maxToken is how many bytes a tag, or a text between two, may have: enough for
// the longest text of a cell with each of its characters written as &#x1234;.
const maxToken = 8*maxText + 1<<10

// metered passes on reads until a budget is spent.
type metered struct {
	r    io.ReaderAt
	left int64
}

func (m *metered) ReadAt(p []byte, at int64) (int, error) {
	if m.left -= int64(len(p)); m.left < 0 {
		return 0, errDirectory
	}
	return m.r.ReadAt(p, at)
}

var errDirectory = errors.New("its list of parts is too long")

// archive is the parts of a file, unpacked one at a time within limits.
type archive struct {
	parts  map[string]*zip.File // by name as partName has it
	limits Limits
	left   int64 // bytes that may still be unpacked
	meter  *metered
}

// openArchive reads the directory of a zip and refuses what no workbook has.
func openArchive(r io.ReaderAt, size int64, limits Limits) (*archive, error) {
	m := &metered{r: r, left: maxDirectory}
	z, err := zip.NewReader(m, size)
	switch {
	case m.left < 0:
		return nil, damaged(errDirectory.Error())
	case err != nil:
		return nil, damaged("it is cut short, or not a zip file")
	case len(z.File) > limits.Parts:
		return nil, damaged(fmt.Sprintf("it has %d parts (at most %d)", len(z.File), limits.Parts))
	}
	a := &archive{parts: map[string]*zip.File{}, limits: limits, left: limits.TotalBytes, meter: m}
	for _, f := range z.File {
		name := partName(f.Name)
		if a.parts[name] != nil {
			return nil, damaged(fmt.Sprintf("it has the part %.60q twice", f.Name))
		}
		a.parts[name] = f
	}
	if a.parts["xl/workbook.xml"] == nil {
		return nil, errors.New("is not an Excel workbook (in its program: File, Save As or Export, Excel .xlsx)")
	}
	return a, nil
}

// partName is a part's name as names compare: case does not count, and some
// programs write backslashes or a slash in front.
func partName(name string) string {
	return strings.ToLower(strings.TrimPrefix(strings.ReplaceAll(name, `\`, "/"), "/"))
}

// damaged is the error of a file that is not what it says to be.
func damaged(why string) error {
	return errors.New("is not a workbook: " + why + " (save it again as .xlsx, or use an earlier copy)")
}

// tooLarge is the error of a file that holds more than its plan can fill.
func tooLarge(format string, args ...any) error {
	return fmt.Errorf("holds more than a log of this plan can: "+format+" (is it the log of this plan?)", args...)
}

// has reports whether the file has a part.
func (a *archive) has(name string) bool { return a.parts[partName(name)] != nil }

// open opens a part, to be closed by the caller.
func (a *archive) open(name string) (io.ReadCloser, error) {
	f := a.parts[partName(name)]
	if f == nil {
		return nil, damaged(fmt.Sprintf("the part %.60q is missing", name))
	}
	unpacked, room := f.UncompressedSize64, min(a.limits.PartBytes, a.left)
	switch {
	case f.Flags&1 != 0:
		return nil, errors.New("is locked with a password (save it without one)")
	case unpacked > uint64(room):
		return nil, tooLarge("its part %.60q would unpack to %s, more than the %s left",
			f.Name, byteCount(int64(min(unpacked, 1<<62))), byteCount(room))
	}
	a.left -= int64(unpacked)
	a.meter.left = math.MaxInt64 // from here on it is unpacked bytes that count
	r, err := f.Open()
	if err != nil {
		return nil, damaged(fmt.Sprintf("its part %.60q cannot be unpacked", f.Name))
	}
	return r, nil // archive/zip returns no more bytes than the directory says
}
