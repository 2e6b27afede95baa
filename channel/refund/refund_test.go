package refund_test

import (
	"fmt"
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/channel/refund"
)

func amount(s string) quoin.Amount { return quoin.MustAmount(s) }
func rate(s string) quoin.Rate     { return quoin.MustRate(s) }

// order is two bitterns and three rails for 60.00 + 10.00, shipped for 5.00,
// with 10% tax on top of all and two fees, one of which comes back; all figures
// invented.
func order() refund.Order {
	return refund.Order{
		Lines:    []refund.OrderLine{{Product: "bittern", Count: 2, Paid: amount("60.00")}, {Product: "rail", Count: 3, Paid: amount("10.00")}},
		Shipping: amount("5.00"), Tax: amount("7.50"), OnShipping: true, Places: 2,
		Fees: []refund.Fee{{Name: "commission", Amount: amount("6.60"), Returned: rate("100%")}, {Name: "payment", Amount: amount("2.50")}},
	}
}

func write(s refund.Settlement) string {
	return fmt.Sprintf("%.2f + %.2f + %.2f = %.2f; tax back %.2f, fees %.2f back %.2f kept, goods %.2f, postage %.2f, dispute %.2f: %.2f",
		s.Items, s.Shipping, s.Tax, s.Total, s.TaxBack, s.FeesBack, s.FeesKept, s.GoodsBack, s.Postage, s.Dispute, s.Result)
}

func TestRefund(t *testing.T) {
	bitterns := refund.Item{Line: 0, Count: 2}
	rail := refund.Item{Line: 1, Count: 1}
	for _, c := range []struct {
		what   string
		change func(*refund.Order)
		back   refund.Refund
		want   string
	}{
		// All of 75.00 + 7.50: what stays is the payment fee.
		{
			"all", nil,
			refund.Refund{Lines: []refund.Item{bitterns, {Line: 1, Count: 3}}, Shipping: true},
			"70.00 + 5.00 + 7.50 = 82.50; tax back 0.00, fees 6.60 back 2.50 kept, goods 0.00, postage 0.00, dispute 0.00: -68.40",
		},
		// 66.00 of 82.50 is 80% of the fees.
		{
			"the bitterns", nil,
			refund.Refund{Lines: []refund.Item{bitterns}},
			"60.00 + 0.00 + 6.00 = 66.00; tax back 0.00, fees 5.28 back 2.00 kept, goods 0.00, postage 0.00, dispute 0.00: -54.72",
		},
		{
			"and one can be sold again", nil,
			refund.Refund{Lines: []refund.Item{{Line: 0, Count: 2, Resold: 1, Worth: amount("8.25")}}, Postage: amount("6.20"), Dispute: amount("14.00")},
			"60.00 + 0.00 + 6.00 = 66.00; tax back 0.00, fees 5.28 back 2.00 kept, goods 8.25, postage 6.20, dispute 14.00: -66.67",
		},
		{
			"half of their price", nil,
			refund.Refund{Lines: []refund.Item{bitterns}, Part: quoin.Some(rate("50%"))},
			"30.00 + 0.00 + 3.00 = 33.00; tax back 0.00, fees 2.64 back 1.00 kept, goods 0.00, postage 0.00, dispute 0.00: -27.36",
		},
		{
			"none of their price", nil,
			refund.Refund{Lines: []refund.Item{bitterns}, Part: quoin.Some(rate("0%")), Postage: amount("4")},
			"0.00 + 0.00 + 0.00 = 0.00; tax back 0.00, fees 0.00 back 0.00 kept, goods 0.00, postage 4.00, dispute 0.00: -4.00",
		},
		// 10.00 in 3 is 3.34, 3.33, 3.33. Tax .334; 3.67 ÷ 82.5 × 6.60 = .2936, × 2.50 = .1112.
		{
			"the first rail", nil,
			refund.Refund{Lines: []refund.Item{rail}},
			"3.34 + 0.00 + 0.33 = 3.67; tax back 0.00, fees 0.29 back 0.11 kept, goods 0.00, postage 0.00, dispute 0.00: -3.05",
		},
		// Together 6.67 and .667; 7.34 ÷ 82.5 × 6.60 = .5872, × 2.50 = .2224: 7.34 − 3.67, .59 − .29, .22 − .11.
		{
			"the second rail", func(o *refund.Order) { o.Returned = []refund.Refund{{Lines: []refund.Item{rail}}} },
			refund.Refund{Lines: []refund.Item{rail}},
			"3.33 + 0.00 + 0.34 = 3.67; tax back 0.00, fees 0.30 back 0.11 kept, goods 0.00, postage 0.00, dispute 0.00: -3.03",
		},
		// Half of 6.67 is 3.335.
		{
			"half of two rails", nil,
			refund.Refund{Lines: []refund.Item{{Line: 1, Count: 2}}, Part: quoin.Some(rate("50%"))},
			"3.34 + 0.00 + 0.33 = 3.67; tax back 0.00, fees 0.29 back 0.11 kept, goods 0.00, postage 0.00, dispute 0.00: -3.05",
		},
		{
			"shipping alone", nil,
			refund.Refund{Shipping: true},
			"0.00 + 5.00 + 0.50 = 5.50; tax back 0.00, fees 0.44 back 0.17 kept, goods 0.00, postage 0.00, dispute 0.00: -4.56",
		},
		{
			"nothing but a dispute", nil,
			refund.Refund{Dispute: amount("15")},
			"0.00 + 0.00 + 0.00 = 0.00; tax back 0.00, fees 0.00 back 0.00 kept, goods 0.00, postage 0.00, dispute 15.00: -15.00",
		},
		// Tax on the lines alone comes back with the lines, 60/70 of 7.00; paid were 82.00.
		{
			"untaxed shipping", func(o *refund.Order) { o.Tax, o.OnShipping, o.Fees = amount("7.00"), false, nil },
			refund.Refund{Lines: []refund.Item{bitterns}, Shipping: true},
			"60.00 + 5.00 + 6.00 = 71.00; tax back 0.00, fees 0.00 back 0.00 kept, goods 0.00, postage 0.00, dispute 0.00: -65.00",
		},
		// 75.00 with 20% in it hold 12.50: 60/75 of it.
		{
			"tax inside", func(o *refund.Order) { o.Tax, o.TaxIn, o.Fees = amount("0"), amount("12.50"), nil },
			refund.Refund{Lines: []refund.Item{bitterns}},
			"60.00 + 0.00 + 0.00 = 60.00; tax back 10.00, fees 0.00 back 0.00 kept, goods 0.00, postage 0.00, dispute 0.00: -50.00",
		},
	} {
		o := order()
		if c.change != nil {
			c.change(&o)
		}
		s, err := o.Refund(c.back)
		if got := write(s); err != nil || got != c.want {
			t.Errorf("%s:\n%s, %v, want\n%s", c.what, got, err, c.want)
		}
	}
}

