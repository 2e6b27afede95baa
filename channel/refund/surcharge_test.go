package refund_test

import (
	"fmt"
	"testing"

	"example.com/quoin"
	"example.com/quoin/channel/refund"
)

// paidByCard is a print of 20.00 and 5.00 of shipping with a surcharge of 0.60, of which 0.10 is tax, as 4.17 is of the rest. A
// fee of 0.76 was taken, which comes back. All invented.
func paidByCard() refund.Order {
	return refund.Order{
		Lines: []refund.OrderLine{{Product: "heron", Count: 1, Paid: amount("20.00")}}, Shipping: amount("5.00"), OnShipping: true, TaxIn: amount("4.17"),
		Surcharge: amount("0.60"), SurchargeTax: amount("0.10"), Places: 2, Fees: []refund.Fee{{Name: "card", Amount: amount("0.76"), Returned: rate("100%")}},
	}
}

func TestSurchargeGoesBackWholeOrNotAtAll(t *testing.T) {
	print := []refund.Item{{Count: 1}}
	for _, c := range []struct {
		what   string
		change func(*refund.Order)
		back   refund.Refund
		want   string // surcharge, total, tax back, fees back, result
	}{
		// 25.60 with 4.27 of tax; all of the fee. −25.60 + 4.27 + 0.76.
		{"all", nil, refund.Refund{Lines: print, Shipping: true, Surcharge: true}, "0.60 25.60 4.27 0.76 -20.57"},
		// The fee on 25.00 of 25.60: 0.742. −25.00 + 4.17 + 0.74.
		{"all else", nil, refund.Refund{Lines: print, Shipping: true}, "0.00 25.00 4.17 0.74 -20.09"},
		// 20.00 ÷ 25.00 of 4.17 is 3.336; 20.00 ÷ 25.60 of 0.76 is 0.594.
		{"the print", nil, refund.Refund{Lines: print}, "0.00 20.00 3.34 0.59 -16.07"},
		{"the surcharge alone", nil, refund.Refund{Surcharge: true}, "0.60 0.60 0.10 0.02 -0.48"},
		{"half of the print, and the surcharge", nil, refund.Refund{Lines: print, Part: quoin.Some(rate("50%")), Surcharge: true}, "0.60 10.60 1.77 0.31 -8.52"},
		{"the print, after it", func(o *refund.Order) { o.Returned = []refund.Refund{{Surcharge: true}} }, refund.Refund{Lines: print}, "0.00 20.00 3.34 0.59 -16.07"},
		// Tax on top: 5.00 on 25.00, and 0.14 in what was paid for the surcharge.
		{"tax on top", func(o *refund.Order) {
			o.TaxIn, o.Tax, o.Surcharge, o.SurchargeTax = amount("0"), amount("5.00"), amount("0.84"), amount("0.14")
		}, refund.Refund{Lines: print, Shipping: true, Surcharge: true}, "0.84 30.84 0.14 0.76 -24.94"},
	} {
		o := paidByCard()
		if c.change != nil {
			c.change(&o)
		}
		s, err := o.Refund(c.back)
		if got := fmt.Sprintf("%.2f %.2f %.2f %.2f %.2f", s.Surcharge, s.Total, s.TaxBack, s.FeesBack, s.Result); err != nil || got != c.want {
			t.Errorf("%s: %s, %v, want %s", c.what, got, err, c.want)
		}
	}
}

func TestSurchargePaidIsChecked(t *testing.T) {
	for _, c := range []struct {
		surcharge, tax, want string
	}{
		{"0.60", "0.61", "surcharge_tax too_much_tax_in"},
		{"0.605", "0.10", "surcharge step_off_minor_unit"},
		{"-0.60", "-0.60", "surcharge out_of_range"},
	} {
		o := paidByCard()
		o.Surcharge, o.SurchargeTax = amount(c.surcharge), amount(c.tax)
		ps, _ := o.Check().(quoin.Problems)
		if len(ps) == 0 || ps[0].Path+" "+string(ps[0].Code) != c.want {
			t.Errorf("%v, want %s", ps, c.want)
		}
	}
}
