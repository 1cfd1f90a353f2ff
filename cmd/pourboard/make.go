package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"

	"pourboard/blend"
	"pourboard/blend/class"
	"pourboard/blend/record"
	"pourboard/layout"
	"pourboard/render/logbook"
	"pourboard/render/pourbook"
	"pourboard/render/sheets"
	"pourboard/render/text"
	"pourboard/render/wording"
	"pourboard/render/xlsx"
)

func makeCommand() command {
	return command{
		name: "make",
		line: "make the sheets and the workbooks",
		help: `Usage:  pourboard make PLAN [PLAN ...] [FLAGS]

Writes beside the plan, for a plan named test.toml:

  test.pdf          the sheets: start, tickets, pour card, map, tiles, log;
                    a small test has them on one bench page
  test-pour.xlsx    the amounts as a live spreadsheet; kept once you have
                    saved it, as your numbers may be in it
  test-log.xlsx     the log of the fired tiles; made once, never replaced

Several plans, such as those of a class, also make class-sheet.pdf: batches to
mix once for all, the shopping list, and marks that are easily confused.

  --out FOLDER      write to another folder
  --only LIST       only these parts of the sheets, such as board,pour, in a
                    file of their own, test-board-pour.pdf; the parts are
` + partsHelp() + `  --also LIST       more parts, beyond what is always printed
  --measured MM     measured length of the printed 100 mm bar; corrects the
                    life-size pages for your printer, by at most 5 %
  --free LIST       free places on the first sheet of labels: 3-7,20
  --log-as NAME     write a new log as NAME-log.xlsx, for a changed plan
` + overridesHelp + `
Example:

  pourboard make plan.toml --only board --measured 97.4
`,
		run: runMake,
	}
}

// partsHelp lists the parts of the sheets in lines of a help text.
func partsHelp() string {
	var b strings.Builder
	line := "                   "
	for _, name := range sheets.Parts() {
		if len(line)+1+len(name) > 76 {
			b.WriteString(line + "\n")
			line = "                   "
		}
		line += " " + name
	}
	return b.String() + line + "\n"
}

// makeOptions are what make is asked for beyond the plan.
type makeOptions struct {
	folder    string
	elsewhere string // what is proposed where nothing can be written there
	only      []string
	also      []string
	measured  float64
	free      []int
	logAs     string
	filled    *record.Log // what a new log is filled in with
}

func runMake(u *ui, args []string) error {
	f := flags("make")
	var o overrides
	o.add(f)
	out := f.String("out", "", "")
	only := f.StringSlice("only", nil, "")
	also := f.StringSlice("also", nil, "")
	measured := f.String("measured", "", "")
	free := f.String("free", "", "")
	logAs := f.String("log-as", "", "")
	want := []string{"a plan file"}
	for range args { // as many more as there could be
		want = append(want, "[another plan]")
	}
	args, err := u.parse(f, args, want...)
	if err != nil {
		return err
	}
	if len(args) > 1 && (*logAs != "" || *free != "") {
		return usagef("--log-as and --free take one plan at a time")
	}
	m := makeOptions{folder: *out, elsewhere: byOut, logAs: strings.TrimSuffix(strings.TrimSuffix(*logAs, ".xlsx"), "-log")}
	if m.logAs != filepath.Base(m.logAs) && m.logAs != "" {
		return usagef("--log-as %q names a folder (use --out for the folder)", *logAs)
	}
	if m.only, err = partNames("--only", *only); err != nil {
		return err
	}
	if m.also, err = partNames("--also", *also); err != nil {
		return err
	}
	if m.only != nil && m.also != nil {
		return usagef("choose one of --only and --also")
	}
	if *measured != "" {
		if m.measured, err = millimetres(*measured); err != nil {
			return err
		}
		if m.measured <= 0 {
			return usagef("--measured %q is too small (the printed bar is 100 mm)", *measured)
		}
	}
	o.folder = m.folder
	jobs, err := loadAll(args, o)
	if err != nil {
		return err
	}
	if len(jobs) > 1 {
		return u.makeClass(jobs, m)
	}
	j := jobs[0]
	if *free != "" {
		if j.plan.Labels == nil {
			return usagef("--free needs labels (describe them in [labels] of the plan)")
		}
		if m.free, err = layout.ParseFree(*free, j.plan.Labels.Columns*j.plan.Labels.Rows); err != nil {
			return usagef("--free: %s", err)
		}
	}
	if m.folder == "" {
		m.folder = filepath.Dir(args[0])
	} else if err := os.MkdirAll(m.folder, 0o755); err != nil {
		return notWritten(m.folder, err, byOut)
	}
	if err := u.make(j, m); err != nil {
		return err
	}
	u.warn(args[0], j.notes)
	u.warnMark(j)
	return nil
}

