package buy_test

import (
	"testing"

	"example.com/quoin"
	"example.com/quoin/cost/buy"
	"example.com/quoin/internal/problemtest"
)

func TestWords(t *testing.T) {
	var b buy.By
	for _, word := range []buy.By{buy.ByValue, buy.ByWeight, buy.ByVolume, buy.ByCount, buy.Equally} {
		if err := b.UnmarshalText([]byte(word)); err != nil || b != word {
			t.Errorf("%s is read as %s, %v", word, b, err)
		}
	}
	var m buy.Mode
	for _, word := range []buy.Mode{buy.AllUnits, buy.Incremental} {
		if err := m.UnmarshalText([]byte(word)); err != nil || m != word {
			t.Errorf("%s is read as %s, %v", word, m, err)
		}
	}
	var s buy.Basis
	for _, word := range []buy.Basis{buy.Last, buy.Replacement, buy.Average, buy.FirstIn} {
		if err := s.UnmarshalText([]byte(word)); err != nil || s != word {
			t.Errorf("%s is read as %s, %v", word, s, err)
		}
	}
	if err := b.UnmarshalText([]byte("age")); err == nil || b != buy.Equally {
		t.Errorf("%s, %v", b, err)
	}
}

func TestSteps(t *testing.T) {
	at := quoin.InList("supplies", 1).Inside("offer")
	scale := buy.Scale{Steps: []buy.PriceBreak{{1, amount("3.00")}, {10, amount("2.50")}, {50, amount("2.00")}}, Freight: amount("7.00"), FreeFrom: quoin.Some(amount("100.00"))}
	bare := scale
	bare.Freight, bare.FreeFrom = quoin.Amount{}, quoin.Optional[quoin.Amount]{}
	added := scale
	added.Mode = buy.Incremental
	for _, c := range []struct {
		what    string
		explain func(*quoin.Trail)
		want    string
	}{
		{
			"at the first price", func(t *quoin.Trail) { scale.Explain(t, at, 9) },
			"scale_goods supplies[1].offer: weighted each 3.00 @supplies[1].offer.steps[0].each, quantity 9x = 27.00\n" +
				"scale_cost supplies[1].offer: sum scale_goods 27.00 #1, freight 7.00 @supplies[1].offer.freight = 34.00\n",
		},
		{
			"at the second", func(t *quoin.Trail) { scale.Explain(t, at, 10) },
			"scale_goods supplies[1].offer: weighted each 2.50 @supplies[1].offer.steps[1].each, quantity 10x = 25.00\n" +
				"scale_cost supplies[1].offer: sum scale_goods 25.00 #1, freight 7.00 @supplies[1].offer.freight = 32.00\n",
		},
		{
			"shipped free", func(t *quoin.Trail) { scale.Explain(t, at, 50) },
			"scale_goods supplies[1].offer: weighted each 2.00 @supplies[1].offer.steps[2].each, quantity 50x = 100.00\n",
		},
		{
			"no freight", func(t *quoin.Trail) { bare.Explain(t, at, 50) },
			"scale_goods supplies[1].offer: weighted each 2.00 @supplies[1].offer.steps[2].each, quantity 50x = 100.00\n" +
				"scale_cost supplies[1].offer: sum scale_goods 100.00 #1, freight 0 @supplies[1].offer.freight ? = 100.00\n",
		},
		// 9 × 3.00 + 40 × 2.50 + 2 × 2.00
		{
			"each by itself", func(t *quoin.Trail) { added.Explain(t, at, 51) },
			"scale_goods supplies[1].offer: weighted each 3.00 @supplies[1].offer.steps[0].each, up to the next 9x, each 2.50 @supplies[1].offer.steps[1].each, up to the next 40x, " +
				"each 2.00 @supplies[1].offer.steps[2].each, from here 2x = 131.00\n",
		},
		{
			"each by itself, at the second", func(t *quoin.Trail) { added.Explain(t, at, 10) },
			"scale_goods supplies[1].offer: weighted each 3.00 @supplies[1].offer.steps[0].each, up to the next 9x, each 2.50 @supplies[1].offer.steps[1].each, from here 1x = 29.50\n" +
				"scale_cost supplies[1].offer: sum scale_goods 29.50 #1, freight 7.00 @supplies[1].offer.freight = 36.50\n",
		},
		{
			"an offer", func(t *quoin.Trail) {
				buy.Offer{Pack: quantity("80 ml"), Scale: scale}.Explain(t, at, buy.Order{Quantity: 3})
			},
			"scale_goods supplies[1].offer.scale: weighted each 3.00 @supplies[1].offer.scale.steps[0].each, quantity 3x = 9.00\n" +
				"scale_cost supplies[1].offer.scale: sum scale_goods 9.00 #1, freight 7.00 @supplies[1].offer.scale.freight = 16.00\n" +
				"packs_held supplies[1].offer: product pack 80 ml @supplies[1].offer.pack, bought 3x = 240x\n",
		},
		{"a stock on average", func(t *quoin.Trail) {
			buy.Stock{Basis: buy.Average}.Explain(t, at, buy.StockLevel{Quantity: factor("20"), Value: amount("50.00")})
		}, "stock_unit supplies[1].offer: quotient value 50.00, in stock 20x = 2.50\n"},
		{
			"a stock at its last price", func(t *quoin.Trail) { buy.Stock{Basis: buy.Last}.Explain(t, at, buy.StockLevel{Unit: amount("2.75")}) },
			"stock_unit supplies[1].offer: quotient last 2.75, one 1x = 2.75\n",
		},
	} {
		trail := quoin.NewTrail(4)
		c.explain(trail)
		if got := problemtest.Steps(trail.Steps()); got != c.want {
			t.Errorf("%s:\n%s\nwant\n%s", c.what, got, c.want)
		}
	}
}

