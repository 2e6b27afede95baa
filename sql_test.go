package quoin_test

import (
	"database/sql"
	"database/sql/driver"
	"strings"
	"testing"

	"example.com/quoin"
)

// TestColumns: what a database stores of each word, and what comes back of it.
func TestColumns(t *testing.T) {
	some := quoin.Some(quoin.MustAmount("17.50"))
	for _, c := range []struct {
		value driver.Valuer
		want  driver.Value
		back  interface {
			sql.Scanner
			driver.Valuer
		}
	}{
		{quoin.MustAmount("17.50"), "17.50", new(quoin.Amount)},
		{quoin.MustRate("7.4%"), "0.074", new(quoin.Rate)},
		{quoin.MustRate("150%"), "1.5", new(quoin.Rate)},
		{quoin.MustRate("-250%"), "-2.5", new(quoin.Rate)},
		{quoin.MustFactor("3.5"), "3.5", new(quoin.Factor)},
		{quoin.MustQuantity("0.5 sheet"), "0.5 sheet", new(quoin.Quantity)},
		{quoin.MustSize("297 x 420 mm"), "297 x 420 mm", new(quoin.Size)},
		{quoin.Size{}, "", new(quoin.Size)},
		{quoin.MustCurrency("EUR"), "EUR", new(quoin.Currency)},
		{quoin.Currency{}, "", new(quoin.Currency)},
		{quoin.Between(quoin.MustAmount("17.00"), quoin.MustAmount("18.50")), "17.00 to 18.50", new(quoin.Range[quoin.Amount])},
		{quoin.Between(quoin.MustRate("5%"), quoin.MustRate("150%")), "5% to 150%", new(quoin.Range[quoin.Rate])},
		{quoin.Between(quoin.MustQuantity("3 g"), quoin.MustQuantity("-4 oz")), "3 g to -4 oz", new(quoin.Range[quoin.Quantity])},
		{quoin.Between[int64](3, 5), "3 to 5", new(quoin.Range[int64])},
		{some, "17.50", new(quoin.Optional[quoin.Amount])},
		{quoin.Optional[quoin.Amount]{}, nil, new(quoin.Optional[quoin.Amount])},
		{quoin.Some(quoin.MustRate("150%")), "1.5", new(quoin.Optional[quoin.Rate])},
		{quoin.Some(int64(0)), int64(0), new(quoin.Optional[int64])},
		{quoin.Some("reeds"), "reeds", new(quoin.Optional[string])},
		{quoin.Some(quoin.PerOrder), "order", new(quoin.Optional[quoin.Per])},
		{quoin.Some(quoin.HalfEven), "half_even", new(quoin.Optional[quoin.Rounding])},
		{quoin.Some(quoin.Between(quoin.MustAmount("1"), quoin.MustAmount("2"))), "1 to 2", new(quoin.Optional[quoin.Range[quoin.Amount]])},
	} {
		stored, err := c.value.Value()
		if err != nil || stored != c.want {
			t.Errorf("%T %v is stored as %#v, %v, want %#v", c.value, c.value, stored, err, c.want)
		}
		if err := c.back.Scan(stored); err != nil {
			t.Errorf("%T of %#v: %v", c.back, stored, err)
		}
		if again, err := c.back.Value(); err != nil || again != stored {
			t.Errorf("%T of %#v is stored again as %#v, %v", c.back, stored, again, err)
		}
	}
}

// TestStoredRates: a number of a database is a fraction; a percentage has its sign.
func TestStoredRates(t *testing.T) {
	for _, c := range []struct {
		in   any
		want string
	}{
		{"0.074", "7.4%"}, {[]byte("1.5"), "150%"}, {"-7", "-700%"}, {int64(2), "200%"}, {"7.4%", "7.4%"}, {"150%", "150%"}, {"0.333333333333", "33.3333333333%"},
	} {
		var r quoin.Rate
		if err := r.Scan(c.in); err != nil || r.String() != c.want {
			t.Errorf("%v is read as %v, %v, want %s", c.in, r, err, c.want)
		}
	}
}

// TestColumnsRefused: what is refused says what to do, and changes nothing.
func TestColumnsRefused(t *testing.T) {
	amount := quoin.MustAmount("1.25")
	rate, factor, quantity, size, currency := quoin.MustRate("5%"), quoin.MustFactor("2"), quoin.MustQuantity("3 g"), quoin.MustSize("A4"), quoin.MustCurrency("CHF")
	between, optional := quoin.Between(amount, amount), quoin.Some(amount)
	unknown := quoin.Some(struct{ A int }{3})
	for _, c := range []struct {
		to       sql.Scanner
		in       any
		sentence string
	}{
		{&amount, nil, "Optional"},
		{&rate, nil, "Optional"},
		{&factor, nil, "Optional"},
		{&quantity, nil, "Optional"},
		{&size, nil, "Optional"},
		{&currency, nil, "Optional"},
		{&between, nil, "Optional"},
		{&amount, 17.5, "store it as TEXT"},
		{&rate, 0.5, "store it as TEXT"},
		{&factor, float32(1), "store it as TEXT"},
		{&optional, 17.5, "store it as TEXT"},
		{&amount, true, "type bool"},
		{&between, "17.00", "17.00 to 18.50"},
		{&between, "17.00 to x", "amount"},
		{&between, "x to 17.00", "amount"},
		{&currency, "ZZZ", "ISO 4217"},
		{&optional, "x", "amount"},
		{&unknown, "3", "Scan"},
	} {
		if err := c.to.Scan(c.in); err == nil || !strings.Contains(err.Error(), c.sentence) {
			t.Errorf("%T of %v: %v, want a word of %q", c.to, c.in, err, c.sentence)
		}
	}
	if v, err := unknown.Value(); err == nil {
		t.Errorf("a struct is stored as %v", v)
	}
	if amount.String() != "1.25" || currency.String() != "CHF" || between.String() != "1.25 to 1.25" || optional.String() != "1.25" || size.String() != "210 x 297 mm" {
		t.Errorf("%v %v %v %v %v", amount, currency, between, optional, size)
	}
	if err := optional.Scan(nil); err != nil || !optional.IsZero() {
		t.Errorf("NULL is %v, %v", optional, err)
	}
}
