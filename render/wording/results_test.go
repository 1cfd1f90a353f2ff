package wording

import (
	"strings"
	"testing"

	"pourboard/blend/mark"
	"pourboard/blend/mixmodel"
	"pourboard/blend/quantity"
	"pourboard/blend/record/recordtest"
	"pourboard/blend/results"
)

func TestNumbersInWords(t *testing.T) {
	for _, test := range []struct{ got, want string }{
		{quantity.Fixed(3.25, 1), "3.3"},
		{quantity.Fixed(-3.25, 1), "-3.3"},
		{quantity.Fixed(1.005, 2), "1.01"}, // held as 1.00499999999999989…
		{quantity.Fixed(139.65, 1), "139.7"},
		{quantity.Fixed(-0.004, 2), "0.00"},
		{quantity.Fixed(12345678.5, 0), "12345678"},
		{StatisticText(0), "0"},
		{StatisticText(11.7), "11.70"},
		{StatisticText(-9.6), "-9.600"},
		{StatisticText(12345), "12345"},
		{StatisticText(0.000123456), "0.0001235"},
		{StatisticText(1.5e-9), "1.500e-09"},
		{ErrorText(0.60369), "0.60"},
		{ErrorText(2.6082), "2.6"},
		{ErrorText(26.082), "26"},
		{ErrorText(0), "0"},
		{RatioText(0.951356), "0.951"},
		{plusMinusText(62.41, 1.3), "62.4 ± 1.3"},
		{plusMinusText(0.04567, 0.0022), "0.0457 ± 0.0022"},
		{plusMinusText(1234.5, 120), "1235 ± 120"},
		{plusMinusText(4, 0), "4.000"},
	} {
		if test.got != test.want {
			t.Errorf("got %s, want %s", test.got, test.want)
		}
	}
}

func TestMixtureText(t *testing.T) {
	for _, test := range []struct {
		plan    string
		point   []float64
		mixture string
		ends    string
	}{
		{"triaxial", []float64{0.45, 0.3, 0.25}, "45 % Q, 30 % S, 25 % V",
			"Q Magnesia matte, S Field ash runny, V Soda blue; shares of dry glaze"},
		{"triaxial-series", []float64{0.5, 0.25, 0.25}, "1.5 % Copper carbonate, 1.25 % Rutile, 1 % Tin oxide",
			"X Copper carbonate (a share of 1 is 3 %), Y Rutile (a share of 1 is 5 %), Z Tin oxide (a share of 1 is 4 %); shares of the way to each corner"},
		{"biaxial-series", []float64{0, 0}, "the base alone",
			"X Copper carbonate, Y Rutile; % of the cup's dry glaze"},
		{"biaxial-series", []float64{0, 4}, "4 % Rutile",
			"X Copper carbonate, Y Rutile; % of the cup's dry glaze"},
		{"biaxial-series", []float64{1.256, 4}, "1.26 % Copper carbonate, 4 % Rutile",
			"X Copper carbonate, Y Rutile; % of the cup's dry glaze"},
	} {
		m := recordtest.Planned(t, test.plan, nil)
		r := results.Evaluate(m.Test, m.Read(t, m.BlankLog()))
		if got := MixtureText(r, test.point); got != test.mixture {
			t.Errorf("%s: %s, want %s", test.plan, got, test.mixture)
		}
		if got := EndsText(r); got != test.ends {
			t.Errorf("%s: %s, want %s", test.plan, got, test.ends)
		}
	}
}

// The sentences about a model say what was found: a line of gloss that rises
// evenly, with a little scatter of a known size.
func TestModelInWords(t *testing.T) {
	m := recordtest.Planned(t, "triaxial", nil)
	sheets := m.BlankLog()
	m.Fill(t, &sheets[0], "Gloss", func(tile mark.Tile) float64 {
		x := m.Test.Cells[tile.Cell-1].Shares
		return 20*x[0] + 50*x[1] + 30*x[2] + []float64{-1, 0, 1}[tile.Body]
	})
	r := results.Evaluate(m.Test, m.Read(t, sheets))
	gloss := &r.Measures[0]
	all := gloss.Models[3]
	if got := ModelText(r, all); !strings.HasPrefix(got, "all bodies, 28 cups (84 tiles): linear model; a cup left out is predicted to 0.") {
		t.Errorf("%s", got)
	}
	if got := strings.Join(OffsetTexts(all.Choice.Chosen), "; "); got != "Buff reads 1.000 above Porcelain; Red reads 2.000 above Porcelain" {
		t.Errorf("%s", got)
	}
	if got := bestText(r, all.Highest); !strings.HasPrefix(got, "50.") || !strings.Contains(got, " ± 0.") || !strings.HasSuffix(got, " at 100 % S, which is cup 22") {
		t.Errorf("%s", got)
	}
	wrong := mixmodel.Model{Lack: mixmodel.LackOfFit{F: 58.69, DF: 9, PureDF: 10, P: 2e-7}}
	if got := lackText(&wrong); got != "the readings do not follow the model; do not rely on its ± (lack of fit: F 58.69 on 9 and 10 degrees of freedom, probability under 0.001)" {
		t.Errorf("%s", got)
	}
	if got := ScatterText(gloss); got != "no repeats: scatter and misfit unknown" {
		t.Errorf("%s", got)
	}
	gloss.Scatter = mixmodel.Scatter{Tiles: 0.85375, TileDF: 9, Cups: 3.14, CupDF: 6}
	if got := ScatterText(gloss); got != "tiles of one cup scatter by 0.85 (standard deviation, 9 degrees of freedom); cups of one mixture by 3.1 more (6)" {
		t.Errorf("%s", got)
	}
	gloss.Decimals = 0
	check := mixmodel.Check{Cup: mixmodel.Cup{Number: 9, Tiles: 1, Mean: 61}, Prediction: mixmodel.Prediction{Mean: 58.2, NewLimit: 4, Inside: true}}
	if got := CheckText(gloss, check); got != "cup 9: read 61, predicted 58.2 ± 4.0" {
		t.Errorf("%s", got)
	}
}