// Where freight becomes free, up to a million of what is sold in so many.
func TestTurnsOfFreeFreight(t *testing.T) {
	for _, c := range []struct {
		free     string
		multiple int64
		want     string
	}{
		{"10000.00", 0, "[1 1000000]"}, {"10000.01", 0, "[1]"}, {"9999.99", 7, "[7 999999]"}, {"10000.00", 7, "[7]"}, {"0.07", 7, "[7]"}, {"0.08", 7, "[7 14]"}, {"0", 0, "[1]"},
	} {
		s := buy.Scale{Steps: []buy.PriceBreak{{1, amount("0.01")}}, Multiple: c.multiple, FreeFrom: quoin.Some(amount(c.free))}
		if got := quoinInts(s.Turns()); got != c.want {
			t.Errorf("free from %s, in %d: %s, want %s", c.free, c.multiple, got, c.want)
		}
	}
	// The first step ends at 9, before its goods come to 9.50; the second begins there.
	s := buy.Scale{Steps: []buy.PriceBreak{{1, amount("1.00")}, {10, amount("0.95")}}, FreeFrom: quoin.Some(amount("9.50"))}
	if got := quoinInts(s.Turns()); got != "[1 10]" {
		t.Errorf("%s", got)
	}
	s.FreeFrom = quoin.Some(amount("9.00"))
	if got := quoinInts(s.Turns()); got != "[1 9 10]" {
		t.Errorf("%s", got)
	}
}

func quoinInts(all []int64) string {
	out := "["
	for i, n := range all {
		if i > 0 {
			out += " "
		}
		out += quoin.FactorOf(n).String()
	}
	return out + "]"
}

