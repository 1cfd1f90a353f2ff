package mixmodel

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/pelletier/go-toml/v2"
	"gonum.org/v1/gonum/stat/distuv"
)

// published holds computed figures against those printed in a source, named in
// testdata/reference/statistics.toml with its certainty, to the last printed
// digit.
type published struct {
	Name, Certainty, Source string
	Printed                 map[string]string
	Computed                map[string]float64
	Data                    [][]float64
	held                    map[string]bool
}

func example(t *testing.T, name string) *published {
	t.Helper()
	text, err := os.ReadFile("../../testdata/reference/statistics.toml")
	if err != nil {
		t.Fatal(err)
	}
	var file struct{ Example []*published }
	if err := toml.Unmarshal(text, &file); err != nil {
		t.Fatal(err)
	}
	for _, e := range file.Example {
		if e.Name == name {
			e.held = map[string]bool{}
			return e
		}
	}
	t.Fatalf("no example %s", name)
	return nil
}

// printed compares with a published figure.
func (e *published) printed(t *testing.T, key string, got float64) {
	t.Helper()
	e.held[key] = true
	text, ok := e.Printed[key]
	if !ok {
		t.Errorf("%s has no figure %s", e.Name, key)
		return
	}
	want, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatal(err)
	}
	digits, power, _ := strings.Cut(text, "e")
	unit := 1.0
	if i := strings.IndexByte(digits, '.'); i >= 0 {
		unit = math.Pow(10, -float64(len(digits)-i-1))
	}
	if power != "" {
		exponent, _ := strconv.Atoi(power)
		unit *= math.Pow(10, float64(exponent))
	}
	if !near(got, want, 0.5*unit*(1+1e-9)) {
		t.Errorf("%s: %s is %.9g, printed %s (%s)", e.Name, key, got, text, e.Source)
	}
}

// computed compares with a figure of the same data that other software (numpy,
// scipy) gave, to nine digits.
func (e *published) computed(t *testing.T, key string, got float64) {
	t.Helper()
	want, ok := e.Computed[key]
	if !ok {
		t.Errorf("%s has no figure %s", e.Name, key)
	}
	if !near(got, want, 2e-9*math.Abs(want)) {
		t.Errorf("%s: %s is %.10g, computed elsewhere %.10g", e.Name, key, got, want)
	}
}

// rest reports figures that nothing was held against, but for those named: the
// program has no rule for them.
func (e *published) rest(t *testing.T, without ...string) {
	t.Helper()
	left := map[string]bool{}
	for _, key := range without {
		left[key] = true
	}
	for key := range e.Printed {
		if !e.held[key] && !left[key] {
			t.Errorf("%s: printed figure %s is not checked", e.Name, key)
		}
	}
}

// records are the rows of a table below its head.
func records(t *testing.T, name string) [][]string {
	t.Helper()
	file, err := os.Open("../../testdata/reference/" + name)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	return rows[1:]
}

func number(t *testing.T, text string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatal(err)
	}
	return x
}

// index gives every different text a number, in the order of appearance.
type index map[string]int

func (x index) of(text string) int {
	if _, ok := x[text]; !ok {
		x[text] = len(x)
	}
	return x[text]
}

