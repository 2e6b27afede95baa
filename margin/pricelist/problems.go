package pricelist

import (
	"fmt"
	"reflect"
	"strconv"
	"strings"

	"example.com/quoin"
	"example.com/quoin/cost/paper"
)

// Codes of what can be wrong with a document, beside those of values that
// cannot be read.
const (
	UnknownRule   quoin.Code = "unknown_rule"
	SharesNotOne  quoin.Code = "shares_not_one"
	UnsortedTiers quoin.Code = "unsorted_tiers"
	RateAndTiers  quoin.Code = "rate_and_tiers"
	FeesTakeAll   quoin.Code = "fees_take_everything"
	ShortLadder   quoin.Code = "short_ladder"
	RepeatedPart  quoin.Code = "repeated_part"
	RangeOrder    quoin.Code = "range_order"
	// RangeWithRecovery is a yield with a range beside something recovered.
	RangeWithRecovery quoin.Code = "range_with_recovery"
	// MissingDate is a stock in a document without a date.
	MissingDate quoin.Code = "missing_date"
	// TooManyQuoted is more quotes, with more steps, than are compared.
	TooManyQuoted quoin.Code = "too_many_quoted"
	// SizeNesting is an image, sheet or mat that does not fit what is around it.
	SizeNesting quoin.Code = "size_nesting"
	// CircularBase is a product that is, by way of others, its own base.
	CircularBase quoin.Code = "circular_base"
	// SameSize is two prints of a design that are to follow each other by size, and are
	// of the same.
	SameSize quoin.Code = "same_size"
	// DesignApart is products of one design that do not stand one after the other, where
	// products are decided as they come.
	DesignApart quoin.Code = "design_apart"
	// SeveralProducts is what speaks of several products, in a shop whose products come in
	// lots: a ladder of sizes, sets, fairs, editions.
	SeveralProducts quoin.Code = "several_products"
	// AnswerTooLong is a document that says little of much: many products in many channels,
	// with many kinds of order, come to an answer far longer than what was asked.
	AnswerTooLong quoin.Code = "answer_too_long"
)

const (
	mostProblems = 1000
	longestName  = 64  // bytes of a name that a path writes
	longestText  = 400 // bytes of a name, or of any other text
)

// path is where something stands in the document, from the inside out.
type path struct {
	up    *path
	name  string
	index int // in a list, where name is empty
}

func (p *path) field(name string) *path { return &path{up: p, name: name} }
func (p *path) at(i int) *path          { return &path{up: p, index: i} }

// String writes the path as products[2].bill[0].quantity. A name that is not
// a plain word is quoted in brackets.
func (p *path) String() string {
	if p == nil {
		return ""
	}
	before := p.up.String()
	switch {
	case p.name == "":
		return before + "[" + strconv.Itoa(p.index) + "]"
	case len(p.name) > longestName:
		return before + "[" + strconv.Quote(strings.ToValidUTF8(p.name[:longestName], "")) + "…]"
	case !plainWord(p.name):
		return before + "[" + strconv.Quote(p.name) + "]"
	case before == "":
		return p.name
	}
	return before + "." + p.name
}

func plainWord(s string) bool {
	for _, r := range s {
		if (r < 'a' || r > 'z') && (r < '0' || r > '9') && r != '_' && r != '-' {
			return false
		}
	}
	return s != ""
}

// collector gathers problems in the order they are found, up to a bound.
type collector struct {
	problems quoin.Problems
	full     bool
	// spoken are the paths of the first problems, as many as counted, and of all that
	// they stand in.
	spoken   map[string]bool
	counted  int
	layouts  *layouts
	chances  chances
	posts    posts
	supplied supplied
}

func (c *collector) add(at *path, p quoin.Problem) { c.addAt(at.String(), p) }

func (c *collector) addAt(at string, p quoin.Problem) {
	if c.full = len(c.problems) >= mostProblems; c.full {
		return
	}
	p.Path = at
	p.Severity = quoin.Fault
	c.problems = append(c.problems, p)
}

func (c *collector) all() quoin.Problems {
	if !c.full {
		return c.problems
	}
	return append(c.problems, quoin.Problem{
		Code: quoin.MoreProblems, Severity: quoin.Fault, Found: fmt.Sprintf("more than %d problems", mostProblems),
		Wanted: "a document without any", Remedy: "mend these first",
	})
}

