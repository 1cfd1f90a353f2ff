package main

import (
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// BenchmarkMake is make as a whole, files written, for 66, 1326 and 5151 cups.
func BenchmarkMake(b *testing.B) {
	text, err := os.ReadFile("../../testdata/plans/cells-66.toml")
	if err != nil {
		b.Fatal(err)
	}
	for divisions, cups := range map[string]string{"10": "66", "50": "1326", "100": "5151"} {
		b.Run("cups="+cups, func(b *testing.B) {
			plan := strings.Replace(string(text), "divisions = 10", "divisions = "+divisions, 1)
			file := filepath.Join(b.TempDir(), "test.toml")
			if err := os.WriteFile(file, []byte(plan), 0o644); err != nil {
				b.Fatal(err)
			}
			for b.Loop() {
				if code := run([]string{"make", "-q", file}, io.Discard, io.Discard); code != exitDone {
					b.Fatal(code)
				}
				os.Remove(filepath.Join(filepath.Dir(file), "test-log.xlsx"))
			}
		})
	}
}
