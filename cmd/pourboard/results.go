package main

import (
	"cmp"
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/pflag"

	"pourboard/blend"
	"pourboard/blend/identity"
	"pourboard/blend/record"
	"pourboard/blend/results"
	"pourboard/render/report"
	"pourboard/render/text"
	"pourboard/render/wording"
)

func resultsFlags(f *pflag.FlagSet) action {
	out := f.String("out", "", "print")
	asCSV, asJSON := f.Bool("csv", false, ""), f.Bool("json", false, "")
	var o overrides
	o.add(f)
	return func(u *ui, args []string) error {
		if len(args) == 1 {
			args = append(args, logOf(args[0]))
		}
		if len(args)%2 == 1 {
			return usagef("name a log for %s (give pairs of PLAN and LOG)", args[len(args)-1])
		}
		if err := oneOf(f, "csv", "json"); err != nil {
			return err
		}
		jobs, firings, err := u.readPairs(args, o)
		switch {
		case err != nil:
			return err
		case *asCSV:
			return text.TidyCSV(u.out, firings, version())
		case *asJSON:
			return text.TidyJSON(u.out, firings, version())
		case len(firings) > 1:
			var all []*results.Results
			for _, firing := range firings {
				all = append(all, firing.Results)
			}
			u.print(text.Compare(firings, results.Compare(all)))
			return nil
		default:
			return jobs[args[0]].writeResults(u, firings[0], *out)
		}
	}
}

// readPairs reads pairs of a plan and a log; each plan is worked out once.
func (u *ui) readPairs(args []string, o overrides) (jobs map[string]*job, firings []text.Firing, err error) {
	jobs = map[string]*job{}
	for i := 0; i < len(args); i += 2 {
		if looksLikeLog(args[i]) && !looksLikeLog(args[i+1]) {
			return nil, nil, usagef("%s looks like a log (put the plan first: pourboard results %s %s)", args[i],
				args[i+1], args[i])
		}
		if slices.ContainsFunc(firings, func(f text.Firing) bool { return f.Log == args[i+1] }) {
			return nil, nil, usagef("%s is named twice", args[i+1])
		}
		j := jobs[args[i]]
		if j == nil {
			if j, err = load(args[i], o); err != nil {
				return nil, nil, err
			}
			jobs[args[i]] = j
		}
		r, err := j.resultsOf(u, args[i+1])
		if err != nil {
			return nil, nil, err
		}
		code := identity.Fingerprint(j.plan)
		firings = append(firings, text.Firing{Plan: args[i], Log: args[i+1], Fingerprint: code, Places: j.places,
			Results: r})
	}
	return jobs, firings, nil
}

// resultsOf reads a log and works it out.
func (j *job) resultsOf(u *ui, file string) (*results.Results, error) {
	log, t, notes, err := j.readLog(file)
	if err != nil {
		return nil, err
	}
	log.Notes = append(log.Notes, notes...)
	for _, n := range blend.NotesOf[blend.NoGravity](t) {
		log.Notes = append(log.Notes, wording.Note(n))
	}
	if len(log.Readings) == 0 {
		return nil, j.nothingRead(file, log)
	}
	u.tellLog(file, log)
	return results.Evaluate(t, log), nil
}

// writeResults prints the results of one log and writes their PDF.
func (j *job) writeResults(u *ui, firing text.Firing, out string) error {
	plan := firing.Plan
	if filepath.Clean(firing.Log) != j.logFile() && firing.Results.Log.Origin.Amounts != nil {
		plan += " --log " + firing.Log // otherwise the log beside the plan counts
	}
	u.print(text.Results(firing.Places.Scheme, firing.Results, plan))
	u.print("\n")
	folder := cmp.Or(out, filepath.Dir(j.file))
	notes, err := u.writeAll(&output{file: filepath.Join(folder, j.name+"-results.pdf"),
		render: func(w io.Writer) ([]string, error) { return report.Results(w, j.places, firing.Results, j.tried) }})
	u.warn(j.file, notes...)
	return err
}

// looksLikeLog reports whether a file's name is that of a table and not of a
// plan.
func looksLikeLog(file string) bool {
	return slices.Contains([]string{".xlsx", ".xlsm", ".xls", ".ods", ".csv", ".tsv"},
		strings.ToLower(filepath.Ext(file)))
}

// nothingRead says why a log gave nothing; earlier results stay.
func (j *job) nothingRead(file string, log *record.Log) error {
	if log.Origin.Other {
		differ := strings.Join(j.differences(log.Origin.Carried), "; ")
		const what = "no recorded row matches a mark and mixture of this plan"
		return fmt.Errorf("%s: made for another plan than %s; %s: %s", file, j.file, what, differ)
	}
	if len(log.Complaints) > 0 {
		return fmt.Errorf("%s: no usable rows; first fault in %s", file, log.Complaints[0])
	}
	return fmt.Errorf("%s: no tile recorded yet", file)
}

// tellLog prints what of a log could not be read, and its notes.
func (u *ui) tellLog(file string, log *record.Log) {
	for _, c := range record.Alike(log.Complaints) {
		u.note("%s: %s", file, c)
	}
	u.warn(file, log.Notes...)
}
