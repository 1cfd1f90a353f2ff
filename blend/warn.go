package blend

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"pourboard/blend/measure"
)

// warn gathers what the maker should know. One matter is one warning, however
// many cups it is about.
func (t *Test) warn() {
	t.Warnings = append(t.Warnings, t.Assumed()...)
	t.warnBounds()
	t.warnFill()
	t.warnLoads()
	t.warnCapacity()
	for i := range t.Ends {
		if w, ok := t.Coarse(i); ok {
			t.Warnings = append(t.Warnings, w)
		}
	}
	t.warnNothing()
	t.warnUndosed()
	t.warnAlike()
	t.warnTwins()
	t.warnStocks()
	t.warnWorst()
	t.warnWater()
	t.warnApart()
	t.warnDepth()
	t.warnThickness()
}

// warnBounds says when the steps of a lattice do not come out at an upper bound.
func (t *Test) warnBounds() {
	b := t.Plan.Blend
	bounds := b.tightened()
	if bounds == nil || b.Interior || b.Divisions == 0 {
		return
	}
	room := 1.0
	for _, bound := range bounds {
		room -= bound.Lo
	}
	var short, upTo []string
	for i, bound := range bounds {
		most := 0.0
		for _, c := range t.Cells {
			most = max(most, c.Shares[i])
		}
		if hi := min(bound.Hi, bound.Lo+room); most < hi-hair {
			short = append(short, ShareText(most)+" % "+t.Ends[i].Name)
			upTo = append(upTo, ShareText(hi)+" %")
		}
	}
	if short == nil {
		return
	}
	t.Warnings = append(t.Warnings, Warning{
		Place: "bounds",
		What:  fmt.Sprintf("no cup has more than %s, and the bounds go to %s", strings.Join(short, " or "), strings.Join(upTo, " and ")),
		Why:   "the steps are " + ShareText(room/float64(b.Divisions)) + " %",
		Fix:   b.reaching(bounds, room),
	})
}

// reaching is how many divisions have a step on every upper bound, as a plan
// has it, or which bound the steps would reach.
func (b Blend) reaching(bounds []Bound, room float64) string {
	most := 4 * b.Divisions
	for n := b.Divisions + 1; n <= most; n++ {
		on := true
		for _, bound := range bounds {
			steps := (min(bound.Hi, bound.Lo+room) - bound.Lo) / room * float64(n)
			on = on && math.Abs(steps-math.Round(steps)) < 1e-6
		}
		if b.Divisions = n; on && b.Count() <= MaxCells {
			return fmt.Sprintf("divisions = %d reach the bounds", n)
		}
	}
	return "other bounds, whole steps apart"
}

// warnFill says when a fill by eye is given and nothing is filled by eye.
func (t *Test) warnFill() {
	b := t.Plan.Blend
	if t.Plan.Kit.Fill > 0 && (!b.HasSeries() || b.Method == ByPour) {
		t.Warnings = append(t.Warnings, Warning{
			Place: "fill", What: "changes nothing here",
			Why: "cups are filled by eye only with one base; blended slips are measured",
		})
	}
}

// warnLoads says when a batch is far beyond what the scale takes.
func (t *Test) warnLoads() {
	for i, b := range t.Batches {
		if b.Mixed {
			continue
		}
		if loads := b.loads(t.Ends[i], t.Plan.Kit); loads > MostLoads {
			t.Warnings = append(t.Warnings, Warning{
				Place: "batch of " + strconv.Quote(b.Glaze),
				What:  fmt.Sprintf("%s g would be %.0f loads of a scale that takes %s g; it is not split into loads", MassText(b.DryG), loads, PercentText(t.Plan.Kit.Capacity)),
				Fix:   "a scale that takes at least " + PercentText(measure.Convenient(b.DryG*max(1, t.Ends[i].WaterPerG)/MostLoads)) + " g",
			})
		}
	}
}

// warnCapacity says when the slips poured onto the scale are more than it takes.
func (t *Test) warnCapacity() {
	kit := t.Plan.Kit
	if !t.OnScale() || kit.Capacity == 0 {
		return
	}
	var cups []int
	most := 0.0
	for _, c := range t.Cells {
		g := 0.0
		for _, p := range c.Pours {
			g += kit.Pour.Amount(p.Steps)
		}
		if g > kit.Capacity {
			cups = append(cups, c.Number)
			most = max(most, g)
		}
	}
	if cups != nil {
		t.Warnings = append(t.Warnings, Warning{
			Place: Numbers(cups, 6),
			What:  fmt.Sprintf("up to %s g are poured onto a scale that takes %s g, and the cup stands on it too", kit.Pour.Format(kit.Pour.Count(most)), PercentText(kit.Capacity)),
			Fix:   "smaller cups, or another scale",
		})
	}
}

