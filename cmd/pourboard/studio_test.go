package main

import (
	"bytes"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"pourboard/blend/book"
	"pourboard/blend/identity"
	"pourboard/blend/record"
	"pourboard/layout"
	"pourboard/render/logbook"
)

// faulty is a studio on disk, with what its book has to have.
type faulty struct {
	t       *testing.T
	rng     *rand.Rand
	folder  string
	plan    string             // text of all plans but for title and mark
	rows    map[string]float64 // rating by test, mark and firing
	skipped map[string]string  // a part of the reason by a part of the file's name
}

func (f *faulty) write(name string, body []byte) {
	f.t.Helper()
	file := filepath.Join(f.folder, name)
	if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
		f.t.Fatal(err)
	}
	if err := os.WriteFile(file, body, 0o644); err != nil {
		f.t.Fatal(err)
	}
}

// test is a test with a log in which some tiles have a rating: the text of its
// plan, its log as a workbook and as CSV.
func (f *faulty) test(n int, counts bool) (plan, workbook, csv []byte) {
	f.t.Helper()
	title := fmt.Sprint("Test ", n)
	text := strings.Replace(f.plan, "Copper over a magnesia matte", title, 1)
	text = strings.Replace(text, `mark = "MC"`, fmt.Sprintf(`mark = "T%c"`, 'A'+n), 1)
	j, err := loadText("test.toml", []byte(text), overrides{})
	if err != nil {
		f.t.Fatal(err)
	}
	log := &record.Log{}
	table := bytes.NewBufferString("Mark,Rating,Firing,Plan code\n")
	for i := range j.places.Scheme.Tiles() {
		for _, firing := range []string{"A", "B"} {
			if f.rng.IntN(3) == 0 {
				continue
			}
			tile := j.places.Scheme.Tile(i)
			r := record.Reading{Tile: tile, Rating: float64(1 + f.rng.IntN(5)), Firing: firing,
				Coats: make([]record.Coat, j.plan.Tiles.Coats), Numbers: make([]record.Amount, len(j.plan.Log.Numbers))}
			log.Readings = append(log.Readings, r)
			fmt.Fprintf(table, "%s,%g,%s,%s\n", r.Mark, r.Rating, firing, identity.Fingerprint(j.plan))
			if counts {
				f.rows[fmt.Sprint(title, " ", r.Mark, firing)] = r.Rating
			}
		}
	}
	var body bytes.Buffer
	if _, err := logbook.Write(&body, j.test, layout.Boards(j.test), text, log); err != nil {
		f.t.Fatal(err)
	}
	return []byte(text), body.Bytes(), table.Bytes()
}