// loadAll works out every plan before anything is written.
func loadAll(files []string, o overrides) ([]*job, error) {
	var jobs []*job
	for i, file := range files {
		if slices.Contains(files[:i], file) {
			return nil, usagef("%s is named twice", file)
		}
		j, err := load(file, o)
		if err != nil {
			return nil, err
		}
		jobs = append(jobs, j)
	}
	return jobs, nil
}

// makeClass makes the sheets of several plans, and the class sheet, which is
// printed as text as well.
func (u *ui) makeClass(jobs []*job, m makeOptions) error {
	var members []class.Member
	folders := map[string]string{}
	for _, j := range jobs {
		folder := m.folder
		if folder == "" {
			folder = filepath.Dir(j.file)
		}
		if other, taken := folders[filepath.Join(folder, j.name)]; taken {
			return usagef("%s and %s would write the same files (rename one)", other, j.file)
		}
		if j.name == "class-sheet" {
			return usagef("%s has the name of the class sheet (rename it)", j.file)
		}
		folders[filepath.Join(folder, j.name)] = j.file
		members = append(members, class.Member{Plan: j.file, Test: j.test})
	}
	for _, j := range jobs {
		own := m
		if own.folder == "" {
			own.folder = filepath.Dir(j.file)
		} else if err := os.MkdirAll(own.folder, 0o755); err != nil {
			return notWritten(own.folder, err, byOut)
		}
		u.printf("%s\n", j.file)
		if err := u.make(j, own); err != nil {
			return err
		}
		u.warn(j.file, j.notes)
	}
	sheet := class.Of(members)
	folder := m.folder
	if folder == "" {
		folder = filepath.Dir(jobs[0].file)
	}
	printed := &output{file: filepath.Join(folder, "class-sheet.pdf"), render: func(w io.Writer) ([]wording.Line, error) {
		return nil, sheets.WriteClass(w, sheet)
	}}
	if printed.prepare(m.elsewhere); printed.err != nil {
		return printed.err
	}
	defer printed.ready.drop()
	if err := printed.place(); err != nil {
		return err
	}
	u.printf("%s\n\n", printed.file)
	return text.Class(u.out, sheet)
}

// partNames checks the names of parts given to a flag, and drops what is named
// twice and the nothing behind a last comma.
func partNames(flag string, names []string) ([]string, error) {
	var all []string
	for _, name := range names {
		name = strings.ToLower(strings.TrimSpace(name))
		if slices.Contains(all, name) || name == "" && all != nil {
			continue
		}
		if !slices.Contains(sheets.Parts(), name) {
			return nil, usagef("%s: unknown part %q%s", flag, name, nearestOrAll(name, sheets.Parts(), "choose from"))
		}
		all = append(all, name)
	}
	return all, nil
}

// output is one file of make.
type output struct {
	file   string
	render func(io.Writer) ([]wording.Line, error)
	notes  []wording.Line
	yields bool // to what a person has saved
	keep   bool // a file of this name is never replaced
	ready  *prepared
	err    error
}

