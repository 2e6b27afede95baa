package pricelist

import (
	"encoding"
	"encoding/json"
	"strings"

	"example.com/quoin"
)

// word reads what is written as one text; false for all else. Numbers are taken with as
// many digits as they are written with, where documents give some alone.
func (r *answerReader) word(t json.Token, to any, at *spot) (bool, error) {
	text, ok := to.(encoding.TextUnmarshaler)
	if !ok {
		return false, nil
	}
	s, ok := t.(string)
	if !ok {
		return true, r.fault(at, WrongType, tokenKind(t), "a text")
	}
	return true, at.locate(readWord(text, s))
}

func readWord(to encoding.TextUnmarshaler, s string) error {
	var ok bool
	switch to := to.(type) {
	case *quoin.Amount:
		*to, ok = amountOf(s)
	case *quoin.Rate:
		*to, ok = rateOf(s)
	case *quoin.Factor:
		var f quoin.Figure
		f, ok = figureAs(quoin.IsFactor, s+"x")
		*to = f.Factor()
	case *quoin.Quantity:
		*to, ok = quantityOf(s)
	case *quoin.Size:
		*to, ok = sizeOf(s)
	case *quoin.Currency:
		ok = s == ""
	}
	if ok {
		return nil
	}
	return to.UnmarshalText([]byte(s)) // which says what is wrong
}

// figureAs reads a number of one kind that was not cut, or is not said to be.
func figureAs(kind quoin.FigureKind, s string) (f quoin.Figure, ok bool) {
	if strings.HasPrefix(s, "≈") {
		return f, false
	}
	err := f.UnmarshalText([]byte(s))
	return f, err == nil && f.Kind() == kind
}

func amountOf(s string) (quoin.Amount, bool) {
	f, ok := figureAs(quoin.IsAmount, s)
	a, _ := f.Amount()
	return a, ok
}

func rateOf(s string) (quoin.Rate, bool) {
	f, ok := figureAs(quoin.IsRate, s)
	return f.Factor().Rate(), ok
}

// quantityOf reads a quantity; none is written 0.
func quantityOf(s string) (quoin.Quantity, bool) {
	if s == "0" {
		return quoin.Quantity{}, true
	}
	f, ok := figureAs(quoin.IsQuantity, s)
	_, unit, _ := strings.Cut(s, " ")
	return quoin.Unit(unit).Times(f.Factor()), ok
}

// sizeOf reads two lengths.
func sizeOf(s string) (size quoin.Size, ok bool) {
	before, after, _ := strings.Cut(s, " x ")
	height, ok := quantityOf(after)
	if !ok {
		return size, false
	}
	if !strings.Contains(before, " ") {
		before += " " + string(height.Unit())
	}
	width, ok := quantityOf(before)
	if !ok {
		return size, false
	}
	size, err := quoin.NewSize(width, height)
	return size, err == nil
}
