package text

import (
	"encoding/csv"
	"encoding/json"
	"fmt"
	"io"
	"slices"
	"strconv"

	"pourboard/blend"
	"pourboard/blend/results"
	"pourboard/layout"
)

// A Firing is a log with what it was read against, for rows of tiles.
type Firing struct {
	Plan, Log   string // their files
	Fingerprint string // of the plan
	Places      *layout.Places
	Results     *results.Results
}

// tidyRow is a tile in one firing. Its keys and the columns made of them are an
// interface: they are added to, never renamed.
type tidyRow struct {
	Test        string             `json:"test"`
	Plan        string             `json:"plan"`
	Log         string             `json:"log"`
	Mark        string             `json:"mark"`
	Cup         int                `json:"cup"`
	Body        string             `json:"body"`
	Repeat      int                `json:"repeat"`
	Firing      string             `json:"firing"`
	Block       string             `json:"block"`
	Place       string             `json:"place"`
	Check       bool               `json:"check"`
	Asked       map[string]number  `json:"asked"`  // percent: of end glazes, or of colourants
	Made        map[string]number  `json:"made"`   // the same as measured
	Oxides      map[string]number  `json:"oxides"` // weight %, as measured
	SiAl        *number            `json:"sio2_al2o3"`
	Rating      *number            `json:"rating"`
	Numbers     map[string]*number `json:"numbers"`
	Coats       []string           `json:"coats"`
	Surface     string             `json:"surface"`
	Defects     string             `json:"defects"`
	Colour      string             `json:"colour"`
	Photograph  string             `json:"photograph"`
	Notes       string             `json:"notes"`
	FiringLog   map[string]string  `json:"firing_log"`
	Version     string             `json:"version"`
	Fingerprint string             `json:"fingerprint"`
}

// tidy makes a row of every tile of which something was recorded.
func tidy(firings []Firing, version string) []tidyRow {
	rows := []tidyRow{}
	for k, f := range firings {
		r := f.Results
		for i := range r.Log.Readings {
			reading := &r.Log.Readings[i]
			row := tidyRow{
				Test: r.Test.Plan.Title, Plan: f.Plan, Log: f.Log,
				Mark: reading.Mark, Cup: reading.Cell, Body: r.Test.Plan.Tiles.Bodies[reading.Body], Repeat: reading.Repeat + 1,
				Firing: reading.Firing, Block: reading.Block, Place: placeText(f.Places, reading.Index),
				Check: slices.Contains(r.Test.Plan.Log.Check, reading.Cell),
				Asked: map[string]number{}, Made: map[string]number{}, Oxides: map[string]number{}, Numbers: map[string]*number{},
				Coats: []string{}, FiringLog: map[string]string{},
				Surface: reading.Surface, Defects: reading.Defects, Colour: reading.Colour, Photograph: reading.Photo, Notes: reading.Notes,
				Version: version, Fingerprint: f.Fingerprint,
			}
			if len(firings) > 1 {
				row.Firing = strconv.Itoa(k+1) + reading.Firing
			}
			row.mixture(r.Test, reading.Cell)
			if reading.Rating != 0 {
				row.Rating = optional(float64(reading.Rating))
			}
			for n, name := range r.Test.Plan.Log.Numbers {
				if a := reading.Numbers[n]; a.Given {
					row.Numbers[name] = optional(a.Value)
				} else {
					row.Numbers[name] = nil
				}
			}
			for _, coat := range reading.Coats {
				row.Coats = append(row.Coats, coat.Text)
			}
			for _, entry := range r.Log.Firing(reading.Firing) {
				row.FiringLog[entry.Label] = entry.Value
			}
			rows = append(rows, row)
		}
	}
	return rows
}

// mixture adds what the cup was made of.
func (row *tidyRow) mixture(t *blend.Test, cup int) {
	c := t.Cells[cup-1]
	if t.Plan.Blend.HasSeries() {
		for s, d := range c.Doses {
			name := t.Plan.Blend.Series[s].Material
			row.Asked[name], row.Made[name] = number(d.Percent), number(d.GotPercent)
		}
	} else {
		for e, p := range c.Pours {
			row.Asked[t.Ends[e].Name], row.Made[t.Ends[e].Name] = number(100*c.Shares[e]), number(100*p.GotShare)
		}
	}
	chemistry := t.Chemistry(cup-1, blend.Measured)
	for _, a := range chemistry.WeightPercent {
		row.Oxides[string(a.Oxide)] = number(a.Value)
	}
	if chemistry.SiAl > 0 {
		row.SiAl = optional(chemistry.SiAl)
	}
}

// placeText says where a tile lies: "board 1, row 2, place 3".
func placeText(places *layout.Places, tile int) string {
	spot := places.Spot(tile)
	return fmt.Sprintf("board %d, row %d, place %d", places.Boards[places.Tiles[tile].Board].Number, spot.Row+1, spot.Column+1)
}

// TidyJSON writes an array with an object for each recorded tile in each firing.
func TidyJSON(w io.Writer, firings []Firing, version string) error {
	out := json.NewEncoder(w)
	out.SetEscapeHTML(false)
	out.SetIndent("", " ")
	return out.Encode(tidy(firings, version))
}

