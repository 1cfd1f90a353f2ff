package text

import (
	"encoding/csv"
	"encoding/json"
	"fmt"
	"io"
	"reflect"
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
	Asked       map[string]number  `json:"asked" csv:"asked"`  // percent: of end glazes, or of colourants
	Made        map[string]number  `json:"made" csv:"made"`    // the same as measured
	Oxides      map[string]number  `json:"oxides" csv:"oxide"` // weight %, as measured
	SiAl        *number            `json:"sio2_al2o3"`
	Rating      *number            `json:"rating"`
	Numbers     map[string]*number `json:"numbers" csv:"number"`
	Coats       []string           `json:"coats" csv:"coat"`
	Surface     string             `json:"surface"`
	Defects     string             `json:"defects"`
	Colour      string             `json:"colour"`
	Photograph  string             `json:"photograph"`
	Notes       string             `json:"notes"`
	FiringLog   map[string]string  `json:"firing_log" csv:"firing"`
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
			for _, entry := range r.Log.Firing(reading.Firing).Entries {
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

// TidyCSV writes a row for each recorded tile in each firing, with a column for
// each key of tidyRow. What differs from test to test has a column for each of its
// names, "asked: Wood ash", "number: Gloss".
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
			cells = append(cells, c.text(reflect.ValueOf(row)))
		}
		out.Write(cells)
	}
	out.Flush()
	return out.Error()
}

// tidyColumn is a column of the CSV.
type tidyColumn struct {
	head string
	text func(row reflect.Value) string // of a tidyRow
}

// tidyColumns are the columns that the tests need, in the order of the keys.
func tidyColumns(firings []Firing) []tidyColumn {
	var all []tidyColumn
	names := tidyNames(firings)
	for _, field := range reflect.VisibleFields(reflect.TypeFor[tidyRow]()) {
		key, prefix := field.Tag.Get("json"), field.Tag.Get("csv")
		value := func(row reflect.Value) reflect.Value { return row.FieldByIndex(field.Index) }
		if prefix == "" {
			all = append(all, tidyColumn{key, func(row reflect.Value) string { return tidyText(value(row)) }})
		}
		for k, name := range names[key] {
			all = append(all, tidyColumn{prefix + ": " + name, func(row reflect.Value) string {
				several := value(row)
				switch {
				case several.Kind() == reflect.Map:
					return tidyText(several.MapIndex(reflect.ValueOf(name)))
				case k < several.Len():
					return tidyText(several.Index(k))
				}
				return ""
			}})
		}
	}
	return all
}

// tidyText is a value in the CSV, nothing for one that is missing.
func tidyText(v reflect.Value) string {
	if !v.IsValid() || v.Kind() == reflect.Pointer && v.IsNil() {
		return ""
	}
	switch x := reflect.Indirect(v).Interface().(type) {
	case number:
		return figure(float64(x))
	case string:
		return safeCell(x)
	default:
		return fmt.Sprint(x)
	}
}

// tidyNames is the names of all tests that a key has values for, each once.
func tidyNames(firings []Firing) map[string][]string {
	names := map[string][]string{}
	add := func(key, name string) {
		if !slices.Contains(names[key], name) {
			names[key] = append(names[key], name)
		}
	}
	for _, f := range firings {
		t := f.Results.Test
		for _, s := range t.Plan.Blend.Series {
			add("asked", s.Material)
		}
		for _, e := range t.Ends {
			if !t.Plan.Blend.HasSeries() {
				add("asked", e.Name)
			}
		}
		for _, name := range t.Plan.Log.Numbers {
			add("numbers", name)
		}
		for _, firing := range f.Results.Log.Firings {
			for _, entry := range firing.Entries {
				add("firing_log", entry.Label)
			}
		}
		for i := range t.Cells {
			for _, a := range t.Chemistry(i, blend.Measured).WeightPercent {
				add("oxides", string(a.Oxide))
			}
		}
		for k := range t.Plan.Tiles.Coats {
			add("coats", strconv.Itoa(k+1))
		}
	}
	names["made"] = names["asked"]
	return names
}
