package quoin

import (
	"bytes"
	"encoding"
	"encoding/json"
	"fmt"
	"io"
	"strconv"
	"strings"

	"example.com/quoin/internal/decimal"
	"example.com/quoin/internal/prose"
)

// quotient divides for the method of that name.
func quotient(name string, x, y decimal.Decimal) decimal.Decimal {
	if y.IsZero() {
		panic(byZero(name))
	}
	return x.Quo(y)
}

// byZero is what the method of that name panics with.
func byZero(name string) string {
	return "quoin: " + name + ": division by 0: ask first whether it IsZero"
}

// form is what a text of one type may look like.
type form struct {
	what          string // "an amount such as 17.50"
	whole, places int    // digits before and after the point
	share         bool   // a percentage, or a fraction of 1
}

var (
	amountForm   = form{"an amount such as 17.50", 12, 8, false}
	rateForm     = form{"a rate such as 7.4% or 0.074", 6, 16, true}
	factorForm   = form{"a number such as 3.5", 12, 16, false}
	quantityForm = form{"a quantity such as 0.5 sheet", 12, 12, false}
)

// stored is what the form may look like where it is read back: as many digits as a sum
// can come to.
func (f form) stored() form {
	f.whole, f.places = decimal.MostDigits, decimal.MostDigits
	return f
}

func (f *form) longest() int { return decimal.Longest(f.whole, f.places) }

// parse reads what a person wrote, or with exponent a number of JSON; where it errs, what
// stood there stays.
func (f *form) parse(to *decimal.Decimal, s string, exponent bool) error {
	if f.share {
		return f.parseRate(to, s, exponent)
	}
	return f.read(to, s, exponent)
}

// parseRate refuses a number above 1 without its sign.
func (f *form) parseRate(to *decimal.Decimal, s string, exponent bool) error {
	var d decimal.Decimal
	bare, err := f.readShare(&d, s, exponent)
	if err != nil {
		return err
	}
	if bare && (d.Cmp(one) > 0 || d.Cmp(one.Neg()) < 0) {
		found := strings.Clone(s) // so that texts that are read need not outlive it
		return Problem{
			Code: BarePercentage, Severity: Fault, Found: prose.Quoted(found),
			Wanted: "a fraction from 0 to 1, or a percentage with its sign",
			Remedy: fmt.Sprintf("write %s%% if %s percent was meant", found, found),
		}
	}
	*to = d
	return nil
}

// readShare reads a percentage, or a number without its sign, bare, as a fraction.
func (f *form) readShare(to *decimal.Decimal, s string, exponent bool) (bare bool, err error) {
	number, signed := strings.CutSuffix(s, "%")
	if !signed || len(s) > f.longest() {
		return true, f.read(to, s, exponent)
	}
	if err := f.read(to, strings.TrimRight(number, " "), false); err != nil {
		return false, refound(err, s)
	}
	*to = to.Mul(percent)
	return false, nil
}

// refound makes a problem show the whole text it was found in.
func refound(err error, s string) error {
	if p, ok := err.(Problem); ok {
		p.Found = prose.Quoted(s)
		return p
	}
	return err
}

func (f *form) read(to *decimal.Decimal, s string, exponent bool) error {
	x, fault := decimal.Parse(s, f.whole, f.places, exponent)
	if fault != decimal.OK {
		return f.refusal(strings.Clone(s[:min(len(s), mostKept)]), len(s), fault)
	}
	*to = x
	return nil
}

// mostKept is how much of a text is looked at again that is not read: more than is shown,
// and more than any number has.
const mostKept = 4096

// refusal says why a text of so many bytes is not read, of which this is the beginning.
func (f *form) refusal(s string, size int, fault decimal.Fault) Problem {
	p := Problem{Severity: Fault, Found: prose.Quoted(s), Wanted: f.what}
	switch fault {
	case decimal.TooLong:
		p.Code = TooLong
		p.Wanted = fmt.Sprintf("%s, of at most %d characters", f.what, f.longest())
		p.Found = fmt.Sprintf("%s (%d bytes)", prose.Quoted(s), size)
	case decimal.TooLarge:
		p.Code = TooLarge
		p.Wanted = fmt.Sprintf("%s, with at most %d digits before the point", f.what, f.whole)
	case decimal.TooFine:
		p.Code = TooFine
		p.Wanted = fmt.Sprintf("%s, with at most %d digits after the point", f.what, f.places)
	default:
		p.Code = NotANumber
		if strings.Count(s, ",") == 1 && !strings.Contains(s, ".") {
			p.Remedy = "write a point, not a comma, before the fraction"
		}
	}
	return p
}

// literal takes a JSON value apart: the text of a string, or the digits of a
// number (exponent true). Anything else is no number.
func (f *form) literal(data []byte) (s string, exponent bool, err error) {
	data = bytes.TrimSpace(data)
	if len(data) > 0 && data[0] == '"' {
		err = json.Unmarshal(data, &s)
		return s, false, err
	}
	if len(data) > 0 && (data[0] == '-' || data[0] >= '0' && data[0] <= '9') {
		return string(data), true, nil
	}
	return "", false, Problem{Code: NotANumber, Severity: Fault, Found: prose.Quoted(string(data)), Wanted: f.what}
}

