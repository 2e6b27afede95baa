package schematest_test

import (
	"fmt"
	"regexp"
	"strconv"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
)

// number is a definition of the schema and the reader that it stands for.
type number struct {
	name  string
	reads func(string) bool
}

func amount(s string, sign int) bool {
	a, err := quoin.ParseAmount(s)
	return err == nil && a.Sign() >= sign
}

func factor(s string, sign int) bool {
	f, err := quoin.ParseFactor(s)
	return err == nil && f.Sign() >= sign
}

func quantity(s string, sign int) bool {
	q, err := quoin.ParseQuantity(s)
	return err == nil && q.Sign() >= sign
}

func rate(s string, most quoin.Rate) bool {
	r, err := quoin.ParseRate(s)
	return err == nil && r.Sign() >= 0 && r.Cmp(most) <= 0
}

var numbers = []number{
	{"amount", func(s string) bool { return amount(s, 0) }},
	{"positive_amount", func(s string) bool { return amount(s, 1) }},
	{"factor", func(s string) bool { return factor(s, 0) }},
	{"positive_factor", func(s string) bool { return factor(s, 1) }},
	{"quantity", func(s string) bool { return quantity(s, 0) }},
	{"positive_quantity", func(s string) bool { return quantity(s, 1) }},
	{"rate", func(s string) bool { return rate(s, quoin.MustRate("100%")) }},
	{"open_rate", func(s string) bool { return rate(s, quoin.MustRate("999999.9999999999999999%")) }},
	{"count", func(s string) bool {
		n, err := strconv.ParseInt(s, 10, 64)
		return err == nil && n >= 0 && len(s) <= 20
	}},
}

// apart is what the decoder takes and the schema does not describe: a minus or
// plus before a number that it does not change; and what the schema cannot
// see: whole numbers just past the largest, and fractions above 1 behind a whole number.
var apart = regexp.MustCompile(`^(-0*(\.0+)?( *%| .*)?|\+[0-9]+|0*9[3-9][0-9]{17}|0*92[2-9][0-9]{16})$`)

// improper reports whether a fraction that is not below 1 follows a whole number.
func improper(text string) bool {
	var whole, top, over int
	n, _ := fmt.Sscanf(text, "%d %d/%d", &whole, &top, &over)
	return n == 3 && top >= over
}

// The patterns take the texts that the readers take, and no others.
func TestPatternsReadAsTheReaders(t *testing.T) {
	texts := rapid.OneOf(
		rapid.StringMatching(`-?0{0,3}[0-9]{0,14}(\.[0-9]{0,18})?`),
		rapid.StringMatching(`0{0,3}(1|10|100|[0-9]{1,7})(\.(0{1,17}|[0-9]{1,17}))? {0,2}%`),
		rapid.StringMatching(`0{0,2}(0|1)(\.(0{1,17}|[0-9]{1,17}))?`),
		rapid.StringMatching(` ?0{0,2}[0-9]{0,13}(\.[0-9]{0,13})? {0,2}[a-zäß]{0,3}[a-z0-9_-]{0,12} ?`),
		rapid.StringMatching(` ?(0{0,2}[0-9]{1,3} {0,2})?(0?[0-9]{1,4}/0?[0-9]{1,4}|[½⅓⅞]) {0,2}(mm|inches|sq ft|g/m2|us fl oz|sheets|x)? ?`),
		rapid.StringMatching(`[0-9]{1,3}(\.[0-9])? ?(mm|inches|sq ft|g/m2|us fl oz|sheets|L|m²)`),
		rapid.StringMatching(`0{0,2}[0-9]{17,21}`),
		rapid.StringMatching(`[0-9]{60,66}`),
		rapid.StringMatching(`0{57,63}[1-9](%| g)`),
		rapid.StringOfN(rapid.RuneFrom([]rune("0159.%- eE+,xm_")), 0, 8, -1),
	)
	for _, n := range numbers {
		s := compiled(t, documentID, "#/$defs/"+n.name)
		rapid.Check(t, func(t *rapid.T) {
			text := texts.Draw(t, "text")
			if apart.MatchString(text) || improper(text) {
				t.Skip("told apart elsewhere")
			}
			if err, want := s.Validate(text), n.reads(text); (err == nil) != want {
				t.Fatalf("%s %q: read %v, and the schema says %v", n.name, text, want, err)
			}
		})
	}
}
