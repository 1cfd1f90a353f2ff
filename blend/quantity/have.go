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
		return Batch{}, &Error{Quote(text) + " gives wet weight and another amount", `one amount, or dry weight and volume: "1000 g dry, 1370 mL"`}
	}
	return b, nil
}

// add reads one amount into the place that is still empty.
func (b *Batch) add(part string) error {
	const fix = `write "1370 mL", "1000 g dry" or "1990 g wet"`
	number, place := part, &b.ML
	low := strings.ToLower(part)
	dry, wet := strings.HasSuffix(low, "dry"), strings.HasSuffix(low, "wet")
	if dry || wet {
		number = strings.TrimSpace(part[:len(part)-len("dry")])
		place = &b.DryG
		if wet {
			place = &b.WetG
		}
	}
	x, in, err := Graduation(number)
	switch {
	case err != nil:
		return err
	case x == 0:
		return &Error{Quote(part) + " is too small", fix}
	case (dry || wet) && in != "g":
		return &Error{Quote(part) + " has a volume and " + low[len(low)-3:] + " behind it", fix}
	case !dry && !wet && in == "g":
		return &Error{Quote(part) + " does not say dry or wet", "write " + Quote(number+" dry") + " for the powder, " + Quote(number+" wet") + " for the glaze with its water"}
	case *place > 0:
		return &Error{Quote(part) + " is given twice", fix}
	}
	*place = x
	return nil
}
