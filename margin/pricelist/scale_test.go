package pricelist_test

import (
	"reflect"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/rule"
)

func TestScalingScalesTheAnswer(t *testing.T) { t.Parallel(); rapid.Check(t, scalingScalesTheAnswer) }
func FuzzScalingScalesTheAnswer(f *testing.F) { f.Fuzz(rapid.MakeFuzz(scalingScalesTheAnswer)) }

// scalingScalesTheAnswer is law 7: all amounts ten times as high, and the minor
// unit moved one place, scale the answer by ten. The Kuwaiti dinar has three
// places and the euro two (ISO 4217).
func scalingScalesTheAnswer(t *rapid.T) {
	data := genDocument(t)
	dinars, euros := spelledOut(t, data), spelledOut(t, data)
	in(&dinars, quoin.MustCurrency("KWD"))
	in(&euros, quoin.MustCurrency("EUR"))
	tenTimes(reflect.ValueOf(&euros).Elem())
	a, b := must(pricelist.Decide(dinars))(t), must(pricelist.Decide(euros))(t)
	if !slices.Equal(a.Conflict, b.Conflict) || !slices.Equal(a.Dropped, b.Dropped) {
		t.Fatalf("conflict %q and %q, dropped %q and %q", a.Conflict, b.Conflict, a.Dropped, b.Dropped)
	}
	for i, p := range a.Products {
		q := b.Products[i]
		tenfold(t, p.ID+" price", p.Price, q.Price)
		var ends []quoin.Amount
		for first, last := range q.Allowed.Runs() {
			ends = append(ends, first, last)
		}
		for first, last := range p.Allowed.Runs() {
			tenfold(t, p.ID+" allowed from", first, ends[0])
			tenfold(t, p.ID+" allowed to", last, ends[1])
			ends = ends[2:]
		}
		for j, c := range p.Channels {
			s := q.Channels[j].Statement
			tenfold(t, p.ID+" tax in "+c.ID, c.Statement.Tax, s.Tax)
			tenfold(t, p.ID+" fees in "+c.ID, c.Statement.Fees, s.Fees)
			tenfold(t, p.ID+" net in "+c.ID, c.Statement.Net, s.Net)
		}
	}
}

// in puts a document into a currency, and what it sells abroad too.
func in(doc *pricelist.Document, c quoin.Currency) {
	doc.Currency = c
	for _, sold := range doc.Channels {
		if sold.ForeignCurrency != nil {
			sold.ForeignCurrency.Currency = c
		}
	}
}

func tenfold(t *rapid.T, what string, a, b quoin.Amount) {
	if !a.Times(quoin.FactorOf(10)).Equal(b) {
		t.Fatalf("%s: %v, and scaled %v", what, a, b)
	}
}

// spelledOut decodes a document and writes the defaults that are amounts.
func spelledOut(t *rapid.T, data []byte) pricelist.Document {
	doc := must(pricelist.Decode(data))(t)
	doc.PriceStep = quoin.Some(doc.PriceStep.Or(doc.Currency.Minor()))
	doc.PriceLimit = quoin.Some(doc.PriceLimit.Or(quoin.AmountOf(100_000, 0)))
	for i, r := range doc.Rules {
		if k, ok := r.Kind.(rule.Ending); ok {
			k.Every = k.Mod()
			doc.Rules[i].Kind = k
		}
	}
	for _, c := range doc.Channels {
		if c.PricePoints != nil && len(c.PricePoints.EndsIn) > 0 && c.PricePoints.Every.IsZero() {
			c.PricePoints.Every = quoin.AmountOf(1, 0)
		}
	}
	return doc
}

// tenTimes multiplies every amount that v holds.
func tenTimes(v reflect.Value) {
	ten := quoin.FactorOf(10)
	switch x := v.Addr().Interface().(type) {
	case *quoin.Amount:
		if x.IsGiven() { // what was left out stays so
			*x = x.Times(ten)
		}
		return
	case *quoin.Optional[quoin.Amount]:
		if a, given := x.Get(); given {
			*x = quoin.Some(a.Times(ten))
		}
		return
	}
	switch v.Kind() {
	case reflect.Pointer:
		if !v.IsNil() {
			tenTimes(v.Elem())
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				tenTimes(v.Field(i))
			}
		}
	case reflect.Slice:
		for i := range v.Len() {
			tenTimes(v.Index(i))
		}
	case reflect.Map:
		for _, key := range v.MapKeys() {
			tenTimesAt(v, key)
		}
	case reflect.Interface:
		if !v.IsNil() {
			inner := reflect.New(v.Elem().Type()).Elem()
			inner.Set(v.Elem())
			tenTimes(inner)
			v.Set(inner)
		}
	}
}

func tenTimesAt(m, key reflect.Value) {
	inner := reflect.New(m.Type().Elem()).Elem()
	inner.Set(m.MapIndex(key))
	tenTimes(inner)
	m.SetMapIndex(key, inner)
}