// The square root of 2 × demand × setup ÷ holding, as far as a million: 100 × 2 × 8 ÷ 1 is 40².
func TestEconomicQuantities(t *testing.T) {
	for _, c := range []struct {
		what           string
		demand         int64
		setup, holding string
		scale          buy.Scale
		quantity       int64
		orders, cost   string
	}{
		{"forty", 100, "8.00", "1.00", buy.Scale{}, 40, "2.5", "40.00"},                                                                                // 20 + 20
		{"in sevens", 100, "8.00", "1.00", buy.Scale{Steps: []buy.PriceBreak{{1, amount("0")}}, Multiple: 7}, 42, "2.380952380952", "40.047619047619"}, // 19.05 + 21; 35: 22.86 + 17.50
		{"as many as are sold", 1_000_000_000, "1000000.00", "0.01", buy.Scale{}, 1_000_000, "1000", "1000005000"},
		{"in sevens of them", 1_000_000_000, "1000000.00", "0.01", buy.Scale{Steps: []buy.PriceBreak{{1, amount("0")}}, Multiple: 7}, 999_999, "1000.001000001", "1000005999.996000001"},
		{"up to a step", 100, "8.00", "1.00", buy.Scale{Steps: []buy.PriceBreak{{1, amount("2.00")}, {50, amount("1.00")}}}, 50, "2", "141.00"}, // 100 + 16 + 25; 40: 200 + 40
	} {
		got := buy.Economic(c.demand, amount(c.setup), amount(c.holding), c.scale)
		if got.Quantity != c.quantity || !got.Orders.Equal(factor(c.orders)) || got.Cost.Round(9, quoin.HalfUp).Sub(amount("0")).Ratio(amount("1")).Sub(factor(c.cost)).Round(6, quoin.HalfUp).Sign() != 0 {
			t.Errorf("%s: %d, %s, %s, want %d, %s, %s", c.what, got.Quantity, got.Orders, got.Cost, c.quantity, c.orders, c.cost)
		}
	}
}

