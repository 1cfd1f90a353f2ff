package xlsx

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"pourboard/render/xlsx/xlsxtest"
	"strings"
	"syscall"
	"testing"
	"time"
)

// Whole processes of the program are held to mostMemory. Their time is told and
// not tested: what it comes from is, since the limits bound the bytes that are
// unpacked and the elements that are read.
const (
	mostMemory = 64 << 10 // KiB
	wantedTime = 300 * time.Millisecond
)

// spent is what a process took.
type spent struct {
	KiB  int64         // the most memory that it had at a time
	CPU  time.Duration // of all its threads
	Code int
	Errs string
}

// measured names a file of calls to the test's own binary, which puts what they
// took in their place.
const measured = "POURBOARD_MEASURED"

// TestMeasured is no test: it is what runs the program for tried. Linux counts
// the memory of whoever starts a program as the program's own until the program
// has more, and the test, which makes large files, has much more than this.
func TestMeasured(t *testing.T) {
	list := os.Getenv(measured)
	if list == "" {
		t.Skip("there is no program to be measured")
	}
	text, err := os.ReadFile(list)
	if err != nil {
		t.Fatal(err)
	}
	var calls [][]string
	if err := json.Unmarshal(text, &calls); err != nil {
		t.Fatal(err)
	}
	all := make([]spent, len(calls))
	for i, words := range calls {
		var errs bytes.Buffer
		// What hangs is killed and found by its exit code.
		until, cancel := context.WithTimeout(context.Background(), time.Minute)
		c := exec.CommandContext(until, words[0], words[1:]...)
		c.Stderr = &errs
		c.Run()
		cancel()
		if c.ProcessState == nil {
			t.Fatalf("%q cannot be run", words)
		}
		all[i] = spent{
			KiB: int64(c.ProcessState.SysUsage().(*syscall.Rusage).Maxrss),
			CPU: c.ProcessState.UserTime() + c.ProcessState.SystemTime(), Code: c.ProcessState.ExitCode(), Errs: errs.String(),
		}
	}
	if text, err = json.Marshal(all); err == nil {
		err = os.WriteFile(list, text, 0o644)
	}
	if err != nil {
		t.Fatal(err)
	}
}

// tried is what each call of the program took.
func tried(t *testing.T, calls [][]string) []spent {
	t.Helper()
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	text, err := json.Marshal(calls)
	if err != nil {
		t.Fatal(err)
	}
	list := filepath.Join(t.TempDir(), "calls.json")
	if err := os.WriteFile(list, text, 0o644); err != nil {
		t.Fatal(err)
	}
	c := exec.Command(self, "-test.run=^TestMeasured$")
	c.Env = append(os.Environ(), measured+"="+list)
	if out, err := c.CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	all := make([]spent, len(calls))
	if text, err = os.ReadFile(list); err == nil {
		err = json.Unmarshal(text, &all)
	}
	if err != nil {
		t.Fatal(err)
	}
	return all
}