// Coarse says which materials of the batch of end i cannot be weighed to the
// plan's Worst, on the plan's own finer scale if there is one; ok is false when
// all can, or the batch is there already.
func (t *Test) Coarse(i int) (w Warning, ok bool) {
	kit, b, e := finest(t.Plan.Kit), t.Batches[i], t.Ends[i]
	if b.DryG == 0 || b.Mixed {
		return Warning{}, false
	}
	per := b.RecipeG / 100
	var what, fix []string
	for _, p := range slices.Concat(e.Recipe, e.Additions) {
		g := p.Amount * per
		if !coarse(g, kit) {
			continue
		}
		step := finer(g, kit)
		what = append(what, fmt.Sprintf("%s g of %s", figures(g), p.Material))
		fix = append(fix, step.Format(step.Count(g))+" g of "+p.Material+" on one that reads "+step.String())
	}
	return Warning{
		Place: "batch of " + strconv.Quote(b.Glaze),
		What:  fmt.Sprintf("the scale of %s is too coarse for %s", kit.Scale, strings.Join(what, ", ")),
		Why:   "the whole batch is off by what is off there",
		Fix:   "weigh apart, on a finer scale: " + strings.Join(fix, ", "),
	}, what != nil
}

// warnNothing names the pours that are asked and round to nothing.
func (t *Test) warnNothing() {
	var pours []int
	for _, c := range t.Cells {
		for _, p := range c.Pours {
			if p.ML > 0 && p.Steps == 0 && (len(pours) == 0 || pours[len(pours)-1] != c.Number) {
				pours = append(pours, c.Number)
			}
		}
	}
	if pours != nil {
		t.Warnings = append(t.Warnings, Warning{Numbers(pours, 6),
			"a pour is less than half a graduation of " + t.Plan.Kit.Pour.String(),
			"it comes out as nothing and the cup lacks that end", t.betterCup()})
	}
}

// warnUndosed names the doses that are too little for their instrument.
func (t *Test) warnUndosed() {
	for s, series := range t.Plan.Blend.Series {
		if cells := t.undosed(s); cells != nil {
			t.Warnings = append(t.Warnings, Warning{Numbers(cells, 6),
				"no " + series.Material + " is dosed: " + t.tooLittle(s, cells),
				t.sameThen(cells), t.finerThan(s, cells)})
		}
	}
}

// finerThan says what would measure the doses of a series in these cells.
func (t *Test) finerThan(series int, cells []int) string {
	if t.Plan.Blend.Method != ByDose {
		return t.betterCup()
	}
	least := math.Inf(1)
	for _, n := range cells {
		least = min(least, t.Cells[n-1].Doses[series].G)
	}
	return "a scale that reads " + finer(least, t.Plan.Kit).String()
}

// warnAlike names the cups that come out as the very same glaze, but for those
// that differ only in what is not dosed: they are named with that.
func (t *Test) warnAlike() {
	var groups [][]int
	for _, group := range t.MadeAlike() {
		group = slices.DeleteFunc(group, func(n int) bool { return slices.ContainsFunc(t.Cells[n-1].Doses, Dose.None) })
		if len(group) > 1 {
			groups = append(groups, group)
		}
	}
	if groups == nil {
		return
	}
	t.Warnings = append(t.Warnings, Warning{
		Place: alikeText(groups, 6),
		What:  "come out as the very same glaze",
		Why:   "they were asked to differ by less than the instruments show, so the same is measured into them",
		Fix:   "leave all but one of them out, or take a finer instrument",
	})
}

// warnTwins says when two ends of a blend have one recipe.
func (t *Test) warnTwins() {
	if t.Plan.Blend.HasSeries() {
		return
	}
	for i, a := range t.Ends {
		for _, b := range t.Ends[:i] {
			if sameParts(a.Recipe, b.Recipe) && sameParts(a.Additions, b.Additions) {
				t.Warnings = append(t.Warnings, Warning{
					Place: strconv.Quote(b.Name) + " and " + strconv.Quote(a.Name),
					What:  "have the same recipe",
					Why:   "nothing changes from one to the other",
				})
			}
		}
	}
}

