package plan

import (
	"errors"
	"fmt"
	"strings"
	"testing"
)

// endsPlan is a blend of end glazes with one matter on each line.
const endsPlan = `title = "Three glazes"
mark = "MR"
[cup]
dry = "100 g"
[measure]
scale = "0.1 g"
pour = "5 mL"
extra = "10 %"
worst = "5 %"
[[glaze]]
name = "Magnesia matte"
recipe = [["Potash feldspar", 44], ["Silica", 22], ["Talc", 16], ["Whiting", 10], ["Kaolin", 8]]
specific-gravity = 1.45
[[glaze]]
name = "Chalk white"
recipe = [["Silica", 40], ["Whiting", 30], ["Kaolin", 30]]
specific-gravity = 1.48
[[glaze]]
name = "Soda blue"
recipe = [["Soda feldspar", 60], ["Whiting", 40]]
water = "95 g"
[blend]
kind = "triaxial"
ends = ["Magnesia matte", "Chalk white", "Soda blue"]
divisions = 6
[tiles]
bodies = ["Porcelain", "Buff"]
size = "50 x 100 mm"
[board]
paper = "A4"
`

// seriesPlan is a series on one base.
const seriesPlan = `title = "Copper"
mark = "CU"
cup = { dry = "100 g" }
[[glaze]]
name = "Magnesia matte"
recipe = [["Potash feldspar", 60], ["Silica", 40]]
specific-gravity = 1.45
[blend]
kind = "line"
base = "Magnesia matte"
[[blend.series]]
material = "Copper carbonate"
percent = [0, 0.5, 1, 2]
[tiles]
bodies = ["Buff"]
`

// edit puts text in place of a line, from 1; a text may be several lines.
type edit map[int]string

func (e edit) of(plan string) string {
	lines := strings.Split(plan, "\n")
	for n, text := range e {
		lines[n-1] = text
	}
	return strings.Join(lines, "\n")
}

// told is a line with words that its message must have.
type told struct {
	line  int
	words string // parted by |
}

