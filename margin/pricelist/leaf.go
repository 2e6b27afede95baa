package pricelist

import (
	"encoding"
	"encoding/json"
	"errors"
	"reflect"
	"strconv"

	"example.com/quoin"
	"example.com/quoin/internal/form"
)

func (d *decoder) leaf(t json.Token, at *path, f form.Field, v reflect.Value) error {
	if _, nested := t.(json.Delim); nested || t == nil {
		return d.wrong(t, at, wantedBy(v))
	}
	if err := setLeaf(t, v); err != nil {
		p, ok := err.(quoin.Problem)
		if !ok {
			p = quoin.Problem{Code: quoin.WrongType, Found: described(t), Wanted: wantedBy(v)}
		}
		d.Add(at, p)
		return nil
	}
	if f.Need && v.Kind() == reflect.String && v.Len() == 0 {
		d.Add(at, quoin.Problem{Code: quoin.MissingField, Found: `""`, Wanted: "the field " + f.Name})
		return nil
	}
	if v.Kind() == reflect.String {
		d.Text(at, v.String())
		return nil
	}
	d.collector.Value(at, f, v)
	return nil
}

var errType = errors.New("wrong type")

func setLeaf(t json.Token, v reflect.Value) error {
	switch to := v.Addr().Interface().(type) {
	case *int64:
		return setInt(t, to)
	case *quoin.Optional[int64]:
		var n int64
		err := setInt(t, &n)
		*to = quoin.Some(n)
		return err
	case *bool:
		b, ok := t.(bool)
		if !ok {
			return errType
		}
		*to = b
		return nil
	case *string:
		s, ok := t.(string)
		if !ok {
			return errType
		}
		*to = s
		return nil
	case *quoin.Amount:
		return setNumber(t, to, quoin.ParseAmount, to.UnmarshalJSON)
	case *quoin.Rate:
		return setNumber(t, to, quoin.ParseRate, to.UnmarshalJSON)
	case *quoin.Factor:
		return setNumber(t, to, quoin.ParseFactor, to.UnmarshalJSON)
	case *quoin.Quantity:
		return setText(t, to, quoin.ParseQuantity)
	case *quoin.Currency:
		return setText(t, to, quoin.ParseCurrency)
	case *quoin.Size:
		if t == "" {
			*to = quoin.Size{}
			return nil
		}
		return setText(t, to, quoin.ParseSize)
	case *quoin.Optional[quoin.Amount]:
		return setOptional(t, to)
	case *quoin.Optional[quoin.Rate]:
		return setOptional(t, to)
	case *quoin.Optional[quoin.Factor]:
		return setOptional(t, to)
	case json.Unmarshaler:
		if _, boolean := t.(bool); boolean {
			return errType
		}
		text, err := json.Marshal(t)
		if err != nil {
			return err
		}
		return to.UnmarshalJSON(text)
	case encoding.TextUnmarshaler:
		s, ok := t.(string)
		if !ok {
			return errType
		}
		return to.UnmarshalText([]byte(s))
	}
	return errType
}

// setNumber takes a number as text, by parse, or as digits, by literal: both hold it to
// the bounds of a document.
func setNumber[T any](t json.Token, to *T, parse func(string) (T, error), literal func([]byte) error) error {
	if n, ok := t.(json.Number); ok {
		return literal([]byte(n))
	}
	return setText(t, to, parse)
}

func setText[T any](t json.Token, to *T, parse func(string) (T, error)) error {
	s, ok := t.(string)
	if !ok {
		return errType
	}
	v, err := parse(s)
	if err == nil {
		*to = v
	}
	return err
}

// setOptional takes what a leaf of T takes.
func setOptional[T any](t json.Token, to *quoin.Optional[T]) error {
	var v T
	err := setLeaf(t, reflect.ValueOf(&v).Elem())
	if err == nil {
		*to = quoin.Some(v)
	}
	return err
}

// setInt takes a whole number, also as text.
func setInt(t json.Token, to *int64) error {
	s, text := t.(string)
	n, literal := t.(json.Number)
	if literal {
		s = string(n)
	}
	i, err := strconv.ParseInt(s, 10, 64)
	if !text && !literal || err != nil || len(s) > 20 {
		return errType
	}
	*to = i
	return nil
}

func wantedBy(v reflect.Value) string {
	switch v.Addr().Interface().(type) {
	case *int64, *quoin.Optional[int64]:
		return "a whole number"
	case *bool:
		return "true or false"
	case *string:
		return "text"
	case *quoin.Amount, *quoin.Optional[quoin.Amount]:
		return "an amount such as \"17.50\""
	case *quoin.Rate, *quoin.Optional[quoin.Rate]:
		return "a rate such as \"7.4%\""
	case *quoin.Factor, *quoin.Optional[quoin.Factor]:
		return "a number such as \"3.5\""
	case *quoin.Currency:
		return "an ISO 4217 currency code such as \"EUR\""
	case *quoin.Date:
		return "a date such as 2026-03-01"
	case *quoin.Unit:
		return "a unit such as print"
	case *quoin.Size:
		return "a size such as \"297 x 420 mm\" or \"A3\""
	case *quoin.Quantity:
		return "a quantity such as \"0.5 sheet\""
	}
	return "a word"
}