// prepare draws the output and writes it beside its place.
func (o *output) prepare(elsewhere string) {
	var body bytes.Buffer
	if o.notes, o.err = o.render(&body); o.err != nil {
		o.err = fmt.Errorf("%s: %w", o.file, o.err)
		return
	}
	o.ready, o.err = prepare(o.file, body.Bytes(), elsewhere)
}

// place puts the output in its place.
func (o *output) place() error {
	if o.keep {
		return o.ready.create() // it may have come since make looked
	}
	return o.ready.replace()
}

// keptFiles are the workbooks that are not replaced, "" for none.
type keptFiles struct{ pour, log string }

// workbooks are the pour workbook and the log, as far as neither is kept.
func (j *job) workbooks(base string, m makeOptions) (outputs []*output, kept keptFiles, err error) {
	pour := &output{file: base + "-pour.xlsx", yields: true, render: func(w io.Writer) ([]wording.Line, error) {
		return cutTexts(pourbook.Write(w, j.test))
	}}
	if mayReplace(pour.file) {
		outputs = append(outputs, pour)
	} else {
		kept.pour = pour.file
	}
	log := &output{file: base + "-log.xlsx", keep: true, render: func(w io.Writer) ([]wording.Line, error) {
		if m.filled != nil {
			return cutTexts(logbook.WriteFilled(w, j.test, j.places, j.text, m.filled))
		}
		return cutTexts(logbook.Write(w, j.test, j.places, j.text))
	}}
	if m.logAs != "" {
		log.file = filepath.Join(m.folder, m.logAs+"-log.xlsx")
	}
	if _, err := os.Lstat(log.file); err != nil {
		return append(outputs, log), kept, nil
	}
	if err := regular(log.file); err != nil {
		return nil, kept, err
	}
	if m.logAs != "" {
		return nil, kept, fmt.Errorf("%s exists; not overwritten (choose another name with --log-as)", log.file)
	}
	kept.log = log.file
	return outputs, kept, nil
}

// place puts what was drawn in its places. Drawing takes a while: what a person
// has saved since, or another make has put there, is kept.
func (u *ui) place(outputs []*output, m makeOptions, kept *keptFiles) error {
	for _, o := range outputs {
		if o.yields && !mayReplace(o.file) {
			kept.pour = o.file
			continue
		}
		err := o.place()
		if _, there := os.Lstat(o.file); err != nil && o.keep && m.logAs == "" && there == nil {
			kept.log = o.file
			continue
		}
		if err != nil {
			return err
		}
		u.printf("  %s\n", o.file)
	}
	return nil
}

// make writes the outputs of a plan. They are drawn and written side by side,
// and put in their places one after the other when all are done, so that a plan
// that cannot be drawn, or a disk that is full, leaves everything as it was.
func (u *ui) make(j *job, m makeOptions) error {
	defer u.progress("still at work on " + j.file)()
	advice, err := blend.Advise(j.test)
	if err != nil {
		return fmt.Errorf("%s: %w", j.file, err)
	}
	base := filepath.Join(m.folder, j.name)
	printed := sheets.Sheets{
		Test: j.test, Places: j.places, Advice: advice, Notes: j.notes,
		Only: m.only, Also: m.also, MeasuredMM: m.measured, Free: m.free, Tried: j.tried,
	}
	if m.only != nil { // a part does not replace the whole, and is called by what is in it
		drawn, err := printed.Drawn()
		if err != nil {
			return fmt.Errorf("%s: %w", j.file, err)
		}
		base += "-" + strings.Join(drawn, "-")
		if err := j.ofAnother(base + ".pdf"); err != nil {
			return err
		}
	}
	outputs := []*output{{file: base + ".pdf", render: func(w io.Writer) ([]wording.Line, error) { return sheetNotes(printed.Write(w)) }}}
	var kept keptFiles
	if m.only == nil {
		workbooks, k, err := j.workbooks(base, m)
		if err != nil {
			return err
		}
		outputs, kept = append(outputs, workbooks...), k
	}
	var wait sync.WaitGroup
	for _, o := range outputs {
		wait.Go(func() { o.prepare(m.elsewhere) })
	}
	wait.Wait()
	for _, o := range outputs {
		if o.ready != nil {
			defer o.ready.drop()
		}
	}
	for _, o := range outputs {
		if o.err != nil {
			return o.err
		}
		j.notes = append(j.notes, o.notes...)
	}
	if err := u.place(outputs, m, &kept); err != nil {
		return err
	}
	if kept.pour != "" {
		u.printf("  %s kept; it was saved in a spreadsheet, so its amounts may differ from these sheets (for a new one, rename it and run make again)\n", kept.pour)
	}
	if kept.log != "" {
		u.keep(j, kept.log)
	}
	if more := printed.More(); m.only == nil && len(more) > 0 && !u.quiet {
		u.printf("More on request: --also %s\n", strings.Join(more, ","))
	}
	return nil
}

