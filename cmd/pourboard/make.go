package main

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"

	"github.com/spf13/pflag"

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
	folder    string // "" for that of the plan
	elsewhere string // what is proposed where nothing can be written there
	only      []string
	also      []string
	measured  float64
	free      []int
	logAs     string
	filled    *record.Log // what a new log is filled in with
}

// makeFlags are the flags of make as they are typed.
type makeFlags struct {
	out, measured, free, logAs string
	only, also                 []string
}

func (m *makeFlags) add(f *pflag.FlagSet) {
	f.StringVar(&m.out, "out", "", "")
	f.StringSliceVar(&m.only, "only", nil, "")
	f.StringSliceVar(&m.also, "also", nil, "")
	f.StringVar(&m.measured, "measured", "", "")
	f.StringVar(&m.free, "free", "", "")
	f.StringVar(&m.logAs, "log-as", "", "")
}

// options are what the flags ask for, but for --free, which is about a plan.
func (m *makeFlags) options(plans int) (o makeOptions, err error) {
	o = makeOptions{folder: m.out, elsewhere: byOut, logAs: strings.TrimSuffix(strings.TrimSuffix(m.logAs, ".xlsx"), "-log")}
	switch {
	case plans > 1 && (m.logAs != "" || m.free != ""):
		return o, usagef("--log-as and --free take one plan at a time")
	case o.logAs != "" && o.logAs != filepath.Base(o.logAs):
		return o, usagef("--log-as %q names a folder (use --out for the folder)", m.logAs)
	case m.only != nil && m.also != nil:
		return o, usagef("choose one of --only and --also")
	}
	if o.only, err = partNames("--only", m.only); err != nil {
		return o, err
	}
	if o.also, err = partNames("--also", m.also); err != nil {
		return o, err
	}
	if m.measured != "" {
		o.measured, err = millimetres("--measured", m.measured)
	}
	return o, err
}

func runMake(u *ui, args []string) error {
	f := flags("make")
	var o overrides
	o.add(f)
	var m makeFlags
	m.add(f)
	args, err := u.parse(f, args, orMore(args, "[another plan]", "a plan file")...)
	if err != nil {
		return err
	}
	options, err := m.options(len(args))
	if err != nil {
		return err
	}
	o.folder = options.folder
	jobs, err := loadAll(args, o)
	if err != nil {
		return err
	}
	if m.free != "" {
		labels := jobs[0].plan.Labels
		if labels == nil {
			return usagef("--free needs labels (describe them in [labels] of the plan)")
		}
		if options.free, err = layout.ParseFree(m.free, labels.Columns*labels.Rows); err != nil {
			return usagef("--free: %s", err)
		}
	}
	if len(jobs) > 1 {
		return u.makeClass(jobs, options)
	}
	return u.makeSheets(jobs[0], options)
}

// makeSheets makes the files of one plan and prints its notes.
func (u *ui) makeSheets(j *job, m makeOptions) error {
	if err := u.make(j, m); err != nil {
		return err
	}
	u.warn(j.file, j.notes)
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

// folderOf is the folder for the files of a plan, made where it is not there.
func (m makeOptions) folderOf(j *job) (string, error) {
	if m.folder == "" {
		return filepath.Dir(j.file), nil
	}
	return m.folder, makeFolder(m.folder, m.elsewhere)
}

// makeClass makes the sheets of several plans, and the class sheet, which is
// printed as text as well.
func (u *ui) makeClass(jobs []*job, m makeOptions) error {
	var members []class.Member
	written := map[string]string{}
	for _, j := range jobs {
		base := filepath.Join(cmp.Or(m.folder, filepath.Dir(j.file)), j.name)
		if other, taken := written[base]; taken {
			return usagef("%s and %s would write the same files (rename one)", other, j.file)
		}
		if j.name == classSheet {
			return usagef("%s has the name of the class sheet (rename it)", j.file)
		}
		written[base] = j.file
		members = append(members, class.Member{Plan: j.file, Test: j.test})
	}
	for _, j := range jobs {
		u.printf("%s\n", j.file)
		if err := u.make(j, m); err != nil {
			return err
		}
		u.warn(j.file, j.notes)
	}
	folder, err := m.folderOf(jobs[0])
	if err != nil {
		return err
	}
	sheet := class.Of(members)
	var body bytes.Buffer
	file := filepath.Join(folder, classSheet+".pdf")
	if err := sheets.WriteClass(&body, sheet); err != nil {
		return fmt.Errorf("%s: %w", file, err)
	}
	if err := writeFile(file, body.Bytes(), m.elsewhere); err != nil {
		return err
	}
	u.printf("%s\n\n", file)
	return text.Class(u.out, sheet)
}

// classSheet is the name of the class sheet's file, without its ending.
const classSheet = "class-sheet"

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
	render func(io.Writer) ([]string, error)
	notes  []string // what it has to tell
	about  string   // what that is about
	yields bool     // to what a person has saved
	keep   bool     // a file of this name is never replaced
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

// packet is the files that make writes for a plan.
type packet struct {
	outputs  []*output
	keptPour string   // a pour workbook that is not replaced, "" for none
	keptLog  string   // a log that is not replaced, "" for none
	logAs    bool     // the log has a name of its own
	more     []string // parts that can be had as well
}

// packet is what make writes for the plan, nothing drawn yet. A part does not
// replace the whole, and is called by what is in it.
func (j *job) packet(m makeOptions) (*packet, error) {
	folder, err := m.folderOf(j)
	if err != nil {
		return nil, err
	}
	advice, err := blend.Advise(j.test)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", j.file, err)
	}
	printed := sheets.Sheets{
		Test: j.test, Places: j.places, Advice: advice, Notes: j.notes,
		Only: m.only, Also: m.also, MeasuredMM: m.measured, Free: m.free, Tried: j.tried,
	}
	base := filepath.Join(folder, j.name)
	p := &packet{logAs: m.logAs != "", outputs: []*output{{file: base + ".pdf", about: "sheets", render: printed.Write}}}
	if m.only == nil {
		p.more = printed.More()
		return p, p.addWorkbooks(j, base, m)
	}
	drawn, err := printed.Drawn()
	if err != nil {
		return nil, fmt.Errorf("%s: %w", j.file, err)
	}
	p.outputs[0].file = base + "-" + strings.Join(drawn, "-") + ".pdf"
	return p, j.ofAnother(p.outputs[0].file)
}

