package text

import (
	"bytes"
	"encoding/json"
	"math"
	"reflect"
	"strconv"

	"pourboard/blend"
	"pourboard/blend/oxide"
)

// object is a JSON object that keeps the order of its keys. The keys of all objects
// are an interface: they are added to, never renamed.
type object []field

// field is a key with its value. A value of nil is left out.
type field struct {
	key   string
	value any
}

// given is a value, or nil for 0, "" and an empty list, which are left out.
func given(v any) any {
	if x := reflect.ValueOf(v); x.IsZero() || x.Kind() == reflect.Slice && x.Len() == 0 {
		return nil
	}
	return v
}

// unknown is printed as null.
var unknown = math.NaN()

// MarshalJSON writes the fields in their order.
func (o object) MarshalJSON() ([]byte, error) {
	out := []byte{'{'}
	for _, f := range o {
		if f.value == nil {
			continue
		}
		if len(out) > 1 {
			out = append(out, ',')
		}
		key, err := marshal(f.key)
		if err != nil {
			return nil, err
		}
		value, err := marshal(f.value)
		if err != nil {
			return nil, err
		}
		out = append(append(append(out, key...), ':'), value...)
	}
	return append(out, '}'), nil
}

// marshal is a value as JSON, its numbers as figure has them.
func marshal(v any) ([]byte, error) {
	switch v := v.(type) {
	case float64:
		return []byte(figure(v)), nil
	case []float64:
		return json.Marshal(list(v, func(x float64) json.RawMessage { return json.RawMessage(figure(x)) }))
	}
	var out bytes.Buffer
	enc := json.NewEncoder(&out)
	enc.SetEscapeHTML(false)
	err := enc.Encode(v)
	return out.Bytes(), err
}

// figure is a number to the fifteen digits that a float64 holds of any number,
// which leaves out the noise behind them, and without an exponent; null for one
// that is unknown.
func figure(x float64) string {
	if math.IsNaN(x) {
		return "null"
	}
	x, _ = strconv.ParseFloat(strconv.FormatFloat(x, 'g', 15, 64), 64)
	return strconv.FormatFloat(x+0, 'f', -1, 64) // +0 turns −0 into 0
}

// list is what of makes of each of a list; empty, not nil, where there are none.
func list[T, U any](all []T, of func(T) U) []U {
	out := []U{}
	for _, x := range all {
		out = append(out, of(x))
	}
	return out
}

// pair is a material with its amount, percent of the recipe or g.
func pair(material string, amount float64) []any {
	return []any{material, json.RawMessage(figure(amount))}
}

// parts are the materials of a recipe, each a pair.
func parts(recipe []blend.Part) [][]any {
	return list(recipe, func(p blend.Part) []any { return pair(p.Material, p.Percent) })
}

// oxides are amounts by oxide, in printing order.
func oxides(amounts []oxide.Amount) object {
	return list(amounts, func(a oxide.Amount) field { return field{string(a.Oxide), a.Value} })
}
