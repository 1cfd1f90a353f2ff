package pdf

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"pourboard/blend"
	"pourboard/blend/measure"
	"pourboard/blend/quantity"
)

// bucketOf is a bucket of a cell of a test, on a scale of 1 g that takes 3 kg.
func bucketOf(t testing.TB, test *blend.Test, cell int, dryG float64) (blend.Bucket, measure.Kit) {
	t.Helper()
	kit := test.Plan.Kit
	kit.Scale = measure.Step{Size: 1, Unit: measure.Gram}
	kit.Capacity = 3000
	b, err := test.Bucket(cell-1, blend.Measured, blend.Cup{Size: dryG, Of: blend.Dry}, 0, kit)
	if err != nil {
		t.Fatal(err)
	}
	return b, kit
}

// A ticket of every plan's middle cup on every paper goes on one page, with no
// text over another.
func TestBucket_everyPlanAndPaper(t *testing.T) {
	for _, name := range planNames(t) {
		for _, size := range []string{"A4", "Letter", "A5"} {
			t.Run(name+"/"+size, func(t *testing.T) {
				test := packetOf(t, name, onPaper(t, size)).Test
				b, kit := bucketOf(t, test, (len(test.Cells)+1)/2, 5000)
				s, err := drawBucket(test, b, kit, "")
				if err != nil {
					t.Fatal(err)
				}
				out := mustWrite(t, s.doc)
				checkPages(t, s.doc)
				if size != "A5" && len(s.doc.pages) != 1 {
					t.Errorf("%d pages", len(s.doc.pages))
				}
				if !IsBucket(out) {
					t.Error("the ticket is not known for one")
				}
				var again bytes.Buffer
				if _, err := Bucket(&again, test, b, kit, ""); err != nil || !bytes.Equal(out, again.Bytes()) {
					t.Errorf("the same bucket twice is not the same bytes: %v", err)
				}
				if dir := os.Getenv("POURBOARD_PICTURES"); dir != "" {
					if err := os.WriteFile(filepath.Join(dir, name+"-"+size+"-bucket.pdf"), out, 0o666); err != nil {
						t.Fatal(err)
					}
				}
			})
		}
	}
}

// What a bucket weighs is what its ticket says, read back from the paper, in
// steps of the bucket's scale and not of the plan's.
func TestBucket_amounts(t *testing.T) {
	test := packetOf(t, "triaxial-series").Test
	b, kit := bucketOf(t, test, 2, 500)
	if len(b.Batch.Apart) == 0 {
		t.Fatal("nothing to weigh apart in this fixture")
	}
	var out bytes.Buffer
	if _, err := Bucket(&out, test, b, kit, "cups of 100 g, by --cup; the plan's file says 300 g"); err != nil {
		t.Fatal(err)
	}
	outside(t, out.Bytes(), "qpdf", "--check", "FILE")
	text := outside(t, out.Bytes(), "pdftotext", "-layout", "FILE", "-")
	find := func(what ...string) {
		t.Helper()
		for line := range strings.Lines(text) {
			if fields := strings.Join(strings.Fields(line), " "); fields == strings.Join(what, " ") {
				return
			}
		}
		t.Errorf("no line %q in\n%s", what, text)
	}
	find("Cups of 100 g, by --cup; the plan's file says 300 g.")
	for _, w := range b.Batch.Weighings {
		name := w.Material
		if w.Addition {
			name = "+ " + name
		}
		find(name, quantity.RecipeText(w.Percent), kit.Scale.Format(w.Steps), kit.Scale.Format(kit.Scale.Count(w.ReadingG)))
	}
	for _, x := range b.Batch.Apart {
		find("+ "+x.Material, quantity.RecipeText(x.Percent), x.Step.Format(x.Step.Count(x.G)), x.Step.String())
	}
	find("Water into the bucket: " + kit.Scale.Format(kit.Scale.Count(b.Batch.WaterLoads[0])) + " g")
}

func TestBucket_longNames(t *testing.T) {
	long := strings.Repeat("Feldspar of the long valley with a name beyond all reason ", 8)
	test := packetOf(t, "line", func(p *blend.Plan) {
		p.Title = long
		p.Glazes[0].Recipe[0].Material = long
		p.Glazes[0].Recipe[1].Material = strings.Repeat("Unbroken", 40)
	}).Test
	b, kit := bucketOf(t, test, 1, 12000)
	s, err := drawBucket(test, b, kit, "")
	if err != nil {
		t.Fatal(err)
	}
	mustWrite(t, s.doc)
	checkPages(t, s.doc)
}
