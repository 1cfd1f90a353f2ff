package plan

import (
	"errors"
	"reflect"
	"slices"
	"strings"
	"testing"

	"pourboard/blend"
)

// Every key has what a form, the commented plans and the hints need of it, and
// its example and its default read.
func TestSections(t *testing.T) {
	for _, s := range sections() {
		for _, k := range s.Keys {
			if k.Help == "" || k.Example == "" {
				t.Errorf("[%s] %s: %+v", s.Path, k.Name, k)
			}
			for _, text := range []string{k.Example, k.Default} {
				if text == "" {
					continue
				}
				r := &reader{}
				r.d.Ends = []string{"Magnesia matt", "Soda blue"}
				var to any = &r.d
				if s.Several {
					to = &item{}
				}
				root := parse(k.Name + " = " + text)
				c := cell{fields: fields{reader: r, s: s, group: root}, k: k, v: root.byKey[k.Name], name: k.Name}
				if !c.read(k.place(to)) {
					t.Errorf("[%s] %s = %s: %v", s.Path, k.Name, text, r.problems)
				}
			}
		}
	}
}

// The keys beyond the first version's stand in their fields.
func TestRead_newKeys(t *testing.T) {
	for _, c := range []struct {
		name string
		plan string
		edit edit
		got  func(p *blend.Plan) any
		want any
	}{
		{"batch", seriesPlan, edit{3: `cup = { batch = "1 kg" }`}, func(p *blend.Plan) any { return p.Cup }, blend.Cup{BatchG: 1000, Size: blend.Amount{Of: blend.Dry}}},
		{"even", endsPlan, edit{4: "dry = \"100 g\"\neven = true"}, func(p *blend.Plan) any { return p.Cup.Even }, true},
		{"fill in mL", endsPlan, edit{6: `fill = "3 mL"`}, func(p *blend.Plan) any { return [2]float64{p.Kit.Fill, p.Kit.FillG} }, [2]float64{3, 1}},
		{"fill in g", endsPlan, edit{6: `fill = "2 g"`, 7: `pour = "0.1 g"`}, func(p *blend.Plan) any { return [2]float64{p.Kit.Fill, p.Kit.FillG} }, [2]float64{0, 2}},
		{"nothing lost", endsPlan, edit{6: "dead = \"0 mL\"\nloss = \"0 mL\"\nfill = \"0 mL\""}, func(p *blend.Plan) any { return p.Kit.Dead + p.Kit.Loss + p.Kit.Fill }, 0.0},
		{"none of them", endsPlan, edit{6: "fine = \"0 g\"\ncapacity = \"0 kg\"\nsyringe = \"0 mL\"", 28: "thickness = \"0 mm\"\ndip = \"0 mm\"\nhold = \"0 s\"\npickup = \"0 g\""},
			func(p *blend.Plan) any {
				return []float64{p.Kit.Fine.Size, p.Kit.Capacity, p.Kit.Syringe.Size, p.Tiles.ThicknessMM, p.Tiles.DipMM, p.Tiles.HoldS, p.Tiles.Pickup}
			}, make([]float64, 7)},
		{"defaults of cups weighed dry", endsPlan, edit{6: "", 7: "", 8: "", 9: "", 25: "divisions = 6\nmethod = \"weigh\""}, func(p *blend.Plan) any { return p.Kit.Defaults }, []string{"scale 0.1 g", "worst 5 %"}},
		{"nothing poured", seriesPlan, edit{15: "bodies = [\"Buff\"]\n[[poured]]\ncups = [2]\namount = \"0 mL\""}, func(p *blend.Plan) any { return p.Poured },
			[]blend.Poured{{Cups: []int{2}, Amount: blend.Amount{Of: blend.Volume}, Line: 16}}},
		{"inches", endsPlan, edit{28: `size = "2 x 4 in"`}, func(p *blend.Plan) any { return p.Tiles.Size }, "2 x 4 in"},
		{"inches in mm", endsPlan, edit{28: `size = "2 x 4 in"`}, func(p *blend.Plan) any { return [2]float64{p.Tiles.WidthMM, p.Tiles.HeightMM} }, [2]float64{50.8, 101.6}},
		{"pick-up", endsPlan, edit{28: `pickup = "0.05 g"`}, func(p *blend.Plan) any { return p.Tiles.Pickup }, 0.05},
		{"glaze from the bucket", endsPlan, edit{12: "", 13: ""}, func(p *blend.Plan) any { return p.Glazes[0] }, blend.Glaze{Name: "Magnesia matte", Line: 10}},
		{"also", endsPlan, edit{29: "[print]\nalso = [\"trays\", \"mat\"]\n[board]"}, func(p *blend.Plan) any { return p.Also }, []string{"trays", "mat"}},
		{"block and check", endsPlan, edit{29: "[log]\nblock = \"Shelf\"\ncheck = [3, 9]\n[board]"}, func(p *blend.Plan) any { return p.Log }, blend.Log{Block: "Shelf", Check: []int{3, 9}}},
		{"repeat", endsPlan, edit{25: "divisions = 6\nrepeat = [1, 8]"}, func(p *blend.Plan) any { return p.Blend.Repeat }, []int{1, 8}},
		{"poured", endsPlan, edit{29: "[[poured]]\ncups = \"7-9, 12\"\nglaze = \"Soda blue\"\namount = \"140 mL\"\n[board]"}, func(p *blend.Plan) any { return p.Poured },
			[]blend.Poured{{Cups: []int{7, 8, 9, 12}, Glaze: 2, Amount: blend.Amount{Value: 140, Of: blend.Volume}, Line: 29}}},
		{"poured of a base", seriesPlan, edit{15: "bodies = [\"Buff\"]\n[[poured]]\ncups = [2]\namount = \"90 g\""}, func(p *blend.Plan) any { return p.Poured },
			[]blend.Poured{{Cups: []int{2}, Amount: blend.Amount{Value: 90, Of: blend.Weight}, Line: 16}}},
		{"weigh", endsPlan, edit{25: "divisions = 6\nmethod = \"weigh\""}, func(p *blend.Plan) any { return p.Blend.Method }, blend.ByWeigh},
		{"pairs", endsPlan, edit{23: `kind = "pairs"`, 25: "shares = [25, 75]\nalone = true"}, func(p *blend.Plan) any { n, _ := p.Blend.CellCount(); return n }, 3*2 + 3},
		{"pairs half and half", endsPlan, edit{23: `kind = "pairs"`, 25: ""}, func(p *blend.Plan) any { return p.Blend.PairShares }, []float64{50}},
		{"rows", seriesPlan, edit{9: `kind = "rows"`, 12: "name = \"Ana\"\nmaterial = \"Copper carbonate\"", 14: "[[blend.series]]\nname = \"Ben\"\nmaterial = \"Copper carbonate\"\npercent = [0, 4]\n[tiles]"},
			func(p *blend.Plan) any { n, _ := p.Blend.CellCount(); return n }, 4 + 2},
		{"rows with one base cup", seriesPlan, edit{9: `kind = "rows"`, 10: "base = \"Magnesia matte\"\nshared-zero = true", 14: "[[blend.series]]\nmaterial = \"Rutile\"\npercent = [0, 4]\n[tiles]"},
			func(p *blend.Plan) any { n, _ := p.Blend.CellCount(); return n }, 1 + 3 + 1},
		{"cups made again", seriesPlan, edit{13: "percent = [0, 1, 1, 2]"}, func(p *blend.Plan) any { return p.Blend.Series[0].Percents }, []float64{0, 1, 1, 2}},
		{"parts", endsPlan, edit{23: `kind = "list"`, 25: "cells = [[2, 1, 0], [1, 1, 1]]"}, func(p *blend.Plan) any { return p.Blend.Parts }, [][]float64{{2, 1, 0}, {1, 1, 1}}},
		{"fired analysis", endsPlan, edit{29: "[[material]]\nname = \"Talc\"\nanalysis = { SiO2 = 66, MgO = 34, LOI = 5 }\nanalysis-of = \"fired\"\n[board]"},
			func(p *blend.Plan) any { a := p.Materials[0].Analysis; return [2]float64{a.Of("MgO"), a.LOI} }, [2]float64{34 * 0.95, 5}},
		{"seed of nothing", endsPlan, edit{30: "order = \"random\"\nseed = 0"}, func(p *blend.Plan) any { return p.Board }, blend.Board{Paper: "A4", PaperW: 210, PaperH: 297, Scale: blend.Life, Shuffle: true}},
		{"interior line", endsPlan, edit{23: `kind = "line"`, 24: `ends = ["Chalk white", "Soda blue"]`, 25: "cells = 9\ninterior = true"}, func(p *blend.Plan) any { n, _ := p.Blend.CellCount(); return n }, 9},
	} {
		text := c.edit.of(c.plan)
		p, _, err := Read("plan.toml", []byte(text))
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if got := c.got(p); !reflect.DeepEqual(got, c.want) {
			t.Errorf("%s: %+v, want %+v", c.name, got, c.want)
		}
		withoutLines(p)
		again, _, err := Read("again.toml", Write(p))
		if err != nil {
			t.Errorf("%s: what Write makes does not read: %v\n%s", c.name, err, Write(p))
			continue
		}
		withoutLines(again)
		if !reflect.DeepEqual(again, p) {
			t.Errorf("%s: came back as\n%+v, was\n%+v", c.name, again, p)
		}
	}
}

