package pricelist_test

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/channel/parcel"
	"example.com/quoin/channel/refund"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/pricelist/embedded"
	"example.com/quoin/margin/rule"
)

// sharedCosts is why no small document has a code, and what gives it.
type maker struct {
	why  string
	make func() error
}

// withoutExample is the codes that no small document has.
var withoutExample = joined(unlinked, besideDocuments)

// unlinked is those of the packages that documents are worked out by.
var unlinked = map[quoin.Code]maker{
	embedded.Defect: {"of a defect of the library; the tests of embedded make some up", func() error {
		return quoin.Problems{{Code: embedded.Defect, Severity: quoin.Fault, Found: "a defect of quoin", Wanted: "an answer"}}
	}},
	quoin.NotSplittable: {"of splitting amounts, which no document asks for", func() error {
		_, err := quoin.MustAmount("10.00").Split(2)
		return err
	}},
	rule.BadOwnRule: {"of rules made in Go", func() error {
		return rule.Rule{ID: "mine", Kind: rule.Custom{Name: "mine"}}.Check()
	}},
	rule.JudgedApart: {"of rules made in Go", func() error {
		return rule.Rule{ID: "mine", Kind: notThirteen(quoin.AmountOf(12, 0))}.Agrees(wholePrices("heron"))
	}},
	rule.BadOffer: {"of items made in Go", func() error {
		it := wholePrices("heron")
		it.Offers = []rule.Offer{{Channel: "fair"}}
		return it.Check()
	}},
	rule.OtherGrid: {"of items made in Go", func() error {
		fives, err := quoin.NewGrid(quoin.AmountOf(5, 0), quoin.AmountOf(40, 0))
		if err == nil {
			_, err = rule.All(wholePrices("heron").Grid).And(rule.All(fives))
		}
		return err
	}},
	quoin.BadPath: {"of stored steps, which no document has", func() error { return new(quoin.Path).UnmarshalText([]byte("channels[")) }},
	quoin.BadStep: {"of stored steps, which no document has", func() error { return new(quoin.Step).UnmarshalJSON([]byte(`[]`)) }},
	pricelist.AnswerTooLong: {"of documents too long to be read", func() error {
		_, err := pricelist.Decode([]byte(everywhere(200, 100)))
		return err
	}},
	pricelist.MoreWarnings: {"of documents too long to be read", func() error {
		a, err := pricelist.Price([]byte(losing(1500)))
		if err != nil {
			return err
		}
		return a.Warnings[len(a.Warnings)-1]
	}},
	pricelist.DesignApart: {"of documents that are decided as they are read", func() error {
		doc := `{"version": 1, "currency": "EUR", "channels": [{"id": "fair"}], "products": [{"id": "a", "design": "heron"}, {"id": "b"}, {"id": "c", "design": "heron"}]}`
		for _, err := range (pricelist.Batch{}).Document(context.Background(), strings.NewReader(doc)) {
			if err != nil {
				return err
			}
		}
		return nil
	}},
	pricelist.SeveralProducts: {"of shops whose products come in lots; documents have all of them", func() error {
		_, err := pricelist.Open(pricelist.Document{Version: 1, Currency: quoin.MustCurrency("EUR"), Channels: []channel.Channel{{ID: "own"}}, Rules: []rule.Rule{
			{ID: "sizes", Kind: rule.SizeRatio{}, Products: []string{"a", "b"}},
		}})
		return err
	}},
	refund.UnknownLine:   {"of single refunds", refunded(func(_ *refund.Order, b *refund.Refund) { b.Lines[0].Line = 1 })},
	refund.TooManyBack:   {"of single refunds", refunded(func(_ *refund.Order, b *refund.Refund) { b.Lines[0].Count = 3 })},
	refund.TooManyResold: {"of single refunds", refunded(func(_ *refund.Order, b *refund.Refund) { b.Lines[0].Resold = 2 })},
	refund.ShippingGone: {"of single refunds", refunded(func(o *refund.Order, b *refund.Refund) {
		o.Returned, b.Shipping = []refund.Refund{{Shipping: true}}, true
	})},
	refund.SurchargeGone: {"of single refunds", refunded(func(o *refund.Order, b *refund.Refund) {
		o.Returned, b.Surcharge = []refund.Refund{{Surcharge: true}}, true
	})},
	refund.UntaxedOrder: {"of single refunds", refunded(func(o *refund.Order, _ *refund.Refund) {
		o.Lines[0].Paid, o.Tax = quoin.Amount{}, quoin.MustAmount("0.01")
	})},
	refund.TooMuchTax: {"of single refunds", refunded(func(o *refund.Order, _ *refund.Refund) { o.TaxIn = quoin.MustAmount("36.01") })},
	parcel.Dearer: {"of a packing that was not taken, beside the shipment", func() error {
		roomy := envelope()
		roomy.ID = "roomy envelope"
		plan := parcel.ShippingTerms{Packings: []parcel.Packing{envelope(), roomy}, Tariff: post("2.90")}
		load := parcel.Load{Sheet: quoin.MustSize("A4"), Mass: quoin.MustQuantity("20 g")}
		shipment, err := plan.Cheapest("home", load, 1, func(id string) quoin.Amount {
			return map[string]quoin.Amount{"envelope": quoin.MustAmount("0.40"), "roomy envelope": quoin.MustAmount("0.60")}[id]
		})
		if err != nil || len(shipment.Others) != 1 {
			return err
		}
		return shipment.Others[0].Reason
	}},
	pricelist.TooManyQuoted: {"never in a small document", func() error {
		// Up to 1,000 prints there are 500 multiples of 2 and a step, asked about at home and
		// at one house: 1,002 times, of 200 products 200,400 times.
		_, err := pricelist.Decode([]byte(`{"version": 1, "currency": "EUR", "channels": [{"id": "fair"}], "products": [` + list(200, func(i int) string {
			return fmt.Sprintf(`{"id": "p%d", "volume": 1000, "quotes": [{"id": "house", "scale": {"multiple": 2, "steps": [{"from": 1, "each": "1.00"}]}}]}`, i)
		}) + `]}`))
		var ps quoin.Problems
		if errors.As(err, &ps) && len(ps) == 1 {
			return ps[0]
		}
		return err
	}},
	quoin.MoreProblems: {"never alone, and never in a small document", func() error {
		return faulty(999)
	}},
}