// The worked splits of the trade (common practice): refunding item by item pays
// 10.00 in 3 and 6.85 in 6 out, earlier items dearer.
func TestItemByItem(t *testing.T) {
	for _, c := range []struct {
		paid  string
		count int64
		want  string
	}{
		{"10.00", 3, "3.34 3.33 3.33"},
		{"6.85", 6, "1.15 1.14 1.14 1.14 1.14 1.14"},
		{"0.02", 3, "0.01 0.01 0.00"},
		{"7.00", 1, "7.00"},
	} {
		o := refund.Order{Lines: []refund.OrderLine{{Product: "rail", Count: c.count, Paid: amount(c.paid)}}, Places: 2}
		var got []string
		for range c.count {
			b := refund.Refund{Lines: []refund.Item{{Count: 1}}}
			s, err := o.Refund(b)
			if err != nil {
				t.Fatal(err)
			}
			got = append(got, fmt.Sprintf("%.2f", s.Total))
			o.Returned = append(o.Returned, b)
		}
		if text := strings.Join(got, " "); text != c.want {
			t.Errorf("%s in %d: %s, want %s", c.paid, c.count, text, c.want)
		}
	}
}

// 36 pieces at 1.66 with 11.95 of tax on top, by the line, or from a shelf price
// of 1.99 with 11.94 in it (worked case of the trade): given back one by one the
// tax comes to the same, not to 36 × 0.33.
func TestTaxPieceByPiece(t *testing.T) {
	for _, o := range []refund.Order{
		{Lines: []refund.OrderLine{{Product: "card", Count: 36, Paid: amount("59.76")}}, Tax: amount("11.95"), Places: 2},
		{Lines: []refund.OrderLine{{Product: "card", Count: 36, Paid: amount("71.64")}}, TaxIn: amount("11.94"), Places: 2},
	} {
		var tax, in, total quoin.Amount
		for range 36 {
			b := refund.Refund{Lines: []refund.Item{{Count: 1}}}
			s, err := o.Refund(b)
			if err != nil {
				t.Fatal(err)
			}
			tax, in, total = tax.Add(s.Tax), in.Add(s.TaxBack), total.Add(s.Total)
			o.Returned = append(o.Returned, b)
		}
		if !tax.Equal(o.Tax) || !in.Equal(o.TaxIn) || !total.Equal(o.Lines[0].Paid.Add(o.Tax)) {
			t.Errorf("tax %s and %s, total %s, want %s, %s", tax, in, total, o.Tax, o.TaxIn)
		}
	}
}

