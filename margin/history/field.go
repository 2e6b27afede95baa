package history

import (
	"encoding/json"
	"fmt"
	"strconv"
	"unicode"
	"unicode/utf8"

	"example.com/quoin"
	"example.com/quoin/internal/prose"
)

// field is a field of a record: what its tags say, and how it is set and
// looked at.
type field struct {
	name    string
	need    bool
	instead string // a field that may stand in its place
	bounds  bounds
	set     func(json.Token) quoin.Problem // no Code where it was taken
	given   func() bool
	fault   func() quoin.Problem // of the value as it stands; no Code where it is fine
	date    *quoin.Date          // what a date is kept in
}

func (f field) needed() field {
	f.need = true
	return f
}

func (f field) or(name string) field {
	f.instead = name
	return f
}

// bounds are those of a number: from least, or above it, to most, where that is
// above 0.
type bounds struct {
	given       bool
	above       bool
	least, most int64
}

func from(least, most int64) bounds { return bounds{given: true, least: least, most: most} }
func atLeast(least int64) bounds    { return bounds{given: true, least: least} }
func above(least int64) bounds      { return bounds{given: true, above: true, least: least} }

// String writes the bounds as in a tag.
func (b bounds) String() string {
	switch {
	case !b.given:
		return ""
	case b.above:
		return fmt.Sprintf("(%d,", b.least)
	case b.most == 0:
		return fmt.Sprintf("[%d,", b.least)
	}
	return fmt.Sprintf("[%d,%d]", b.least, b.most)
}

// fault returns what is wrong with a number that is written as shown.
func (b bounds) fault(n quoin.Factor, shown string) quoin.Problem {
	low := n.Cmp(quoin.FactorOf(b.least))
	p := quoin.Problem{Code: quoin.OutOfRange, Found: shown}
	switch {
	case b.above && low <= 0:
		p.Wanted = fmt.Sprintf("a value above %d", b.least)
	case !b.above && low < 0, b.most > 0 && n.Cmp(quoin.FactorOf(b.most)) > 0:
		p.Wanted = fmt.Sprintf("a value of at least %d", b.least)
		if b.most > 0 {
			p.Wanted += fmt.Sprintf(" and at most %d", b.most)
		}
	default:
		return quoin.Problem{}
	}
	return p
}

func wrong(t json.Token, wanted string) quoin.Problem {
	return quoin.Problem{Code: quoin.WrongType, Found: described(t), Wanted: wanted}
}

func described(t json.Token) string {
	switch x := t.(type) {
	case json.Delim:
		if x == '[' {
			return "a list"
		}
		return "an object"
	case string:
		return prose.Quoted(x)
	case json.Number:
		s := prose.Quoted(string(x))
		return s[1 : len(s)-1]
	case nil:
		return "null"
	}
	return fmt.Sprint(t)
}

// asProblem takes the Problem out of an error of the root package.
func asProblem(err error) quoin.Problem {
	p, ok := err.(quoin.Problem)
	if err != nil && !ok {
		p = quoin.Problem{Code: quoin.WrongType, Found: err.Error()}
	}
	return p
}

func text(name string, to *string) field {
	return field{
		name: name,
		set: func(t json.Token) quoin.Problem {
			s, ok := t.(string)
			if !ok {
				return wrong(t, "text")
			}
			*to = s
			return quoin.Problem{}
		},
		given: func() bool { return *to != "" },
		fault: func() quoin.Problem { return textFault(*to) },
	}
}

// textFault keeps out what would not come back as it was written, and what
// nobody would see.
func textFault(s string) quoin.Problem {
	p := quoin.Problem{Found: prose.Quoted(s)}
	if len(s) > longestText {
		p.Code, p.Wanted = quoin.TooLong, fmt.Sprintf("at most %d bytes of text", longestText)
		return p
	}
	for _, r := range s {
		if r == utf8.RuneError || unicode.IsControl(r) {
			p.Code, p.Wanted = quoin.BadText, "text in UTF-8 without control characters"
			return p
		}
	}
	return quoin.Problem{}
}

// word is text that parse knows.
func word[T ~string](name string, to *T, parse func(string) (T, error)) field {
	return field{
		name: name,
		set: func(t json.Token) quoin.Problem {
			s, ok := t.(string)
			if !ok {
				return wrong(t, "a word")
			}
			v, err := parse(s)
			*to = v
			return asProblem(err)
		},
		given: func() bool { return *to != "" },
		fault: func() quoin.Problem {
			_, err := parse(string(*to))
			return asProblem(err)
		},
	}
}

func date(name string, to *quoin.Date) field {
	return field{
		name: name, date: to,
		set: func(t json.Token) quoin.Problem {
			s, ok := t.(string)
			if !ok {
				return wrong(t, "a date such as 2026-03-01")
			}
			v, err := quoin.ParseDate(s)
			*to = v
			return asProblem(err)
		},
		given: func() bool { return !to.IsZero() },
		fault: func() quoin.Problem { return quoin.Problem{} },
	}
}