// sameParts reports whether two lists are of the same materials in the same
// amounts, in whatever order.
func sameParts(x, y []Part) bool {
	return len(x) == len(y) && !slices.ContainsFunc(x, func(p Part) bool {
		return !slices.ContainsFunc(y, func(q Part) bool { return p.Material == q.Material && math.Abs(p.Amount-q.Amount) < 1e-9 })
	})
}

// warnStocks says when much more of suspensions is made than the cups need.
func (t *Test) warnStocks() {
	var much []string
	for _, s := range t.Stocks {
		if s.NeedML > 0 && s.ML > mostMade*s.NeedML {
			much = append(much, fmt.Sprintf("%s mL of %q for the %s mL that the cups need", VolumeText(s.ML), s.Name, VolumeText(s.NeedML)))
		}
	}
	if much == nil {
		return
	}
	t.Warnings = append(t.Warnings, Warning{
		Place: "stock suspensions",
		What:  "more is made than is poured: " + strings.Join(much, ", "),
		Why:   fmt.Sprintf("a scale of %s weighs the colourant of less too badly; %s", t.Plan.Kit.Dosing(), LeftOver),
		Fix:   "a finer scale for the colourant, and less is made",
	})
}

// warnWorst names the cups that are further off than the plan wishes.
func (t *Test) warnWorst() {
	var bad []int
	for _, c := range t.Cells {
		if c.Got.Worst > t.Plan.Kit.Worst*(1+hair) {
			bad = append(bad, c.Number)
		}
	}
	if bad == nil {
		return
	}
	worst := t.Cells[t.worstCell()]
	t.Warnings = append(t.Warnings, Warning{
		Place: Numbers(bad, 6),
		What:  fmt.Sprintf("can be further off than the %s that is wished", FractionText(t.Plan.Kit.Worst)),
		Why:   fmt.Sprintf("worst is cup %d, ± %s by %s", worst.Number, FractionText(worst.Got.Worst), worst.Got.Cause),
		Fix:   t.betterCup(),
	})
}

// betterCup says how large the cups must be for all to be good enough.
func (t *Test) betterCup() string {
	if !t.smallest.found {
		return "no cup up to " + AmountText(largestCup, t.Plan.Cup.Of) + " is enough; take a finer instrument"
	}
	return "a cup of " + AmountText(t.smallest.size, t.Plan.Cup.Of) + " would do, or a finer instrument"
}

// warnWater says when stock suspensions thin a cup too much.
func (t *Test) warnWater() {
	if len(t.Stocks) == 0 {
		return
	}
	worst := 0
	for i, c := range t.Cells {
		if c.WaterML > t.Cells[worst].WaterML {
			worst = i
		}
	}
	c := t.Cells[worst]
	if c.WaterML <= t.mostWater()*(1+hair) {
		return
	}
	t.Warnings = append(t.Warnings, Warning{
		Place: Numbers([]int{c.Number}, 1),
		What:  fmt.Sprintf("the stock brings %s mL of water in", VolumeText(c.WaterML)),
		Why:   fmt.Sprintf("more than %s mL thin the coat (specific gravity %s)", VolumeText(t.mostWater()), SGText(c.Got.SG)),
		Fix:   "a syringe with finer graduations than " + t.Plan.Kit.Syringe.String() + " lets the stock be stronger",
	})
}

// warnApart names neighbours that the measuring cannot tell apart.
func (t *Test) warnApart() {
	twins := t.twins()
	pairs := slices.DeleteFunc(t.NotApart(), func(p [2]int) bool { // that is said of those that are made alike
		return twins[p[0]-1] != 0 && t.sign(&t.Cells[p[0]-1], Measured) == t.sign(&t.Cells[p[1]-1], Measured)
	})
	if len(pairs) == 0 {
		return
	}
	const most = 4
	var names []string
	for i, p := range pairs {
		if i == most {
			more := "pairs"
			if len(pairs) == most+1 {
				more = "pair"
			}
			names = append(names, fmt.Sprintf("and %d more %s", len(pairs)-most, more))
			break
		}
		names = append(names, fmt.Sprintf("%d and %d", p[0], p[1]))
	}
	t.Warnings = append(t.Warnings, Warning{
		Place: "cups " + strings.Join(names, ", "),
		What:  "differ by less than they can be off",
		Why:   "their tiles cannot be told apart by what is in them",
		Fix:   "fewer steps, a larger cup or a finer instrument",
	})
}

func (t *Test) warnDepth() {
	if w, shallow := t.Shallow(); shallow {
		t.Warnings = append(t.Warnings, w)
	}
}

