package quantity

import "strings"

// Batch is how much there is of a glaze that was mixed already. Where DryG and
// ML are both given, they are of the same glaze.
type Batch struct {
	ML   float64 // mL of wet glaze, 0 when not given
	WetG float64 // g of wet glaze, 0 when not given
	DryG float64 // g of dry glaze, counted by its recipe, 0 when not given
}

// ReadBatch reads "1370 mL", "1990 g wet", "1000 g dry" or "1000 g dry, 1370
// mL". Grams alone are an Error that shows both spellings: a litre of glaze
// weighs twice its powder.
func ReadBatch(text string) (Batch, error) {
	var b Batch
	parts := strings.Split(text, ",")
	if digits, _ := Split(text); strings.Contains(digits, ",") {
		parts = []string{text} // a decimal comma
	}
	for _, part := range parts {
		if err := b.add(strings.TrimSpace(part)); err != nil {
			return Batch{}, err
		}
	}
	if b.WetG > 0 && (b.DryG > 0 || b.ML > 0) {
		return Batch{}, &Error{Quote(text) + " gives wet weight and another amount",
			`one amount, or dry weight and volume: "1000 g dry, 1370 mL"`}
	}
	return b, nil
}

// add reads one amount into the place that is still empty.
func (b *Batch) add(part string) error {
	amount, of := part, ""
	for _, word := range []string{"dry", "wet"} {
		if n := len(part) - len(word); n > 0 && strings.EqualFold(part[n:], word) {
			amount, of = strings.TrimSpace(part[:n]), word
		}
	}
	x, in, err := Graduation(amount)
	if err != nil {
		return err
	}
	if in == "g" && of == "" {
		return &Error{Quote(part) + " does not say dry or wet",
			"write " + Quote(amount+" dry") + " for the powder, " + Quote(amount+" wet") + " for the glaze with its water"}
	}
	place := map[string]*float64{"mL": &b.ML, "g dry": &b.DryG, "g wet": &b.WetG}[strings.TrimSpace(in+" "+of)]
	if place == nil || x == 0 || *place > 0 {
		return &Error{Quote(part) + " is not an amount of glaze, or is given twice",
			`write "1370 mL", "1000 g dry" or "1990 g wet"`}
	}
	*place = x
	return nil
}
