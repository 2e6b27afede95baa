package form

import (
	"strings"

	"example.com/quoin"
)

// span is a range of numbers as written in a tag: "(0,1]", "[0,".
type span struct {
	text         string
	least, most  quoin.Factor
	low, high    bool // whether there is a least, and a most
	above, below bool // whether least itself, and most itself, is out
	positive     bool // it is all from zero up, or above it
}

func parseSpan(tag string) span {
	s := span{text: tag, above: strings.HasPrefix(tag, "("), below: strings.HasSuffix(tag, ")")}
	low, high, _ := strings.Cut(strings.Trim(tag, "([])"), ",")
	if s.low = low != ""; s.low {
		s.least = quoin.MustFactor(low)
	}
	if s.high = high != ""; s.high {
		s.most = quoin.MustFactor(high)
	}
	s.positive = s.low && s.least.IsZero() && !s.high
	return s
}

func (s *span) holds(x quoin.Factor) bool {
	if s.positive {
		return x.Sign() > 0 || !s.above && x.Sign() == 0
	}
	if s.low {
		if c := x.Cmp(s.least); c < 0 || c == 0 && s.above {
			return false
		}
	}
	if s.high {
		if c := x.Cmp(s.most); c > 0 || c == 0 && s.below {
			return false
		}
	}
	return true
}

// words says the range in words; of rates as percentages.
func (s *span) words(rate bool) string {
	if s.low && s.high && s.least.Equal(s.most) {
		return "of " + written(s.least, rate)
	}
	var parts []string
	if s.low {
		parts = append(parts, map[bool]string{true: "above ", false: "of at least "}[s.above]+written(s.least, rate))
	}
	if s.high {
		parts = append(parts, map[bool]string{true: "below ", false: "at most "}[s.below]+written(s.most, rate))
	}
	return strings.Join(parts, " and ")
}

func written(x quoin.Factor, rate bool) string {
	if rate {
		return x.Rate().String()
	}
	return x.String()
}
