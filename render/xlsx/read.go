package xlsx

import (
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"pourboard/blend/record"
)

// Read reads a workbook, or a table of text with , ; or tab between the fields
// when name ends in .csv, .txt or .tsv. The name is the file's, for messages
// and its ending; size is its length in bytes. Every error is one sentence
// that begins with the name.
func Read(name string, r io.ReaderAt, size int64, limits Limits) ([]record.Sheet, error) {
	if size > limits.Bytes {
		return nil, fmt.Errorf("%s is too large: %s (at most %s)",
			name, byteCount(size), byteCount(limits.Bytes))
	}
	start := make([]byte, min(size, 8))
	if _, err := r.ReadAt(start, 0); err != nil && err != io.EOF {
		return nil, fmt.Errorf("%s cannot be read: %w", name, err)
	}
	ending := strings.ToLower(filepath.Ext(name))
	switch {
	case size == 0:
		return nil, fmt.Errorf("%s is empty", name)
	case strings.HasPrefix(string(start), "PK"):
		tables, err := readWorkbook(r, size, limits)
		if err != nil {
			return nil, fmt.Errorf("%s %w", name, err)
		}
		return tables, nil
	case ending == ".csv" || ending == ".txt" || ending == ".tsv":
		only, err := readCSV(io.NewSectionReader(r, 0, size), limits)
		if err != nil {
			return nil, fmt.Errorf("%s %w", name, err)
		}
		return []record.Sheet{only}, nil
	case ending == ".toml":
		return nil, fmt.Errorf("%s is a plan, not a log (give %s)", name, whichLog)
	case strings.HasPrefix(string(start), "%PDF-"): // ISO 32000
		return nil, fmt.Errorf("%s is a PDF, not a log (give %s)", name, whichLog)
	}
	const fix = "in its program: File, Save As, Excel .xlsx or .csv, without a password"
	return nil, fmt.Errorf("%s is not a workbook (%s)", name, fix)
}

// whichLog says where the log is for who gave another file.
const whichLog = "the -log.xlsx that make wrote, or its tiles saved as .csv"

// byteCount is a size in words.
func byteCount(n int64) string {
	switch {
	case n < 10_000:
		return fmt.Sprintf("%d bytes", n)
	case n < 10_000_000:
		return fmt.Sprintf("%d kB", n/1000)
	}
	return fmt.Sprintf("%d MB", n/1_000_000)
}
