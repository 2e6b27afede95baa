package form

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"example.com/quoin"
	"example.com/quoin/internal/prose"
)

const (
	// MostProblems is how many problems are listed.
	MostProblems = 1000
	// MostNames bounds how many names are searched for a near one.
	MostNames = 1000
	// LongestText is how many bytes a name, or any other text, may have.
	LongestText = 400
	// LongestNote is how many bytes a text in a record may have.
	LongestNote = 1000
	// mostFields is how many fields a record may have.
	mostFields = 64
)

// Collector gathers problems in the order they are found, up to a bound.
type Collector struct {
	Problems quoin.Problems
	// Full says that there are more problems than are listed.
	Full bool
	// Records says that records are read, or checked, which stand in lines by themselves: flat
	// objects, in which texts may be longer, and an empty text is no date.
	Records bool
	// Spare is the field of the whole that may be left out though it is needed.
	Spare string
	// Ranged says that some value that was read, or gone through, has a range.
	Ranged bool
	// spoken are the paths of the first problems, as many as counted, and of all that
	// they stand in.
	spoken  map[string]bool
	counted int
	// computed says that numbers may have any number of digits.
	computed bool
}

// Add adds a fault at a path.
func (c *Collector) Add(at *Path, p quoin.Problem) { c.AddAt(at.String(), p) }

// AddAt is Add for a path as text.
func (c *Collector) AddAt(at string, p quoin.Problem) {
	if c.Full = len(c.Problems) >= MostProblems; c.Full {
		return
	}
	p.Path = at
	p.Severity = quoin.Fault
	c.Problems = append(c.Problems, p)
}

// AddAll adds the problems of an error, each at its path under another.
func (c *Collector) AddAll(at *Path, err error) {
	switch e := err.(type) {
	case nil:
	case quoin.Problem:
		c.AddAt(Beneath(at.String(), e.Path), e)
	case quoin.Problems:
		for _, p := range e {
			c.AddAt(Beneath(at.String(), p.Path), p)
		}
	}
}

// All returns the problems, and where there are more of them than are listed one that says so.
func (c *Collector) All() quoin.Problems {
	if !c.Full {
		return c.Problems
	}
	return append(c.Problems, quoin.Problem{
		Code: quoin.MoreProblems, Severity: quoin.Fault, Found: fmt.Sprintf("more than %d problems", MostProblems),
		Wanted: "a document without any", Remedy: "mend these first",
	})
}

// Under reports whether a problem stands at the path or below it.
func (c *Collector) Under(at *Path) bool { return len(c.Problems) > 0 && c.UnderText(at.String()) }

// UnderText is Under for a path as text.
func (c *Collector) UnderText(prefix string) bool {
	if prefix == "" {
		return len(c.Problems) > 0
	}
	if c.spoken == nil {
		c.spoken = make(map[string]bool)
	}
	for ; c.counted < len(c.Problems); c.counted++ {
		path := c.Problems[c.counted].Path
		c.spoken[path] = true
		for i := range len(path) {
			if path[i] == '.' || path[i] == '[' {
				c.spoken[path[:i]] = true
			}
		}
	}
	return c.spoken[prefix]
}

// Near is the one of the first names that s most likely means. Nothing is looked for
// where no further problem is listed.
func (c *Collector) Near(s string, names []string) string {
	if len(c.Problems) >= MostProblems {
		return ""
	}
	return prose.Near(s, names[:min(len(names), MostNames)])
}

// Needed reports fields that must be given and are not, nor any in their place,
// and fields that stand in each other's place and are given together.
func (c *Collector) Needed(at *Path, fields []Field, given func(name string) bool) {
	for i := range fields {
		f := &fields[i]
		if !f.Need && len(f.Instead) == 0 {
			continue
		}
		first := ""
		if given(f.Name) {
			first = f.Name
		}
		for _, name := range f.Instead {
			switch {
			case !given(name):
			case first == "":
				first = name
			default:
				c.Fault(at.Field(name), quoin.RivalFields, name+" beside "+first, "one of them", "leave one out: each says what the other would")
			}
		}
		if f.Need && first == "" && (at != nil || f.Name != c.Spare) {
			wanted := "the field " + strings.Join(append([]string{f.Name}, f.Instead...), " or ")
			c.Add(at.Field(f.Name), quoin.Problem{Code: quoin.MissingField, Found: "nothing", Wanted: wanted})
		}
	}
}

