package blend

import (
	"testing"
)

func TestStretch(t *testing.T) {
	p := planOf(designs()["series"]) // five cups of 136.75 mL, measured as 135: 675 mL
	for _, c := range []struct {
		ml         float64
		want, most float64 // cup size
		grows      bool
	}{
		{675, 98, 101, false},
		{1000, 145, 149, true},
		{500, 72, 75, false},
	} {
		q := *p
		w, err := Stretch(&q, []Have{{Glaze: "Matte", ML: c.ml}})
		if err != nil {
			t.Fatal(err)
		}
		test, err := New(&q)
		if err != nil {
			t.Fatal(err)
		}
		if q.Cup.Size < c.want || q.Cup.Size > c.most || test.Batches[0].NeedML > c.ml {
			t.Errorf("%g mL: cups of %g g, which pour %g mL", c.ml, q.Cup.Size, test.Batches[0].NeedML)
		}
		if n := w[0].(Stretched); n.Cup.Size > n.Was.Size != c.grows || n.Left[0].ML < 0 {
			t.Errorf("%g mL: %+v", c.ml, n)
		}
		if b := test.Batches[0]; !b.Mixed || !close(b.ML, c.ml) {
			t.Errorf("%g mL that are there are a batch of %g mL, mixed %v", c.ml, b.ML, b.Mixed)
		}
		// The size that the plan begins with makes no difference.
		other := *p
		other.Cup.Size *= 1.37
		if _, err := Stretch(&other, []Have{{Glaze: "Matte", ML: c.ml}}); err != nil || other.Cup.Size != q.Cup.Size {
			t.Errorf("%g mL: cups of %g g from %g, of %g from %g; %v", c.ml, q.Cup.Size, p.Cup.Size, other.Cup.Size, 1.37*p.Cup.Size, err)
		}
		// The doses follow what is poured: 1 % of it stays 1 %.
		if d := test.Cells[2].Doses[0]; !close(d.G, test.Cells[2].Pours[0].GotRecipeG/100) {
			t.Errorf("1 %% of a cup of %g g is %g g", q.Cup.Size, d.G)
		}
	}
	for _, h := range []Have{{Glaze: "Nobody", ML: 5}, {Glaze: "Matte", ML: 1}} {
		q := *p
		if _, err := Stretch(&q, []Have{h}); err == nil || q.Cup.Size != p.Cup.Size {
			t.Errorf("%+v gives %v and a cup of %g", h, err, q.Cup.Size)
		}
	}
}