// Shallow says where a tile cannot be dipped as far as its coats want, if that
// is so anywhere. A coat by a long side that the cup is too narrow for is dipped
// in a dish, and wants nothing of the cup.
func (t *Test) Shallow() (w Warning, shallow bool) {
	tiles, cup := t.Plan.Tiles, t.Plan.Cup
	if cup.DiameterMM == 0 || tiles.WidthMM == 0 || tiles.Coats == 0 {
		return w, false
	}
	var in bath // of the coat that wants the most slip in the cup
	var deepest Coat
	name := ""
	narrowest := bath{ThicknessMM: math.Inf(1)}
	for k, coat := range tiles.Dips() {
		b := bath{cup.DiameterMM, tiles.downMM(coat), tiles.Thickness()}
		if b.narrowestMM() < narrowest.narrowestMM() {
			narrowest = b
		}
		if cup.DiameterMM < b.narrowestMM() || name != "" && b.needML(coat.MM) <= in.needML(deepest.MM) {
			continue
		}
		in, deepest, name = b, coat, "the first coat"
		if k > 0 {
			name = fmt.Sprintf("coat %d", k+1)
		}
	}
	switch {
	case name == "" && tiles.Bands == Corner && cup.DiameterMM >= (bath{WidthMM: min(tiles.WidthMM, tiles.HeightMM), ThicknessMM: tiles.Thickness()}).narrowestMM():
		return w, false // the only coat is one by a long side
	case name == "":
		return Warning{
			Place: "cup diameter",
			What:  fmt.Sprintf("a tile %.0f mm wide and %.0f mm thick does not go into a cup of %.0f mm", narrowest.WidthMM, narrowest.ThicknessMM, cup.DiameterMM),
			Fix:   fmt.Sprintf("a cup of at least %.0f mm inside", math.Ceil(narrowest.narrowestMM()/5)*5),
		}, true
	}
	var cups []int
	least := math.Inf(1)
	for _, c := range t.Cells {
		if in.levelMM(c.Got.ML) < deepest.MM {
			cups = append(cups, c.Number)
			least = min(least, c.Got.ML)
		}
	}
	if cups == nil {
		return w, false
	}
	fix := fmt.Sprintf("at least %.0f mL in the cup", math.Ceil(in.needML(deepest.MM)/5)*5)
	if widest := in.widestMM(least, deepest.MM); widest >= in.narrowestMM() {
		fix += fmt.Sprintf(", or a cup no wider than %.0f mm", math.Floor(widest))
	}
	return Warning{
		Place: Numbers(cups, 6),
		What: fmt.Sprintf("%.0f mL stand %.0f mm high with the tile in, and %s wants %.0f mm",
			least, in.levelMM(least), name, deepest.MM),
		Fix: fix,
	}, true
}

// thickDifference is the spread of specific gravity over the cups from which
// on coats of one dip differ to the eye (common practice, no source).
const thickDifference = 0.02

// Thickness is the thinnest and the thickest cup as measured, as indexes into
// t.Cells, and whether coats of one dip would differ between them. Cups that no
// slip was measured into do not count.
func (t *Test) Thickness() (thin, thick int, uneven bool) {
	first := true
	for i := range t.Cells {
		c := &t.Cells[i]
		if !c.Poured() {
			continue
		}
		if first || c.Got.SG < t.Cells[thin].Got.SG {
			thin = i
		}
		if first || c.Got.SG > t.Cells[thick].Got.SG {
			thick = i
		}
		first = false
	}
	low, high := t.Cells[thin].Got.SG, t.Cells[thick].Got.SG
	return thin, thick, low > 1 && high-low >= thickDifference
}

// warnThickness says when cups differ in thickness, and what evens them out.
func (t *Test) warnThickness() {
	low, high, uneven := t.Thickness()
	if !uneven {
		return
	}
	thin, thick := t.Cells[low], t.Cells[high]
	var most int64
	for _, c := range t.Cells {
		most = max(most, t.WaterSteps(c, thin.Got.SG))
	}
	sheet := "pour"
	if t.Dosed() {
		sheet = "dose" // it is for cups in which everything is
	}
	t.Warnings = append(t.Warnings, Warning{
		Place: Numbers([]int{thin.Number}, 1) + " and " + Numbers([]int{thick.Number}, 1),
		What:  fmt.Sprintf("differ in specific gravity, %.2f and %.2f", thin.Got.SG, thick.Got.SG),
		Why:   "a dip of the same time leaves coats of different thickness",
		Fix:   fmt.Sprintf("water to bring every cup to %.2f is on the %s sheet, at most %s %s", thin.Got.SG, sheet, t.WaterStep().Format(most), t.WaterStep().Unit),
	})
}
