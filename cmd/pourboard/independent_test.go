package main

import (
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
)

// python is an interpreter with what a check needs, by a line that imports it.
// Where there is none the test is skipped, or fails under POURBOARD_OUTSIDE.
func python(t *testing.T, imports string) string {
	t.Helper()
	for _, path := range []string{"/usr/bin/python3", "python3"} {
		if exec.Command(path, "-c", imports).Run() == nil {
			return path
		}
	}
	if os.Getenv("POURBOARD_OUTSIDE") != "" {
		t.Fatalf("no Python that can do %q", imports)
	}
	t.Skipf("skipped: no Python that can do %q", imports)
	return ""
}

// An engine written in another language from the design agrees on every figure
// of every plan that it can work out.
func TestIndependentEngine(t *testing.T) {
	t.Parallel()
	py := python(t, "import tomllib")
	plans, err := filepath.Glob("../../testdata/plans/*.toml")
	if err != nil || len(plans) < 20 {
		t.Fatalf("%d plans, %v", len(plans), err)
	}
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	c := exec.Command(py, append([]string{"../../testdata/independent/engine.py", self}, plans...)...)
	c.Env = append(os.Environ(), asProgram+"=1")
	out, err := c.CombinedOutput()
	if err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	t.Logf("%s", out)
}

// A reader of studios in another language finds the same tiles and percentages
// as the record book, and a filter of it counts the same tiles. LibreOffice
// counts too under POURBOARD_OUTSIDE=1; otherwise openpyxl.
func TestIndependentStudio(t *testing.T) {
	t.Parallel()
	py := python(t, "import tomllib, openpyxl")
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	folder := filepath.Join(t.TempDir(), "studio")
	if code := run([]string{"demo", folder}, io.Discard, io.Discard); code != exitDone {
		t.Fatal(code)
	}
	args := []string{"../../testdata/independent/studio.py", self, folder}
	for _, name := range []string{"biaxial-series", "triaxial-weight", "quadraxial", "rows", "pairs"} {
		args = append(args, "../../testdata/plans/"+name+".toml")
	}
	c := exec.Command(py, args...)
	c.Env = append(os.Environ(), asProgram+"=1")
	if office, err := exec.LookPath("soffice"); err == nil && os.Getenv("POURBOARD_OUTSIDE") == "1" {
		c.Env = append(c.Env, "SOFFICE="+office)
	}
	out, err := c.CombinedOutput()
	if err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	t.Logf("%s", out)
}
