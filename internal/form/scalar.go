package form

import (
	"encoding"
	"errors"
	"reflect"
	"strconv"
	"strings"

	"example.com/quoin"
	"example.com/quoin/internal/prose"
)

// scalar is a type whose values are one text, number or truth in JSON.
type scalar struct {
	wanted string // such as "an amount such as "17.50""
	// read reads what a person wrote. It errs with a Problem, or with errType where the value
	// is of another type.
	read func(t token, to any) error
	// stored reads what was written by a program: numbers have as many digits as they come to.
	stored func(t token, to any) error
	text   bool // a plain text, which is looked at by itself
}

// token is one value of JSON that is neither a list nor an object.
type token struct {
	kind   byte   // '"', '0', 't', 'f' or 'n'
	text   []byte // of a string what it says, of all others as written
	mended bool   // a string that was no UTF-8
}

// errType says that a value is of another type than is wanted.
var errType = errors.New("wrong type")

// scalars are the types that documents are made of.
var scalars = map[reflect.Type]scalar{
	reflect.TypeFor[int64]():                        {wanted: "a whole number", read: whole},
	reflect.TypeFor[quoin.Optional[int64]]():        optional[int64]("a whole number", whole, whole),
	reflect.TypeFor[int]():                          {wanted: "a whole number", read: wholeInt},
	reflect.TypeFor[bool]():                         {wanted: "true or false", read: truth},
	reflect.TypeFor[string]():                       {wanted: "text", read: plainText, text: true},
	reflect.TypeFor[quoin.Amount]():                 numbers(`an amount such as "17.50"`, parseAmount),
	reflect.TypeFor[quoin.Rate]():                   numbers(`a rate such as "7.4%"`, parseRate),
	reflect.TypeFor[quoin.Factor]():                 numbers(`a number such as "3.5"`, parseFactor),
	reflect.TypeFor[quoin.Optional[quoin.Amount]](): optionalNumber(`an amount such as "17.50"`, parseAmount),
	reflect.TypeFor[quoin.Optional[quoin.Rate]]():   optionalNumber(`a rate such as "7.4%"`, parseRate),
	reflect.TypeFor[quoin.Optional[quoin.Factor]](): optionalNumber(`a number such as "3.5"`, parseFactor),
	reflect.TypeFor[quoin.Quantity]():               word(`a quantity such as "0.5 sheet"`, parseQuantity),
	reflect.TypeFor[quoin.Currency]():               word(`an ISO 4217 currency code such as "EUR"`, parseCurrency),
	reflect.TypeFor[quoin.Size]():                   word(`a size such as "297 x 420 mm" or "A3"`, parseSize),
	reflect.TypeFor[quoin.Date]():                   {wanted: "a date such as 2026-03-01", read: ownText},
	reflect.TypeFor[quoin.Unit]():                   {wanted: "a unit such as print", read: ownText},
}

// scalarOf is how values of a type are read; without read where the type reads JSON itself.
func scalarOf(t reflect.Type) scalar {
	s, ok := scalars[t]
	switch {
	case ok:
	case reflect.PointerTo(t).Implements(reflect.TypeFor[encoding.TextUnmarshaler]()):
		s = scalar{wanted: "a word", read: ownText}
	case t.Kind() == reflect.String:
		s = scalar{wanted: "text", read: plainText}
	}
	if s.stored == nil {
		s.stored = s.read
	}
	return s
}

// numeric is a type of numbers, which reads what was stored of it.
type numeric[N any] interface {
	*N
	encoding.TextUnmarshaler
	UnmarshalJSON([]byte) error
}

// numbers reads numbers as text, by parse, or as digits; both are held to the bounds of what
// a person writes.
func numbers[N any, P numeric[N]](wanted string, parse func([]byte) (N, error)) scalar {
	return scalar{wanted: wanted, stored: ownText, read: func(t token, to any) error {
		switch t.kind {
		case '0':
			return P(to.(*N)).UnmarshalJSON(t.text)
		case '"':
			return parsed(t, to.(*N), parse)
		}
		return errType
	}}
}

// Their texts need not outlive them, so these strings are not allocated.
func parseAmount(text []byte) (quoin.Amount, error) { return quoin.ParseAmount(string(text)) }
func parseRate(text []byte) (quoin.Rate, error)     { return quoin.ParseRate(string(text)) }
func parseFactor(text []byte) (quoin.Factor, error) { return quoin.ParseFactor(string(text)) }

func parsed[T any](t token, to *T, parse func([]byte) (T, error)) error {
	v, err := parse(t.text)
	if err == nil {
		*to = v
	}
	return err
}

func optionalNumber[N any, P numeric[N]](wanted string, parse func([]byte) (N, error)) scalar {
	n := numbers[N, P](wanted, parse)
	return optional[N](wanted, n.read, n.stored)
}

// optional reads what a value of its type is read by. One that was stored may be null.
func optional[T any](wanted string, read, stored func(token, any) error) scalar {
	of := func(read func(token, any) error) func(token, any) error {
		return func(t token, to any) error {
			var v T
			err := read(t, &v)
			if err == nil {
				*to.(*quoin.Optional[T]) = quoin.Some(v)
			}
			return err
		}
	}
	some := of(stored)
	return scalar{wanted: wanted, read: of(read), stored: func(t token, to any) error {
		if t.kind == 'n' {
			return nil
		}
		return some(t, to)
	}}
}

// word reads texts by parse, and stored ones by what reads them back.
func word[T any, P interface {
	*T
	encoding.TextUnmarshaler
}](wanted string, parse func([]byte) (T, error)) scalar {
	return scalar{wanted: wanted, stored: ownText, read: func(t token, to any) error {
		if t.kind != '"' {
			return errType
		}
		return parsed(t, to.(*T), parse)
	}}
}

// ownText reads a text by what its type reads.
func ownText(t token, to any) error {
	if t.kind != '"' {
		return errType
	}
	return to.(encoding.TextUnmarshaler).UnmarshalText(t.text)
}

func parseQuantity(text []byte) (quoin.Quantity, error) { return quoin.ParseQuantity(string(text)) }
func parseCurrency(text []byte) (quoin.Currency, error) { return quoin.ParseCurrency(string(text)) }

func parseSize(text []byte) (quoin.Size, error) {
	if len(text) == 0 {
		return quoin.Size{}, nil
	}
	return quoin.ParseSize(string(text))
}

func plainText(t token, to any) error {
	if t.kind != '"' {
		return errType
	}
	reflect.ValueOf(to).Elem().SetString(string(t.text))
	return nil
}

func truth(t token, to any) error {
	if t.kind != 't' && t.kind != 'f' {
		return errType
	}
	*to.(*bool) = t.kind == 't'
	return nil
}

// whole reads a whole number, also as text.
func whole(t token, to any) error {
	n, err := strconv.ParseInt(string(t.text), 10, 64)
	if t.kind != '"' && t.kind != '0' || err != nil || len(t.text) > 20 {
		return errType
	}
	*to.(*int64) = n
	return nil
}

func wholeInt(t token, to any) error {
	var n int64
	err := whole(t, &n)
	*to.(*int) = int(n)
	return err
}

func (t token) String() string {
	if t.kind == '"' {
		return prose.Quoted(string(t.text))
	}
	return strings.Trim(prose.Quoted(string(t.text)), `"`)
}