// setText reads back what MarshalText wrote, with as many digits as a sum can come to.
func (f *form) setText(to *decimal.Decimal, text []byte) error {
	stored := f.stored()
	return stored.parse(to, string(text), false)
}

// setJSON reads back what MarshalJSON wrote, a string. A number of JSON it never writes:
// that is input, with the bounds of input.
func (f *form) setJSON(to *decimal.Decimal, data []byte) error {
	s, exponent, err := f.literal(data)
	if err != nil {
		return err
	}
	if !exponent {
		return f.setText(to, []byte(s))
	}
	return f.parse(to, s, true)
}

// setBinary reads back what MarshalBinary wrote.
func (f *form) setBinary(to *decimal.Decimal, data []byte) error {
	d, ok := decimal.FromBinary(data)
	if !ok {
		return Problem{Code: NotANumber, Severity: Fault, Found: fmt.Sprintf("%d bytes", len(data)), Wanted: f.what + " as MarshalBinary writes it"}
	}
	*to = d
	return nil
}

// must is for functions that panic where others err; the error is wrapped in what it
// panics with.
func must[T any](name string, parse func(string) (T, error), s string) T {
	v, err := parse(s)
	if err != nil {
		panic(fmt.Errorf("quoin: %s: %w", name, err))
	}
	return v
}

// set parses into a target that keeps its old value on an error.
func set[T any](to *T, parse func(string) (T, error), s string) error {
	v, err := parse(s)
	if err == nil {
		*to = v
	}
	return err
}

// format serves fmt for every number: %v and %s as String, %q quoted, %f with
// a precision rounded half away from zero; width, '-', '+' and ' ' work.
func format(s fmt.State, verb rune, name string, x decimal.Decimal, text string) {
	switch verb {
	case 'v':
		if s.Flag('#') {
			text = fmt.Sprintf("quoin.Must%s(%q)", name, text)
		}
	case 's':
	case 'q':
		text = strconv.Quote(text)
	case 'f':
		text = x.String()
		if p, ok := s.Precision(); ok {
			text = x.Round(min(p, 100), decimal.HalfUp).String()
		}
	default:
		fmt.Fprintf(s, "%%!%c(quoin.%s=%s)", verb, name, text)
		return
	}
	if !strings.HasPrefix(text, "-") && verb == 'f' {
		if s.Flag('+') {
			text = "+" + text
		} else if s.Flag(' ') {
			text = " " + text
		}
	}
	io.WriteString(s, pad(s, text))
}

func pad(s fmt.State, text string) string {
	w, ok := s.Width()
	n := w - len([]rune(text))
	switch {
	case !ok || n <= 0:
		return text
	case s.Flag('-'):
		return text + strings.Repeat(" ", n)
	default:
		return strings.Repeat(" ", n) + text
	}
}

// scanText takes what a database driver hands over. Floats are refused: their
// digits are no longer the ones that were stored.
func scanText(src any, what string, set func([]byte) error) error {
	switch v := src.(type) {
	case string:
		return set([]byte(v))
	case []byte:
		return set(v)
	case int64:
		return set(strconv.AppendInt(nil, v, 10))
	}
	return notStored(src, what)
}

func notStored(src any, what string) Problem {
	of := fmt.Sprintf("%T", src)
	p := Problem{Code: NotANumber, Severity: Fault, Found: "a database value of type " + of, Wanted: what + " as text, numeric or integer"}
	switch {
	case src == nil:
		p.Found, p.Remedy = "NULL", "scan a column that may be NULL into an Optional"
	case strings.HasPrefix(of, "float"):
		p.Remedy = "store it as TEXT, or as NUMERIC in a database that has exact numbers: SQLite turns NUMERIC into a float"
	}
	return p
}

// scanInto scans into what has a Scan, reads itself from text, or is a plain value of
// Go.
func scanInto(to, src any) error {
	switch to := to.(type) {
	case interface{ Scan(any) error }:
		return to.Scan(src)
	case *int64:
		return scanText(src, "a whole number", func(text []byte) error {
			n, err := strconv.ParseInt(string(text), 10, 64)
			if err != nil {
				return Problem{Code: NotANumber, Severity: Fault, Found: prose.Quoted(string(text)), Wanted: "a whole number"}
			}
			*to = n
			return nil
		})
	case *string:
		return scanText(src, "a text", func(text []byte) error {
			*to = string(text)
			return nil
		})
	case encoding.TextUnmarshaler:
		return scanText(src, "a text", to.UnmarshalText)
	}
	return Problem{Code: NotANumber, Severity: Fault, Found: fmt.Sprintf("a database value for a %T", to), Wanted: "a type that has Scan, reads text, or is int64 or string"}
}
