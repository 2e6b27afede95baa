package refund_test

import (
	"encoding/json"
	"testing"

	"example.com/quoin"
	"example.com/quoin/channel/refund"
	"example.com/quoin/internal/problemtest"
	"example.com/quoin/internal/steptest"
)

// What refunds come to on average, step by step; at a rate of 0.80 the postage of a return is 8.00 of
// the buyers' currency. What is not given is marked.
func TestLedger(t *testing.T) {
	full := refund.Rates{
		Returned: rate("4%"), Part: quoin.Some(rate("50%")), Postage: amount("6.40"), Resold: rate("75%"), Disputed: rate("1%"), Lost: quoin.Some(rate("60%")), Fee: amount("15.00"),
	}
	trail, at := quoin.NewTrail(10), quoin.InList("channels", 1).Sub("returns", -1)
	home := quoin.Given("rate", quoin.InList("channels", 1).Sub("foreign_currency", -1).Field("rate"), quoin.MustFactor("0.80").Figure())
	full.ExplainShare(trail, at)
	full.ExplainPerOrder(trail, at)
	full.ExplainPerOrderAbroad(trail, at, home)
	full.ExplainBackOnSale(trail, at)
	bare := refund.Rates{Returned: rate("4%")}
	bare.ExplainShare(trail, at)
	bare.ExplainPerOrderAbroad(trail, at, home)
	bare.ExplainBackOnSale(trail, at)
	steptest.Ledger(t, "refunds", trail.Steps(), `
		// 4% × 50% + 1% × 60%; 4% × 6.40 + 1% × 15; 6.40 ÷ 0.80, and 4% × 8 + 0.15; 4% × 75%
		1 refund_share @channels[1].returns: weighted returned @channels[1].returns.returned 4%, part @channels[1].returns.part 50%, disputed @channels[1].returns.disputed 1%, lost @channels[1].returns.lost 60% = 0.026
		2 refund_per_order @channels[1].returns: weighted returned @channels[1].returns.returned 4%, postage @channels[1].returns.postage 6.40, disputed @channels[1].returns.disputed 1%, fee @channels[1].returns.fee 15.00 = 0.406
		3 refund_postage @channels[1].returns: quotient postage @channels[1].returns.postage 6.40, rate @channels[1].foreign_currency.rate 0.8 = 8.00
		4 refund_per_order @channels[1].returns: weighted returned @channels[1].returns.returned 4%, refund_postage #3 8.00, disputed @channels[1].returns.disputed 1%, fee @channels[1].returns.fee 15.00 = 0.47
		5 refund_back_on_sale @channels[1].returns: product returned @channels[1].returns.returned 4%, resold @channels[1].returns.resold 75% = 0.03
		6 refund_share @channels[1].returns: weighted returned @channels[1].returns.returned 4%, part @channels[1].returns.part or 100%, disputed @channels[1].returns.disputed or 0%, lost @channels[1].returns.lost or 100% = 0.04
		7 refund_per_order @channels[1].returns: weighted returned @channels[1].returns.returned 4%, postage @channels[1].returns.postage or 0, disputed @channels[1].returns.disputed or 0%, fee @channels[1].returns.fee or 0 = 0
		8 refund_back_on_sale @channels[1].returns: product returned @channels[1].returns.returned 4%, resold @channels[1].returns.resold or 0% = 0`)
	for home, want := range map[string]string{"0": "6.40", "1": "6.40", "0.80": "8.00", "2": "3.20"} {
		if got := full.Abroad(quoin.MustFactor(home)).Postage; !got.Equal(amount(want)) {
			t.Errorf("a return for 6.40 at %s is %s, want %s", home, got, want)
		}
	}
}

// Money is written with its places, and what is nothing is left out where it is rare.
func TestSettlementWritten(t *testing.T) {
	o := refund.Order{Lines: []refund.OrderLine{{Product: "rail", Count: 2, Paid: amount("10")}}, Places: 2}
	back := refund.Refund{Lines: []refund.Item{{Count: 1}}}
	for _, c := range []struct {
		change func(*refund.Order, *refund.Refund)
		want   string
	}{
		{
			func(*refund.Order, *refund.Refund) {},
			`{"items":"5.00","shipping":"0.00","tax":"0.00","total":"5.00","tax_back":"0.00","fees_back":"0.00","fees_kept":"0.00","goods_back":"0.00","postage":"0.00","dispute":"0.00","result":"-5.00"}`,
		},
		{
			func(o *refund.Order, b *refund.Refund) {
				o.Surcharge, b.Surcharge, o.Lapse = amount("1"), true, true
				o.Code = &refund.Code{From: amount("9"), Took: amount("2")} // a print by itself costs 6.00
			},
			`{"items":"5.00","shipping":"0.00","surcharge":"1.00","tax":"0.00","lapsed":"1.00","total":"5.00","tax_back":"0.00","fees_back":"0.00","fees_kept":"0.00","goods_back":"0.00","postage":"0.00","dispute":"0.00","result":"-5.00"}`,
		},
	} {
		o, b := o, back
		c.change(&o, &b)
		s, err := o.Refund(b)
		if text, err2 := json.Marshal(s); err != nil || err2 != nil || string(text) != c.want {
			t.Errorf("%s, %v, want %s", text, err, c.want)
		}
	}
}