// Every way of breaking a plan names exactly the lines that are wrong, and
// what would be right.
func TestRead_broken(t *testing.T) {
	for _, c := range []struct {
		name string
		plan string
		edit edit
		want []told
	}{
		// The top of the file.
		{"no title", endsPlan, edit{1: ""}, []told{{1, "no title|title = "}}},
		{"title a number", endsPlan, edit{1: `title = 7`}, []told{{1, "title is the number 7|text in quotes"}}},
		{"title blank", endsPlan, edit{1: `title = "  "`}, []told{{1, "title is empty"}}},
		{"title of two lines", endsPlan, edit{1: `title = "one\ntwo"`}, []told{{1, "line break|one line"}}},
		{"title too long", endsPlan, edit{1: `title = "` + strings.Repeat("ж", 201) + `"`}, []told{{1, "too long|200|at most 200"}}},
		{"mark in small letters", endsPlan, edit{2: `mark = "mr"`}, []told{{2, `small letters|mark = "MR"`}}},
		{"mark too long", endsPlan, edit{2: `mark = "COPPER"`}, []told{{2, `"COPPER"|1 to 4`}}},
		{"mark figure first", endsPlan, edit{2: `mark = "2K"`}, []told{{2, "letters first"}}},
		{"mark a number", endsPlan, edit{2: `mark = 12`}, []told{{2, "the number 12|in quotes"}}},
		{"unknown key at the top", endsPlan, edit{2: `titel = "x"`}, []told{{2, `unknown key "titel"|did you mean title`}}},
		{"unknown heading", endsPlan, edit{26: `[tile]`}, []told{{26, `[tile]|did you mean [tiles]?`}}},
		{"unknown heading like none", endsPlan, edit{29: "[kiln]\n[board]"}, []told{{29, `[kiln]|one of`}}},
		{"key under the wrong heading", endsPlan, edit{5: "coats = 3\n[measure]"}, []told{{5, `"coats" in [cup]|belongs in [tiles]`}}},
		{"top key after a heading", endsPlan, edit{1: "", 4: "dry = \"100 g\"\ntitle = \"Three\""}, []told{{1, "no title"}, {5, "belongs in the top of the file"}}},
		{"a key twice", endsPlan, edit{4: "dry = \"100 g\"\ndry = \"120 g\""}, []told{{5, `"dry" is given twice|line 4`}}},
		{"a heading twice", endsPlan, edit{29: "[cup]\ndiameter = \"7 cm\"\n[board]"}, []told{{29, `is given twice|line 3`}}},
		{"single brackets", endsPlan, edit{10: "[glaze]"}, []told{{10, "[glaze]|write [[glaze]]"}}},
		{"wrong brackets|write [blend]", endsPlan, edit{22: "[[blend]]"}, []told{{22, "wrong brackets|write [blend]|[blend]"}}},
		{"size of the paper", endsPlan, edit{30: "size = \"A4\""}, []told{{30, "it belongs in [tiles])"}}},
		{"cups at the top", endsPlan, edit{2: `cups = 5`}, []told{{2, "it belongs in [blend], as cells"}}},
		{"a heading for a key", endsPlan, edit{1: "title = \"x\"\nboard = \"A4\"", 29: "", 30: ""}, []told{{2, `board is the text "A4"|[board]`}}},
		{"keys below a text", endsPlan, edit{1: "title = \"x\"\ntitle.short = \"y\""}, []told{{2, `"title" cannot hold further keys|line 1`}}},

		// TOML itself.
		{"unit without quotes", endsPlan, edit{4: `dry = 100 g`}, []told{{4, `quotes (dry = "100 g")`}}},
		{"percent without quotes", endsPlan, edit{8: `extra = 10 %  # more`}, []told{{8, `quotes (extra = "10 %"`}}},
		{"two units without quotes", endsPlan, edit{4: `dry = 100 g`, 6: `scale = 0.1g`, 24: `ends = ["Magnesia matte", "Chalk whit", "Soda blue"]`},
			[]told{{4, `"100 g"`}, {6, `"0.1g"`}, {24, `did you mean "Chalk white"`}}},
		{"word without quotes", endsPlan, edit{23: `kind = triaxial`}, []told{{23, `quotes (kind = "triaxial")`}}},
		{"True", endsPlan, edit{25: "divisions = 6\ninterior = True"}, []told{{26, "interior = true"}}},
		{"decimal comma in a number", endsPlan, edit{13: `specific-gravity = 1,45`}, []told{{13, "specific-gravity = 1.45"}}},
		{"curly quotes", endsPlan, edit{4: `dry = “100 g”`}, []told{{4, `curly quotes|"100 g"`}}},
		{"a line end of an old Macintosh", endsPlan, edit{4: "dry = a\rb"}, []told{{4, "dry cannot be read"}}},
		{"no value", endsPlan, edit{4: `dry =`}, []told{{4, `dry has no value|dry = "100 g"`}}},
		{"no equals sign", endsPlan, edit{4: `dry "100 g"`}, []told{{4, `no = before|(dry = "100 g")`}}},
		{"open text", endsPlan, edit{1: `title = "Three`}, []told{{1, `quotes (title = "Three")`}}},
		{"open list", endsPlan, edit{12: `recipe = [["Silica", 22], ["Talc", 16]`}, []told{{12, `closing bracket|recipe = [["Potash feldspar", 44]`}}},
		{"open heading", endsPlan, edit{3: `[cup`}, []told{{3, "brackets of a section ([cup])"}}},
		{"open braces", endsPlan, edit{25: "divisions = 6\nbounds = { \"Soda blue\" = [1, 2]\n"}, []told{{26, `closing bracket|{ "Magnesia matt" = ["20 %", "60 %"] }`}}},
		{"something left over", endsPlan, edit{25: `divisions = 6 "x"`}, []told{{25, "left over"}}},
		{"bad escape", endsPlan, edit{1: `title = "C:\glazes"`}, []told{{1, `\`}}},
		{"control character", endsPlan, edit{1: "title = \"a\x01b\""}, []told{{1, "control character"}}},
		{"not UTF-8", endsPlan, edit{2: "mark = \"\xe9\""}, []told{{2, "UTF-8"}}},
		{"two problems round an open list", endsPlan, edit{2: `mark = "2"`, 24: `ends = ["Magnesia matte"`}, []told{{2, "letters first"}, {24, `closing bracket|ends = ["Magnesia matt", "Soda blue"])`}}},
		{"integer out of range", endsPlan, edit{25: `divisions = 99999999999999999999`}, []told{{25, "99999999999999999999|1 to 100000"}}},

		// Quantities.
		{"bare number", endsPlan, edit{4: `dry = 100`}, []told{{4, `no unit|dry = "100 g"`}}},
		{"no unit", endsPlan, edit{4: `dry = "100"`}, []told{{4, `no unit|"100 g"`}}},
		{"wrong unit", endsPlan, edit{4: `dry = "100 mL"`}, []told{{4, `wrong unit|g, kg or mg`}}},
		{"volume for a mass", endsPlan, edit{3: "[cup]\nvolume = \"100 g\"", 4: ""}, []told{{4, `a volume in mL, L, cL or dL`}}},
		{"two ways to read a comma", endsPlan, edit{4: `dry = "1,234 g"`}, []told{{4, `is ambiguous|"1.234 g" or "1234 g"`}}},
		{"nothing", endsPlan, edit{4: `dry = "0 g"`}, []told{{4, "too small|more than 0 g"}}},
		{"below nothing", endsPlan, edit{4: `dry = "-5 g"`}, []told{{4, "negative"}}},
		{"nan", endsPlan, edit{4: `dry = "nan g"`}, []told{{4, "not a mass"}}},
		{"inf", endsPlan, edit{13: `specific-gravity = inf`}, []told{{13, "inf|1.45"}}},
		{"nan as a number", endsPlan, edit{25: `divisions = nan`}, []told{{25, "nan|not a number"}}},
		{"absurdly large", endsPlan, edit{4: `dry = "99999999 kg"`}, []told{{4, "too large"}}},
		{"a vat in a cup", endsPlan, edit{4: `dry = "900 kg"`}, []told{{4, "out of range|0.01 to 100000 g"}}},
		{"fraction without sign", endsPlan, edit{8: `extra = "0.12"`}, []told{{8, `no unit|"12 %" or "0.12 %"`}}},
		{"bare number of grams", endsPlan, edit{8: `capacity = 5000`}, []told{{8, `no unit|capacity = "5000 g"`}}},
		{"percentage without sign", endsPlan, edit{8: `extra = "10"`}, []told{{8, `no unit|"10 %"`}}},
		{"bare percentage", endsPlan, edit{8: `extra = 10`}, []told{{8, `extra = "10 %"`}}},
		{"extra of 200 %", endsPlan, edit{8: `extra = "200 %"`}, []told{{8, "0 to 100 %"}}},
		{"worst of nothing", endsPlan, edit{9: `worst = "0 %"`}, []told{{9, "too small"}}},
		{"scale too coarse", endsPlan, edit{6: `scale = "2 kg"`}, []told{{6, "2 kg|1000 g"}}},
		{"fine not finer", endsPlan, edit{6: "scale = \"0.1 g\"\nfine = \"1 g\""}, []told{{7, "not finer"}}},
		{"fine beside a broken scale", endsPlan, edit{6: "scale = \"0.1 ml\"\nfine = \"0.01 g\""}, []told{{6, "wrong unit"}}},
		{"not UTF-8 text", endsPlan, edit{6: "scale = \"0.1\x00 g\""}, []told{{6, "not UTF-8 text"}}},
		{"pour in mm", endsPlan, edit{7: `pour = "5 mm"`}, []told{{7, "wrong unit"}}},
		{"size of one side", endsPlan, edit{28: `size = "50 mm"`}, []told{{28, `"50 x 100 mm"`}}},
		{"size in g", endsPlan, edit{28: `size = "50 x 100 g"`}, []told{{28, `"50 x 100 g"|not a width and a height|"50 x 100 mm"`}}},
		{"size a number", endsPlan, edit{28: `size = 50`}, []told{{28, `size = "50 x 100 mm"`}}},
		{"a tile like a house", endsPlan, edit{28: `size = "5 x 10 m"`}, []told{{28, "5 to 1000 mm"}}},
		{"a quantity as a list", endsPlan, edit{4: `dry = ["100 g"]`}, []told{{4, "a list|in quotes"}}},

		// The cup.
		{"no cup", endsPlan, edit{3: "", 4: ""}, []told{{1, "no [cup]|dry"}}},
		{"cup of no size", endsPlan, edit{4: `diameter = "70 mm"`}, []told{{3, `no dry, volume or weight (dry = "100 g", volume = `}}},
		{"cup of two sizes", endsPlan, edit{4: "dry = \"100 g\"\nvolume = \"180 mL\""}, []told{{5, "dry and volume|one of them"}}},

		// Glazes.
		{"no glaze", seriesPlan, edit{4: "", 5: "", 6: "", 7: ""}, []told{{1, "no [[glaze]]"}, {10, "unknown glaze"}}},
		{"glaze without a name", seriesPlan, edit{5: ""}, []told{{4, "no name"}, {10, "Magnesia|describe it"}}},
		{"two glazes of one name", endsPlan, edit{15: `name = "magnesia  Matte"`}, []told{{15, "two glazes|line 11"}, {24, `"Chalk white"`}}},
		{"no recipe", endsPlan, edit{12: `additions = [["Bentonite", 2]]`}, []told{{12, "no recipe|Magnesia matte"}}},
		{"empty recipe", endsPlan, edit{12: "recipe = []"}, []told{{12, "empty"}}},
		{"recipe as a table", endsPlan, edit{12: `recipe = { Silica = 22 }`}, []told{{12, `a group of keys|recipe = [["Potash feldspar", 44]`}}},
		{"recipe without pairs", endsPlan, edit{12: `recipe = ["Silica", 22]`}, []told{{12, "not a material and its amount"}}},
		{"recipe the wrong way round", endsPlan, edit{12: `recipe = [[22, "Silica"]]`}, []told{{12, `not a material and its amount|recipe = [["Potash feldspar", 44]`}}},
		{"amount as text", endsPlan, edit{12: `recipe = [["Silica", "22"]]`}, []told{{12, `"Silica"|without quotes`}}},
		{"amount with a unit", endsPlan, edit{12: `recipe = [["Silica", "22 g"]]`}, []told{{12, `"22 g"|without quotes or unit`}}},
		{"amount of nothing", endsPlan, edit{12: "recipe = [\n[\"Silica\", 22],\n[\"Talc\", 0],\n[\"Kaolin\", -3]]"}, []told{{14, `"Talc"|out of range`}, {15, `"Kaolin"|-3`}}},
		{"amount nan", endsPlan, edit{12: `recipe = [["Silica", nan]]`}, []told{{12, "nan"}}},
		{"amount absurd", endsPlan, edit{12: `recipe = [["Silica", 1e300]]`}, []told{{12, "1000000"}}},
		{"additions over 100", endsPlan, edit{12: "recipe = [[\"Silica\", 100]]\nadditions = [[\"Rutile\", 120]]"}, []told{{13, "0.000001 to 100"}}},
		{"long recipe", endsPlan, edit{12: "recipe = [" + strings.Repeat(`["Silica", 1],`, 61) + "]"}, []told{{12, "61 entries|60"}}},
		{"gravity and water", endsPlan, edit{13: "specific-gravity = 1.45\nwater = \"98 g\""}, []told{{14, "keep one"}}},
		{"gravity of water", endsPlan, edit{13: "specific-gravity = 1.0"}, []told{{13, "too low|weigh 100 mL again"}}},
		{"gravity of a litre", endsPlan, edit{13: "specific-gravity = 1450"}, []told{{13, "specific-gravity = 1.45"}}},
		{"gravity of 100 mL", endsPlan, edit{13: "specific-gravity = 145"}, []told{{13, "specific-gravity = 1.45"}}},
		{"gravity as text", endsPlan, edit{13: `specific-gravity = "1.45"`}, []told{{13, `the text "1.45"|without quotes`}}},
		{"gravity above the solids", endsPlan, edit{13: "specific-gravity = 2.3\nsolids-density = 2.2"}, []told{{13, "2.20 g/mL"}}},
		{"gravity above its materials", endsPlan, edit{12: `recipe = [["Light stuff", 100]]`, 13: "specific-gravity = 2.1", 29: "[[material]]\nname = \"Light stuff\"\ndensity = 2.05\n[board]"}, []told{{13, "density of the dry materials, 2.05 g/mL"}}},
		{"gravity of no slip", endsPlan, edit{13: "specific-gravity = 3.1"}, []told{{13, "too high|145 g in 100 mL"}}},
		{"water of no slip", endsPlan, edit{21: "water = \"2 g\""}, []told{{21, "15 to 10000 g"}}},
		{"solids of nothing", endsPlan, edit{13: "solids-density = 0.5"}, []told{{13, "solids-density"}}},
		{"water without unit", endsPlan, edit{21: "water = 95"}, []told{{21, `water = "95 g"`}}},
		{"slang", endsPlan, edit{13: "sg = 1.45"}, []told{{13, "did you mean specific-gravity?"}}},
		{"underscores", endsPlan, edit{13: "specific_gravity = 1.45"}, []told{{13, "did you mean specific-gravity?"}}},

		// The design.
		{"no blend", endsPlan, edit{22: "", 23: "", 24: "", 25: ""}, []told{{1, "no [blend]"}}},
		{"no kind", endsPlan, edit{23: ""}, []told{{22, `no kind|"triaxial"`}}},
		{"unknown kind", endsPlan, edit{23: `kind = "triaxal"`}, []told{{23, `did you mean "triaxial"?`}}},
		{"unknown end", endsPlan, edit{24: `ends = ["Magnesia matte", "Chalk white", "Sodablue"]`}, []told{{24, `"Sodablue"|did you mean "Soda blue"?`}}},
		{"an end twice", endsPlan, edit{24: `ends = ["Magnesia matte", "Chalk white", "Chalk white"]`}, []told{{24, `lists "Chalk white" twice`}}},
		{"too few ends", endsPlan, edit{24: `ends = ["Magnesia matte", "Chalk white"]`}, []told{{24, "needs 3 end glazes|lists 2"}}},
		{"too few ends over lines", endsPlan, edit{24: "ends = [\n  \"Magnesia matte\",\n  \"Chalk whit\"\n]"}, []told{{24, "needs 3 end glazes|lists 2"}, {26, `"Chalk white"`}}},
		{"ends as text", endsPlan, edit{24: `ends = "Magnesia matte"`}, []told{{24, "a list"}}},
		{"no ends", endsPlan, edit{24: ""}, []told{{22, "neither ends nor base"}}},
		{"ends and a base", endsPlan, edit{24: "ends = [\"Magnesia matte\", \"Chalk white\", \"Soda blue\"]\nbase = \"Soda blue\""}, []told{{25, "base does not belong to a triaxial|ends"}}},
		{"ends and a series", endsPlan, edit{26: "[[blend.series]]\nmaterial = \"Rutile\"\n[tiles]"}, []told{{26, "[[blend.series]] does not belong to a triaxial"}}},
		{"unknown basis", endsPlan, edit{25: "divisions = 6\nbasis = \"mass\""}, []told{{26, `"mass"|"dry", "volume" or "weight"`}}},
		{"divisions and tiles", endsPlan, edit{25: "divisions = 6\ntiles = 28"}, []told{{26, "keep one"}}},
		{"no such count", endsPlan, edit{25: "tiles = 25"}, []told{{25, "25 tiles|21, 28 or 36"}}},
		{"no such count inside", endsPlan, edit{25: "tiles = 9\ninterior = true"}, []told{{25, "inside its edges|6, 10 or 15"}}},
		{"no such count of one", endsPlan, edit{25: "tiles = 2"}, []told{{25, "3 or 6"}}},
		{"divisions as text", endsPlan, edit{25: `divisions = "6"`}, []told{{25, `the text "6"|without quotes`}}},
		{"half a division", endsPlan, edit{25: `divisions = 6.5`}, []told{{25, "6.5|whole number"}}},
		{"no divisions", endsPlan, edit{25: ""}, []told{{22, "no divisions or tiles|tiles = 28"}}},
		{"too many cells", endsPlan, edit{25: "divisions = 50000"}, []told{{25, "more than 100000 cups"}}},
		{"too many tiles", endsPlan, edit{25: "divisions = 200", 28: "repeats = 20"}, []told{{25, "tiles|200000"}}},
		{"no inner cell", endsPlan, edit{25: "divisions = 2\ninterior = true"}, []told{{25, "no cup|more steps"}}},
		{"interior as text", endsPlan, edit{25: "divisions = 6\ninterior = \"yes\""}, []told{{26, "true or false"}}},
		{"a key of another kind", endsPlan, edit{25: "divisions = 6\ncolumns = 5"}, []told{{26, "columns does not belong to a triaxial|divisions"}}},
		{"bounds of no end", endsPlan, edit{25: "divisions = 6\nbounds = { \"Soda\" = [10, 20] }"}, []told{{26, `unknown end glaze "Soda"`}}},
		{"bounds upside down", endsPlan, edit{25: "divisions = 6\nbounds = { \"Soda blue\" = [\"60 %\", \"20 %\"] }"}, []told{{26, "not two percentages|the smaller one first"}}},
		{"bounds of one number", endsPlan, edit{25: "divisions = 6\nbounds = { \"Soda blue\" = [60] }"}, []told{{26, "two percentages"}}},
		{"bounds that fill all", endsPlan, edit{25: "divisions = 6\nbounds = { \"Soda blue\" = [60, 80], \"Chalk white\" = [40, 90] }"}, []told{{26, "nothing to vary|100 %"}}},
		{"bounds that cannot fill", endsPlan, edit{25: "divisions = 6\nbounds = { \"Soda blue\" = [0, 30], \"Chalk white\" = [0, 30], \"Magnesia matte\" = [0, 30] }"}, []told{{26, "nothing to vary|90 %"}}},
		{"bounds over 100", endsPlan, edit{25: "divisions = 6\nbounds = { \"Soda blue\" = [0, 130] }"}, []told{{26, "percentages of 0 to 100 %"}}},
		{"tiles inside bounds", endsPlan, edit{25: "tiles = 28\nbounds = { \"Soda blue\" = [0, 30] }"}, []told{{25, "inside bounds|divisions"}}},
		{"biaxial without rows", endsPlan, edit{14: "[[glaze]]\nname = \"D\"\nrecipe = [[\"Silica\", 100]]\n[[glaze]]", 23: `kind = "biaxial"`, 24: `ends = ["Magnesia matte", "Chalk white", "Soda blue", "D"]`, 25: "columns = 3"},
			[]told{{25, "no rows"}}},
		{"line of one cell", endsPlan, edit{23: `kind = "line"`, 24: `ends = ["Chalk white", "Soda blue"]`, 25: "cells = 1"}, []told{{25, "one cup|2 cups or more"}}},
		{"list with a part too many", endsPlan, edit{23: `kind = "list"`, 25: "cells = [\n[1, 0, 0],\n[1, 2, 3, 4],\n[0, 0, 0],\n[-1, 1, 1],\n5]"},
			[]told{{27, "cup 2 has 4 parts|3 end glazes"}, {28, "cup 3 is empty"}, {29, "-1"}, {30, "cup 5 is the number 5"}}},
		{"list without cells", endsPlan, edit{23: `kind = "list"`, 25: "cells = []"}, []told{{25, "empty|[[70, 30]"}}},
		{"centroid with divisions", endsPlan, edit{23: `kind = "centroid"`}, []told{{25, "divisions does not belong to a centroid"}}},

		// A series.
		{"unknown base", seriesPlan, edit{10: `base = "Magnesia mat"`}, []told{{10, `did you mean "Magnesia matte"?`}}},
		{"no base", seriesPlan, edit{10: ""}, []told{{8, "no base"}}},
		{"no series", seriesPlan, edit{11: "", 12: "", 13: ""}, []told{{8, "no [[blend.series]]"}}},
		{"series without material", seriesPlan, edit{12: ""}, []told{{11, "no material"}}},
		{"unknown method", seriesPlan, edit{10: "base = \"Magnesia matte\"\nmethod = \"dosed\""}, []told{{11, `did you mean "dose"?`}}},
		{"a negative percentage", seriesPlan, edit{13: "percent = [0, -1]"}, []told{{13, "-1|0, or 0.000001 to 99.9999 %"}}},
		{"a percentage of all", seriesPlan, edit{13: "percent = [0, 100]"}, []told{{13, "100 is out of range"}}},
		{"a percentage nan", seriesPlan, edit{13: "percent = [0, nan]"}, []told{{13, "nan"}}},
		{"empty percent", seriesPlan, edit{13: "percent = []"}, []told{{13, "empty"}}},
		{"percent and from", seriesPlan, edit{13: "percent = [0, 1]\nfrom = 0"}, []told{{14, "percent and from"}}},
		{"from without to", seriesPlan, edit{13: "from = 1\ncells = 3"}, []told{{11, "nor to"}}},
		{"doubling of nothing", seriesPlan, edit{13: "from = 0\nto = 4\ncells = 3\nspacing = \"doubling\""}, []told{{13, "cannot be doubled"}}},
		{"doubling without end", seriesPlan, edit{13: "from = 1\ncells = 30\nspacing = \"doubling\""}, []told{{14, "beyond 100 %"}}},
		{"series in single brackets", seriesPlan, edit{11: "[blend.series]"}, []told{{11, "[[blend.series]]"}}},
		{"one series too many", seriesPlan, edit{14: "[[blend.series]]\nmaterial = \"Rutile\"\npercent = [0, 1]\n[tiles]"}, []told{{11, "1 [[blend.series]], here there are 2"}}},
		{"two series of one material", seriesPlan, edit{9: `kind = "biaxial"`, 14: "[[blend.series]]\nmaterial = \"Copper carbonate\"\npercent = [0, 1]\n[tiles]"}, []told{{15, "two series"}}},
		{"quadraxial of series", seriesPlan, edit{9: `kind = "quadraxial"`}, []told{{9, "cannot be made of one base"}}},
		{"triaxial with percent", seriesPlan, edit{9: "kind = \"triaxial\"\ndivisions = 3"}, []told{{12, "no to"}, {12, "1|3 [[blend.series]]"}, {14, "percent does not belong"}}},
		{"series with cells in blend", seriesPlan, edit{10: "base = \"Magnesia matte\"\ncells = 4"}, []told{{11, "cells does not belong to a line-series"}}},
		{"poured series of one step", seriesPlan, edit{10: "base = \"Magnesia matte\"\nmethod = \"pour\"", 13: "percent = [1]"}, []told{{12, "takes two end glazes"}}},

		// Tiles, board, labels, log, chemistry, materials.
		{"no bodies", endsPlan, edit{27: "bodies = []"}, []told{{27, "is empty"}}},
		{"a body twice", endsPlan, edit{27: `bodies = ["Buff", "buff"]`}, []told{{27, `lists "buff" twice`}}},
		{"a body in numbers", endsPlan, edit{27: `bodies = [1, 2]`}, []told{{27, "the number 1"}, {27, "the number 2"}}},
		{"thirteen bodies", endsPlan, edit{27: `bodies = ["a","b","c","d","e","f","g","h","i","j","k","l","m"]`}, []told{{27, "13 entries|12"}}},
		{"no coats", endsPlan, edit{28: "coats = 0"}, []told{{28, "1 to 12"}}},
		{"dip beyond the tile", endsPlan, edit{28: "dip = \"120 mm\""}, []told{{28, "100 mm"}}},
		{"unknown bands", endsPlan, edit{28: "bands = \"diagonal\""}, []told{{28, `"straight" or "corner"`}}},
		{"hold in mL", endsPlan, edit{28: `hold = "3 mL"`}, []told{{28, "wrong unit|s"}}},
		{"unknown paper", endsPlan, edit{30: `paper = "A6"`}, []told{{30, `"A6"`}}},
		{"paper like another", endsPlan, edit{30: `paper = "Tabliod"`}, []told{{30, `did you mean "Tabloid"?`}}},
		{"paper of stamps", endsPlan, edit{30: `paper = "20 x 30 mm"`}, []told{{30, "80 to 2000 mm"}}},
		{"unknown scale of the board", endsPlan, edit{30: `scale = "lifesize"`}, []told{{30, `"lifesize"|"life"`}}},
		{"rows of a triaxial", endsPlan, edit{30: `bodies-as-rows = true`}, []told{{30, "bodies-as-rows does not belong to a triaxial"}}},
		{"negative seed", endsPlan, edit{30: "order = \"random\"\nseed = -1"}, []told{{31, "-1|0 to"}}},
		{"labels beyond the sheet", endsPlan, edit{30: "[labels]\ncolumns = 4\nrows = 8\nwidth = \"70 mm\"\nheight = \"37 mm\"\nleft = \"0 mm\"\ntop = \"0 mm\""},
			[]told{{31, "280 mm|210 mm wide"}}},
		{"labels without rows", endsPlan, edit{30: "[labels]\ncolumns = 3\nwidth = \"70 mm\"\nheight = \"37 mm\"\nleft = \"0 mm\"\ntop = \"0 mm\""}, []told{{30, "no rows"}}},
		{"a column the log has", endsPlan, edit{30: "[log]\nnumbers = [\"Gloss\", \"Rating\", \"Coat 2\"]"}, []told{{31, `"Rating"`}, {31, `"Coat 2"`}}},
		{"unknown oxide", endsPlan, edit{30: "[chemistry]\nmaps = [\"SiO\"]"}, []told{{31, `"SiO"|did you mean "SiO2"?`}}},
		{"material without name", endsPlan, edit{30: "[[material]]\ndensity = 2.6"}, []told{{30, "no name"}}},
		{"material of nothing", endsPlan, edit{30: "[[material]]\nname = \"Ash\""}, []told{{30, "neither analysis nor density"}}},
		{"unknown oxide in an analysis", endsPlan, edit{30: "[[material]]\nname = \"Ash\"\nanalysis = { SiO2 = 40, CaX = 3 }"}, []told{{32, "CaX"}}},
		{"analysis in its own group", endsPlan, edit{30: "[[material]]\nname = \"Ash\"\n[material.analysis]\nSiO2 = 40\nCaO = \"30\""}, []told{{34, `CaO is the text "30"`}}},
		{"analysis over 100", endsPlan, edit{30: "[[material]]\nname = \"Ash\"\nanalysis = { SiO2 = 80, CaO = 30 }"}, []told{{32, "110"}}},
		{"density with unit", endsPlan, edit{30: "[[material]]\nname = \"Ash\"\ndensity = \"2.6 g\""}, []told{{32, "without quotes or unit"}}},
		{"two materials of one name", endsPlan, edit{30: "[[material]]\nname = \"Ash\"\ndensity = 2.6\n[[material]]\nname = \"Ash\"\ndensity = 2.6"}, []told{{34, "two materials"}}},
	} {
		t.Run(c.name, func(t *testing.T) {
			text := c.edit.of(c.plan)
			p, _, err := Read("plan.toml", []byte(text))
			var problems Problems
			if !errors.As(err, &problems) || p != nil {
				t.Fatalf("no problem found in\n%s", text)
			}
			var got []string
			for _, p := range problems {
				got = append(got, p.String())
			}
			if len(problems) != len(c.want) {
				t.Fatalf("%d problems, want %d:\n%s", len(problems), len(c.want), strings.Join(got, "\n"))
			}
			for i, w := range c.want {
				line := problems[i].String()
				if want := fmt.Sprintf("plan.toml:%d: ", w.line); !strings.HasPrefix(line, want) {
					t.Errorf("%s\nwant it on line %d", line, w.line)
				}
				for _, word := range strings.Split(w.words, "|") {
					if !strings.Contains(line, word) {
						t.Errorf("%s\nwant %q in it", line, word)
					}
				}
				if strings.ContainsAny(line, "\n\r\t") {
					t.Errorf("%q is more than one line", line)
				}
				for _, go_ := range []string{"struct", "float64", "int64", "unmarshal", "toml:", "Go "} {
					if strings.Contains(strings.TrimPrefix(line, "plan.toml:"), go_) {
						t.Errorf("%s\nspeaks of the program's inside: %q", line, go_)
					}
				}
				if problems[i].Right == "" && !strings.Contains(problems[i].What, "analysis") && !strings.Contains(problems[i].What, "oxide") {
					t.Errorf("%s\ndoes not say what would be right", line)
				}
			}
		})
	}
}
