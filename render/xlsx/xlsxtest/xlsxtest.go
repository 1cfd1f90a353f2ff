package xlsxtest

import (
	"archive/zip"
	"bytes"
	"compress/flate"
	"io"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"sync"
	"testing"

	"pourboard/blend"
	"pourboard/blend/plan"
)

// Tool skips a test when a program is missing, or fails it when all outside
// checks are asked for.
func Tool(t testing.TB, name string) {
	t.Helper()
	if _, err := exec.LookPath(name); err != nil {
		missing(t, name)
	}
}

// Python is an interpreter that has openpyxl: the one on the path, or the
// system's own behind it.
func Python(t testing.TB) string {
	t.Helper()
	name := interpreter()
	if name == "" {
		missing(t, "python3 with openpyxl")
	}
	return name
}

var interpreter = sync.OnceValue(func() string {
	for _, name := range []string{"python3", "/usr/bin/python3"} {
		if exec.Command(name, "-c", "import openpyxl").Run() == nil {
			return name
		}
	}
	return ""
})

func missing(t testing.TB, name string) {
	t.Helper()
	if os.Getenv("POURBOARD_OUTSIDE") == "1" {
		t.Fatalf("%s is missing", name)
	}
	t.Skipf("%s is missing", name)
}

func Run(t testing.TB, name string, args ...string) string {
	t.Helper()
	var out, errs bytes.Buffer
	c := exec.Command(name, args...)
	c.Stdout, c.Stderr = &out, &errs
	if err := c.Run(); err != nil {
		t.Fatalf("%s: %v\n%s%s", name, err, strings.TrimSpace(errs.String()), out.String())
	}
	return out.String()
}

func Unzipped(t testing.TB, data []byte) map[string]string {
	t.Helper()
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		t.Fatal(err)
	}
	parts := map[string]string{}
	for _, f := range z.File {
		r, err := f.Open()
		if err != nil {
			t.Fatal(err)
		}
		content, err := io.ReadAll(r)
		if err != nil {
			t.Fatal(err)
		}
		parts[f.Name] = string(content)
	}
	return parts
}

// Zipped is the parts as a zip file, in the order of their names.
func Zipped(parts map[string]string) []byte {
	var out bytes.Buffer
	z := zip.NewWriter(&out)
	packer, _ := flate.NewWriter(io.Discard, flate.BestSpeed)
	z.RegisterCompressor(zip.Deflate, func(w io.Writer) (io.WriteCloser, error) { // parts come one after the other
		packer.Reset(w)
		return packer, nil
	})
	for _, name := range slices.Sorted(maps.Keys(parts)) {
		w, err := z.Create(name)
		if err == nil {
			_, err = io.WriteString(w, parts[name])
		}
		if err != nil {
			panic(err)
		}
	}
	if err := z.Close(); err != nil {
		panic(err)
	}
	return out.Bytes()
}

// Plans are the plans in testdata, by name.
func Plans(t testing.TB) map[string]*blend.Plan {
	t.Helper()
	files, err := filepath.Glob(filepath.Join(Root(), "testdata/plans/*.toml"))
	if err != nil || len(files) == 0 {
		t.Fatalf("no plans: %v", err)
	}
	plans := map[string]*blend.Plan{}
	for _, file := range files {
		src, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		p, _, err := plan.Read(filepath.Base(file), src)
		if err != nil {
			t.Fatal(err)
		}
		plans[strings.TrimSuffix(filepath.Base(file), ".toml")] = p
	}
	return plans
}

func Test(t testing.TB, p *blend.Plan) *blend.Test {
	t.Helper()
	test, err := blend.New(p)
	if err != nil {
		t.Fatal(err)
	}
	return test
}

// Root is the top of the repository.
func Root() string {
	_, file, _, _ := runtime.Caller(0)
	return filepath.Join(filepath.Dir(file), "../../..")
}
