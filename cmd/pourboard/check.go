package main

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"pourboard/blend"
	"pourboard/blend/identity"
	"pourboard/blend/record"
	"pourboard/render/text"
	"pourboard/render/wording"
)

func checkCommand() command {
	return command{
		name: "check",
		line: "check a plan: mistakes, accuracy, advice",
		help: `Usage:  pourboard check PLAN [FLAGS]

Lists every mistake in a plan with its line, and how to correct it. For a plan
without mistakes it prints how accurate the cups can be, the default
instruments, advice and cautions.

  --book FOLDER     also name cups that tests in this folder have fired before
` + overridesHelp + `
Example:

  pourboard check plan.toml --cup-size "150 g"
`,
		run: runCheck,
	}
}

func runCheck(u *ui, args []string) error {
	f := flags("check")
	studio := f.String("book", "", "tests")
	j, err := u.onePlan(f, args, func(*overrides) error { return nil })
	if err != nil {
		return err
	}
	u.printf("%s: %s\n", j.file, wording.Summary(j.test))
	if worst := wording.Worst(j.test.Library.Hazards(j.test.Materials())); worst != "" {
		u.printf("Take care. %s\n", worst)
	}
	if usual := j.plan.Kit.Defaults; len(usual) > 0 {
		u.printf("Defaults used: %s. Put your own under [measure].\n", strings.Join(usual, ", "))
	}
	advice, err := blend.Advise(j.test)
	if err != nil {
		return fmt.Errorf("%s: %w", j.file, err)
	}
	if err := u.advice(j.test, advice); err != nil {
		return err
	}
	if *studio != "" {
		if err := u.firedBefore(j, *studio); err != nil {
			return err
		}
	}
	u.warn(j.file, j.notes)
	u.warnMark(j)
	return u.warnLog(j)
}

// warnLog says what became of the numbers of the cups since the log beside the
// plan was made: its tiles are painted with them.
func (u *ui) warnLog(j *job) error {
	file := j.logFile()
	if _, err := os.Stat(file); err != nil {
		return nil
	}
	sheets, err := j.logSheets(file)
	if err != nil {
		return nil // results says what is wrong with a log
	}
	carried := record.Carry(sheets)
	changed := j.differences(carried)
	if changed == nil {
		return nil
	}
	lines := wording.Reordered(identity.Reorderings(carried.Outline, identity.OutlineOf(j.plan)), filepath.Base(file))
	if lines == nil {
		u.note("%s: note: the plan has changed since %s was made: %s", j.file, filepath.Base(file), strings.Join(changed, "; "))
		return nil
	}
	u.warn(j.file, lines)
	return nil
}

// advice prints how well a test can be measured and what would be better.
func (u *ui) advice(t *blend.Test, a blend.Advice) error {
	for _, line := range slices.Concat(wording.Advice(a, t.Plan), wording.Dilutions(t)) {
		u.printf("%s\n", line)
	}
	return text.Methods(u.out, a)
}