// faults plant a fault each into a studio, as test n.
var faults = map[string]func(f *faulty, n int){
	"sound": func(f *faulty, n int) {
		plan, log, _ := f.test(n, true)
		f.write(fmt.Sprintf("t%d.toml", n), plan)
		f.write(fmt.Sprintf("t%d-log.xlsx", n), log)
	},
	"broken plan, log with its text": func(f *faulty, n int) {
		_, log, _ := f.test(n, true)
		f.write(fmt.Sprintf("t%d.toml", n), []byte("title = \n"))
		f.write(fmt.Sprintf("t%d-log.xlsx", n), log)
		f.skipped[fmt.Sprintf("t%d.toml", n)] = "line 1: "
	},
	"broken plan, log without text": func(f *faulty, n int) {
		_, _, log := f.test(n, false)
		f.write(fmt.Sprintf("t%d.toml", n), []byte("mark = 7\n"))
		f.write(fmt.Sprintf("t%d-log.csv", n), log)
		f.skipped[fmt.Sprintf("t%d.toml", n)] = ""
		f.skipped[fmt.Sprintf("t%d-log.csv", n)] = "carries none"
	},
	"plan changed since": func(f *faulty, n int) {
		plan, log, _ := f.test(n, true)
		f.write(fmt.Sprintf("t%d.toml", n), bytes.Replace(plan, []byte("percent"), []byte("percent  = [0, 7]\n# percent"), 1))
		f.write(fmt.Sprintf("t%d-log.xlsx", n), log)
	},
	"copied folder": func(f *faulty, n int) {
		plan, log, _ := f.test(n, true)
		for _, folder := range []string{"", "old/"} {
			f.write(fmt.Sprintf("%st%d.toml", folder, n), plan)
			f.write(fmt.Sprintf("%st%d-log.xlsx", folder, n), log)
		}
		f.skipped[fmt.Sprintf("t%d.toml", n)] = "copy of"
	},
	"log without a plan": func(f *faulty, n int) {
		_, log, _ := f.test(n, true)
		f.write(fmt.Sprintf("lost/from a friend %d.xlsx", n), log)
	},
	"plan copied without its log": func(f *faulty, n int) {
		plan, log, _ := f.test(n, true)
		f.write(fmt.Sprintf("t%d.toml", n), plan)
		f.write(fmt.Sprintf("t%d-log.xlsx", n), log)
		f.write(fmt.Sprintf("copies/t%d.toml", n), plan)
		f.skipped[fmt.Sprintf("copies/t%d.toml", n)] = "without a log"
	},
	"log named for no plan": func(f *faulty, n int) {
		plan, log, _ := f.test(n, true)
		f.write(fmt.Sprintf("t%d.toml", n), plan)
		f.write(fmt.Sprintf("fired %d.xlsx", n), log)
	},
	"CSV named for no plan": func(f *faulty, n int) {
		plan, _, log := f.test(n, true)
		f.write(fmt.Sprintf("t%d.toml", n), plan)
		f.write(fmt.Sprintf("crates/fired %d.csv", n), log)
	},
	"CSV without a plan": func(f *faulty, n int) {
		_, _, log := f.test(n, false)
		f.write(fmt.Sprintf("t%d-log.csv", n), log)
		f.skipped[fmt.Sprintf("t%d-log.csv", n)] = "without a plan"
	},
	"rows of another test": func(f *faulty, n int) {
		plan, _, log := f.test(n, true)
		f.write(fmt.Sprintf("t%d.toml", n), plan)
		f.write(fmt.Sprintf("t%d-log.csv", n), append(log, "XY99,3,A,\n"...))
		f.skipped[fmt.Sprintf("t%d-log.csv", n)] = "XY99"
	},
	"log cut off": func(f *faulty, n int) {
		plan, log, _ := f.test(n, false)
		f.write(fmt.Sprintf("t%d.toml", n), plan)
		f.write(fmt.Sprintf("t%d-log.xlsx", n), log[:len(log)/2])
		f.skipped[fmt.Sprintf("t%d-log.xlsx", n)] = "cut short"
	},
	"workbook that is no log": func(f *faulty, n int) {
		f.write(fmt.Sprintf("t%d.xlsx", n), []byte("accounts"))
		f.skipped[fmt.Sprintf("t%d.xlsx", n)] = "is not a workbook"
	},
	"folder without rights": func(f *faulty, n int) {
		if os.Getuid() == 0 || runtime.GOOS == "windows" {
			return // such a user may read it
		}
		folder := filepath.Join(f.folder, fmt.Sprintf("closed%d", n))
		if err := os.Mkdir(folder, 0); err != nil {
			f.t.Fatal(err)
		}
		f.t.Cleanup(func() { os.Chmod(folder, 0o755) })
		f.skipped[fmt.Sprintf("closed%d", n)] = "permission"
	},
	"links in a circle": func(f *faulty, n int) {
		for name, to := range map[string]string{fmt.Sprintf("round%d", n): f.folder, fmt.Sprintf("gone%d.toml", n): "nowhere"} {
			if err := os.Symlink(to, filepath.Join(f.folder, name)); err != nil {
				f.t.Skipf("skipped: no links here: %v", err)
			}
		}
		f.skipped[fmt.Sprintf("round%d", n)] = "not followed"
		f.skipped[fmt.Sprintf("gone%d.toml", n)] = "link to a missing file"
	},
	"files of other kinds": func(f *faulty, n int) {
		for i := range 100 {
			f.write(fmt.Sprintf("pictures%d/%d.jpg", n, i), nil)
		}
	},
}

