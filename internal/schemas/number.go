package main

import (
	"fmt"
	"math"
	"reflect"
	"strconv"
	"strings"

	"example.com/quoin"
)

// figures are the types of numbers: what they are called, how many digits they may have
// behind the point, and what is said of them.
var figures = map[reflect.Type]figure{
	reflect.TypeFor[quoin.Amount](): {"amount", 8, "Money, not negative: plain decimal text such as \"17.50\", or a JSON number, which is read from its digits. At most 12 digits before the point and 8 after it.", `["17.50", 17.5]`},
	reflect.TypeFor[quoin.Factor](): {"factor", 16, "A plain multiple, not negative: decimal text such as \"3.5\", or a JSON number, which is read from its digits. At most 12 digits before the point and 16 after it.", `["3.5", 3.5]`},
	reflect.TypeFor[quoin.Rate]():   {"rate", 16, "A share from 0 to 1: a percentage with its sign, such as \"7.4%\", or a fraction, such as \"0.074\" or 0.074. A bare number above 1 is refused, since 7.4 most likely means 7.4%. At most 16 digits after the point.", `["7.4%", "0.074", 0.074]`},
}

type figure struct {
	name   string
	places int
	says   string
	shown  string // examples
}

// rangeNames are definitions that have a name of their own, by a number and its range.
var rangeNames = map[string][2]string{
	"rate [0,":        {"open_rate", "A share that may exceed the whole, such as \"150%\". Above 1 it is written as a percentage with its sign, of at most 6 digits before the point and 16 after it; up to 1 also as a fraction."},
	"rate [0,1)":      {"loss", "A share from 0 to below 1."},
	"rate (0,1]":      {"yield", "A share above 0, up to 1."},
	"rate (0,1)":      {"certainty", "A share above 0 and below 1."},
	"factor [-10,10]": {"exponent", "How strongly one thing grows with another, from -10 to 10: 1 in proportion, 0.5 with its square root, 0 not at all. At most 16 digits after the point."},
}

// longest is how many characters a number may be written with; longestWhole those of a whole one.
const (
	longest      = 64
	longestWhole = 20
)

// span is a range as a tag says it: "[0,1)".
type span struct {
	text, low, high string
	above, below    bool // whether low itself, and high itself, is out
}

func spanOf(tag string) span {
	low, high, _ := strings.Cut(strings.Trim(tag, "([])"), ",")
	return span{tag, low, high, strings.HasPrefix(tag, "("), strings.HasSuffix(tag, ")")}
}

// number refers to the definition of a number that a person writes, in a range.
func (b *builder) number(n figure, s span) object {
	name, says := n.name, n.says
	own, named := rangeNames[n.name+" "+s.text]
	switch {
	case named:
		name, says = own[0], own[1]
	case s.text == "(0,":
		name, says = "positive_"+n.name, a(n.name)+" above zero."
	case s.text != "[0," && s.text != "[0,1]":
		panic("no name for " + a(n.name) + " in " + s.text)
	}
	if rest, ok := strings.CutPrefix(s.text, "(0,"); ok {
		return b.define(name, "description", says, b.number(n, spanOf("[0,"+rest)), "pattern", "[1-9]", "exclusiveMinimum", 0)
	}
	pattern, most := n.upTo(s)
	o := obj("description", says, "type", []string{"string", "number"}, "pattern", "^"+pattern+"$", "maxLength", longest, "minimum", raw(s.low), most)
	if !named {
		o.add(member{"examples", raw(n.shown)})
	}
	return b.define(name, o)
}

// upTo is the pattern of the texts of a number in a range whose ends are whole numbers, and the
// upper bound of JSON numbers.
func (n figure) upTo(s span) (pattern string, most object) {
	sign := ""
	if strings.HasPrefix(s.low, "-") {
		sign = "-?"
	}
	switch {
	case s.high == "" && n.name == "rate": // a bare number above 1 is refused
		return `0*[0-9]{1,6}(\.[0-9]{1,16})? *%$|^0*` + upTo(1, n.places, false), obj("maximum", 1)
	case s.high == "":
		return `0*[0-9]{1,12}` + fraction(n.places), obj("exclusiveMaximum", int64(1_000_000_000_000))
	}
	pattern = sign + `0*` + upTo(whole(s.high), n.places, s.below)
	if n.name == "rate" {
		pattern = `0*` + upTo(100, n.places, s.below) + ` *%$|^` + pattern
	}
	if s.below {
		return pattern, obj("exclusiveMaximum", raw(s.high))
	}
	return pattern, obj("maximum", raw(s.high))
}

// fraction is of the digits behind a point, which may be missing.
func fraction(places int) string { return fmt.Sprintf(`(\.[0-9]{1,%d})?`, places) }

// upTo is of decimal numbers from 0 to a whole number above 0, which may be out.
func upTo(most int64, places int, below bool) string {
	text := between(0, most-1) + fraction(places)
	if below {
		return text
	}
	return fmt.Sprintf(`(%s|%d(\.0{1,%d})?)`, text, most, places)
}

// count refers to the definition of a whole number that a person writes, in a range.
func (b *builder) count(s span) object {
	kinds := []string{"integer", "string"}
	switch s.text {
	case "", "[0,":
		return b.define("count", "description", "A whole number, not negative, also as text of digits.", "type", kinds, "pattern", "^0*[0-9]{1,19}$",
			"maxLength", longestWhole, "minimum", 0, "maximum", int64(math.MaxInt64), "examples", raw(`[30, "30"]`))
	case "[1,":
		return b.define("positive_count", "description", "A count above zero.", b.count(spanOf("[0,")), "pattern", "[1-9]", "minimum", 1)
	}
	o := obj("type", kinds, "pattern", "^0*"+between(whole(s.low), whole(s.high))+"$", "maxLength", longestWhole, "minimum", raw(s.low), "maximum", raw(s.high))
	if s.low == s.high {
		return o
	}
	return b.define("whole_"+s.low+"_to_"+s.high, "description", "A whole number from "+s.low+" to "+s.high+", also as text of digits.", o)
}

func whole(text string) int64 {
	n, err := strconv.ParseInt(text, 10, 64)
	if err != nil {
		panic(err)
	}
	return n
}

// between is of the whole numbers from low to high; zeros may stand before them.
func between(low, high int64) string {
	var parts []string
	if first, k := low, len(strconv.FormatInt(high+1, 10))-1; low <= 1 && k > 0 { // all of up to k digits
		low = whole("1" + strings.Repeat("0", k))
		parts = append(parts, []string{fmt.Sprintf("[0-9]{1,%d}", k), fmt.Sprintf("[1-9][0-9]{0,%d}", k-1)}[first])
	}
	for low <= high {
		size := int64(1) // of what may have any last digits: 1, 10, 100 and so on
		for low%(size*10) == 0 && low >= size*10 && low+size*10-1 <= high {
			size *= 10
		}
		first := low / size
		last := min(first-first%10+9, (high+1)/size-1)
		parts = append(parts, digits(first, last)+strings.Repeat("[0-9]", len(strconv.FormatInt(size, 10))-1))
		low = (last + 1) * size
	}
	if len(parts) == 1 {
		return parts[0]
	}
	return "(" + strings.Join(parts, "|") + ")"
}

// digits is of numbers that differ in their last digit.
func digits(first, last int64) string {
	if first == last {
		return strconv.FormatInt(first, 10)
	}
	head := ""
	if first >= 10 {
		head = strconv.FormatInt(first/10, 10)
	}
	return fmt.Sprintf("%s[%d-%d]", head, first%10, last%10)
}