func TestProblems(t *testing.T) {
	lines := []buy.PurchaseLine{{Supply: "paper", Quantity: quantity("50 sheet"), Price: amount("6.00"), Weight: quantity("1 kg")}, {Supply: "ink", Quantity: quantity("80 ml"), Price: amount("1.00")}}
	landed := func(shared ...buy.SharedCost) string {
		_, err := buy.Purchase{Lines: lines, Shared: shared}.Landed(2)
		return problemtest.Full(err)
	}
	day := quoin.MustDate("2026-03-01")
	stock := func(change func(*buy.Stock)) string {
		s := buy.Stock{Basis: buy.FirstIn, Unit: "sheet", Received: []buy.Receipt{{day, quantity("10 sheet"), amount("20.00")}}}
		change(&s)
		now, err := s.At(day)
		if err != nil && (now.Unit.IsGiven() || now.Quantity.IsGiven()) {
			t.Errorf("%v beside %v", now, err)
		}
		return problemtest.Full(err)
	}
	scale := func(steps ...buy.PriceBreak) string { return problemtest.Full(buy.Scale{Steps: steps}.Check()) }
	_, noNeed := buy.Offer{Scale: buy.Scale{Steps: []buy.PriceBreak{{1, amount("1")}}}}.Cheapest()
	for what, c := range map[string]struct{ got, want string }{
		"no weight": {
			landed(buy.SharedCost{Amount: amount("5.00"), By: buy.ByWeight}, buy.SharedCost{Amount: amount("6.00"), By: buy.ByWeight}),
			"fault lines[1].weight: found a line without a weight, wanted the weight of every line, or another way to share [nothing_to_share_by]",
		},
		"no volumes": {
			landed(buy.SharedCost{Amount: amount("5.00"), By: buy.ByVolume}),
			"fault lines[0].volume: found a line without a volume, wanted the volume of every line, or another way to share [nothing_to_share_by]\n" +
				"fault lines[1].volume: found a line without a volume, wanted the volume of every line, or another way to share [nothing_to_share_by]",
		},
		"two units": {
			landed(buy.SharedCost{Amount: amount("5.00"), By: buy.ByCount}),
			"fault shared[0].by: found lines counted in sheet and ml, wanted one unit, or another way to share [nothing_to_share_by]",
		},
		"no such line": {
			landed(buy.SharedCost{}, buy.SharedCost{Amount: amount("5.00"), Line: "tape"}),
			`fault shared[1].line: found "tape", wanted the supply of a line of the purchase [unknown_line]`,
		},
		"both ways": {
			landed(buy.SharedCost{Amount: amount("5.00"), Line: "ink", By: buy.ByValue}),
			"fault shared[0].line: found line beside by, wanted one of them [rival_fields]",
		},
		"half a cent": {
			landed(buy.SharedCost{Amount: amount("1.005")}),
			"fault shared[0].amount: found 1.005, wanted a whole number of the smallest unit of money [not_splittable]",
		},
		"more off than all": {
			landed(buy.SharedCost{Amount: amount("6.50"), Line: "paper", Discount: true}),
			"fault lines[0].price: found -0.50 after discounts, wanted discounts of at most what the line costs [discount_above_price]",
		},
		"all off": {landed(buy.SharedCost{Amount: amount("6.00"), Line: "paper", Discount: true}), ""},

		"another unit": {stock(func(s *buy.Stock) { s.Used = []buy.Use{{day, quantity("1 ml")}} }), `fault used[0]: found "1 ml", wanted a quantity in sheet [unit_mismatch]`},
		"nothing received": {
			stock(func(s *buy.Stock) { s.Received[0].Quantity = quantity("0 sheet") }),
			"fault received[0].quantity: found 0 sheet, wanted a value above 0 [out_of_range]",
		},
		"more used than there was": {
			stock(func(s *buy.Stock) { s.Used = []buy.Use{{day, quantity("3 sheet")}, {day, quantity("8 sheet")}} }),
			"fault used[1].quantity: found 8 used of 7 in stock, wanted no more than there is [used_more_than_there_was]",
		},
		"all used": {
			stock(func(s *buy.Stock) { s.Used = []buy.Use{{day, quantity("10 sheet")}} }),
			"fault received: found nothing in stock, wanted a receipt that is not used up [nothing_in_stock]",
		},
		"all used, at the last price": {stock(func(s *buy.Stock) { s.Basis, s.Used = buy.Last, []buy.Use{{day, quantity("10 sheet")}} }), ""},
		"nothing yet": {
			stock(func(s *buy.Stock) { s.Basis, s.Received = buy.Last, nil }),
			"fault received: found nothing in stock, wanted a receipt that is not used up [nothing_in_stock]",
		},
		"no replacement":       {stock(func(s *buy.Stock) { s.Basis = buy.Replacement }), "fault replacement: found nothing, wanted what a unit would cost to buy again [nothing_in_stock]"},
		"worth its last price": {stock(func(s *buy.Stock) { s.Worth = buy.Last }), "fault worth: found last, wanted one of first_in, average [unknown_word]"},

		"from 2":         {scale(buy.PriceBreak{2, amount("1")}), "fault steps: found a price from 2, wanted prices from 1, then from rising quantities [bad_scale]"},
		"twice from 1":   {scale(buy.PriceBreak{1, amount("1")}, buy.PriceBreak{1, amount("2")}), "fault steps: found a price from 1, wanted prices from 1, then from rising quantities [bad_scale]"},
		"rising":         {scale(buy.PriceBreak{1, amount("1")}, buy.PriceBreak{2, amount("2")}), ""},
		"no need of it":  {problemtest.Full(noNeed), "fault need: found 0, wanted a value of at least 1 [out_of_range]"},
		"an empty scale": {problemtest.Full(buy.Scale{Steps: []buy.PriceBreak{}}.Check()), "fault steps: found no prices, wanted a price from 1 on [empty_list]"},
	} {
		if c.got != c.want {
			t.Errorf("%s:\n%s\nwant\n%s", what, c.got, c.want)
		}
	}
}
