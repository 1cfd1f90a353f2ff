package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"pourboard/blend"
	"pourboard/blend/measure"
	"pourboard/blend/oxide"
	"pourboard/blend/quantity"
	"pourboard/render/sheets"
	"pourboard/render/text"
	"pourboard/render/wording"
)

func batchCommand() command {
	return command{
		name: "batch",
		line: "scale one cup up to a bucket",
		help: `Usage:  pourboard batch PLAN --cup N --dry "5 kg" [FLAGS]

Prints what to weigh for a bucket of one cup's glaze. The recipe is what was
measured into the cup. With --asked, it is the plan's own figure.

  --cup N           number of the cup
` + nearHelp + `  --dry AMOUNT      dry glaze in the bucket, such as "5 kg"
  --volume AMOUNT   or wet glaze in the bucket, such as "10 L"
  --asked           use the recipe as the plan asks, not as measured
  --sg NUMBER       SG of the bucket, instead of the cup's own
                    (NAME=NUMBER is the SG that you read of one glaze)
  --scale STEP      smallest step of your bucket scale, such as "1 g"
  --capacity AMOUNT most it can weigh at once, such as "3 kg"
  --pdf FILE        write the ticket as a page to print
` + measuredHelp + `
Example:

  pourboard batch plan.toml --cup 12 --dry "5 kg" --scale "1 g"
`,
		run: runBatch,
	}
}

func runBatch(u *ui, args []string) error {
	f := flags("batch")
	var chosen cupFlags
	chosen.add(f)
	dry, volume := f.String("dry", "", ""), f.String("volume", "", "")
	asked := f.Bool("asked", false, "")
	scale, capacity := f.String("scale", "", ""), f.String("capacity", "", "")
	page := f.String("pdf", "", "")
	var o overrides
	o.add(f)
	args, err := u.parse(f, args, "a plan file")
	if err != nil {
		return err
	}
	if !chosen.given() {
		return usagef("name the cup to mix (such as --cup 12)")
	}
	size, err := bucketSize(*dry, *volume)
	if err != nil {
		return err
	}
	sg, err := o.bucketSG()
	if err != nil {
		return err
	}
	j, err := load(args[0], o)
	if err != nil {
		return err
	}
	cups, err := chosen.choose(u, j.test)
	if err != nil {
		return err
	}
	if len(cups) != 1 {
		return usagef("%d cups named (a bucket is of one cup)", len(cups))
	}
	kit, err := bucketKit(j.plan.Kit, *scale, *capacity)
	if err != nil {
		return err
	}
	if *page != "" {
		if err := notTicket(*page); err != nil {
			return err
		}
	}
	view := j.view(u, *asked)
	b, err := j.test.Bucket(cups[0]-1, view, size, sg, kit)
	if err != nil {
		return usagef("%s", err)
	}
	if err := text.Bucket(u.out, j.test, b, kit); err != nil {
		return err
	}
	if *page != "" {
		var body bytes.Buffer
		notes, err := sheetNotes(sheets.Bucket(&body, j.test, b, kit, j.tried))
		if err != nil {
			return fmt.Errorf("%s: %w", *page, err)
		}
		if err := writeFile(*page, body.Bytes(), byPage); err != nil {
			return err
		}
		u.printf("\n%s written\n", *page)
		u.warn(args[0], notes)
	}
	u.care(j.test, b)
	return nil
}

// notTicket is an error when a ticket is to be written under the name of a
// plan's packet, of a part of it or of its results, or in place of a file that
// is no ticket.
func notTicket(file string) error {
	stem := strings.TrimSuffix(file, filepath.Ext(file))
	for filepath.Ext(file) != ".toml" {
		if _, err := os.Stat(stem + ".toml"); err == nil {
			return fmt.Errorf("%s would be mixed up with the pages of %s (%s)", file, stem+".toml", byPage)
		}
		at := strings.LastIndex(stem, "-")
		if at < 0 || stem[at+1:] != "results" && !slices.Contains(sheets.Parts(), stem[at+1:]) {
			break
		}
		stem = stem[:at]
	}
	info, err := os.Stat(file)
	if err != nil || !info.Mode().IsRegular() {
		return nil // that it cannot be written is told when it is
	}
	body, err := os.ReadFile(file)
	if err == nil && len(body) > 0 && !sheets.IsBucket(body) {
		return fmt.Errorf("%s exists and is not a ticket; not overwritten (%s)", file, byPage)
	}
	return nil
}

// care says what in a bucket calls for care, and what that means for food ware.
func (u *ui) care(t *blend.Test, b blend.Bucket) {
	hazards := t.HazardsOf(b.Materials())
	for _, h := range oxide.Special(hazards) {
		u.note("%s", wording.CareLine(h))
	}
	for _, line := range wording.LeachLines(hazards) {
		u.note("%s", line)
	}
	u.note("%s", wording.NoProof)
}

// bucketSG takes the specific gravity that a bucket is to have out of --sg, 0
// when none is given: the one without a glaze's name.
func (o *overrides) bucketSG() (sg float64, err error) {
	o.sg = slices.DeleteFunc(o.sg, func(text string) bool {
		if strings.Contains(text, "=") || err != nil {
			return false
		}
		if sg, err = strconv.ParseFloat(text, 64); err != nil {
			err = usagef("--sg %q is not a number", text)
		} else if !(sg > 1 && sg < 10) {
			err = usagef("--sg %g is out of range for a glaze (such as 1.45)", sg)
		}
		return true
	})
	return sg, err
}

func bucketSize(dry, volume string) (blend.Cup, error) {
	if (dry == "") == (volume == "") {
		return blend.Cup{}, usagef(`name the amount: --dry "5 kg" or --volume "10 L"`)
	}
	if dry != "" {
		g, err := amountFlag("--dry", dry, quantity.Mass)
		return blend.Cup{Size: g, Of: blend.Dry}, err
	}
	ml, err := amountFlag("--volume", volume, quantity.Volume)
	return blend.Cup{Size: ml, Of: blend.Volume}, err
}

// amountFlag reads an amount above 0 that a flag gives.
func amountFlag(flag, text string, read func(string) (float64, error)) (float64, error) {
	x, err := read(text)
	if err == nil && x == 0 {
		err = fmt.Errorf("%q is too small (more than 0)", text)
	}
	if err != nil {
		return 0, usagef("%s: %s", flag, err)
	}
	return x, nil
}

// bucketKit is the plan's instruments with the bucket's own scale.
func bucketKit(kit measure.Kit, scale, capacity string) (measure.Kit, error) {
	if scale != "" {
		g, err := amountFlag("--scale", scale, quantity.Mass)
		if err != nil {
			return kit, err
		}
		if kit.Fine.Size == 0 && g > kit.Scale.Size {
			kit.Fine = kit.Scale // the bench scale is there for what is small
		}
		kit.Scale.Size, kit.Capacity = g, 0
	}
	if capacity != "" {
		g, err := amountFlag("--capacity", capacity, quantity.Mass)
		if err != nil {
			return kit, err
		}
		if g < kit.Scale.Size {
			return kit, usagef("--capacity is smaller than one step of the scale (such as 3 kg)")
		}
		kit.Capacity = g
	}
	return kit, nil
}