// under reports whether a problem stands at the path or below it.
func (c *collector) under(at *path) bool { return len(c.problems) > 0 && c.underText(at.String()) }

func (c *collector) underText(prefix string) bool {
	if c.spoken == nil {
		c.spoken = make(map[string]bool)
	}
	for ; c.counted < len(c.problems); c.counted++ {
		path := c.problems[c.counted].Path
		c.spoken[path] = true
		for i := range len(path) {
			if path[i] == '.' || path[i] == '[' {
				c.spoken[path[:i]] = true
			}
		}
	}
	return c.spoken[prefix]
}

// near is the one of the first names that s most likely means. Nothing is looked for
// where no further problem is listed.
func (c *collector) near(s string, names []string) string {
	if len(c.problems) >= mostProblems {
		return ""
	}
	return quoin.Near(s, names[:min(len(names), mostNames)])
}

// needed reports fields that must be given and are not, nor any in their place,
// and fields that stand in each other's place and are given together. What is
// not among missable may be left out though it is needed.
func (c *collector) needed(at *path, fields []field, missable func(field) bool, given func(name string) bool) {
	for _, f := range fields {
		if !f.need && len(f.instead) == 0 {
			continue
		}
		first := ""
		if given(f.name) {
			first = f.name
		}
		for _, name := range f.instead {
			switch {
			case !given(name):
			case first == "":
				first = name
			default:
				c.rival(at.field(name), name, first)
			}
		}
		if f.need && first == "" && missable(f) {
			c.add(at.field(f.name), quoin.Problem{
				Code: quoin.MissingField, Found: "nothing", Wanted: "the field " + strings.Join(append([]string{f.name}, f.instead...), " or "),
			})
		}
	}
}

func (c *collector) rival(at *path, name, first string) {
	if !c.under(at) {
		c.add(at, quoin.Problem{
			Code: quoin.RivalFields, Found: name + " beside " + first, Wanted: "one of them", Remedy: "leave one out: each says what the other would",
		})
	}
}

// measures reports whether a unit is of a dimension. The word for a measured
// dimension is no unit of it, only of itself.
func measures(u quoin.Unit, dim string) bool {
	return u.Dimension() == dim && (string(u) != dim || dim == string(paper.GSM))
}

// text checks the length of a text, which an answer may say many times.
func (c *collector) text(at *path, s string) {
	if len(s) > longestText {
		c.add(at, quoin.Problem{
			Code: quoin.TooLong, Found: fmt.Sprintf("%d bytes of text", len(s)), Wanted: fmt.Sprintf("at most %d bytes", longestText), Remedy: "write it shorter",
		})
	}
}

// value checks a leaf against its range. It is called for what was given.
func (c *collector) value(at *path, f field, v reflect.Value) {
	if q, ok := v.Interface().(quoin.Quantity); ok && f.dim != "" && !measures(q.Unit(), f.dim) {
		c.add(at, quoin.Problem{Code: quoin.UnitMismatch, Found: quoin.Quoted(q.String()), Wanted: "a " + f.dim})
		return
	}
	if sign, ok := signOf(v); !ok || f.span.text == "" || f.span.floor() && (sign > 0 || sign == 0 && !f.span.above) {
		return
	}
	if x, _ := number(v.Interface()); f.span.holds(x) {
		return
	}
	unit := ""
	switch v.Interface().(type) {
	case quoin.Rate, quoin.Optional[quoin.Rate]:
		unit = "%"
	}
	c.add(at, quoin.Problem{Code: quoin.OutOfRange, Found: shown(v.Interface()), Wanted: "a value " + f.span.words(unit)})
}

// shown writes a value as found; an optional one as what it holds.
func shown(v any) string {
	switch x := v.(type) {
	case quoin.Optional[int64]:
		return fmt.Sprint(x.Or(0))
	case quoin.Optional[quoin.Amount]:
		return x.Or(quoin.Amount{}).String()
	case quoin.Optional[quoin.Rate]:
		return x.Or(quoin.Rate{}).String()
	case quoin.Optional[quoin.Factor]:
		return x.Or(quoin.Factor{}).String()
	}
	return fmt.Sprint(v)
}