// addWorkbooks adds the pour workbook and the log, as far as neither is kept.
func (p *packet) addWorkbooks(j *job, base string, m makeOptions) error {
	pour := &output{file: base + "-pour.xlsx", about: "workbook", yields: true, render: func(w io.Writer) ([]string, error) {
		return pourbook.Write(w, j.test)
	}}
	if mayReplace(pour.file) {
		p.outputs = append(p.outputs, pour)
	} else {
		p.keptPour = pour.file
	}
	log := &output{file: base + "-log.xlsx", about: "workbook", keep: true, render: func(w io.Writer) ([]string, error) {
		return logbook.Write(w, j.test, j.places, j.text, m.filled)
	}}
	if p.logAs {
		log.file = filepath.Join(filepath.Dir(base), m.logAs+"-log.xlsx")
	}
	if _, err := os.Lstat(log.file); err != nil {
		p.outputs = append(p.outputs, log)
		return nil
	}
	if err := regular(log.file); err != nil {
		return err
	}
	if p.logAs {
		return fmt.Errorf("%s exists; not overwritten (choose another name with --log-as)", log.file)
	}
	p.keptLog = log.file
	return nil
}

// draw draws the files side by side and writes each beside its place; the first
// that failed is the error.
func (p *packet) draw(elsewhere string) error {
	var wait sync.WaitGroup
	for _, o := range p.outputs {
		wait.Go(func() { o.prepare(elsewhere) })
	}
	wait.Wait()
	for _, o := range p.outputs {
		if o.err != nil {
			return o.err
		}
	}
	return nil
}

// drop removes what was not put in its place.
func (p *packet) drop() {
	for _, o := range p.outputs {
		if o.ready != nil {
			o.ready.drop()
		}
	}
}

// place puts what was drawn in its places. Drawing takes a while: what a person
// has saved since, or another make has put there, is kept.
func (p *packet) place(u *ui) error {
	for _, o := range p.outputs {
		if o.yields && !mayReplace(o.file) {
			p.keptPour = o.file
			continue
		}
		err := o.place()
		if _, there := os.Lstat(o.file); err != nil && o.keep && !p.logAs && there == nil {
			p.keptLog = o.file
			continue
		}
		if err != nil {
			return err
		}
		u.printf("  %s\n", o.file)
	}
	return nil
}

// make writes the files of a plan, and adds their notes to its own. They are
// drawn and written side by side, and put in their places one after the other when
// all are done, so that a plan that cannot be drawn, or a disk that is full, leaves
// everything as it was.
func (u *ui) make(j *job, m makeOptions) error {
	defer u.progress("still at work on " + j.file)()
	p, err := j.packet(m)
	if err != nil {
		return err
	}
	defer p.drop()
	if err := p.draw(m.elsewhere); err != nil {
		return err
	}
	if err := p.place(u); err != nil {
		return err
	}
	if p.keptPour != "" {
		u.printf("  %s kept; you saved it, so its amounts may differ from these sheets (for a new one, rename it and run make again)\n", p.keptPour)
	}
	if p.keptLog != "" {
		u.keep(j, p.keptLog)
	}
	if len(p.more) > 0 && !u.quiet {
		u.printf("More on request: --also %s\n", strings.Join(p.more, ","))
	}
	for _, o := range p.outputs {
		j.notes = append(j.notes, notesOn(o.about, o.notes)...)
	}
	return nil
}

// ofAnother is an error when a file that is to be written bears the name of
// another plan's packet: the part test-pour.pdf that of a plan test-pour.toml,
// beside the file, or beside this plan if the file exists already.
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

// notesOn makes notes of what a renderer has to tell.
func notesOn(about string, texts []string) []wording.Line {
	var notes []wording.Line
	for _, text := range texts {
		notes = append(notes, wording.Line{Place: about, What: text})
	}
	return notes
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
