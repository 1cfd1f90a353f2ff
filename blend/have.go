package blend

import (
	"fmt"
	"math"
	"strings"

	"pourboard/blend/oxide"
	"pourboard/blend/spell"
)

// Have is what a batch really came to.
type Have struct {
	Glaze string
	ML    float64 // when 0, G counts
	G     float64 // g of slip
	DryG  float64 // g of recipe; with ML it gives the dry content of a mL by itself
}

// Stretch fits the cups to batches that turned out larger or smaller than
// planned: it changes the plan's cup size so that the scarcest of them just
// serves every cup, and says so. A glaze that no cup is poured from is an
// error.
func Stretch(p *Plan, have []Have) ([]Note, error) {
	if len(have) == 0 {
		return nil, nil
	}
	lib := oxide.Builtin().With(p.Materials...)
	t, err := compute(p, lib, nil)
	if err != nil {
		return nil, err
	}
	factor, scarce := math.Inf(1), -1
	for _, h := range have {
		end := t.endNamed(h.Glaze)
		if end < 0 {
			return nil, t.notPoured(h.Glaze)
		}
		// By the exact pours, which grow with the cup: where they are rounded
		// depends on the size that the plan begins with.
		exact, left := 0.0, t.ml(h, end)-p.Kit.Dead
		for _, c := range t.Cells {
			if ml := c.Pours[end].ML; ml > 0 {
				exact += ml
				left -= p.Kit.Loss
			}
		}
		if f := left / exact; f < factor {
			factor, scarce = f, end
		}
	}
	if !(factor > 0) {
		return nil, fmt.Errorf("%q: nothing is left to pour", t.Ends[scarce].Name)
	}
	// To three digits, and down from a size at which rounded pours can no
	// longer be few enough: rounding moves a pour by half a step at most.
	was := p.Cup.Size
	p.Cup.Size = was * factor
	if t, err = compute(p, lib, nil); err != nil {
		return nil, err
	}
	least := math.Inf(1)
	for _, c := range t.Cells {
		for _, pour := range c.Pours {
			if pour.Steps > 0 {
				least = min(least, float64(pour.Steps))
			}
		}
	}
	unit := math.Pow(10, math.Floor(math.Log10(p.Cup.Size))-2)
	most := p.Cup.Size * (1 + min(1/least, 0.25))
	for n := math.Floor(most/unit + hair); n >= 1; n-- {
		p.Cup.Size = n * unit
		if t, err = compute(p, lib, nil); err != nil {
			return nil, err
		}
		if t.serves(have) {
			p.Have = have
			return []Note{t.stretched(have, was)}, nil
		}
	}
	p.Cup.Size = was
	return nil, fmt.Errorf("%q is too little for even the smallest pours", t.Ends[scarce].Name)
}

// notPoured says that no cup is poured from a glaze, and what they are poured
// from.
func (t *Test) notPoured(name string) error {
	var names []string
	for i, e := range t.Ends {
		if t.Batches[i].NeedML > 0 {
			names = append(names, e.Name)
		}
	}
	if meant := spell.Nearest(name, names); meant != "" {
		return fmt.Errorf("no cup is poured from %q; did you mean %q?", name, meant)
	}
	return fmt.Errorf("no cup is poured from %q; they are poured from %s", name, strings.Join(names, ", "))
}

// endNamed is the index of the end of that name that something is poured of,
// or −1.
func (t *Test) endNamed(name string) int {
	for i, e := range t.Ends {
		if e.Name == name && t.Batches[i].NeedML > 0 {
			return i
		}
	}
	return -1
}

// ml is a batch's volume, by its weight where that was given.
func (t *Test) ml(h Have, end int) float64 {
	if h.ML > 0 {
		return h.ML
	}
	return h.G / t.Ends[end].SG
}

// serves reports whether every batch is poured from and none runs out.
func (t *Test) serves(have []Have) bool {
	for _, h := range have {
		end := t.endNamed(h.Glaze)
		if end < 0 || t.Batches[end].NeedML+t.Plan.Kit.Dead > t.ml(h, end)*(1+hair) {
			return false
		}
	}
	return true
}

// stretched is what the batches mean for the cups.
func (t *Test) stretched(have []Have, was float64) Stretched {
	of := t.Plan.Cup.Of
	n := Stretched{
		Cup: CupSize{t.Plan.Cup.Size, of, true}, Was: CupSize{was, of, true},
		Dead: t.Plan.Kit.Dead, Others: len(have) < len(t.Ends),
	}
	for _, h := range have {
		end := t.endNamed(h.Glaze)
		n.Left = append(n.Left, Have{Glaze: h.Glaze, ML: t.ml(h, end) - t.Batches[end].NeedML})
	}
	return n
}