// Whatever is planted into a studio, every row that can be read stands in its
// book once, what cannot is skipped with its reason, and nothing else is.
func TestBook_faults(t *testing.T) {
	text, err := os.ReadFile("../../testdata/plans/line-series.toml")
	if err != nil {
		t.Fatal(err)
	}
	var kinds []string
	for kind := range faults {
		kinds = append(kinds, kind)
	}
	studios := [][]string{}
	for _, kind := range kinds {
		studios = append(studios, []string{kind, "sound"})
	}
	rng := rand.New(rand.NewPCG(19, 5))
	for range 12 {
		var some []string
		for range 6 {
			some = append(some, kinds[rng.IntN(len(kinds))])
		}
		studios = append(studios, some)
	}
	for _, planted := range studios {
		t.Run(strings.Join(planted, ", "), func(t *testing.T) {
			f := &faulty{t, rng, t.TempDir(), string(text), map[string]float64{}, map[string]string{}}
			for n, kind := range planted {
				faults[kind](f, n)
			}
			u := &ui{out: io.Discard, err: io.Discard}
			b, err := u.readBook(f.folder)
			if err != nil {
				if len(f.rows) == 0 && strings.Contains(err.Error(), "no plans and no logs") {
					return
				}
				t.Fatal(err)
			}
			f.compare(b)
		})
	}
}

func (f *faulty) compare(b *book.Book) {
	found := 0
	for _, c := range b.Chapters {
		for _, tile := range c.Tiles {
			key := fmt.Sprint(c.Title, " ", tile.Mark, tile.Firing)
			if rating, has := f.rows[key]; !has || rating != tile.Rating {
				f.t.Errorf("%s is rated %g, entered is %g", key, tile.Rating, rating)
			}
			found++
		}
	}
	if found != len(f.rows) || b.Tiles != found {
		f.t.Errorf("%d rows in the book, %d counted, want %d", found, b.Tiles, len(f.rows))
	}
	for name, why := range f.skipped {
		n := 0
		for _, s := range b.Skipped {
			if strings.Contains(s.File, name) && strings.Contains(s.Reason, why) {
				n++
			}
		}
		if n != 1 {
			f.t.Errorf("%s is skipped %d times for %q: %v", name, n, why, b.Skipped)
		}
	}
	if len(b.Skipped) != len(f.skipped) {
		f.t.Errorf("skipped %v, want %v", b.Skipped, f.skipped)
	}
}

// What the log's own plan decides is said in the book, and files of other kinds
// are counted there.
func TestBook_said(t *testing.T) {
	text, err := os.ReadFile("../../testdata/plans/line-series.toml")
	if err != nil {
		t.Fatal(err)
	}
	f := &faulty{t, rand.New(rand.NewPCG(1, 2)), t.TempDir(), string(text), map[string]float64{}, map[string]string{}}
	faults["plan changed since"](f, 0)
	faults["log without a plan"](f, 1)
	faults["files of other kinds"](f, 2)
	b, err := (&ui{out: io.Discard, err: io.Discard}).readBook(f.folder)
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []string{"plan was changed since", "no plan beside it"} {
		if notes := b.Chapters[i].Notes; len(notes) != 1 || !strings.Contains(notes[0], want) {
			t.Errorf("%s: notes %q", b.Chapters[i].Title, notes)
		}
	}
	if len(b.Others) != 1 || b.Others[0].File != "*.jpg" || !strings.HasPrefix(b.Others[0].Reason, "100 files") {
		t.Errorf("others: %v", b.Others)
	}
}

// A plan with two logs, one of them made before it was changed, has two chapters: what
// is said of that log stands in its own.
func TestBook_notesOfOneLog(t *testing.T) {
	text, err := os.ReadFile("../../testdata/plans/line-series.toml")
	if err != nil {
		t.Fatal(err)
	}
	f := &faulty{t, rand.New(rand.NewPCG(1, 2)), t.TempDir(), string(text), map[string]float64{}, map[string]string{}}
	_, earlier, _ := f.test(0, true)
	f.plan = strings.Replace(f.plan, "[0, 0.5, 1, 2, 3, 4]", "[0, 0.5, 1, 2, 3, 8]", 1)
	plan, _, now := f.test(0, true)
	f.write("t0.toml", plan)
	f.write("t0-log.xlsx", earlier)
	f.write("t0-log.csv", now)
	b, err := (&ui{out: io.Discard, err: io.Discard}).readBook(f.folder)
	if err != nil {
		t.Fatal(err)
	}
	if len(b.Chapters) != 2 {
		t.Fatalf("%d chapters, want 2; skipped %v", len(b.Chapters), b.Skipped)
	}
	for _, c := range b.Chapters {
		changed := len(c.Logs) == 1 && strings.HasSuffix(c.Logs[0], ".xlsx")
		if said := len(c.Notes) == 1; said != changed || len(c.Notes) > 1 {
			t.Errorf("logs %v have the notes %q", c.Logs, c.Notes)
		}
	}
}
