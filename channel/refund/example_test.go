package refund_test

import (
	"fmt"

	"example.com/quoin"
	"example.com/quoin/channel/refund"
)

// Two bitterns and a rail, 78.00 EUR with shipping, 20% of tax in the price, a
// commission that comes back but for a fifth and a payment fee that does not;
// figures invented. One bittern is sent back at the shop's cost and can be sold
// again.
func ExampleOrder_Refund() {
	order := refund.Order{
		Lines: []refund.OrderLine{
			{Product: "bittern", Count: 2, Paid: quoin.MustAmount("57.60")},
			{Product: "rail", Count: 1, Paid: quoin.MustAmount("14.40")},
		},
		Shipping: quoin.MustAmount("6.00"), TaxIn: quoin.MustAmount("13.00"), OnShipping: true, Places: 2,
		Fees: []refund.Fee{
			{Name: "commission", Amount: quoin.MustAmount("7.80"), Returned: quoin.MustRate("80%")},
			{Name: "payment", Amount: quoin.MustAmount("2.59")},
		},
	}
	s, err := order.Refund(refund.Refund{
		Lines:   []refund.Item{{Line: 0, Count: 1, Resold: 1, Worth: quoin.MustAmount("9.40")}},
		Postage: quoin.MustAmount("5.20"),
	})
	fmt.Printf("paid back %.2f, tax %.2f, fees %.2f back and %.2f kept, goods %.2f: %.2f %v\n",
		s.Total, s.TaxBack, s.FeesBack, s.FeesKept, s.GoodsBack, s.Result, err)
	_, err = order.Refund(refund.Refund{Lines: []refund.Item{{Line: 0, Count: 3}}})
	fmt.Println(err)
	// Output:
	// paid back 28.80, tax 4.80, fees 2.30 back and 1.54 kept, goods 9.40: -17.50 <nil>
	// refund.lines[0].count: found 3, wanted at most the 2 that are left [too_many_back]
}

// Four in a hundred orders come back, most of the prints fit to be sold again;
// one in a hundred is disputed and every other dispute lost. Figures invented.
func ExampleRates() {
	r := refund.Rates{
		Returned: quoin.MustRate("4%"), Postage: quoin.MustAmount("5.20"), Resold: quoin.MustRate("75%"),
		Disputed: quoin.MustRate("1%"), Lost: quoin.Some(quoin.MustRate("50%")), Fee: quoin.MustAmount("14.00"),
	}
	fmt.Println(r.Share(), r.PerOrder(), r.BackOnSale(), r.Check())
	// Output: 4.5% 0.348 3% <nil>
}

func ExampleRates_ExplainPerOrder() {
	r := refund.Rates{Returned: quoin.MustRate("4%"), Postage: quoin.MustAmount("5.20"), Disputed: quoin.MustRate("1%"), Fee: quoin.MustAmount("14.00")}
	t := quoin.NewTrail(1)
	r.ExplainPerOrder(t, quoin.InList("channels", 0).Inside("refunds"))
	for _, s := range t.Steps() {
		for _, o := range s.Operands {
			fmt.Printf("%s %s ", o.Path, o.Value)
		}
		fmt.Printf("→ %s %s\n", s.Code, s.Value)
	}
	// Output: channels[0].refunds.returned 4% channels[0].refunds.postage 5.20 channels[0].refunds.disputed 1% channels[0].refunds.fee 14.00 → refund_per_order 0.348
}
