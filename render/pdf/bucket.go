package pdf

import (
	"bytes"
	"fmt"
	"io"
	"strings"
	"unicode/utf16"

	"pourboard/blend"
	"pourboard/blend/measure"
	"pourboard/blend/quantity"
	"pourboard/layout"
	"pourboard/render/wording"
)

// Bucket draws the ticket of a large batch of one cell as a PDF file: what is
// weighed on the bucket's scale, and what on a finer one, in the order in which
// it is done. kit is the instruments that the bucket was worked out for; tried
// is what was asked for otherwise than the plan's file says, or nothing. Nothing
// is written if anything is wrong. Warnings are about texts that cannot be
// printed as they are.
func Bucket(w io.Writer, t *blend.Test, b blend.Bucket, kit measure.Kit, tried string) ([]wording.Line, error) {
	s, err := drawBucket(t, b, kit, tried)
	if err != nil {
		return nil, err
	}
	if err := s.doc.write(w); err != nil {
		return nil, err
	}
	return s.strange("ticket"), nil
}

// bucketSubject begins the subject of a ticket's file.
const bucketSubject = "bucket of "

// IsBucket reports whether a file is a PDF that Bucket wrote: by its subject, as
// gopdf writes it, in hexadecimal UTF-16.
func IsBucket(file []byte) bool {
	subject := []byte("/Subject <FEFF")
	for _, unit := range utf16.Encode([]rune(bucketSubject)) {
		subject = fmt.Appendf(subject, "%04X", unit)
	}
	return bytes.Contains(file, subject)
}

// drawBucket is Bucket without the writing.
func drawBucket(t *blend.Test, b blend.Bucket, kit measure.Kit, tried string) (*sheets, error) {
	// The ticket's figures are those of the bucket's scale, not of the plan's.
	plan, test := *t.Plan, *t
	plan.Kit, test.Plan = kit, &plan
	var s *sheets
	for _, sizes := range []bucketSizes{{ticketPt, 1, benchPt}, {benchPt, 0.6, 9.5}, {benchPt, 0.3, 9}} {
		var err error
		if s, err = newSheets(&test, &layout.Places{}, bucketSubject+cupText(b.Cell)); err != nil {
			return nil, err
		}
		s.Tried = tried
		s.section.title = fmt.Sprintf("Bucket of %s", cupText(b.Cell))
		f := s.begin("a scale that reads to " + kit.Scale.String() + finerScales(b.Batch.Apart) + ", a bucket, a sieve, a weighed measuring cylinder, a respirator")
		s.bucket(f, b, sizes)
		f.longTexts()
		if len(s.doc.pages) == 1 {
			break
		}
	}
	return s, nil
}

// bucketSizes are the sizes of a ticket: the largest with which it goes on one
// page are taken.
type bucketSizes struct {
	tablePt, padMM float64
	cautionPt      float64
}

// bucket is the ticket: what it makes, water, materials, what is weighed apart,
// and what to take care of.
func (s *sheets) bucket(f *flow, b blend.Bucket, sizes bucketSizes) {
	t, batch := s.test, b.Batch
	what := "The recipe is that of the cup as it was measured."
	if b.Which == blend.Asked {
		what = "The recipe is the one that the plan asks for."
	}
	f.para(fmt.Sprintf("Makes %s mL of slip, with %s g dry matter and %s g water. %s",
		quantity.VolumeText(batch.ML), wording.ScaleText(t, batch.RecipeG), wording.ScaleText(t, batch.WaterG), what), regular(benchPt))
	if b.Which == blend.Measured {
		if lines := wording.MadeOtherwise(t, b.Cell-1); lines != nil {
			f.para(sentence(strings.Join(lines, "; ")+"; so it is here"), regular(sizes.cautionPt))
		}
	}
	f.items("", s.waterLines(batch), bold(ticketPt))
	if len(batch.Weighings) > 0 {
		f.para(weighingText(batch), regular(benchPt))
		weighings := s.weighingTable(batch)
		weighings.pt, weighings.padMM = sizes.tablePt, sizes.padMM
		f.table(weighings)
	}
	s.apart(f, b, sizes)
	f.para("Percentages are of the dry recipe. What has a + comes on top of that.", regular(benchPt))
	f.need(35)
	f.items("", []string{
		"Dry materials onto the water, left to soak, then stirred.",
		"Sieved and stirred again; nothing left at the bottom.",
		fmt.Sprintf("Specific gravity taken: the weight in g of 100 mL, divided by 100. Expected: %s.%s", quantity.SGText(batch.SG), s.bucketAssumed(b.Cell)),
	}, regular(benchPt))
	f.blanks("Specific gravity:", "By, and date:")
	s.careBlock(f, "", b.Materials(), sizes.cautionPt)
	f.items("–", append(wording.LeachLines(t.HazardsOf(b.Materials())), wording.NoProof), regular(sizes.cautionPt))
}

// bucketAssumed says that a cup's specific gravity rests on one that the plan
// does not give.
func (s *sheets) bucketAssumed(cup int) string {
	for i, p := range s.test.Cells[cup-1].Pours {
		if p.ML > 0 && s.test.Ends[i].Assumed {
			return assumedText(s.test.Ends[i])
		}
	}
	return ""
}

// apart is what the bucket's scale cannot weigh well enough.
func (s *sheets) apart(f *flow, b blend.Bucket, sizes bucketSizes) {
	if len(b.Batch.Apart) == 0 {
		return
	}
	f.need(30)
	f.para("Too little for a scale of "+s.plan.Kit.Scale.String()+"; weigh apart on a finer one:", bold(benchPt))
	t := apartTable(b.Batch.Apart, sizes.tablePt)
	t.padMM = sizes.padMM
	f.table(t)
}
