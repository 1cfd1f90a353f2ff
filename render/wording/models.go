package wording

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"pourboard/blend/mixmodel"
	"pourboard/blend/quantity"
	"pourboard/blend/record"
	"pourboard/blend/results"
)

// plusMinusText is a mean with its ±, both to the same digit: "62.4 ± 1.3".
// Without scatter there is no ±.
func plusMinusText(mean, pm float64) string {
	if pm == 0 || math.IsInf(pm, 0) || math.IsNaN(pm) {
		return StatisticText(mean)
	}
	decimals := results.Places(pm, 2)
	return quantity.Fixed(mean, decimals) + " ± " + quantity.Fixed(pm, decimals)
}

// ScatterText says how much readings of one mixture differ, tiles and cups apart.
func ScatterText(m *results.Measure) string {
	tiles, cups := m.Scatter.TileDF > 0, m.Scatter.CupDF > 0
	freedom := func(df int) string { return quantity.Plural(df, "degree of freedom", "degrees of freedom") }
	within := fmt.Sprintf("tiles of one cup scatter by %s (standard deviation, %s); ",
		ErrorText(m.Scatter.Tiles), freedom(m.Scatter.TileDF))
	switch between := ErrorText(m.Scatter.Cups); {
	case tiles && cups:
		return within + fmt.Sprintf("cups of one mixture by %s more (%d)", between, m.Scatter.CupDF)
	case tiles:
		return within + "no repeated cups: scatter between cups and misfit unknown"
	case cups:
		return fmt.Sprintf("cups of one mixture, tiles included, scatter by %s (standard deviation, %s)",
			between, freedom(m.Scatter.CupDF))
	}
	return "no repeats: scatter and misfit unknown"
}

// ModelText says in one line which model was chosen and how good it is, or why
// there is none.
func ModelText(r *results.Results, m results.Model) string {
	where := BodyText(r, m.Body)
	if m.Design == nil {
		return fmt.Sprintf("%s: no prediction, %s", where, m.Refused)
	}
	of := fmt.Sprintf("%s (%s)", quantity.Plural(len(m.Design.Cups), "cup", "cups"),
		quantity.Plural(m.Tiles, "tile", "tiles"))
	chosen := m.Choice.Chosen
	if chosen == nil || chosen.Kind == mixmodel.Mean {
		return fmt.Sprintf("%s, %s: no prediction, %s", where, of, m.Refused)
	}
	return fmt.Sprintf("%s, %s: %s model; a cup left out is predicted to %s, R² %s (adjusted %s)",
		where, of, chosen.Kind, ErrorText(chosen.LOO), RatioText(chosen.R2), RatioText(chosen.AdjR2))
}

// ModelTexts says what came of modelling one body, or all, a line each: what was left
// out, what bodies and firings add, the cups kept out, the highest and the lowest
// mixture, and whether the model's form is wrong.
func ModelTexts(r *results.Results, m *results.Measure, model results.Model) []string {
	var texts []string
	chosen := model.Choice.Chosen
	if d := model.Design; d != nil {
		for _, name := range d.Alone {
			texts = append(texts, name+" has one value in all tiles; left out of the model")
		}
		if d.Confused != nil {
			texts = append(texts, "left out of the model, as its effect cannot be told from another's: "+
				strings.Join(d.Confused, ", "))
		}
	}
	if chosen != nil {
		texts = append(texts, OffsetTexts(chosen)...)
	}
	for _, check := range model.Checks {
		texts = append(texts, CheckText(m, check))
	}
	if model.Highest != nil {
		texts = append(texts, "highest: "+bestText(r, model.Highest))
	}
	if model.Lowest != nil {
		texts = append(texts, "lowest: "+bestText(r, model.Lowest))
	}
	if chosen != nil && chosen.Lack.Gap != mixmodel.NoRepeats { // ScatterText says that
		texts = append(texts, lackText(chosen))
	}
	return texts
}

// doubtful is the probability of a lack of fit as large by chance below which a
// model is called one that the readings do not follow (common practice, no
// source).
const doubtful = 0.05

// lackText says whether the form of a model is wrong, as far as repeated cups
// tell; there are some.
func lackText(m *mixmodel.Model) string {
	switch m.Lack.Gap {
	case mixmodel.RepeatsApart:
		return "misfit cannot be told: no repeated cups in one firing and block"
	case mixmodel.Saturated:
		return "misfit cannot be told: as many terms as mixtures"
	case mixmodel.ExactRepeats:
		return "misfit cannot be told: repeated cups agree exactly"
	}
	probability := RatioText(m.Lack.P)
	if m.Lack.P < 0.0005 {
		probability = "under 0.001"
	}
	means := "the model misses no more than repeated cups scatter"
	if m.Lack.P < doubtful {
		means = "the readings do not follow the model; do not rely on its ±"
	}
	return fmt.Sprintf("%s (lack of fit: F %s on %d and %d degrees of freedom, probability %s)",
		means, quantity.Fixed(m.Lack.F, 2), m.Lack.DF, m.Lack.PureDF, probability)
}

// OffsetTexts say what bodies, firings and blocks add, a line each: "Red reads
// 3.1 ± 0.8 above Buff".
func OffsetTexts(m *mixmodel.Model) []string {
	var texts []string
	for _, o := range m.Offsets {
		way := "above"
		if o.Value < 0 {
			way = "below"
		}
		level := o.Level
		if o.Factor != results.BodyFactor {
			level = o.Factor + " " + level
		}
		text := fmt.Sprintf("%s reads %s %s %s", level, plusMinusText(math.Abs(o.Value), o.Limit()), way, o.Against)
		if o.DF > 0 && math.Abs(o.Value) < o.Limit() {
			text += " (no more than scatter)"
		}
		texts = append(texts, text)
	}
	return texts
}

// CheckText is a cup that was kept out of the model: "cup 9: read 61, predicted
// 58 ± 4".
func CheckText(m *results.Measure, c mixmodel.Check) string {
	text := fmt.Sprintf("cup %d: read %s, predicted %s", c.Number, ValueText(m, c.Cup.Mean, c.Tiles),
		plusMinusText(c.Prediction.Mean, c.NewLimit))
	switch {
	case !c.Inside:
		text += " (outside the cups read)"
	case c.NewLimit > 0 && c.Missed():
		text += " (the model misses it)"
	}
	return text
}

// bestText is a predicted mixture: "62.4 ± 1.3 at 45 % A, 30 % B, 25 % C,
// nearest to cup 17".
func bestText(r *results.Results, b *results.Best) string {
	near := "nearest to cup "
	if b.Is {
		near = "which is cup "
	}
	text := plusMinusText(b.Mean, b.Limit)
	switch b.Beyond {
	case 1:
		text += fmt.Sprintf(" (above the scale, which ends at %d)", record.MostRating)
	case -1:
		text += fmt.Sprintf(" (below the scale, which begins at %d)", record.LeastRating)
	}
	return text + " at " + MixtureText(r, b.Point) + ", " + near + strconv.Itoa(b.Cell)
}