// Missing reports a field that was not given, where nothing has been said of it.
func (c *Collector) Missing(at *Path, name string) {
	c.Fault(at, quoin.MissingField, "nothing", "the field "+name, "")
}

// Stray reports what is nothing without something else.
func (c *Collector) Stray(at *Path, found, wanted string) {
	c.Add(at, quoin.Problem{Code: quoin.StrayTerms, Found: found, Wanted: wanted})
}

// TooMany reports a list with more entries than it may have.
func (c *Collector) TooMany(at *Path, n, most int) {
	c.Add(at, quoin.Problem{Code: quoin.TooMany, Found: fmt.Sprintf("%d entries", n), Wanted: fmt.Sprintf("at most %d", most)})
}

// Empty reports a list without an entry that would have to have one.
func (c *Collector) Empty(at *Path) {
	c.Fault(at, quoin.EmptyList, "no entries", "at least one, or no such list", "")
}

// Text checks a text, which an answer may say many times and a sheet prints.
func (c *Collector) Text(at *Path, s string) {
	switch most := c.longest(); {
	case len(s) > most:
		found, wanted := fmt.Sprintf("%d bytes of text", len(s)), fmt.Sprintf("at most %d bytes", most)
		c.Add(at, quoin.Problem{Code: quoin.TooLong, Found: found, Wanted: wanted, Remedy: "write it shorter"})
	case !printable(s):
		c.badText(at, s)
	}
}

func (c *Collector) badText(at *Path, s string) {
	c.Add(at, quoin.Problem{Code: quoin.BadText, Found: prose.Quoted(s), Wanted: "text in UTF-8 without control characters"})
}

func (c *Collector) longest() int {
	if c.Records {
		return LongestNote
	}
	return LongestText
}

// readable reports whether Text has nothing to say of a text.
func (c *Collector) readable(s string) bool { return len(s) <= c.longest() && printable(s) }

// printable reports whether a text is UTF-8 without control characters.
func printable(s string) bool {
	for i := range len(s) {
		if c := s[i]; c < ' ' || c > '~' { // which most texts have none of
			return utf8.ValidString(s) && !strings.ContainsFunc(s, unicode.IsControl)
		}
	}
	return true
}

// fits reports whether what stands at a place is of the field's dimension, and in its range.
func (f *Field) fits(to any) bool {
	if f.Dim != "" {
		if q, ok := to.(*quoin.Quantity); ok && !measures(q.Unit(), f.Dim) {
			return false
		}
	}
	if f.span.text == "" {
		return true
	}
	x, ok := number(to)
	return !ok || f.span.holds(x)
}

// Value checks what stands at a place against its range and its dimension. It is called for
// what was given.
func (c *Collector) Value(at *Path, f *Field, to any) {
	if f.fits(to) {
		return
	}
	if q, ok := to.(*quoin.Quantity); ok && f.Dim != "" && !measures(q.Unit(), f.Dim) {
		p := quoin.Problem{Code: quoin.UnitMismatch, Found: prose.Quoted(q.String()), Wanted: "a " + f.Dim}
		if _, err := q.In(unitOf[f.Dim]); err != nil {
			p.Near, p.Remedy = err.(quoin.Problem).Near, err.(quoin.Problem).Remedy
		}
		c.Add(at, p)
		return
	}
	c.Add(at, quoin.Problem{Code: quoin.OutOfRange, Found: shown(to), Wanted: "a value " + f.span.words(isRate(to))})
}

// measures reports whether a unit is of a dimension. The word for a measured
// dimension is no unit of it, only of itself.
func measures(u quoin.Unit, dim string) bool {
	return u.Dimension() == dim && (string(u) != dim || dim == grammage)
}

// unitOf is a unit of each dimension.
var unitOf = map[string]quoin.Unit{"length": "mm", "area": "m2", "volume": "ml", "mass": "g", "time": "h", grammage: grammage}

// grammage is a dimension with one unit, which has its name: g/m2.
const grammage = "gsm"
