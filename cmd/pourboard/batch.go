package main

import (
	"io"
	"os"
	"slices"

	"github.com/spf13/pflag"

	"pourboard/blend"
	"pourboard/blend/measure"
	"pourboard/blend/oxide"
	"pourboard/blend/quantity"
	"pourboard/render/sheets"
	"pourboard/render/text"
	"pourboard/render/wording"
)

// bucket has the flags of batch.
type bucket struct {
	dryG, ml         float64 // its size; one of them is 0
	scaleG, capacity float64 // of its scale, in g; 0 for the plan's
	sg               float64 // 0 for the cup's own
	page             string  // file of its ticket, "" for none
}

func batchFlags(f *pflag.FlagSet) action {
	var g goOn
	g.add(f)
	var b bucket
	add(f, &b.dryG, "dry", "5 kg", positive(quantity.Mass))
	add(f, &b.ml, "volume", "10 L", positive(quantity.Volume))
	add(f, &b.scaleG, "scale", "1 g", positive(quantity.Mass))
	add(f, &b.capacity, "capacity", "3 kg", positive(quantity.Mass))
	f.StringVar(&b.page, "pdf", "", "ticket.pdf")
	return func(u *ui, args []string) error {
		switch {
		case !g.given():
			return usagef("name the cup to mix (such as --cup 12)")
		case f.Changed("dry") && f.Changed("volume"):
			return oneOf(f, "dry", "volume")
		case b.dryG <= 0 && b.ml <= 0:
			return usagef(`name the amount: --dry "5 kg" or --volume "10 L"`)
		}
		if b.page != "" && notTicket(b.page) {
			return unwrittenf("%s exists and is not a ticket; not overwritten", b.page)
		}
		b.takeSG(&g.overrides)
		j, cups, view, err := g.from(u, args[0])
		if err != nil {
			return err
		}
		if len(cups) != 1 {
			return usagef("%d cups named (a bucket is of one cup)", len(cups))
		}
		return u.mix(j, cups[0], view, b)
	}
}

// mix prints what to weigh for a bucket of a cup, by its number, and writes its page.
func (u *ui) mix(j *job, cup int, view blend.View, b bucket) error {
	kit, err := b.kit(j.plan.Kit)
	if err != nil {
		return err
	}
	size := blend.Amount{Value: b.dryG, Of: blend.Dry}
	if b.ml > 0 {
		size = blend.Amount{Value: b.ml, Of: blend.Volume}
	}
	if bought := j.test.WithoutRecipe(cup - 1); bought != nil {
		if b.sg > 0 || b.page != "" {
			return usagef("%q has no recipe, so cup %d is poured wet (leave out --sg and --pdf)", bought[0], cup)
		}
		wet, err := j.test.WetBucket(cup-1, view, size, kit)
		if err != nil {
			return usagef("%s", err)
		}
		u.care(j.test, wet.Materials())
		u.print(text.WetBucket(j.test, wet, kit))
		return nil
	}
	mixed, err := j.test.Bucket(cup-1, view, size, b.sg, kit)
	if err != nil {
		return usagef("%s", err)
	}
	u.print(text.Bucket(j.test, mixed, kit))
	if b.page != "" {
		u.print("\n")
		notes, err := u.writeAll(&output{file: b.page,
			render: func(w io.Writer) ([]string, error) { return sheets.Bucket(w, j.test, mixed, kit, j.tried) }})
		if err != nil {
			return err
		}
		u.warn(j.file, notes...)
	}
	u.care(j.test, mixed.Materials())
	return nil
}

// notTicket reports whether a file is something else than a ticket, which a ticket
// may take the place of.
func notTicket(file string) bool {
	if !isFile(file) {
		return false
	}
	body, err := os.ReadFile(file)
	return err != nil || len(body) > 0 && !sheets.IsBucket(body)
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

// takeSG takes the specific gravity that the bucket is to have out of --sg: the one
// without a glaze's name.
func (b *bucket) takeSG(o *overrides) {
	for i, read := range o.sg {
		if read.glaze == "" {
			b.sg, o.sg = read.sg, slices.Delete(o.sg, i, i+1)
			return
		}
	}
}

// kit is the plan's instruments with the bucket's own scale.
func (b *bucket) kit(kit measure.Kit) (measure.Kit, error) {
	if b.scaleG > 0 {
		if kit.Fine.Size == 0 && b.scaleG > kit.Scale.Size {
			kit.Fine = kit.Scale // the bench scale is there for what is small
		}
		kit.Scale.Size, kit.Capacity = b.scaleG, 0
	}
	if b.capacity > 0 {
		if b.capacity < kit.Scale.Size {
			return kit, usagef("--capacity is smaller than one step of the scale (such as 3 kg)")
		}
		kit.Capacity = b.capacity
	}
	return kit, nil
}
