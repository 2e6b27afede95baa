package main

import (
	"cmp"
	"fmt"
	"reflect"
	"strings"

	"example.com/quoin"
	"example.com/quoin/internal/form"
	"example.com/quoin/internal/units"
)

// leaf is the schema of a value that is no list and no object; nil of all others.
func (b *builder) leaf(f *form.Field, s span, t reflect.Type) object {
	if t == reflect.TypeFor[quoin.Unit]() && f.Dim != "" {
		return obj("enum", unitsOf(f.Dim))
	}
	of := b.asked
	if b.answer {
		of = b.told
	}
	if o := of(f, s, t); o != nil {
		return o
	}
	if words := b.said.words(t); words != nil {
		return obj("enum", words)
	}
	switch {
	case t == reflect.TypeFor[quoin.Currency]():
		return obj("type", "string", "pattern", "^[A-Z]{3}$", "examples", []string{"EUR", "JPY", "KWD"})
	case t.Kind() == reflect.Bool:
		return obj("type", "boolean")
	}
	return nil
}

// asked is the schema of what a person writes.
func (b *builder) asked(f *form.Field, s span, t reflect.Type) object {
	if n, ok := figures[t]; ok {
		return b.number(n, s)
	}
	switch t {
	case reflect.TypeFor[quoin.Quantity]():
		return b.quantity(f.Dim, s)
	case reflect.TypeFor[quoin.Size]():
		return b.define("size", "description", sizeNote, "type", "string", "pattern", sizes(), "maxLength", 96, "examples", []string{"297 x 420 mm", "8 1/2 x 11 in", "A3"})
	case reflect.TypeFor[quoin.Date]():
		return b.date()
	case reflect.TypeFor[quoin.Unit]():
		return b.define("unit", "description", "A count unit, or a measured one.", "type", "string", "pattern", `^(`+unit+`|`+strings.Join(unitsOf(""), "|")+`)$`,
			"examples", []string{"print", "sheet"})
	case reflect.TypeFor[string]():
		return b.text(f.Need)
	}
	if t.Kind() == reflect.Int64 {
		return b.count(s)
	}
	return nil
}

// unitsOf are the ways to write the units of a dimension, of all of them where it is empty.
func unitsOf(dim string) (out []string) {
	for _, m := range units.Dimension(dim) {
		out = append(append(out, m.Unit), m.Spellings...)
	}
	return out
}

const (
	// unit is the pattern of a unit that is counted.
	unit = `\p{L}[\p{L}\p{Nd}_-]{0,31}`
	// mixed is the pattern of a number as people write lengths.
	mixed = `(0*[0-9]{1,12}(\.[0-9]{1,12})?|(0*[0-9]{1,12} +)?[1-9][0-9]{0,2}/[1-9][0-9]{0,2}|(0*[0-9]{1,12} *)?[½⅓⅔¼¾⅛⅜⅝⅞])`
	// something is the beginning of one above zero.
	something = `[0. ]*[1-9½⅓⅔¼¾⅛⅜⅝⅞]`
)

func oneOf(words []string) string { return "(" + strings.Join(words, "|") + ")" }

// sizes is the pattern of a size. Names are in capitals or not.
func sizes() string {
	length := oneOf(unitsOf("length"))
	side := ` *` + above() + `( *` + length + `)? *[x×X] *` + above() + ` *` + length + ` *`
	names := `[ABCabc]([0-9]|10)|[24][Aa]0|[Ss]?[Rr][Aa][0-4]|[Aa][Nn][Ss][Ii] [A-Fa-f]|[Ll][Ee][Tt][Tt][Ee][Rr]|[Ll][Ee][Gg][Aa][Ll]|[Aa]3\+`
	return `^( *(` + names + `) *|` + side + `)?$`
}

// above is a number above zero. Its pattern cannot look ahead, so it has its cases.
func above() string {
	return `(0*[1-9][0-9]{0,11}(\.[0-9]{1,12})?|0+\.0*[1-9][0-9]*|(0*[0-9]{1,12} +)?[1-9][0-9]{0,2}/[1-9][0-9]{0,2}|(0*[0-9]{1,12} *)?[½⅓⅔¼¾⅛⅜⅝⅞])`
}

const (
	quantityNote = "A number, not negative, a space and a unit: \"0.5 sheet\", \"8 1/2 in\", \"2/3 sheet\". The space may be missing before a measured unit: \"40cm\". At most 12 digits before the point and 12 after it, three in each part of a fraction. Units convert inside their dimension: length m cm mm in ft yd; area m2 cm2 in2 ft2 yd2; volume l ml us_fl_oz imp_fl_oz; mass kg g oz lb; time h min s. They may be written out: inches, sq ft, grams, hours. Any other word is a count unit and only meets itself, in singular or plural: letters first, then letters, digits, '-' or '_'."
	sizeNote     = "A width and a height, both above zero: \"297 x 420 mm\", \"8 1/2 x 11 in\", \"24 in x 50 ft\", where the unit of the first may be left out if it is that of the second; or the name of a paper size, upright: A0 to A10, 2A0, 4A0, A3+, B0 to B10, C0 to C10, RA0 to RA4, SRA0 to SRA4, ANSI A to ANSI F, Letter, Legal."
)

