package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"github.com/spf13/pflag"

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
measured into the cup. With --asked, it is the plan's own figure. A glaze
without a recipe is poured wet; colourants are weighed into it.

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

// bucketFlags are the flags of batch that are about the bucket, as they are typed.
type bucketFlags struct{ dry, volume, scale, capacity, page string }

func (b *bucketFlags) add(f *pflag.FlagSet) {
	f.StringVar(&b.dry, "dry", "", "")
	f.StringVar(&b.volume, "volume", "", "")
	f.StringVar(&b.scale, "scale", "", "")
	f.StringVar(&b.capacity, "capacity", "", "")
	f.StringVar(&b.page, "pdf", "", "")
}

func runBatch(u *ui, args []string) error {
	f := flags("batch")
	var chosen cupFlags
	chosen.add(f)
	var bucket bucketFlags
	bucket.add(f)
	asked := f.Bool("asked", false, "")
	var size blend.Amount
	var sg float64
	j, err := u.onePlan(f, args, func(o *overrides) (err error) {
		if !chosen.given() {
			return usagef("name the cup to mix (such as --cup 12)")
		}
		if size, err = bucket.size(); err != nil {
			return err
		}
		sg, err = o.bucketSG()
		return err
	})
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
	kit, err := bucket.kit(j.plan.Kit)
	if err != nil {
		return err
	}
	if bucket.page != "" {
		if err := notTicket(bucket.page); err != nil {
			return err
		}
	}
	cup, view := cups[0]-1, j.view(u, *asked)
	if bought := j.test.WithoutRecipe(cup); bought != nil {
		if sg > 0 || bucket.page != "" {
			return usagef("%q has no recipe, so cup %d is poured wet (leave out --sg and --pdf)", bought[0], cup+1)
		}
		return u.wetBucket(j.test, cup, view, size, kit)
	}
	b, err := j.test.Bucket(cup, view, size, sg, kit)
	if err != nil {
		return usagef("%s", err)
	}
	if err := text.Bucket(u.out, j.test, b, kit); err != nil {
		return err
	}
	if bucket.page != "" {
		if err := u.ticket(bucket.page, j, b, kit); err != nil {
			return err
		}
	}
	u.care(j.test, b.Materials())
	return nil
}

// wetBucket prints the bucket of a cup, by its index, of bought glazes.
func (u *ui) wetBucket(t *blend.Test, cup int, view blend.View, size blend.Amount, kit measure.Kit) error {
	b, err := t.WetBucket(cup, view, size, kit)
	if err != nil {
		return usagef("%s", err)
	}
	if err := text.WetBucket(u.out, t, b, kit); err != nil {
		return err
	}
	u.care(t, b.Materials())
	return nil
}

// ticket writes the page of a bucket.
func (u *ui) ticket(page string, j *job, b blend.Bucket, kit measure.Kit) error {
	var body bytes.Buffer
	notes, err := sheets.Bucket(&body, j.test, b, kit, j.tried)
	if err != nil {
		return fmt.Errorf("%s: %w", page, err)
	}
	if err := writeFile(page, body.Bytes(), byPage); err != nil {
		return err
	}
	u.printf("\n%s written\n", page)
	u.warn(j.file, notesOn("sheets", notes))
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
		return nil // writing it will say why it cannot be written
	}
	body, err := os.ReadFile(file)
	if err == nil && len(body) > 0 && !sheets.IsBucket(body) {
		return fmt.Errorf("%s exists and is not a ticket; not overwritten (%s)", file, byPage)
	}
	return nil
}

// care says what of a bucket's materials calls for care, and what that means for food ware.
func (u *ui) care(t *blend.Test, materials []string) {
	hazards := t.Library.Hazards(materials)
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

func (b *bucketFlags) size() (blend.Amount, error) {
	if (b.dry == "") == (b.volume == "") {
		return blend.Amount{}, usagef(`name the amount: --dry "5 kg" or --volume "10 L"`)
	}
	if b.dry != "" {
		g, err := amountFlag("--dry", b.dry, quantity.Mass)
		return blend.Amount{Value: g, Of: blend.Dry}, err
	}
	ml, err := amountFlag("--volume", b.volume, quantity.Volume)
	return blend.Amount{Value: ml, Of: blend.Volume}, err
}

// kit is the plan's instruments with the bucket's own scale.
func (b *bucketFlags) kit(kit measure.Kit) (measure.Kit, error) {
	if b.scale != "" {
		g, err := amountFlag("--scale", b.scale, quantity.Mass)
		if err != nil {
			return kit, err
		}
		if kit.Fine.Size == 0 && g > kit.Scale.Size {
			kit.Fine = kit.Scale // the bench scale is there for what is small
		}
		kit.Scale.Size, kit.Capacity = g, 0
	}
	if b.capacity != "" {
		g, err := amountFlag("--capacity", b.capacity, quantity.Mass)
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