func build(t *testing.T, space Space, names []string, factors []Factor, tiles []Tile) *Design {
	t.Helper()
	d, err := NewDesign(space, names, factors, tiles)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

func squares(m *Model) float64 { return m.S * m.S * float64(m.DF) }

// Two tests of each cask of paste, three casks from each batch: the casks are
// repeated cups of a mixture. Judged by its tests a batch would seem to differ
// (F 40.54), judged by casks it does not (F 1.567).
func TestPublished_pastes(t *testing.T) {
	e := example(t, "pastes")
	batches, casks := index{}, index{}
	var tests, means []Nested
	at := map[int]*Nested{}
	for _, r := range records(t, "nested_pastes.csv") {
		batch, cask := batches.of(r[0]), casks.of(r[0]+r[1])
		v := number(t, r[3])
		tests = append(tests, Nested{batch, cask, v})
		if at[cask] == nil {
			at[cask] = &Nested{0, batch, 0}
		}
		at[cask].Value += v / 2
	}
	for i := range len(casks) {
		means = append(means, *at[i])
	}
	s := NewScatter(tests)
	e.printed(t, "sd_cask", s.Cups)
	e.printed(t, "sd_residual", s.Tiles)
	e.computed(t, "pure_error_ms_of_cup_means_df20", s.CupMeans*s.CupMeans)
	e.computed(t, "test_ms_df30", s.Tiles*s.Tiles)
	e.computed(t, "cask_ms_df20", 2*s.CupMeans*s.CupMeans)
	if s.TileDF != 30 || s.CupDF != 20 {
		t.Errorf("degrees of freedom %d and %d, want 30 and 20", s.TileDF, s.CupDF)
	}
	// Batches as cups, means of casks as their tiles.
	b := NewScatter(means)
	e.printed(t, "sd_batch", b.Cups)
	e.printed(t, "se_mean", b.CupMeans/math.Sqrt(10))
	var tiles []Tile
	for _, n := range means {
		tiles = append(tiles, Tile{Cup: n.Cup, Point: []float64{1, 0}, Value: n.Value})
	}
	mean := fit(t, build(t, Shares, abc[:2], nil, tiles), Mean)
	e.printed(t, "mean", mean.Terms[0].Coef)
	e.printed(t, "se_mean", mean.Terms[0].SE)
	e.computed(t, "F_batch_against_cask", b.CupMeans*b.CupMeans*3/(s.CupMeans*s.CupMeans))
	e.rest(t, "reml_criterion")
}

func TestPublished_dyestuff(t *testing.T) {
	e := example(t, "dyestuff")
	batches := index{}
	var tiles []Tile
	for _, r := range records(t, "nested_dyestuff.csv") {
		tiles = append(tiles, Tile{Cup: batches.of(r[0]), Point: []float64{1, 0}, Value: number(t, r[2])})
	}
	d := build(t, Shares, abc[:2], nil, tiles)
	m := fit(t, d, Mean)
	e.printed(t, "mean", m.Terms[0].Coef)
	e.printed(t, "se_mean", m.Terms[0].SE)
	e.printed(t, "sd_batch", scatterOf(d, tiles).Cups)
	e.printed(t, "sd_residual", scatterOf(d, tiles).Tiles)
	e.computed(t, "variance_batch", scatterOf(d, tiles).Cups*scatterOf(d, tiles).Cups)
	e.computed(t, "variance_residual", scatterOf(d, tiles).Tiles*scatterOf(d, tiles).Tiles)
	e.rest(t, "reml_criterion")
}

func TestPublished_runs(t *testing.T) {
	e := example(t, "runs")
	var tiles []Tile
	by := map[string][]Nested{}
	for _, r := range records(t, "nested_runs.csv") {
		v := number(t, r[2])
		tiles = append(tiles, Tile{Cup: int(number(t, r[0])), Point: []float64{1, 0}, Value: v})
		by[r[0]] = append(by[r[0]], Nested{0, 0, v})
	}
	d := build(t, Shares, abc[:2], nil, tiles)
	s := scatterOf(d, tiles)
	e.printed(t, "mean", fit(t, d, Mean).Terms[0].Coef)
	e.printed(t, "within_ms", s.Tiles*s.Tiles)
	e.printed(t, "within_ss_df10", s.Tiles*s.Tiles*10)
	e.printed(t, "between_ms", 3*s.CupMeans*s.CupMeans)
	e.printed(t, "between_ss_df4", 12*s.CupMeans*s.CupMeans)
	e.printed(t, "total_ss", 12*s.CupMeans*s.CupMeans+s.Tiles*s.Tiles*10)
	e.computed(t, "variance_run", s.Cups*s.Cups)
	for _, cup := range d.Cups {
		e.printed(t, "mean_run"+strconv.Itoa(cup.Number), cup.Mean)
	}
	for run, readings := range by {
		e.printed(t, "sd_run"+run, NewScatter(readings).Tiles)
	}
	square := func(x float64) float64 { return x * x }
	e.printed(t, "var_mean_1run_1rep", square(meanSD(s, 1, 1)))
	e.printed(t, "var_mean_1run_2rep", square(meanSD(s, 1, 2)))
	e.printed(t, "var_mean_1run_3rep", square(meanSD(s, 1, 3)))
	e.printed(t, "var_mean_2run_2rep", square(meanSD(s, 2, 2)))
	e.printed(t, "var_mean_2run_3rep", square(meanSD(s, 2, 3)))
	e.printed(t, "sd_mean_1run_3rep", meanSD(s, 1, 3))
	e.printed(t, "sd_mean_2run_1rep", meanSD(s, 2, 1))
	e.printed(t, "sd_mean_2run_2rep", meanSD(s, 2, 2))
	e.printed(t, "sd_mean_2run_3rep", meanSD(s, 2, 3))
	e.rest(t)
}

// A quadratic in two blocks with three repeats at the centre of each.
func TestPublished_chemreact(t *testing.T) {
	e := example(t, "chemreact")
	var tiles, first []Tile
	for i, r := range records(t, "blocked_chemreact.csv") {
		point := []float64{number(t, r[0]), number(t, r[1]), number(t, r[2])}
		tile := Tile{Cup: i + 1, Point: point, Levels: []int{int(number(t, r[5])) - 1}, Value: number(t, r[6])}
		tiles = append(tiles, tile)
		if tile.Levels[0] == 0 {
			first = append(first, tile)
		}
	}
	days := []Factor{{"Day", []string{"1", "2"}}}
	d := build(t, Shares, abc, days, tiles)
	m := fit(t, d, Quadratic)
	block := m.Offsets[0]
	if block.Factor != "Day" || block.Level != "2" || block.Against != "1" || m.DF != 7 || block.DF != 7 {
		t.Errorf("block %+v on %d df", block, m.DF)
	}
	e.printed(t, "block2_minus_block1", block.Value)
	e.printed(t, "se_block", block.SE)
	e.printed(t, "t_block", block.Value/block.SE)
	e.printed(t, "p_block", block.P)
	// The model stands for both blocks alike, the published terms for the first.
	for i, key := range []string{"scheffe_x1", "scheffe_x2", "scheffe_x3"} {
		e.computed(t, key, m.Terms[i].Coef-block.Value/2)
	}
	for i, key := range []string{"scheffe_x1x2", "scheffe_x1x3", "scheffe_x2x3"} {
		e.computed(t, key, m.Terms[3+i].Coef)
	}
	e.computed(t, "s", m.S)
	e.computed(t, "press_leave_one_cup_out", m.PRESS)
	e.printed(t, "residual_ss_df7", squares(m))
	e.printed(t, "lack_of_fit_ss_df3", m.Lack.SumSquares)
	e.printed(t, "lack_of_fit_ms", m.Lack.SumSquares/float64(m.Lack.DF))
	e.printed(t, "pure_error_ss_df4", m.Lack.PureSumSquares)
	e.printed(t, "pure_error_ms", m.Lack.PureSumSquares/float64(m.Lack.PureDF))
	e.printed(t, "lack_of_fit_F", m.Lack.F)
	e.printed(t, "lack_of_fit_p", m.Lack.P)
	e.printed(t, "R2_centred", m.R2)
	e.printed(t, "F_model_6_7", m.R2/6/((1-m.R2)/7))
	// The published polynomial in u, v is the same surface: its terms from
	// predictions at x = (0.3 + 0.1u, 0.3 + 0.1v, …) in block 1.
	at := func(u, v float64) float64 {
		return m.predict([]float64{0.3 + 0.1*u, 0.3 + 0.1*v, 0.4 - 0.1*u - 0.1*v}, []float64{-0.5}).Mean
	}
	e.printed(t, "uv_intercept", at(0, 0))
	e.printed(t, "uv_u", (at(1, 0)-at(-1, 0))/2)
	e.printed(t, "uv_v", (at(0, 1)-at(0, -1))/2)
	e.printed(t, "uv_u_v", (at(1, 1)-at(1, -1)-at(-1, 1)+at(-1, -1))/4)
	e.printed(t, "uv_uu", (at(1, 0)+at(-1, 0))/2-at(0, 0))
	e.printed(t, "uv_vv", (at(0, 1)+at(0, -1))/2-at(0, 0))
	spread := func(weights map[[2]float64]float64) float64 {
		full := make([]float64, len(m.coefs))
		for p, w := range weights {
			for k, v := range row(m.terms, []float64{0.3 + 0.1*p[0], 0.3 + 0.1*p[1], 0.4 - 0.1*p[0] - 0.1*p[1]}) {
				full[k] += w * v
			}
		}
		return m.S * m.squares.spread(full)
	}
	e.printed(t, "uv_se_u", spread(map[[2]float64]float64{{1, 0}: 0.5, {-1, 0}: -0.5}))
	e.printed(t, "uv_se_u_v", spread(map[[2]float64]float64{{1, 1}: 0.25, {1, -1}: -0.25, {-1, 1}: -0.25, {-1, -1}: 0.25}))
	e.printed(t, "uv_se_uu", spread(map[[2]float64]float64{{1, 0}: 0.5, {-1, 0}: 0.5, {0, 0}: -1}))
	centre := m.predict([]float64{0.3, 0.3, 0.4}, []float64{-0.5})
	e.printed(t, "uv_se_intercept", centre.SE)
	e.computed(t, "centre_block1_fit", centre.Mean)
	e.computed(t, "centre_block1_conf_low", centre.Mean-centre.Limit)
	e.computed(t, "centre_block1_conf_high", centre.Mean+centre.Limit)
	e.computed(t, "centre_block1_pred_low", centre.Mean-centre.NewLimit)
	e.computed(t, "centre_block1_pred_high", centre.Mean+centre.NewLimit)

	one := build(t, Shares, abc, days, first)
	if len(one.Alone) != 1 || one.Alone[0] != "Day" {
		t.Errorf("factors with one level: %v", one.Alone)
	}
	linear := fit(t, one, Linear)
	e.printed(t, "block1_only_linear_residual_ss_df4", squares(linear))
	e.printed(t, "block1_only_lack_of_fit_ss_df2", linear.Lack.SumSquares)
	e.printed(t, "block1_only_pure_error_ss_df2", linear.Lack.PureSumSquares)
	e.printed(t, "block1_only_lack_of_fit_F", linear.Lack.F)
	e.printed(t, "block1_only_lack_of_fit_p", linear.Lack.P)
	for i := range tiles {
		tiles[i].Levels = nil
	}
	e.computed(t, "residual_ss_without_block_df8", squares(fit(t, build(t, Shares, abc, nil, tiles), Quadratic)))
	e.rest(t)
}

// Four treatments, as pure mixtures, in each of five kilns.
func TestPublished_penicillin(t *testing.T) {
	e := example(t, "penicillin")
	kilns := Factor{"Kiln", []string{"1", "2", "3", "4", "5"}}
	var tiles []Tile
	for i, r := range records(t, "blocked_penicillin.csv") {
		point := []float64{number(t, r[0]), number(t, r[1]), number(t, r[2]), number(t, r[3])}
		tiles = append(tiles, Tile{Cup: i + 1, Point: point, Levels: []int{int(number(t, r[4])) - 1}, Value: number(t, r[5])})
	}
	d := build(t, Shares, []string{"A", "B", "C", "D"}, []Factor{kilns}, tiles)
	mean, m := fit(t, d, Mean), fit(t, d, Linear)
	e.printed(t, "mean_x1", m.Terms[0].Coef)
	for i, key := range []string{"diff_x2_x1", "diff_x3_x1", "diff_x4_x1"} {
		e.printed(t, key, m.Terms[i+1].Coef-m.Terms[0].Coef)
	}
	contrast := make([]float64, len(m.coefs))
	contrast[0], contrast[2] = -1, 1
	se, diff := m.S*m.squares.spread(contrast), m.Terms[2].Coef-m.Terms[0].Coef
	e.printed(t, "se_diff", se)
	e.printed(t, "t_x3_x1", diff/se)
	e.printed(t, "p_x3_x1", chance(diff, se, m.DF))
	e.printed(t, "diff_x3_x1_low95", diff-limit(se, m.DF))
	e.printed(t, "diff_x3_x1_high95", diff+limit(se, m.DF))
	treatment := squares(mean) - squares(m)
	e.printed(t, "treatment_ss_df3", treatment)
	e.printed(t, "treatment_ms", treatment/3)
	f := treatment / 3 / (m.S * m.S)
	e.printed(t, "F_treatment_3_12", f)
	e.printed(t, "p_treatment", distuv.F{D1: 3, D2: 12}.Survival(f))
	e.printed(t, "residual_sd", m.S)
	e.computed(t, "residual_ss_df12", squares(m))
	if m.DF != 12 || m.Lack.Gap != RepeatsApart {
		t.Errorf("%d degrees of freedom, lack of fit %+v", m.DF, m.Lack)
	}
	var mid float64 // effects that add up to nothing
	for _, o := range m.Offsets {
		mid -= o.Value / 5
	}
	e.computed(t, "block1_effect_sum_zero", mid)
	for i, key := range []string{"block2_effect_sum_zero", "block3_effect_sum_zero", "block4_effect_sum_zero", "block5_effect_sum_zero"} {
		e.computed(t, key, mid+m.Offsets[i].Value)
	}
	e.rest(t, "sd_block") // as a random effect; here blocks are fixed
}

// A split plot in blocks: variety is judged by the scatter of whole plots, never
// by that of subplots within them.
func TestPublished_oats(t *testing.T) {
	e := example(t, "oats")
	blocks, varieties, plots := index{}, index{}, index{}
	doses := Factor{"Nitrogen", []string{"0.0", "0.2", "0.4", "0.6"}}
	var tiles []Tile
	for _, r := range records(t, "blocked_oats.csv") {
		dose := map[string]int{"0.0": 0, "0.2": 1, "0.4": 2, "0.6": 3}[r[2]]
		point := make([]float64, 3)
		point[varieties.of(r[1])] = 1
		tiles = append(tiles, Tile{Cup: plots.of(r[0] + r[1]), Point: point, Levels: []int{blocks.of(r[0]), dose}, Value: number(t, r[3])})
	}
	block := Factor{"Block", make([]string, len(blocks))}
	d := build(t, Shares, abc, []Factor{block, doses}, tiles)
	scatter := scatterOf(d, tiles)
	mean, m := fit(t, d, Mean), fit(t, d, Linear)
	if len(d.Cups) != 18 || m.DF != 10 || len(d.Offsets) != 3 {
		t.Fatalf("%d cups, %d df, offsets %+v", len(d.Cups), m.DF, d.Offsets)
	}
	e.printed(t, "wholeplot_error_ss_df10", 4*squares(m))
	e.printed(t, "wholeplot_error_ms", 4*m.S*m.S)
	variety := 4 * (squares(mean) - squares(m))
	e.printed(t, "variety_ss_df2", variety)
	e.printed(t, "variety_ms", variety/2)
	f := variety / 2 / (4 * m.S * m.S)
	e.printed(t, "F_variety", f)
	e.printed(t, "p_variety", distuv.F{D1: 2, D2: 10}.Survival(f))
	for i := range tiles {
		tiles[i].Levels = tiles[i].Levels[1:]
	}
	without := fit(t, build(t, Shares, abc, []Factor{doses}, tiles), Linear)
	e.printed(t, "block_ss_df5", 4*(squares(without)-squares(m)))
	e.printed(t, "block_ms", 4*(squares(without)-squares(m))/5)
	contrast := make([]float64, len(m.coefs))
	contrast[0], contrast[1] = -1, 1
	e.computed(t, "se_diff_variety_means", m.S*m.squares.spread(contrast))
	// Within plots the model is additive: its scatter holds the printed
	// interaction, 322 on 6, and the subplot error, 7969 on 45, both rounded.
	if got := scatter.Tiles * scatter.Tiles * 51; scatter.TileDF != 51 || !near(got, 322+7969, 1) {
		t.Errorf("within plots %.3f on %d, printed 322 + 7969 on 6 + 45", got, scatter.TileDF)
	}
	// What nitrogen explains within plots, from its means: 18 readings of each.
	offsets := []float64{0, d.Offsets[0].Value, d.Offsets[1].Value, d.Offsets[2].Value}
	var mid, nitrogen, slope float64
	for _, v := range offsets {
		mid += v / 4
	}
	for i, v := range offsets {
		nitrogen += 18 * (v - mid) * (v - mid)
		slope += v * (2*float64(i) - 3)
	}
	e.printed(t, "nitrogen_ss_df3", nitrogen)
	e.printed(t, "nitrogen_ms", nitrogen/3)
	e.printed(t, "nitrogen_linear_ss_df1", 18*slope*slope/20)
	e.printed(t, "nitrogen_rest_ss_df2", nitrogen-18*slope*slope/20)
	// There is no rule for what differs from body to body in a way of its own.
	e.rest(t, "nitrogen_x_variety_ss_df6", "F_nitrogen_x_variety", "p_nitrogen_x_variety", "subplot_error_ss_df45",
		"subplot_error_ms", "F_nitrogen", "p_nitrogen", "F_nitrogen_linear", "F_nitrogen_rest")
}

// Eight fields, two of each way of watering, two varieties on each: fields are
// cups, varieties bodies.
func TestPublished_irrigation(t *testing.T) {
	e := example(t, "irrigation")
	fields, ways := index{}, index{}
	var tiles []Tile
	for _, r := range records(t, "blocked_irrigation.csv") {
		point := make([]float64, 4)
		point[ways.of(r[1])] = 1
		tiles = append(tiles, Tile{Cup: fields.of(r[0]), Point: point, Levels: []int{map[string]int{"v1": 0, "v2": 1}[r[2]]}, Value: number(t, r[3])})
	}
	d := build(t, Shares, []string{"A", "B", "C", "D"}, []Factor{{"Body", []string{"v1", "v2"}}}, tiles)
	body := d.Offsets[0]
	e.printed(t, "additive_diff_variety", body.Value)
	e.printed(t, "additive_se_variety", body.SE)
	e.printed(t, "additive_p_variety", body.P)
	e.printed(t, "additive_residual_df7_F_variety", body.Value*body.Value/(body.SE*body.SE))
	e.printed(t, "additive_variance_residual", scatterOf(d, tiles).Tiles*scatterOf(d, tiles).Tiles)
	e.printed(t, "variety_ms", 4*body.Value*body.Value)
	mean, m := fit(t, d, Mean), fit(t, d, Linear)
	f := (squares(mean) - squares(m)) / 3 / (m.S * m.S)
	e.printed(t, "F_irrigation_3_4", f)
	e.printed(t, "p_irrigation", distuv.F{D1: 3, D2: 4}.Survival(f))
	e.computed(t, "field_ms_df4", 2*m.S*m.S)
	e.computed(t, "field_ms_df4", 2*scatterOf(d, tiles).CupMeans*scatterOf(d, tiles).CupMeans)
	if m.DF != 4 || m.Lack.Gap != Saturated || scatterOf(d, tiles).CupDF != 4 || scatterOf(d, tiles).TileDF != 7 {
		t.Errorf("%d df, lack %+v, scatter %+v", m.DF, m.Lack, scatterOf(d, tiles))
	}
	// The figures of the model with an interaction, for which there is no rule.
	e.rest(t, "variance_field", "sd_field", "variance_residual", "sd_residual", "se_diff_method_at_one_variety",
		"se_diff_variety_within_method", "se_cell_mean", "F_variety_1_4", "p_variety", "F_interaction_3_4", "p_interaction", "interaction_ms")
}

// Lack of fit of a straight line, as a line between two end glazes.
func TestPublished_bank(t *testing.T) {
	e := example(t, "bank")
	var points [][]float64
	var y []float64
	for _, r := range e.Data {
		x := (r[0] - 75) / 125
		points, y = append(points, []float64{1 - x, x}), append(y, r[1])
	}
	d := design(t, Shares, abc[:2], points, y)
	mean, m := fit(t, d, Mean), fit(t, d, Linear)
	e.printed(t, "regression_ss_df1", squares(mean)-squares(m))
	e.printed(t, "residual_ss_df9", squares(m))
	e.printed(t, "total_ss", squares(mean))
	e.printed(t, "lack_of_fit_ss_df4", m.Lack.SumSquares)
	e.printed(t, "lack_of_fit_ms", m.Lack.SumSquares/float64(m.Lack.DF))
	e.printed(t, "pure_error_ss_df5", m.Lack.PureSumSquares)
	e.printed(t, "pure_error_ms", m.Lack.PureSumSquares/float64(m.Lack.PureDF))
	e.printed(t, "lack_of_fit_F", m.Lack.F)
	e.printed(t, "lack_of_fit_p", m.Lack.P)
	f := (squares(mean) - squares(m)) / (m.S * m.S)
	e.printed(t, "F_regression", f)
	e.printed(t, "p_regression", distuv.F{D1: 1, D2: 9}.Survival(f))
	e.computed(t, "b1_at_x75", m.Terms[0].Coef)
	e.computed(t, "b2_at_x200", m.Terms[1].Coef)
	e.rest(t)
}

func TestPublished_yarnLinear(t *testing.T) {
	e := example(t, "yarn_linear")
	d := reference(t, "mixture_yarn.csv")
	mean, m, q := fit(t, d, Mean), fit(t, d, Linear), fit(t, d, Quadratic)
	e.printed(t, "linear_ss_df2", squares(mean)-squares(m))
	e.printed(t, "lack_of_fit_ss_df3", m.Lack.SumSquares)
	e.printed(t, "lack_of_fit_ms", m.Lack.SumSquares/3)
	e.printed(t, "pure_error_ss_df9", m.Lack.PureSumSquares)
	e.printed(t, "pure_error_ms", m.Lack.PureSumSquares/9)
	e.printed(t, "lack_of_fit_F", m.Lack.F)
	e.printed(t, "total_ss", squares(mean))
	e.computed(t, "lack_of_fit_p", m.Lack.P)
	for i, key := range []string{"linear_b1", "linear_b2", "linear_b3"} {
		e.computed(t, key, m.Terms[i].Coef)
	}
	e.computed(t, "quadratic_press_leave_one_cup_out", q.PRESS)
	p := q.predict([]float64{1. / 3, 1. / 3, 1. / 3}, nil)
	e.computed(t, "quadratic_centroid_fit", p.Mean)
	e.computed(t, "quadratic_centroid_conf_low", p.Mean-p.Limit)
	e.computed(t, "quadratic_centroid_conf_high", p.Mean+p.Limit)
	e.computed(t, "quadratic_centroid_pred_low", p.Mean-p.NewLimit)
	e.computed(t, "quadratic_centroid_pred_high", p.Mean+p.NewLimit)
	e.rest(t)
}

// Confidence limits of a mean and prediction limits of one more run.
func TestPublished_stackloss(t *testing.T) {
	e := example(t, "stackloss")
	var points [][]float64
	var y []float64
	for _, r := range e.Data {
		points, y = append(points, r[:3]), append(y, r[3])
	}
	m := fit(t, design(t, Percent, abc, points, y), Linear)
	p := m.Predict([]float64{72, 20, 85})
	if m.DF != 17 {
		t.Fatal(m.DF)
	}
	e.printed(t, "fit_at_72_20_85", p.Mean)
	e.printed(t, "conf_low", p.Mean-p.Limit)
	e.printed(t, "conf_high", p.Mean+p.Limit)
	e.printed(t, "pred_low", p.Mean-p.NewLimit)
	e.printed(t, "pred_high", p.Mean+p.NewLimit)
	e.computed(t, "s_df17", m.S)
	e.computed(t, "press_leave_one_out", m.PRESS)
	for i, key := range []string{"b0", "b1", "b2", "b3"} {
		e.computed(t, key, m.Terms[i].Coef)
	}
	e.rest(t)
}

func TestPublished_studentT(t *testing.T) {
	e := example(t, "student_t")
	for key := range e.Printed {
		df, err := strconv.Atoi(strings.TrimPrefix(key, "df"))
		if err != nil {
			t.Fatal(err)
		}
		e.printed(t, key, studentT(df))
	}
}

// meanSD is the expected standard deviation of a mean over so many cups with so
// many tiles each.
func meanSD(s Scatter, cups, tiles float64) float64 {
	return math.Sqrt(s.Cups*s.Cups/cups + s.Tiles*s.Tiles/(cups*tiles))
}