func TestCodesWithoutExample(t *testing.T) {
	listed := catalogue(t)
	for c, w := range withoutExample {
		checkMade(t, c, listed[c].severity, w.why, w.make())
	}
}

// checkMade checks that the last problem of err is of a code, with all it needs.
func checkMade(t *testing.T, c quoin.Code, severity quoin.Severity, why string, err error) {
	t.Helper()
	var p quoin.Problem
	var ps quoin.Problems
	if errors.As(err, &ps) && len(ps) > 0 {
		p = ps[len(ps)-1]
	} else {
		errors.As(err, &p)
	}
	if p.Code != c || p.Severity != severity || p.Severity == quoin.Fault && p.Wanted == "" {
		t.Errorf("%s, %s: gives %v, %#v", c, why, err, p)
	}
}

// refunded refunds one of two bitterns, of an order or with a refund that is
// changed before.
func refunded(change func(*refund.Order, *refund.Refund)) func() error {
	return func() error {
		o := refund.Order{Lines: []refund.OrderLine{{Product: "bittern", Count: 2, Paid: quoin.MustAmount("36.00")}}, Places: 2}
		b := refund.Refund{Lines: []refund.Item{{Count: 1}}}
		change(&o, &b)
		_, err := o.Refund(b)
		return err
	}
}

func envelope() parcel.Packing {
	mm := func(n string) quoin.Quantity { return quoin.MustQuantity(n + " mm") }
	return parcel.Packing{
		ID: "envelope", Inside: quoin.MustSize("240 x 330 mm"), Holds: 5,
		Outside: parcel.Sides{Length: mm("350"), Width: mm("250"), Height: mm("10")}, Mass: quoin.MustQuantity("90 g"),
	}
}

func post(price string) parcel.Tariff {
	step := parcel.PriceBand{Mass: quoin.MustQuantity("500 g"), Price: quoin.MustAmount(price)}
	return parcel.Tariff{ID: "post", Zones: []parcel.Zone{{ID: "home", Steps: []parcel.PriceBand{step}}}}
}
