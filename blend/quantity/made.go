package quantity

// Nothing is what is printed of an amount of nothing that was asked for.
const Nothing = "none"

// MadeText is a dose as it was made in percent, in few digits: "0.83", "4.1", "none".
func MadeText(percent float64) string {
	decimals := 1
	switch {
	case percent == 0:
		return Nothing
	case percent < 0.095:
		decimals = 3
	case percent < 0.95:
		decimals = 2
	}
	return AtMost(percent, decimals)
}
