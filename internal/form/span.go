package form

import (
	"math/big"
	"strings"
)

// span is a range of numbers as written in a tag: "(0,1]", "[0,".
type span struct {
	text        string
	least, most *big.Rat // nil where open-ended
	above       bool     // least itself is out
	below       bool     // most itself is out
}

func parseSpan(tag string) span {
	s := span{text: tag, above: strings.HasPrefix(tag, "("), below: strings.HasSuffix(tag, ")")}
	low, high, _ := strings.Cut(strings.Trim(tag, "([])"), ",")
	if low != "" {
		s.least, _ = new(big.Rat).SetString(low)
	}
	if high != "" {
		s.most, _ = new(big.Rat).SetString(high)
	}
	return s
}

// floor reports whether the range is all from zero up, or above it, so that the sign
// of a number says whether it lies in it.
func (s span) floor() bool { return s.least != nil && s.least.Sign() == 0 && s.most == nil }

func (s span) holds(x *big.Rat) bool {
	if s.least != nil {
		if c := x.Cmp(s.least); c < 0 || c == 0 && s.above {
			return false
		}
	}
	if s.most != nil {
		if c := x.Cmp(s.most); c > 0 || c == 0 && s.below {
			return false
		}
	}
	return true
}

// words says the range in words; rates as percentages.
func (s span) words(unit string) string {
	if s.least != nil && s.most != nil && s.least.Cmp(s.most) == 0 {
		return "of " + written(s.least, unit)
	}
	var parts []string
	if s.least != nil {
		parts = append(parts, map[bool]string{true: "above ", false: "of at least "}[s.above]+written(s.least, unit))
	}
	if s.most != nil {
		parts = append(parts, map[bool]string{true: "below ", false: "at most "}[s.below]+written(s.most, unit))
	}
	return strings.Join(parts, " and ")
}

func written(x *big.Rat, unit string) string {
	if unit == "%" {
		x = new(big.Rat).Mul(x, big.NewRat(100, 1))
	}
	return x.RatString() + unit
}