// TidyCSV writes a row for each recorded tile in each firing. What differs from
// test to test has columns of its own, "asked: Wood ash", "number: Gloss".
func TidyCSV(w io.Writer, firings []Firing, version string) error {
	columns := tidyColumns(firings)
	out := csv.NewWriter(w)
	var head []string
	for _, c := range columns {
		head = append(head, oneLine(c.head))
	}
	out.Write(head)
	for _, row := range tidy(firings, version) {
		var cells []string
		for _, c := range columns {
			cells = append(cells, c.value(&row))
		}
		out.Write(cells)
	}
	out.Flush()
	return out.Error()
}

// tidyColumn is a column of the CSV.
type tidyColumn struct {
	head  string
	value func(row *tidyRow) string
}

// tidyColumns are the columns that the tests need, in order.
func tidyColumns(firings []Firing) []tidyColumn {
	var all []tidyColumn
	words := func(head string, of func(row *tidyRow) string) {
		all = append(all, tidyColumn{head, func(row *tidyRow) string { return safeCell(of(row)) }})
	}
	amounts := func(kind string, names []string, of func(row *tidyRow) map[string]number) {
		for _, name := range names {
			all = append(all, tidyColumn{kind + ": " + name, func(row *tidyRow) string {
				x, ok := of(row)[name]
				if !ok {
					return ""
				}
				return figure(float64(x))
			}})
		}
	}
	maybe := func(head string, of func(row *tidyRow) *number) {
		all = append(all, tidyColumn{head, func(row *tidyRow) string {
			if x := of(row); x != nil {
				return figure(float64(*x))
			}
			return ""
		}})
	}
	names := namesOf(firings)
	words("test", func(row *tidyRow) string { return row.Test })
	words("plan", func(row *tidyRow) string { return row.Plan })
	words("log", func(row *tidyRow) string { return row.Log })
	words("mark", func(row *tidyRow) string { return row.Mark })
	words("cup", func(row *tidyRow) string { return strconv.Itoa(row.Cup) })
	words("body", func(row *tidyRow) string { return row.Body })
	words("repeat", func(row *tidyRow) string { return strconv.Itoa(row.Repeat) })
	words("firing", func(row *tidyRow) string { return row.Firing })
	words("block", func(row *tidyRow) string { return row.Block })
	words("place", func(row *tidyRow) string { return row.Place })
	words("check", func(row *tidyRow) string { return strconv.FormatBool(row.Check) })
	amounts("asked", names.mixed, func(row *tidyRow) map[string]number { return row.Asked })
	amounts("made", names.mixed, func(row *tidyRow) map[string]number { return row.Made })
	amounts("oxide", names.oxides, func(row *tidyRow) map[string]number { return row.Oxides })
	maybe("sio2_al2o3", func(row *tidyRow) *number { return row.SiAl })
	maybe("rating", func(row *tidyRow) *number { return row.Rating })
	for _, name := range names.numbers {
		maybe("number: "+name, func(row *tidyRow) *number { return row.Numbers[name] })
	}
	for k := range names.coats {
		words("coat: "+strconv.Itoa(k+1), func(row *tidyRow) string {
			if k >= len(row.Coats) {
				return ""
			}
			return row.Coats[k]
		})
	}
	words("surface", func(row *tidyRow) string { return row.Surface })
	words("defects", func(row *tidyRow) string { return row.Defects })
	words("colour", func(row *tidyRow) string { return row.Colour })
	words("photograph", func(row *tidyRow) string { return row.Photograph })
	words("notes", func(row *tidyRow) string { return row.Notes })
	for _, name := range names.labels {
		words("firing: "+name, func(row *tidyRow) string { return row.FiringLog[name] })
	}
	words("version", func(row *tidyRow) string { return row.Version })
	words("fingerprint", func(row *tidyRow) string { return row.Fingerprint })
	return all
}

// tidyNames are what columns are named for.
type tidyNames struct {
	mixed, oxides, numbers, labels []string
	coats                          int
}

// namesOf gathers the names of all tests, each once.
func namesOf(firings []Firing) (names tidyNames) {
	add := func(list *[]string, name string) {
		if !slices.Contains(*list, name) {
			*list = append(*list, name)
		}
	}
	for _, f := range firings {
		t := f.Results.Test
		for _, s := range t.Plan.Blend.Series {
			add(&names.mixed, s.Material)
		}
		for _, e := range t.Ends {
			if !t.Plan.Blend.HasSeries() {
				add(&names.mixed, e.Name)
			}
		}
		for _, name := range t.Plan.Log.Numbers {
			add(&names.numbers, name)
		}
		for _, firing := range f.Results.Log.Firings {
			for _, entry := range firing.Entries {
				add(&names.labels, entry.Label)
			}
		}
		for i := range t.Cells {
			for _, a := range t.Chemistry(i, blend.Measured).WeightPercent {
				add(&names.oxides, string(a.Oxide))
			}
		}
		names.coats = max(names.coats, t.Plan.Tiles.Coats)
	}
	return names
}
