package sheets

import (
	"bytes"
	"fmt"
	"io"
	"unicode/utf16"

	"pourboard/blend"
	"pourboard/blend/measure"
	"pourboard/blend/quantity"
	"pourboard/layout"
	"pourboard/render/page"
	"pourboard/render/wording"
)

// bucketSubject begins the subject of a bucket ticket's file.
const bucketSubject = "bucket of cup "

// Bucket draws the ticket of a large batch of one cup as a PDF file. kit is the
// instruments that the bucket was worked out for; tried is what was asked for
// otherwise than the plan's file says, or nothing. Nothing is written if anything
// is wrong. The notes are about texts that cannot be printed as they are.
func Bucket(w io.Writer, t *blend.Test, b blend.Bucket, kit measure.Kit, tried string) ([]string, error) {
	// The ticket's figures are those of the bucket's scale, not of the plan's.
	plan, test := *t.Plan, *t
	plan.Kit, test.Plan = kit, &plan
	doc := page.New(plan.Title, bucketSubject+fmt.Sprint(b.Cell), "")
	d := &drawer{Sheets: Sheets{Test: &test, Tried: tried}, plan: &plan, doc: doc, part: part{title: "Bucket"}}
	d.w, d.h = layout.HandPaper(plan.Board)
	f := d.begin("Bucket", fmt.Sprintf("Cup %d: %s.", b.Cell, wording.Contents(t, t.Cells[b.Cell-1])), false)
	d.ticket(f, d.bucketTicket(b))
	f.Y += 3
	hazards := t.Library.Hazards(b.Materials())
	f.List("Take care", body, append(wording.CareLines(hazards), wording.LeachLines(hazards)...))
	f.Para(body, wording.NoProof)
	if err := doc.Write(w); err != nil {
		return nil, err
	}
	return doc.Unprinted(), nil
}

// bucketTicket is the ticket of a bucket.
func (d *drawer) bucketTicket(b blend.Bucket) ticket {
	as := "the cup as measured"
	if b.View == blend.Asked {
		as = "as the plan asks"
	}
	k := ticket{name: fmt.Sprintf("Bucket of cup %d", b.Cell), sg: b.Batch.SG, bucket: true,
		about: fmt.Sprintf("Makes %s mL from %s g of recipe. The recipe is %s.",
			quantity.VolumeText(b.Batch.ML), wording.ScaleText(d.Test, b.Batch.RecipeG), as)}
	for i, p := range d.Test.Cells[b.Cell-1].Pours {
		k.assumed = k.assumed || p.ML > 0 && d.Test.Ends[i].Assumed
	}
	d.mix(&k, b.Batch, b.View)
	return k
}

// IsBucket reports whether a file is a PDF that Bucket wrote: by its subject,
// which is written in hexadecimal UTF-16.
func IsBucket(file []byte) bool {
	subject := []byte("/Subject <FEFF")
	for _, unit := range utf16.Encode([]rune(bucketSubject)) {
		subject = fmt.Appendf(subject, "%04X", unit)
	}
	return bytes.Contains(file, subject)
}