// Each way of getting the new keys wrong is one line with what would be right.
func TestRead_newKeysWrong(t *testing.T) {
	for _, c := range []struct {
		plan string
		edit edit
		want string
	}{
		{seriesPlan, edit{13: `percent = ["5"]`}, `plan.toml:13: percent = "5" has no unit (a percentage in %, as in "5 %")`},
		{endsPlan, edit{29: "[log]\nnumbers = [\"Cup\"]\n[board]"}, `plan.toml:30: the log has a column "Cup" already (another name)`},
		{endsPlan, edit{29: "[log]\nblock = \"Rating\"\n[board]"}, `plan.toml:30: the log has a column "Rating" already`},
		{endsPlan, edit{29: "[log]\ncheck = [99]\n[board]"}, `plan.toml:30: cup 99 in check does not exist (cups are 1 to 28)`},
		{endsPlan, edit{29: "[[poured]]\ncups = \"27-30\"\nglaze = \"Soda blue\"\namount = \"140 mL\"\n[board]"}, `plan.toml:30: cup 29 in cups does not exist (cups are 1 to 28)`},
		{endsPlan, edit{29: "[[poured]]\ncups = \"9-7\"\nglaze = \"Soda blue\"\namount = \"140 mL\"\n[board]"}, `"9-7" does not list cups (as in "7-25" or "1, 3, 8-10")`},
		{endsPlan, edit{29: "[[poured]]\ncups = \"7\"\namount = \"140 mL\"\n[board]"}, `plan.toml:29: [[poured]] has no glaze`},
		{endsPlan, edit{29: "[print]\nalso = [\"tray\"]\n[board]"}, `unknown name in also "tray" (did you mean "trays"?)`},
		{endsPlan, edit{25: "divisions = 6\nrepeat = [1, 29]"}, `plan.toml:26: cup 29 in repeat does not exist (cups are 1 to 28)`},
		{endsPlan, edit{4: `batch = "1000 g"`}, `plan.toml:4: batch does not belong to a triaxial`},
		{seriesPlan, edit{3: `cup = { dry = "100 g", batch = "1 kg" }`}, `[cup] has dry and batch`},
		{endsPlan, edit{6: `fill = "1 g"`}, `fill = "1 g" is not in the unit that you pour by, mL`},
		{endsPlan, edit{23: `kind = "pairs"`, 25: "shares = [0, 50]"}, `a share of 0 % leaves one glaze of the pair out`},
		{endsPlan, edit{23: `kind = "pairs"`, 24: `ends = ["Chalk white", "Soda blue"]`, 25: ""}, `kind = "pairs" needs 3 to 12 end glazes; ends lists 2`},
		{seriesPlan, edit{9: `kind = "rows"`, 10: "base = \"Magnesia matte\"\ncolumns = 3"}, `columns does not belong to kind = "rows"`},
		{seriesPlan, edit{12: "name = \"Ana\"\nmaterial = \"Rutile\""}, `name does not belong to a line-series`},
		{endsPlan, edit{12: "", 25: "divisions = 6\nmethod = \"weigh\""}, `method = "weigh" needs the recipe of "Magnesia matte"`},
		{endsPlan, edit{25: "divisions = 6\nmethod = \"weigh\"\nbasis = \"volume\""}, `basis = "volume" does not go with method = "weigh"`},
		{endsPlan, edit{25: "divisions = 6\nmethod = \"stock\""}, `method = "stock" needs a base and [[blend.series]]`},
		{seriesPlan, edit{3: "cup = { dry = \"100 g\" }\nmeasure = { syringe = \"0 mL\" }", 10: "base = \"Magnesia matte\"\nmethod = \"stock\""}, `syringe = "0 mL" means none, but method = "stock" needs a syringe (its smallest mark: syringe = "1 mL")`},
		{seriesPlan, edit{3: "cup = { dry = \"100 g\" }\nmeasure = { syringe = \"0G5 mL\" }", 10: "base = \"Magnesia matte\"\nmethod = \"stock\""}, `syringe = "0G5 mL" is not a volume`},
		{endsPlan, edit{28: `pickup = "5 g"`}, `pickup = "5 g" is out of range (0, or 0.001 to 1 g)`},
	} {
		_, _, err := Read("plan.toml", []byte(c.edit.of(c.plan)))
		var problems Problems
		if !errors.As(err, &problems) || !strings.Contains(err.Error(), c.want) || len(problems) != 1 {
			t.Errorf("got\n%v\nwant\n%s", err, c.want)
		}
	}
}

func TestCupNumbers(t *testing.T) {
	for text, want := range map[string][]int{"7": {7}, "7-9": {7, 8, 9}, "1, 3, 8–10": {1, 3, 8, 9, 10}} {
		if got := readCupNumbers(text); !slices.Equal(got, want) {
			t.Errorf("%q: %v", text, got)
		}
	}
	for _, text := range []string{"", "x", "0", "3-1", "1-999999999", "-3"} {
		if got := readCupNumbers(text); got != nil {
			t.Errorf("%q reads as %v", text, got)
		}
	}
}