// A refund that is only reckoned leaves the list of refunds alone, even where
// it has room for more.
func TestRefundChangesNothing(t *testing.T) {
	o := order()
	room := make([]refund.Refund, 1, 2)
	room[:2][1] = refund.Refund{Postage: amount("3")}
	o.Returned = room
	if _, err := o.Refund(refund.Refund{Shipping: true}); err != nil || room[:2][1].Shipping {
		t.Errorf("%v, or what lies behind the list was written to", err)
	}
}

func TestRefundsRefused(t *testing.T) {
	rails := refund.Refund{Lines: []refund.Item{{Line: 1, Count: 3}}}
	for what, c := range map[string]struct {
		change func(*refund.Order)
		back   refund.Refund
		want   string // code at path, several with ; between them
	}{
		"an unknown line":       {nil, refund.Refund{Lines: []refund.Item{{Line: 2, Count: 1}}}, "unknown_refund_line@refund.lines[0].line"},
		"a line before all":     {nil, refund.Refund{Lines: []refund.Item{{Line: -1, Count: 1}}}, "unknown_refund_line@refund.lines[0].line"},
		"more than sold":        {nil, refund.Refund{Lines: []refund.Item{{Line: 1, Count: 4}}}, "too_many_back@refund.lines[0].count"},
		"more in two entries":   {nil, refund.Refund{Lines: []refund.Item{{Line: 1, Count: 2}, {Line: 1, Count: 2}}}, "too_many_back@refund.lines[1].count"},
		"more than left":        {func(o *refund.Order) { o.Returned = []refund.Refund{rails} }, refund.Refund{Lines: []refund.Item{{Line: 1, Count: 1}}}, "too_many_back@refund.lines[0].count"},
		"too many before":       {func(o *refund.Order) { o.Returned = []refund.Refund{rails, rails} }, refund.Refund{}, "too_many_back@order.returned[1].lines[0].count"},
		"none":                  {nil, refund.Refund{Lines: []refund.Item{{Line: 1}}}, "out_of_range@refund.lines[0].count"},
		"less than none":        {nil, refund.Refund{Lines: []refund.Item{{Line: 1, Count: -1, Resold: -1, Worth: amount("-1")}}}, "out_of_range@refund.lines[0].count;out_of_range@refund.lines[0].resold;out_of_range@refund.lines[0].worth"},
		"more resold than back": {nil, refund.Refund{Lines: []refund.Item{{Line: 1, Count: 2, Resold: 3}}}, "too_many_resold@refund.lines[0].resold"},
		"more than the price":   {nil, refund.Refund{Part: quoin.Some(rate("101%"))}, "out_of_range@refund.part"},
		"the surcharge twice":   {func(o *refund.Order) { o.Returned = []refund.Refund{{Surcharge: true}} }, refund.Refund{Surcharge: true}, "surcharge_gone@refund.surcharge"},
		"shipping twice":        {func(o *refund.Order) { o.Returned = []refund.Refund{{Shipping: true}} }, refund.Refund{Shipping: true}, "shipping_gone@refund.shipping"},
		"costs below nothing":   {nil, refund.Refund{Postage: amount("-1"), Dispute: amount("-1")}, "out_of_range@refund.postage;out_of_range@refund.dispute"},
		"a line of nothing":     {func(o *refund.Order) { o.Lines[0].Count = 0 }, refund.Refund{}, "out_of_range@order.lines[0].count"},
		"paid below nothing":    {func(o *refund.Order) { o.Lines[0].Paid = amount("-1") }, refund.Refund{}, "out_of_range@order.lines[0].paid"},
		"half a cent":           {func(o *refund.Order) { o.Lines[0].Paid, o.Shipping = amount("1.005"), amount("0.001") }, refund.Refund{}, "step_off_minor_unit@order.lines[0].paid;step_off_minor_unit@order.shipping"},
		"tax on nothing":        {func(o *refund.Order) { o.Lines, o.Shipping = nil, amount("0") }, refund.Refund{}, "untaxed_order@order.tax"},
		"more tax than price":   {func(o *refund.Order) { o.TaxIn = amount("75.01") }, refund.Refund{}, "too_much_tax_in@order.tax_in"},
		"more fee than all":     {func(o *refund.Order) { o.Fees[0].Returned = rate("101%") }, refund.Refund{}, "out_of_range@order.fees[0].returned"},
		"places":                {func(o *refund.Order) { o.Places = 9 }, refund.Refund{}, "out_of_range@order.places"},
	} {
		o := order()
		if c.change != nil {
			c.change(&o)
		}
		s, err := o.Refund(c.back)
		if text := codes(t, what, err); text != c.want || !s.Total.IsZero() {
			t.Errorf("%s: %v, want %s", what, err, c.want)
		}
		own := "" // what is wrong with the order by itself
		if strings.Contains(c.want, "@order.") {
			own = strings.ReplaceAll(c.want, "@order.", "@")
		}
		if text := codes(t, what, o.Check()); text != own {
			t.Errorf("%s: the order has %s, want %s", what, text, own)
		}
	}
}