func amount(name string, to *quoin.Amount, b bounds) field {
	return field{
		name: name, bounds: b,
		set:   func(t json.Token) quoin.Problem { return setAmount(t, to) },
		given: to.IsGiven,
		fault: func() quoin.Problem { return amountFault(*to, b) },
	}
}

func amountFault(a quoin.Amount, b bounds) quoin.Problem {
	if p := b.fault(a.Figure().Factor(), a.String()); p.Code != "" {
		return p
	}
	_, err := quoin.ParseAmount(a.String())
	return asProblem(err)
}

func optionalAmount(name string, to *quoin.Optional[quoin.Amount], b bounds) field {
	return field{
		name: name, bounds: b,
		set: func(t json.Token) quoin.Problem {
			var a quoin.Amount
			p := setAmount(t, &a)
			*to = quoin.Some(a)
			return p
		},
		given: func() bool { return !to.IsZero() },
		fault: func() quoin.Problem {
			a, given := to.Get()
			if !given {
				return quoin.Problem{}
			}
			return amountFault(a, b)
		},
	}
}

func factor(name string, to *quoin.Factor, b bounds) field {
	return field{
		name: name, bounds: b,
		set: func(t json.Token) quoin.Problem {
			return setDecimal(t, to, quoin.ParseFactor, to.UnmarshalJSON, "a number such as \"3.5\"")
		},
		given: to.IsGiven,
		fault: func() quoin.Problem {
			if p := b.fault(*to, to.String()); p.Code != "" {
				return p
			}
			_, err := quoin.ParseFactor(to.String())
			return asProblem(err)
		},
	}
}

func setAmount(t json.Token, to *quoin.Amount) quoin.Problem {
	return setDecimal(t, to, quoin.ParseAmount, to.UnmarshalJSON, "an amount such as \"17.50\"")
}

// setDecimal takes a number as text, by parse, or as digits, by literal: both hold it to
// the bounds of what a person writes.
func setDecimal[T any](t json.Token, to *T, parse func(string) (T, error), literal func([]byte) error, wanted string) quoin.Problem {
	switch x := t.(type) {
	case string:
		v, err := parse(x)
		if err == nil {
			*to = v
		}
		return asProblem(err)
	case json.Number:
		return asProblem(literal([]byte(x)))
	}
	return wrong(t, wanted)
}

// count is a whole number, also as text, that is not given where it is 0.
func count(name string, to *int64, b bounds) field {
	return field{
		name: name, bounds: b,
		set:   func(t json.Token) quoin.Problem { return setCount(t, to) },
		given: func() bool { return *to != 0 },
		fault: func() quoin.Problem { return b.fault(quoin.FactorOf(*to), strconv.FormatInt(*to, 10)) },
	}
}

// optionalCount is a whole number that may be 0.
func optionalCount(name string, to *quoin.Optional[int64], b bounds) field {
	return field{
		name: name, bounds: b,
		set: func(t json.Token) quoin.Problem {
			var n int64
			p := setCount(t, &n)
			*to = quoin.Some(n)
			return p
		},
		given: to.IsGiven,
		fault: func() quoin.Problem { return b.fault(quoin.FactorOf(to.Or(0)), to.String()) },
	}
}

func setCount(t json.Token, to *int64) quoin.Problem {
	s, isText := t.(string)
	n, isNumber := t.(json.Number)
	if isNumber {
		s = string(n)
	}
	v, err := strconv.ParseInt(s, 10, 64)
	if !isText && !isNumber || err != nil || len(s) > 20 || s[0] == '+' {
		return wrong(t, "a whole number")
	}
	*to = v
	return quoin.Problem{}
}

func (p *Price) fields() []field {
	return []field{
		text("product", &p.Product).needed(),
		text("channel", &p.Channel),
		amount("price", &p.Price, above(0)).needed(),
		date("from", &p.From).needed(),
		date("until", &p.Until),
	}
}

func (r *Reduction) fields() []field {
	return []field{
		text("product", &r.Product).needed(),
		text("channel", &r.Channel),
		amount("price", &r.Price, above(0)).needed(),
		date("from", &r.From).needed(),
		date("until", &r.Until).needed(),
	}
}

func (s *Sale) fields() []field {
	return []field{
		text("edition", &s.Edition).needed(),
		count("number", &s.Number, from(1, mostNumbers)).needed().or("proof"),
		count("proof", &s.Proof, from(1, mostNumbers)),
		date("date", &s.Date).needed(),
		text("channel", &s.Channel),
		optionalAmount("price", &s.Price, atLeast(0)),
	}
}

func (t *Trial) fields() []field {
	return []field{
		text("id", &t.ID).needed(),
		text("product", &t.Product).needed(),
		text("channel", &t.Channel).needed(),
		amount("price", &t.Price, above(0)).needed(),
		date("from", &t.From).needed(),
		date("until", &t.Until).needed(),
		factor("exposure", &t.Exposure, above(0)).needed(),
		word("exposure_unit", &t.ExposureUnit, ParseExposureUnit).needed(),
		optionalCount("sold", &t.Sold, from(0, mostSold)).needed(),
		text("occasion", &t.Occasion),
	}
}