// ofAnother is an error when a file that is to be written bears the name of
// another plan's packet: the part test-pour.pdf that of a plan test-pour.toml,
// which stands beside the file, or beside this plan if the file is there already.
func (j *job) ofAnother(file string) error {
	name := strings.TrimSuffix(filepath.Base(file), ".pdf") + ".toml"
	folders := []string{filepath.Dir(file)}
	if _, err := os.Stat(file); err == nil {
		folders = append(folders, filepath.Dir(j.file))
	}
	for _, folder := range folders {
		other := filepath.Join(folder, name)
		if _, err := os.Stat(other); err == nil {
			return fmt.Errorf("%s would be mixed up with the sheets of %s (choose another folder with --out)", file, other)
		}
	}
	return nil
}

// mayReplace reports whether a pour workbook may be written: there is none, or
// it is as it was written, and nobody has typed the day's numbers into it. What
// is no file at all is for writeFile to complain of.
func mayReplace(file string) bool {
	info, err := os.Stat(file)
	if err != nil || !info.Mode().IsRegular() {
		return true
	}
	f, err := os.Open(file)
	if err != nil {
		return errors.Is(err, fs.ErrNotExist)
	}
	defer f.Close()
	return xlsx.Untouched(f, info.Size())
}

// sheetNotes turns what is said of the sheets into notes.
func sheetNotes(texts []string, err error) ([]wording.Line, error) {
	var notes []wording.Line
	for _, text := range texts {
		notes = append(notes, wording.Line{Place: "sheets", What: text})
	}
	return notes, err
}

// cutTexts turns what a workbook says of texts that it had to cut into notes.
func cutTexts(texts []string, err error) ([]wording.Line, error) {
	var notes []wording.Line
	for _, text := range texts {
		notes = append(notes, wording.Line{Place: "workbook", What: text})
	}
	return notes, err
}

// keep says that the log is kept, and in what it is not of this packet.
func (u *ui) keep(j *job, file string) {
	u.printf("  %s kept; it may be filled in\n", file)
	sheets, err := j.logSheets(file)
	if err != nil {
		u.note("%s: note: %s", j.file, err)
		return
	}
	carried := record.Carry(sheets)
	changed := j.differences(carried)
	logs, runs := j.otherAmounts(carried)
	if changed != nil {
		u.note("%s: note: the plan has changed since %s was made:", j.file, file)
		for _, line := range changed {
			u.note("  %s", line)
		}
	} else if logs != "" || runs != "" {
		u.note("%s: note: %s has other amounts than these sheets:", j.file, file)
	} else {
		return
	}
	if logs != "" || runs != "" {
		u.note("  the log has %s", orNone(logs))
		u.note("  these sheets have %s", orNone(runs))
	}
	u.note("  for a log of these cups, rename it or add --log-as NAME, then run make again")
}
