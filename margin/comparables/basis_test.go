package comparables_test

import (
	"testing"

	"example.com/quoin"
	"example.com/quoin/margin/comparables"
)

// Each of these is 24.00 with a tax of 20%, or 20.00 without one, or cannot be
// brought there.
func TestBasis(t *testing.T) {
	taxed, bare := comparables.Basis{Tax: quoin.MustRate("20%")}, comparables.Basis{}
	fifth, seven := quoin.MustRate("20%"), quoin.MustRate("7%")
	for _, c := range []struct {
		what string
		on   comparables.Basis
		comparables.Record
		want string
	}{
		{"as it is", taxed, comparables.Record{Price: amount("24.00"), Tax: fifth}, "24"},
		{"without tax", taxed, comparables.Record{Price: amount("20.00")}, "24"},
		{"another tax", taxed, comparables.Record{Price: amount("21.40"), Tax: seven}, "24"},
		{"tax taken off", bare, comparables.Record{Price: amount("24.00"), Tax: fifth}, "20"},
		{"another tax taken off", bare, comparables.Record{Price: amount("21.40"), Tax: seven}, "20"},
		{"postage in the price", taxed, comparables.Record{Price: amount("30.00"), Tax: fifth, Postage: amount("6.00")}, "24"},
		{"postage on top", taxed, comparables.Record{Price: amount("24.00"), Tax: fifth, Postage: amount("6.00"), PostageOnTop: amount("6.00")}, "24"},
		{"part of it on top", taxed, comparables.Record{Price: amount("26.00"), Tax: fifth, Postage: amount("6.00"), PostageOnTop: amount("4.00")}, "24"},
		{"paid beyond postage", bare, comparables.Record{Price: amount("18.00"), Postage: amount("6.00"), PostageOnTop: amount("8.00")}, "20"},
		{"a frame", taxed, comparables.Record{Price: amount("64.00"), Tax: fifth, Framed: true, FrameWorth: worth("40.00")}, "24"},
		{"a frame and postage", taxed, comparables.Record{Price: amount("61.50"), Postage: amount("6.50"), Framed: true, FrameWorth: worth("35.00")}, "24"},
		{"a frame worth nothing", bare, comparables.Record{Price: amount("20.00"), Framed: true, FrameWorth: worth("0")}, "20"},
		{"a size changes nothing", bare, comparables.Record{Price: amount("20.00"), Size: quoin.MustSize("A3")}, "20"},
		{"a frame worth who knows", bare, comparables.Record{Price: amount("60.00"), Framed: true}, "none"},
		{"all of it postage", bare, comparables.Record{Price: amount("6.00"), Postage: amount("6.00")}, "none"},
		{"more than all of it", bare, comparables.Record{Price: amount("6.00"), Framed: true, FrameWorth: worth("8.00")}, "none"},
		{"given away", bare, comparables.Record{}, "none"},
	} {
		got, ok := c.on.Bring(c.Record, quoin.Size{})
		if !brought(got, ok, c.want) {
			t.Errorf("%s: %s, %t, want %s", c.what, got, ok, c.want)
		}
	}
}

// brought says whether a price is as wanted, which is "none" where there is none.
func brought(got quoin.Amount, ok bool, want string) bool {
	if !ok || want == "none" {
		return !ok && want == "none"
	}
	return got.Equal(quoin.MustAmount("1").Times(quoin.MustFactor(want)))
}

// The product is 20 × 20 cm; a print of half its sides has a quarter of its area.
// The square root of 2 is 1.414213562373095…, that of 1/2 half of it.
func TestBasisSize(t *testing.T) {
	for _, c := range []struct {
		exponent, size, price, want string
	}{
		{"0.5", "10 x 10 cm", "12.00", "24"},
		{"1", "10 x 10 cm", "6.00", "24"},
		{"2", "10 x 10 cm", "1.50", "24"},
		{"1.5", "10 x 10 cm", "3.00", "24"},
		{"0", "10 x 10 cm", "24.00", "24"},
		{"-0.5", "10 x 10 cm", "48.00", "24"},
		{"-1", "10 x 10 cm", "96.00", "24"},
		{"0.5", "40 x 40 cm", "48.00", "24"},
		{"0.5", "400 x 400 mm", "48.00", "24"},
		{"0.5", "40 x 10 cm", "24.00", "24"},
		{"0.5", "10 x 20 cm", "10.00", "14.142135623731"},
		{"0.5", "40 x 20 cm", "10.00", "7.071067811865"},
		{"0.5", "", "24.00", "none"},
		{"0", "", "24.00", "none"},
		{"10", "999999999999 x 999999999999 m", "24.00", "none"}, // nothing left on 12 places
	} {
		of := comparables.Record{Price: quoin.MustAmount(c.price)}
		if err := of.Size.UnmarshalText([]byte(c.size)); err != nil {
			t.Fatal(err)
		}
		basis := comparables.Basis{Exponent: quoin.Some(quoin.MustFactor(c.exponent))}
		got, ok := basis.Bring(of, quoin.MustSize("20 x 20 cm"))
		if !brought(got, ok, c.want) {
			t.Errorf("%s at %s, exponent %s: %s, %t, want %s", c.price, c.size, c.exponent, got, ok, c.want)
		}
		if got, ok := basis.Bring(of, quoin.Size{}); ok {
			t.Errorf("%s at %s for a product without a size: %s", c.price, c.size, got)
		}
	}
}

func amount(s string) quoin.Amount { return quoin.MustAmount(s) }

func worth(s string) quoin.Optional[quoin.Amount] { return quoin.Some(quoin.MustAmount(s)) }