// All that is said of orders and refunds that cannot be.
func TestProblemsTold(t *testing.T) {
	less := amount("-0.01")
	refunded := func(change func(*refund.Order, *refund.Refund)) error {
		o, b := order(), refund.Refund{}
		change(&o, &b)
		_, err := o.Refund(b)
		return err
	}
	for _, c := range []struct {
		what string
		err  error
		want string
	}{
		{"8 places", refund.Order{Places: 8}.Check(), ""},
		{"9", refund.Order{Places: 9, Shipping: less}.Check(), "fault places: found 9, wanted a value of at least 0 and at most 8 [out_of_range]"},
		{"fewer than none", refund.Order{Places: -1}.Check(), "fault places: found -1, wanted a value of at least 0 and at most 8 [out_of_range]"},
		{"below 0", refunded(func(o *refund.Order, b *refund.Refund) {
			o.Tax, o.TaxIn, o.Surcharge, o.SurchargeTax, o.Fees[0].Amount, o.Fees[1].Returned, b.Part = less, less, less, less, less, rate("-1%"), quoin.Some(rate("-1%"))
		}), `fault order.surcharge: found -0.01, wanted a value of at least 0 [out_of_range]
fault order.tax: found -0.01, wanted a value of at least 0 [out_of_range]
fault order.tax_in: found -0.01, wanted a value of at least 0 [out_of_range]
fault order.surcharge_tax: found -0.01, wanted a value of at least 0 [out_of_range]
fault order.fees[0].amount: found -0.01, wanted a value of at least 0 [out_of_range]
fault order.fees[1].returned: found -1%, wanted a value of at least 0% and at most 100% [out_of_range]
fault refund.part: found -1%, wanted a value of at least 0% and at most 100% [out_of_range]`},
		{
			"half cents", refund.Order{Places: 2, Tax: amount("0.005"), TaxIn: amount("0.005"), Lines: []refund.OrderLine{{Count: 1, Paid: amount("1")}}}.Check(),
			`fault tax: found 0.005, wanted money, rounded to 2 places [step_off_minor_unit]
fault tax_in: found 0.005, wanted money, rounded to 2 places [step_off_minor_unit]`,
		},
		{"tax on nothing", refund.Order{Tax: amount("1"), TaxIn: amount("2")}.Check(), `fault tax: found 1 on an order that comes to nothing, wanted no tax [untaxed_order]
fault tax_in: found 2 on an order that comes to nothing, wanted no tax [untaxed_order]`},
		{"all of it tax", refunded(func(o *refund.Order, _ *refund.Refund) {
			o.TaxIn, o.Surcharge, o.SurchargeTax = amount("75.00"), amount("1"), amount("1")
		}), ""},
		{
			"more than that", refunded(func(o *refund.Order, _ *refund.Refund) {
				o.TaxIn, o.Surcharge, o.SurchargeTax = amount("75.01"), amount("1"), amount("1.01")
			}),
			`fault order.surcharge_tax: found 1.01, wanted at most the surcharge of 1 that it is in [too_much_tax_in]
fault order.tax_in: found 75.01, wanted at most the 75.00 that it is in [too_much_tax_in]`,
		},
		{"free postage that was paid", refunded(func(o *refund.Order, _ *refund.Refund) {
			o.Code, o.FreePostage = &refund.Code{From: less, Took: amount("0.001")}, &refund.FreePostage{From: less, Charge: less}
		}), `fault order.code.from: found -0.01, wanted a value of at least 0 [out_of_range]
fault order.code.took: found 0.001, wanted money, rounded to 2 places [step_off_minor_unit]
fault order.free_postage.from: found -0.01, wanted a value of at least 0 [out_of_range]
fault order.free_postage.charge: found -0.01, wanted a value of at least 0 [out_of_range]
fault order.free_postage: found free postage beside shipping that was paid, wanted one of them [stray_terms]`},
		{
			"a line too far", refunded(func(_ *refund.Order, b *refund.Refund) { b.Lines = []refund.Item{{Line: 2, Count: 1}} }),
			"fault refund.lines[0].line: found 2, wanted one of the order's 2 lines, counted from 0 [unknown_refund_line]",
		},
		{"too many, and again", refunded(func(_ *refund.Order, b *refund.Refund) {
			b.Lines = []refund.Item{{Line: 1, Count: 4}, {Line: 1, Count: 1}, {Line: 0, Count: 1, Resold: 2, Worth: less}}
		}), `fault refund.lines[0].count: found 4, wanted at most the 3 that are left [too_many_back]
fault refund.lines[1].count: found 1, wanted at most the 0 that are left [too_many_back]
fault refund.lines[2].resold: found 2, wanted at most the 1 given back [too_many_resold]
fault refund.lines[2].worth: found -0.01, wanted a value of at least 0 [out_of_range]`},
		{"twice", refunded(func(o *refund.Order, b *refund.Refund) {
			b.Shipping, b.Surcharge, b.Postage, b.Dispute = true, true, less, less
			o.Returned = []refund.Refund{{Shipping: true, Surcharge: true}}
		}), `fault refund.shipping: found shipping given back twice, wanted false [shipping_gone]
fault refund.surcharge: found the surcharge given back twice, wanted false [surcharge_gone]
fault refund.postage: found -0.01, wanted a value of at least 0 [out_of_range]
fault refund.dispute: found -0.01, wanted a value of at least 0 [out_of_range]`},
		{"one field of the rates", refund.Rates{Returned: rate("70%"), Disputed: rate("70%"), Part: quoin.Some(rate("110%"))}.Check(), "fault part: found 110%, wanted a value of at least 0% and at most 100% [out_of_range]"},
		{"rates above all", refund.Rates{Returned: rate("70%"), Disputed: rate("70%")}.Check(), "fault returned: found 140% given back by returns and lost disputes, wanted at most 100% [refunds_above_all]"},
	} {
		if got := problemtest.Told(c.err); got != c.want {
			t.Errorf("%s:\n%s\nwant\n%s", c.what, got, c.want)
		}
	}
}