// quantity refers to the definition of a quantity, which may be of a dimension.
func (b *builder) quantity(dim string, s span) object {
	name := map[string]string{"": "quantity", "gsm": "grammage"}[dim]
	name = cmp.Or(name, dim)
	switch {
	case s.text == "(0,":
		return b.define("positive_"+name, "description", a(name)+" above zero.", b.quantity(dim, spanOf("[0,")), "pattern", "^"+something)
	case s.text != "[0,":
		panic("no definition of a quantity in " + s.text)
	case dim != "":
		return b.define(name, "description", "A measured "+name+".", b.quantity("", s), "pattern", "[0-9½⅓⅔¼¾⅛⅜⅝⅞] *"+oneOf(unitsOf(dim))+" *$")
	}
	return b.define(name, "description", quantityNote, "type", "string", "pattern", `^ *`+mixed+`( *`+oneOf(unitsOf(""))+`| +`+unit+`) *$`,
		"maxLength", longest, "examples", []string{"0.5 sheet", "14 in", "390 s"})
}

// date is of a day; in a record it may not be empty.
func (b *builder) date() object {
	pattern, says := `[0-9]{4}-(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])`, "A day of the Gregorian calendar, ISO 8601"
	if b.textLimit == form.LongestNote {
		pattern, says = `^`+pattern+`$`, says+"."
	} else {
		pattern, says = `^(`+pattern+`)?$`, says+"; empty text is no date."
	}
	return b.define("date", "description", says, "type", "string", "pattern", pattern, "examples", []string{"2026-03-01"})
}

// text is of any text, and name of one that may not be empty.
func (b *builder) text(needed bool) object {
	says := fmt.Sprintf("Text of at most %d bytes without control characters.", b.textLimit)
	text := b.define("text", "description", says, "type", "string", "maxLength", b.textLimit, "pattern", `^[^\x00-\x1f\x7f-\x9f]*$`)
	if !needed {
		return text
	}
	return b.define("name", "description", "Text of at least one character.", text, "minLength", 1)
}

// told is the schema of what an answer says: numbers are text, so that no digit is lost.
func (b *builder) told(f *form.Field, s span, t reflect.Type) object {
	if d, ok := answerTexts[t]; ok {
		if d.name == "amount" && strings.HasPrefix(s.text, "[0,") {
			d = scalar{"price", "An amount that is not below zero, such as a price of the list.", `^[0-9]+(\.[0-9]+)?$`}
		}
		return b.define(d.name, "description", d.says, "type", "string", "pattern", d.pattern)
	}
	switch {
	case t == reflect.TypeFor[string]():
		return obj("type", "string")
	case t.Kind() != reflect.Int && t.Kind() != reflect.Int64:
		return nil
	case omitted(f) && f.Go.Type == t: // where it is 0
		return b.define("positive_count", "description", "A whole number above zero.", "type", "integer", "minimum", 1)
	}
	return b.define("count", "description", "A whole number.", "type", "integer", "minimum", 0)
}

type scalar struct{ name, says, pattern string }

const (
	decimals      = `-?[0-9]+(\.[0-9]+)?`
	mixedFraction = `-?([0-9]+ )?[0-9]{1,3}/[0-9]{1,3}`
)

// answerTexts are the types of texts that have a form in an answer.
var answerTexts = map[reflect.Type]scalar{
	reflect.TypeFor[quoin.Amount]():   {"amount", "Money, not rounded beyond what settling orders rounds; at least 10 digits after the point are right.", `^` + decimals + `$`},
	reflect.TypeFor[quoin.Rate]():     {"rate", "A share as a percentage with its sign.", `^` + decimals + `%$`},
	reflect.TypeFor[quoin.Factor]():   {"factor", "A plain multiple, as decimal text.", `^` + decimals + `$`},
	reflect.TypeFor[quoin.Quantity](): {"quantity", "A number, a space and a unit.", `^(` + decimals + `|` + mixedFraction + `) \p{L}[\p{L}\p{Nd}_-]*$`},
	reflect.TypeFor[quoin.Figure]():   {"figure", "A number in an explanation, with its kind: 17.50 is an amount, 7.4% a rate, 3.5x a factor, 0.5 sheet a quantity. With ≈ before it, it has all the digits of a quotient that had to be cut; else such a number has 12 places.", `^≈?` + decimals + `(%|x| \p{L}[\p{L}\p{Nd}_-]*)?$`},
	reflect.TypeFor[quoin.Size]():     {"size", "A width and a height with their unit.", `^([0-9]+(\.[0-9]+)?|` + mixedFraction + `) ?[a-z]* x ([0-9]+(\.[0-9]+)?|` + mixedFraction + `) [a-z]+$`},
	reflect.TypeFor[quoin.Date]():     {"date", "A day of the Gregorian calendar, ISO 8601.", `^[0-9]{4}-(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])$`},
	reflect.TypeFor[quoin.Path]():     {"path", "Where something stands in the shop document: channels[0].fees[1].rate. A name that is not a plain word stands in brackets and quotation marks.", `.`},
	reflect.TypeFor[quoin.Code]():     {"code", "A stable word for programs to go by.", `^[a-z][a-z0-9_]*$`},
	reflect.TypeFor[quoin.StepCode](): {"code", "A stable word for programs to go by.", `^[a-z][a-z0-9_]*$`},
}