// sparse makes a file of a size that takes no room on the disk.
func sparse(t *testing.T, name string, size int64, head, tail string) {
	t.Helper()
	f, err := os.Create(name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if err := f.Truncate(size); err != nil {
		t.Fatal(err)
	}
	for at, text := range map[int64]string{0: head, size - int64(len(tail)): tail} {
		if _, err := f.WriteAt([]byte(text), at); err != nil {
			t.Fatal(err)
		}
	}
}

// TestHostileProcess gives hostile files to the program, as a person would,
// with a plan of 198 tiles.
func TestHostileProcess(t *testing.T) {
	if testing.Short() {
		t.Skip("a process for each file takes seconds")
	}
	t.Parallel()
	dir := t.TempDir()
	program := filepath.Join(dir, "pourboard")
	xlsxtest.Run(t, "go", "build", "-o", program, "pourboard/cmd/pourboard")
	const plan = "../../testdata/plans/cells-66.toml"

	limits := LimitsFor(198, 60)
	files := []string{}
	hostile := bombs(limits)
	if os.Getenv("POURBOARD_OUTSIDE") == "1" { // the small ones are read by TestHostile
		hostile = append(hostile, hostileFiles()...)
	}
	for i, f := range hostile {
		name := strings.Map(func(r rune) rune {
			if strings.ContainsRune(` /\,`, r) {
				return '-'
			}
			return r
		}, fmt.Sprintf("%03d-%.60s.xlsx", i, f.name))
		files = append(files, filepath.Join(dir, name))
		if err := os.WriteFile(files[i], f.data, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	good := xlsxtest.Zipped(goodParts())
	beside := func(name string) string {
		files = append(files, filepath.Join(dir, name))
		return files[len(files)-1]
	}
	sparse(t, beside("sparse.xlsx"), 1<<30, "", "")
	sparse(t, beside("sparse.csv"), 1<<30, "", "")
	sparse(t, beside("sparse-zip.xlsx"), limits.Bytes, "PK\x03\x04", "")
	// A zip's end stands at the end: the directory is where it says, far behind.
	sparse(t, beside("sparse-before-a-zip.xlsx"), limits.Bytes, "PK\x03\x04", string(good))
	sparse(t, beside("millions-of-parts.xlsx"), limits.Bytes, "PK\x03\x04", zip64End(limits.Bytes, 17_000_000))
	if err := os.Mkdir(beside("folder.xlsx"), 0o755); err != nil {
		t.Fatal(err)
	}
	loop := beside("loop.xlsx")
	if err := os.Symlink(loop, loop); err != nil {
		t.Fatal(err)
	}
	beside("nothing.xlsx")
	if err := syscall.Mkfifo(beside("pipe.xlsx"), 0o644); err != nil {
		t.Fatal(err)
	}
	files = append(files, "/dev/zero")
	const size = 4 << 20
	for name, text := range map[string]string{
		"commas.csv": "Mark," + strings.Repeat(",", size), "long.csv": "Mark," + strings.Repeat("a", 50<<20),
		"sign.csv": "Mark\n" + strings.Repeat("a", size), "lines.csv": "Mark,Gloss\r" + strings.Repeat("\r", size),
		"quotes.csv": `Mark,"` + strings.Repeat(`""`, size/2) + `"`, "open.csv": `Mark,"` + strings.Repeat(",", size),
		"wide.csv": "\xFF\xFE" + strings.Repeat("a\x00", size/2), "wide-signs.csv": "\xFF\xFE" + strings.Repeat("\x2d\x4e", size/2),
		"zero.csv": "Mark\x00", "latin.csv": "Mark,caf\xe9",
	} {
		if err := os.WriteFile(beside(name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}

	var most, longest spent
	var mostOf, longestOf string
	var calls [][]string
	for _, file := range files {
		calls = append(calls, []string{program, "results", plan, file, "--out", dir})
	}
	for i, got := range tried(t, calls) {
		file := files[i]
		name := filepath.Base(file)
		// None of the files has a mark of this plan.
		if got.Code != 1 || strings.Count(got.Errs, "\n") != 1 || !strings.HasPrefix(got.Errs, file) || len(got.Errs) > len(file)+300 {
			t.Errorf("%s: exit code %d: %.1000s", name, got.Code, got.Errs)
		}
		if got.KiB > mostMemory {
			t.Errorf("%s: %d MiB", name, got.KiB>>10)
		}
		if got.KiB > most.KiB {
			most, mostOf = got, name
		}
		if got.CPU > longest.CPU {
			longest, longestOf = got, name
		}
	}
	if left, _ := filepath.Glob(filepath.Join(dir, "*.pdf")); left != nil {
		t.Errorf("written: %q", left)
	}
	t.Logf("of %d files %s took most memory, %d MiB; %s took longest, %v (wanted: below %v)",
		len(files), mostOf, most.KiB>>10, longestOf, longest.CPU, wantedTime)
}
