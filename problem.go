package quoin

import (
	"fmt"
	"slices"
	"strings"
)

// Severity says what a Problem means for the result.
type Severity string

const (
	// Fault means that there is no result until it is mended.
	Fault Severity = "fault"
	// Warning means that the result stands, and deserves a look.
	Warning Severity = "warning"
)

// Code names a kind of Problem. Codes are stable; sentences are not.
type Code string

// Codes of values that cannot be read. The packages that read whole documents
// add their own.
const (
	NotANumber      Code = "not_a_number"
	TooLong         Code = "too_long"
	TooLarge        Code = "too_large"
	TooFine         Code = "too_fine"
	BarePercentage  Code = "bare_percentage"
	MissingUnit     Code = "missing_unit"
	UnitMismatch    Code = "unit_mismatch"
	UnknownCurrency Code = "unknown_currency"
	UnknownWord     Code = "unknown_word"
	NotSplittable   Code = "not_splittable"
	BadGrid         Code = "bad_grid"
	BadSize         Code = "bad_size"
	Ambiguous       Code = "ambiguous"
	BadPath         Code = "bad_path"
	BadStep         Code = "bad_step"
)

// Problem is one thing that is wrong, or suspicious: where it stands, what was found there,
// what is wanted, and what to do.
type Problem struct {
	// What kind of thing.
	Code Code `json:"code"`
	// What it means for the result: with a fault there is none, so an answer has only warnings;
	// a packing can be kept from being taken by either.
	Severity Severity `json:"severity"`
	// Where it stands: products[2].bill[0].quantity.
	Path string `json:"path,omitempty"`
	// What was found there, shortened.
	Found string `json:"found,omitempty"`
	// What would be right there.
	Wanted string `json:"wanted,omitempty"`
	// What to do, where that is known.
	Remedy string `json:"remedy,omitempty"`
	// A known name close to the one that was found.
	Near string `json:"near,omitempty"`
	// Line of the document, counted from 1; not given where it is not known.
	Line int `json:"line,omitempty"`
	// Byte of that line, counted from 1; not given where it is not known.
	Column int `json:"column,omitempty"`
	// The figures and names that the sentences are about, so that they can be put in other
	// words.
	Args []Arg `json:"args,omitempty"`
}

// Arg is one figure or name in the sentences of a problem.
type Arg struct {
	// What it is there for.
	Name string `json:"name"`
	// The figure, or the name.
	Value string `json:"value"`
}

// Error returns the problem as one sentence. It begins with line and column if they are known.
func (p Problem) Error() string {
	var b strings.Builder
	if p.Line > 0 {
		fmt.Fprintf(&b, "%d:%d: ", p.Line, p.Column)
	}
	if p.Path != "" {
		b.WriteString(p.Path + ": ")
	}
	if p.Found != "" && p.Severity != Warning {
		b.WriteString("found ")
	}
	b.WriteString(p.Found)
	if p.Found != "" && p.Wanted != "" {
		b.WriteString(", ")
	}
	if p.Wanted != "" {
		b.WriteString("wanted " + p.Wanted)
	}
	if p.Near != "" {
		b.WriteString("; did you mean " + p.Near + "?")
	}
	if p.Remedy != "" {
		b.WriteString("; " + p.Remedy)
	}
	return b.String() + " [" + string(p.Code) + "]"
}

// Is reports, for errors.Is, whether p matches target, a Problem: every field that target gives
// is the same in p. So Problem{Code: TooFine} matches any problem with that code, and with a
// Path only the one at that place.
func (p Problem) Is(target error) bool {
	t, ok := target.(Problem)
	return ok && like(p.Code, t.Code) && like(p.Severity, t.Severity) && like(p.Path, t.Path) && like(p.Found, t.Found) &&
		like(p.Wanted, t.Wanted) && like(p.Remedy, t.Remedy) && like(p.Near, t.Near) && like(p.Line, t.Line) && like(p.Column, t.Column) &&
		(len(t.Args) == 0 || slices.Equal(p.Args, t.Args))
}

// like reports whether v is as wanted, or nothing is wanted.
func like[T comparable](v, wanted T) bool {
	var nothing T
	return wanted == nothing || v == wanted
}

// Problems is everything found at once.
//
// As an error it lists one to a line.
type Problems []Problem

// Error lists the problems, one to a line.
func (ps Problems) Error() string {
	lines := make([]string, len(ps))
	for i, p := range ps {
		lines[i] = p.Error()
	}
	return strings.Join(lines, "\n")
}

// InFile lists the problems as compilers do, one to a line, each behind the name of the file that
// it is in: shop.json:3:14: currency: found "ERU", … A problem without a line stands behind the
// name alone.
func (ps Problems) InFile(name string) string {
	lines := make([]string, len(ps))
	for i, p := range ps {
		lines[i] = name + ":"
		if p.Line == 0 {
			lines[i] += " "
		}
		lines[i] += p.Error()
	}
	return strings.Join(lines, "\n")
}

// Unwrap returns the problems one by one. So errors.As finds the first Problem, and errors.Is
// one that matches another.
func (ps Problems) Unwrap() []error {
	out := make([]error, len(ps))
	for i, p := range ps {
		out[i] = p
	}
	return out
}

// Err returns ps as an error, or nil when there is no fault among them.
func (ps Problems) Err() error {
	for _, p := range ps {
		if p.Severity == Fault {
			return ps
		}
	}
	return nil
}

// Codes of what can be wrong with any data that is read or put together in Go. The
// packages that read their own add others.
const (
	BadJSON        Code = "bad_json"            // a text that is no JSON
	BadText        Code = "bad_text"            // control characters, or what is no UTF-8
	WrongType      Code = "wrong_type"          // a word where yes or no is asked, one entry where a list is
	UnknownField   Code = "unknown_field"       // a field that is not known
	DuplicateField Code = "duplicate_field"     // a field twice in one object
	MissingField   Code = "missing_field"       // what has to be given, and is not
	OutOfRange     Code = "out_of_range"        // a number that its field does not take
	TooMany        Code = "too_many"            // more entries than are read
	EmptyList      Code = "empty_list"          // a list without an entry, where one is needed
	DuplicateID    Code = "duplicate_id"        // a name given twice, or something listed twice
	UnknownID      Code = "unknown_id"          // a name that nothing has
	RivalFields    Code = "rival_fields"        // two fields of which each says what the other would
	BadDate        Code = "bad_date"            // a text that is no date
	StrayTerms     Code = "stray_terms"         // a field that is nothing without another
	RangeOrder     Code = "range_order"         // a range that does not rise, or does not hold its value
	EmptyPeriod    Code = "empty_period"        // a period that does not end after it begins
	StepOffMinor   Code = "step_off_minor_unit" // an amount that is no whole number of minor units
	MoreProblems   Code = "more_problems"       // the last one, where there are more than are listed
)
