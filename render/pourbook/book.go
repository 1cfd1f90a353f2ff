package pourbook

import (
	"fmt"
	"io"
	"slices"

	"pourboard/blend"
	"pourboard/render/xlsx"
)

// pourBook is the workbook of amounts while it is written.
type pourBook struct {
	*xlsx.Book
	t      *blend.Test
	asked  *blend.Test         // without the pours that came out otherwise
	q      int                 // end glazes
	slots  int                 // pours of a cup: as many as end glazes, but 2 where each cup is of two of them
	k      int                 // series
	doses  int                 // series whose colourant is measured into the cups by itself
	scale  bool                // glazes are poured on a scale
	weigh  bool                // cups are weighed dry
	dry    []blend.DryMaterial // that can be in cups
	poured []int               // by end glaze: cups that get some

	card, recipes, chemistry, working grid
	inputs, batches                   *xlsx.Sheet
	places                            map[string]place // of columns, by their keys
	typed                             []input          // written so far on the sheet Inputs
	weighed                           []weighed        // by end glaze
	mixRows                           []int            // by mix with dry base: its first row below the card
}

// Write writes the workbook of a test's amounts: the pour card first, then what
// can be changed on the day, and all that follows from it as formulas. Each
// carries the value that the test has. Warnings are the texts that had to be cut.
func Write(w io.Writer, t *blend.Test) (warnings []string, err error) {
	asked := t
	if p := *t.Plan; len(p.Poured) > 0 {
		p.Poured = nil
		if asked, err = blend.New(&p); err != nil {
			return nil, err
		}
	}
	b := newBook(t, asked)
	b.writeInputs()
	if !b.weigh {
		b.writeBatches()
	}
	b.writeCard()
	if b.recipes.Sheet != nil {
		b.writeRecipes()
	}
	if b.chemistry.Sheet != nil {
		b.writeChemistry()
	}
	b.writeWorking()
	return b.Warnings(), b.Write(w)
}

// newBook is the workbook with the columns of all its sheets laid out (buildCard,
// buildWorking) and nothing written: a formula can name a column of any sheet.
func newBook(t, asked *blend.Test) *pourBook {
	b := &pourBook{
		Book: xlsx.New(t.Plan.Title + " – pour workbook"), t: t, asked: asked,
		q: len(t.Ends), slots: len(t.Ends), k: len(t.Plan.Blend.Series),
		poured: make([]int, len(t.Ends)), weighed: make([]weighed, len(t.Ends)), places: map[string]place{},
	}
	if b.pairs() {
		b.slots = 2
	}
	for _, c := range t.Cells {
		for e, p := range c.Pours {
			if p.ML > 0 {
				b.poured[e]++
			}
		}
	}
	if b.weigh = t.Plan.Blend.Method == blend.ByWeigh; b.weigh {
		b.dry = t.DryMaterials()
		b.card, b.inputs = b.grid("Weigh card"), b.sheet("Inputs")
	} else {
		b.dry, b.scale = t.WeighOrder(), t.Plan.Kit.OnScale()
		if !b.blended() {
			b.doses = b.k
		}
		b.card, b.inputs, b.batches = b.grid("Pour card"), b.sheet("Inputs"), b.sheet("Batches")
		if len(b.dry) > 0 {
			b.recipes = b.grid("Recipes")
		}
	}
	if len(b.dry) > 0 {
		b.chemistry = b.grid("Chemistry")
	}
	b.working = b.grid("Working")
	b.buildCard()
	b.buildWorking()
	return b
}

// sheet adds a locked sheet with its page. What can be changed on the day, as
// the size of the cups, is not in its foot.
func (b *pourBook) sheet(name string) *xlsx.Sheet {
	s := b.Sheet(name)
	s.Lock()
	s.Page = xlsx.Page{Paper: b.t.Plan.Board.Paper, Left: b.t.Plan.Title, Right: name,
		Foot: fmt.Sprintf("%s, cups 1 to %d", b.t.Plan.Blend.Kind, len(b.t.Cells))}
	return s
}

func (b *pourBook) grid(name string) grid { return grid{Sheet: b.sheet(name)} }

// blended reports whether a series is poured from end glazes made of the base.
func (b *pourBook) blended() bool { return b.k > 0 && b.t.Plan.Blend.Method == blend.ByPour }

// pairs reports whether each cup is of two of many end glazes, so that its
// pours are known by their order in the cup.
func (b *pourBook) pairs() bool { return b.t.Plan.Blend.Kind == blend.Pairs }

// end is the end glaze of a pour of a cup, -1 for none.
func (b *pourBook) end(cup, slot int) int {
	if !b.pairs() {
		return slot
	}
	for e, x := range b.t.Cells[cup].Shares {
		if x > 0 {
			if slot == 0 {
				return e
			}
			slot--
		}
	}
	return -1
}

// pour and planned are a pour of a cup, as it came out and as it was planned; nothing
// where it has none.
func (b *pourBook) pour(cup, slot int) blend.Pour    { return b.pourOf(b.t, cup, slot) }
func (b *pourBook) planned(cup, slot int) blend.Pour { return b.pourOf(b.asked, cup, slot) }

func (b *pourBook) pourOf(t *blend.Test, cup, slot int) blend.Pour {
	if e := b.end(cup, slot); e >= 0 {
		return t.Cells[cup].Pours[e]
	}
	return blend.Pour{}
}

// other is what is in the field beside a pour: the amount, or the reading, that it
// came out as, 0 where it came out as planned. A pour moves the readings after it.
func (b *pourBook) other(cup, slot int) float64 {
	switch p := b.pour(cup, slot); {
	case b.scale && p.Reading != b.planned(cup, slot).Reading:
		return b.t.Plan.Kit.Pour.Amount(p.Reading)
	case !b.scale && p.Other:
		return p.Got.Shown(b.t.Plan.Kit)
	}
	return 0
}

// share is the percentage of a pour of a cup that the plan asks for.
func (b *pourBook) share(cup, slot int) float64 {
	if e := b.end(cup, slot); e >= 0 {
		return 100 * b.t.Cells[cup].Shares[e]
	}
	return 0
}

// key is the key of one of several columns, from 1.
func key(what string, i int) string { return fmt.Sprintf("{%s%d}", what, i+1) }

// fromTo is the formula for the sum of the n-th to the m-th of several columns, counted
// from 0; 0 where there are none.
func fromTo(what string, n, m int) string {
	if n > m {
		return "0"
	}
	return fmt.Sprintf("SUM({%[1]s%[2]d:%[1]s%[3]d})", what, n+1, m+1)
}

// name is the name of one of several cells or ranges, from 1: SG_1.
func name(what string, i int) string { return fmt.Sprintf("%s_%d", what, i+1) }

// of is the formula for a value of the end glaze of a pour, in the row of a cup.
func (b *pourBook) of(what string, slot int) string {
	if b.pairs() {
		return "INDEX(" + what + "_all," + key("end", slot) + ")"
	}
	return name(what, slot)
}

// isInput reports whether a name is that of an input.
func (b *pourBook) isInput(name string) bool {
	return slices.ContainsFunc(b.typed, func(in input) bool { return in.name == name })
}

// poursOf is the formula for the sum of a column of each pour over the cups,
// of one end glaze.
func (b *pourBook) poursOf(what string, e int) string {
	if !b.pairs() {
		return "SUM({" + fmt.Sprint(what, e+1) + "[]})"
	}
	return fmt.Sprintf("(SUMIF({end1[]},%[2]d,{%[1]s1[]})+SUMIF({end2[]},%[2]d,{%[1]s2[]}))", what, e+1)
}
