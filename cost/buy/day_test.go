package buy_test

import (
	"testing"

	"example.com/quoin"
	"example.com/quoin/cost/buy"
)

// Of several receipts of one day the list says which came first: at 0.40, then at
// 0.60. The last is 0.60 a unit, and of 15 used on that day, which come after them,
// ten are of the first and five of the second: the oldest left costs 0.60.
func TestReceiptsOfOneDay(t *testing.T) {
	day := quoin.MustDate("2026-05-01")
	stock := func(basis buy.Basis, used string, costs ...string) buy.Stock {
		s := buy.Stock{Basis: basis, Unit: "ml"}
		for _, c := range costs {
			s.Received = append(s.Received, buy.Receipt{Date: day, Quantity: quoin.MustQuantity("10 ml"), Cost: quoin.MustAmount(c)})
		}
		if used != "" {
			s.Used = []buy.Use{{Date: day, Quantity: quoin.MustQuantity(used)}}
		}
		return s
	}
	for _, c := range []struct {
		what string
		s    buy.Stock
		unit string
	}{
		{"the last", stock(buy.Last, "", "4.00", "6.00"), "0.60"},
		{"the last the other way round", stock(buy.Last, "", "6.00", "4.00"), "0.40"},
		{"the oldest", stock(buy.FirstIn, "", "4.00", "6.00"), "0.40"},
		{"the oldest, after five are used", stock(buy.FirstIn, "5 ml", "4.00", "6.00"), "0.40"},
		{"the oldest, after fifteen are used", stock(buy.FirstIn, "15 ml", "4.00", "6.00"), "0.60"},
	} {
		now, err := c.s.At(day)
		if err != nil || !now.Unit.Equal(quoin.MustAmount(c.unit)) {
			t.Errorf("%s costs %s, %v, want %s", c.what, now.Unit, err, c.unit)
		}
	}
}

// The tax of an invoice is rounded once, and shared like what is shared: three lines
// of 0.33 at 20% are 0.198, which is 0.20, of which the first two bear 0.07. Line by
// line it would be 0.066, three times 0.07. A freight of 0.02 bears its tax with the
// lines: 1.01 at 20% is 0.202, still 0.20.
func TestTaxOfAPurchaseIsRoundedOnce(t *testing.T) {
	line := buy.PurchaseLine{Supply: "ink", Quantity: quoin.MustQuantity("1 ml"), Price: quoin.MustAmount("0.33")}
	for _, c := range []struct {
		shared []buy.SharedCost
		want   []string
	}{
		{nil, []string{"0.07", "0.07", "0.06"}},
		{[]buy.SharedCost{{Name: "freight", Amount: quoin.MustAmount("0.02")}}, []string{"0.07", "0.07", "0.06"}},
	} {
		landed, err := buy.Purchase{Lines: []buy.PurchaseLine{line, line, line}, Shared: c.shared, Tax: quoin.MustRate("20%")}.Landed(2)
		if err != nil {
			t.Fatal(err)
		}
		for i, l := range landed {
			if !l.Tax.Equal(quoin.MustAmount(c.want[i])) {
				t.Errorf("line %d bears %s of tax, want %s", i, l.Tax, c.want[i])
			}
		}
	}
}