// codes are those of problems, each at its path.
func codes(t *testing.T, what string, err error) string {
	t.Helper()
	var out []string
	ps, _ := err.(quoin.Problems)
	for _, p := range ps {
		out = append(out, string(p.Code)+"@"+p.Path)
		if p.Found == "" || p.Wanted == "" || p.Severity != quoin.Fault {
			t.Errorf("%s: %v says too little", what, p)
		}
	}
	return strings.Join(out, ";")
}

func TestRates(t *testing.T) {
	for _, c := range []struct {
		what                         string
		r                            refund.Rates
		share, perOrder, backForSale string
	}{
		{"nothing", refund.Rates{Returned: rate("0%")}, "0%", "0", "0%"},
		{"4% come back", refund.Rates{Returned: rate("4%"), Postage: amount("6.50"), Resold: rate("75%")}, "4%", "0.26", "3%"},
		{"for half the price", refund.Rates{Returned: rate("4%"), Part: quoin.Some(rate("50%"))}, "2%", "0", "0%"},
		{"for nothing", refund.Rates{Returned: rate("4%"), Part: quoin.Some(rate("0%"))}, "0%", "0", "0%"},
		{"1% disputed, all lost", refund.Rates{Returned: rate("0%"), Disputed: rate("1%"), Fee: amount("15")}, "1%", "0.15", "0%"},
		{"a third of them lost", refund.Rates{Returned: rate("4%"), Disputed: rate("1%"), Lost: quoin.Some(rate("30%")), Fee: amount("15"), Postage: amount("6.50")}, "4.3%", "0.41", "0%"},
		{"none of them lost", refund.Rates{Returned: rate("0%"), Disputed: rate("1%"), Lost: quoin.Some(rate("0%")), Fee: amount("15")}, "0%", "0.15", "0%"},
	} {
		if err := c.r.Check(); err != nil || !c.r.Share().Equal(rate(c.share)) || !c.r.PerOrder().Equal(amount(c.perOrder)) || !c.r.BackOnSale().Equal(rate(c.backForSale)) {
			t.Errorf("%s: %s, %s, %s, %v, want %s, %s, %s", c.what, c.r.Share(), c.r.PerOrder(), c.r.BackOnSale(), err, c.share, c.perOrder, c.backForSale)
		}
	}
	if err := (refund.Rates{Returned: rate("60%"), Disputed: rate("40%")}).Check(); err != nil {
		t.Errorf("all given back: %v", err)
	}
	err := refund.Rates{Returned: rate("60%"), Disputed: rate("40.1%")}.Check()
	if ps, _ := err.(quoin.Problems); len(ps) != 1 || ps[0].Code != refund.ShareTooBig || ps[0].Path != "returned" || !strings.HasPrefix(ps[0].Found, "100.1%") {
		t.Errorf("more than all given back: %v", err)
	}
	err = refund.Rates{Resold: rate("101%")}.Check()
	if ps, _ := err.(quoin.Problems); len(ps) != 2 || ps[0].Path != "resold" || ps[1].Code != quoin.MissingField {
		t.Errorf("more sold again than came back, and how much that is left out: %v", err)
	}
}
