package main

import (
	"bytes"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"testing"

	"pourboard/blend/record"
	"pourboard/layout"
	"pourboard/render/logbook"
)

// studioOf writes n tests of one plan with a log in which every tile is rated.
func studioOf(t testing.TB, plan string, n int) (folder string) {
	t.Helper()
	src, err := os.ReadFile(filepath.Join("..", "..", "testdata", "plans", plan+".toml"))
	if err != nil {
		t.Fatal(err)
	}
	folder = filepath.Join(t.TempDir(), "studio")
	if err := os.Mkdir(folder, 0o755); err != nil {
		t.Fatal(err)
	}
	for i := range n {
		name := filepath.Join(folder, fmt.Sprintf("test%d", i))
		text := bytes.Replace(src, []byte("title = \""), fmt.Appendf(nil, "title = \"%d ", i), 1)
		r, err := newReader(name, text)
		if err != nil {
			t.Fatal(err)
		}
		filled := &record.Log{}
		for k := range r.Scheme.Tiles() {
			filled.Readings = append(filled.Readings, record.Reading{Tile: r.Scheme.Tile(k), Rating: float64(1 + (i+k)%5), Notes: fmt.Sprint("note ", k), Firing: "A",
				Coats: make([]record.Coat, r.Test.Plan.Tiles.Coats), Numbers: make([]record.Amount, len(r.Test.Plan.Log.Numbers))})
		}
		var log bytes.Buffer
		if _, err := logbook.Write(&log, r.Test, layout.Boards(r.Test), string(text), filled); err != nil {
			t.Fatal(err)
		}
		for file, body := range map[string][]byte{name + ".toml": text, name + "-log.xlsx": log.Bytes()} {
			if err := os.WriteFile(file, body, 0o644); err != nil {
				t.Fatal(err)
			}
		}
	}
	return folder
}

func BenchmarkBook_50(b *testing.B) {
	folder := studioOf(b, "triaxial", 50)
	for b.Loop() {
		if code := run([]string{"book", "-q", folder}, io.Discard, io.Discard); code != exitDone {
			b.Fatal(code)
		}
	}
}
