package margin_test

import (
	"testing"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/channel/refund"
	"example.com/quoin/cost"
	"example.com/quoin/internal/steptest"
	"example.com/quoin/margin"
	"example.com/quoin/waste"
)

// fullInputs use everything that a statement can rest on. Sheets are 1.00 each; an hour of the
// maker's is 18.00 and a paid one 20.00; a mailer is 0.60. Of what is printed 80% is good, and of
// that half is finished well; what fails then saves 0.40. Ten prints of a run share 5.00 and two
// tests. A quarter of the orders is of three prints; a tenth comes back, half of it
// to be sold again; a fifth of the parcels is lost.
func fullInputs() margin.StatementInputs {
	amount, quantity, rate := quoin.MustAmount, quoin.MustQuantity, quoin.MustRate
	parcel := cost.Bill{
		{Supply: "mailer", Quantity: quantity("1 mailer"), Per: cost.EachOrder},
		{Supply: "time", Quantity: quantity("3 min")},
		{Supply: "help", Quantity: quantity("3 min"), Per: cost.EachOrder},
	}
	return margin.StatementInputs{
		Currency: quoin.MustCurrency("EUR"), Supply: map[string]int{"paper": 0, "time": 1, "help": 2, "mailer": 3}, Contingency: rate("10%"),
		Supplies: []cost.Supply{
			{ID: "paper", Quantity: quantity("50 sheet"), Price: amount("40.00"), Freight: amount("10.00")},
			{ID: "time", Quantity: quantity("1 h"), Price: amount("18.00"), Labour: cost.OwnTime},
			{ID: "help", Quantity: quantity("1 h"), Price: amount("20.00"), Labour: cost.PaidTime},
			{ID: "mailer", Quantity: quantity("25 mailer"), Price: amount("15.00")},
		},
		Stages: waste.Route{{ID: "print", Yield: rate("80%")}, {ID: "finish", Yield: rate("50%"), Recovery: amount("0.40")}},
		Bill: cost.Bill{
			{Supply: "paper", Quantity: quantity("0.5 sheet"), Stage: "print"},
			{Supply: "time", Quantity: quantity("6 min"), Stage: "print"},
			{Supply: "help", Quantity: quantity("3 min"), Stage: "finish"},
			{Supply: "time", Quantity: quantity("3 min"), Per: cost.EachOrder},
		},
		Run:         cost.Run{Good: 10, Tests: 2, Setup: amount("5.00")},
		PackingName: "parcel", Packing: parcel,
		Channel: channel.Channel{
			ID: "web", LostParcels: rate("20%"), Returns: &refund.Rates{Returned: rate("10%"), Resold: rate("50%")},
			Orders:    []channel.Order{{Share: quoin.Some(rate("75%"))}, {Share: quoin.Some(rate("25%")), Items: 3, Postage: amount("4.00")}},
			FixedCost: channel.FixedCost{Cost: amount("12.00"), Items: quoin.FactorOf(8)},
		},
		Overhead: channel.FixedCost{Cost: amount("30.00"), Items: quoin.FactorOf(20)}, IncomeTax: rate("25%"),
		ProductAt: quoin.InList("products", 1), ChannelAt: quoin.InList("channels", 2),
	}
}

// packedInputs are prints whose line, supply and run another part of a document gives: a label of
// 0.20, which follows from what it is made of, and a run that adds 0.50. Half of the orders are
// packed in a crate, with a box of 3.00 for each of two parcels, and half in nothing.
func packedInputs() margin.StatementInputs {
	amount, quantity := quoin.MustAmount, quoin.MustQuantity
	box := cost.Bill{{Supply: "box", Quantity: quantity("1 box"), Per: cost.EachOrder}}
	half := quoin.Some(quoin.MustRate("50%"))
	return margin.StatementInputs{
		Currency: quoin.MustCurrency("EUR"), Supply: map[string]int{"label": 0, "box": 1},
		Supplies: []cost.Supply{
			{ID: "label", Name: "Label, printed", Quantity: quantity("1 label"), Price: amount("0.30")},
			{ID: "box", Quantity: quantity("1 box"), Price: amount("3.00")},
		},
		Bill:        cost.Bill{{Supply: "label", Quantity: quantity("1 label")}},
		Run:         cost.Run{Good: 4, Setup: amount("2.00")},
		Packed:      []margin.PackingList{{Name: "crate", Bill: box, Parcels: 2}},
		PackingName: "none",
		Channel:     channel.Channel{Orders: []channel.Order{{Share: half}, {Share: half}}},
		ProductAt:   quoin.InList("products", 0), ChannelAt: quoin.InList("channels", 0),
		BillAt: []quoin.Path{quoin.InList("products", 7).Sub("bill", 3)}, RunAt: quoin.InList("products", 7).Sub("run", -1),
		SupplyAt: []quoin.Path{quoin.InList("makes", 5)},
		Origins: map[quoin.Path]quoin.Origin{quoin.InList("makes", 5): func(t *quoin.Trail) quoin.Operand {
			return t.Sum("made", quoin.InList("makes", 5), quoin.Given("given", quoin.InList("makes", 5).Field("cost"), amount("0.20").Figure()))
		}},
	}
}

// houseInputs are a print at 7.00 from a house that prints on demand, sold below that: what
// operating loses is not taxed.
func houseInputs() margin.StatementInputs {
	house := channel.OnDemand{Pays: channel.AboveBase, Sizes: []channel.OnDemandProduct{{Product: "a4", Base: quoin.MustAmount("7.00")}}}
	in := fullInputs()
	in.Channel = channel.Channel{ID: "house", OnDemand: &house}.For("a4")
	in.Overhead = channel.FixedCost{}
	return in
}

func TestLedgers(t *testing.T) {
	steptest.Ledger(t, "full", fullInputs().Explain(quoin.MustAmount("50.00")), fullLedger)
	steptest.Ledger(t, "packed", packedInputs().Explain(quoin.MustAmount("50.00")), packedLedger)
	steptest.Ledger(t, "house", houseInputs().Explain(quoin.MustAmount("6.00")), houseLedger)
}

// A share of the box is borne beside others, where there is a box; and a run without tests has no
// time in it.
func TestLinesOfOtherInputs(t *testing.T) {
	codes := func(in margin.StatementInputs) map[quoin.StepCode]int {
		out := map[quoin.StepCode]int{}
		for _, s := range in.Explain(quoin.MustAmount("50.00")) {
			out[s.Code]++
		}
		return out
	}
	in := packedInputs()
	for i := range in.Channel.Orders {
		in.Channel.Orders[i].Others = &channel.Others{Items: quoin.FactorOf(1), Worth: quoin.MustAmount("9.00")}
	}
	// Of the postage of both orders, of shipping, and of the box of one.
	with := codes(in)["own_share"]
	in.Packed[0].Bill = nil
	if without := codes(in)["own_share"]; with != without+1 {
		t.Errorf("%d shares with a box, and %d without", with, without)
	}
	full := fullInputs()
	if got := codes(full)[cost.StepRun]; got != 2 { // of all, and of the time in it
		t.Errorf("a run with tests is explained %d times", got)
	}
	full.Run.Tests = 0
	if got := codes(full)[cost.StepRun]; got != 1 {
		t.Errorf("a run without tests is explained %d times", got)
	}
	full.Run = cost.Run{}
	for _, s := range full.Explain(quoin.MustAmount("50.00")) {
		if s.Code == cost.StepRun || s.Code == margin.StepPerItem && s.Subject != "" {
			t.Errorf("without a run there is %s", steptest.Line(s))
		}
	}
}

const fullLedger = `
	// Of 2.5 that are started 2 are printed well, and 1 is finished well.
	1 yield_onward @stages[0] (print): product yield @stages[0].yield 80%, yield @stages[1].yield 50% = 0.4
	2 starts @stages[0] (print): quotient one 1, yield_onward #1 0.4 = 2.5
	3 yield_onward @stages[1] (finish): product yield @stages[1].yield 50% = 0.5
	4 starts @stages[1] (finish): quotient one 1, yield_onward #3 0.5 = 2
	5 landed_cost @supplies[0] (paper): sum price @supplies[0].price 40.00, discount @supplies[0].discount or −0, freight @supplies[0].freight 10.00, duty @supplies[0].duty or 0 = 50.00
	6 unit_cost @supplies[0] (paper): quotient landed_cost #5 50.00, exchange @supplies[0].exchange or 1, quantity @supplies[0].quantity 50 sheet = 1.00
	7 line_cost @products[1].bill[0] (paper): product unit_cost #6 1.00, quantity @products[1].bill[0].quantity 0.5 sheet, starts #2 2.5 = 1.25
	8 landed_cost @supplies[1] (time): sum price @supplies[1].price 18.00, discount @supplies[1].discount or −0, freight @supplies[1].freight or 0, duty @supplies[1].duty or 0 = 18.00
	9 unit_cost @supplies[1] (time): quotient landed_cost #8 18.00, exchange @supplies[1].exchange or 1, quantity @supplies[1].quantity 1 h = 18.00
	10 quantity_converted @products[1].bill[1] (time): quotient quantity @products[1].bill[1].quantity 6 min, size of min 60, size of h 3600 = 0.1
	11 line_cost @products[1].bill[1] (time): product unit_cost #9 18.00, quantity_converted #10 0.1, starts #2 2.5 = 4.50
	12 run_per_item @products[1].bill[1] (time): quotient unit_cost #9 18.00, quantity_converted #10 0.1, tests @products[1].run.tests 2, good @products[1].run.good 10 = 0.36
	13 landed_cost @supplies[2] (help): sum price @supplies[2].price 20.00, discount @supplies[2].discount or −0, freight @supplies[2].freight or 0, duty @supplies[2].duty or 0 = 20.00
	14 unit_cost @supplies[2] (help): quotient landed_cost #13 20.00, exchange @supplies[2].exchange or 1, quantity @supplies[2].quantity 1 h = 20.00
	15 quantity_converted @products[1].bill[2] (help): quotient quantity @products[1].bill[2].quantity 3 min, size of min 60, size of h 3600 = 0.05
	16 line_cost @products[1].bill[2] (help): product unit_cost #14 20.00, quantity_converted #15 0.05, starts #4 2 = 2.00
	17 quantity_converted @products[1].bill[3] (time): quotient quantity @products[1].bill[3].quantity 3 min, size of min 60, size of h 3600 = 0.05
	18 line_cost @products[1].bill[3] (time): product unit_cost #9 18.00, quantity_converted #17 0.05 = 0.90
	19 landed_cost @supplies[3] (mailer): sum price @supplies[3].price 15.00, discount @supplies[3].discount or −0, freight @supplies[3].freight or 0, duty @supplies[3].duty or 0 = 15.00
	20 unit_cost @supplies[3] (mailer): quotient landed_cost #19 15.00, exchange @supplies[3].exchange or 1, quantity @supplies[3].quantity 25 mailer = 0.60
	21 line_cost @products[1].packing.parcel[0] (mailer): product unit_cost #20 0.60, quantity @products[1].packing.parcel[0].quantity 1 mailer = 0.60
	22 quantity_converted @products[1].packing.parcel[1] (time): quotient quantity @products[1].packing.parcel[1].quantity 3 min, size of min 60, size of h 3600 = 0.05
	23 line_cost @products[1].packing.parcel[1] (time): product unit_cost #9 18.00, quantity_converted #22 0.05 = 0.90
	24 quantity_converted @products[1].packing.parcel[2] (help): quotient quantity @products[1].packing.parcel[2].quantity 3 min, size of min 60, size of h 3600 = 0.05
	25 line_cost @products[1].packing.parcel[2] (help): product unit_cost #14 20.00, quantity_converted #24 0.05 = 1.00
	26 spoiled @stages[1] (finish): sum starts #4 2, starts or −1 = 1
	27 salvage @stages[1] (finish): product recovery @stages[1].recovery 0.40, spoiled #26 1 = 0.40
	28 one_test @products[1].run: weighted unit_cost #6 1.00, quantity @products[1].bill[0].quantity 0.5 sheet, unit_cost #9 18.00, quantity_converted #10 0.1 = 2.30
	29 run_total @products[1].run: weighted one_test #28 2.30, tests @products[1].run.tests 2, setup @products[1].run.setup 5.00, one 1 = 9.60
	30 run_per_item @products[1].run: quotient run_total #29 9.60, good @products[1].run.good 10 = 0.96
	// 1.25 + 4.50 + 2.00 − 0.40 + 0.96 = 8.31 to make, 0.90 to pack; and 0.90 + 0.60 + 1.00 an order
	31 made_per_item @products[1]: sum line_cost #7 1.25, line_cost #11 4.50, line_cost #16 2.00, salvage #27 −0.40, run_per_item #30 0.96 = 8.31
	32 goods_per_item @products[1]: sum line_cost #7 1.25, line_cost #11 4.50, line_cost #16 2.00, line_cost #23 0.90, salvage #27 −0.40, run_per_item #30 0.96 = 9.21
	33 goods_per_order @products[1]: sum line_cost #18 0.90, line_cost #21 0.60, line_cost #25 1.00 = 2.50
	// one print: (9.21 + 2.50 − 5% × 8.31) × 1.1 ÷ 0.8 = 11.2945 × 1.375
	34 unit_price @channels[2].orders[0]: product list price 50.00, uplift @channels[2].uplift or 1+0% = 50.00 half_up 50.00
	35 items @channels[2].orders[0]: product unit_price #34 50.00, items @channels[2].orders[0].items or 1, promotion @channels[2].promotion or 1−0% = 50.00 half_up 50.00
	36 tax @channels[2].orders[0]: product items #35 50.00, tax rate @channels[2].tax.rate or 0% = 0.00 half_up 0.00
	37 order_revenue @channels[2].orders[0]: sum items #35 50.00, shipping @channels[2].orders[0].shipping or 0 = 50.00
	38 fee_base @channels[2].returns (refunds): sum items #35 50.00 = 50.00
	39 refund_share @channels[2].returns (refunds): weighted returned @channels[2].returns.returned 10%, part @channels[2].returns.part or 100%, disputed @channels[2].returns.disputed or 0%, lost @channels[2].returns.lost or 100% = 0.1
	40 fee_rated @channels[2].returns (refunds): product fee_base #38 50.00, refund_share #39 0.1 = 5.00
	41 fee_charge @channels[2].returns (refunds): sum fee_rated #40 5.00, fixed @channels[2].returns.fixed or 0 = 5.00
	42 fee @channels[2].returns (refunds): product fee_charge #41 5.00, share @channels[2].returns.share or 100% = 5.00
	43 order_fees @channels[2].orders[0]: sum refunds #42 5.00 = 5.00
	44 order_fulfilment @channels[2].orders[0]: quotient postage @channels[2].orders[0].postage or 0, loss @channels[2].lost_parcels 1−20% = 0
	45 order_cost @channels[2].orders[0]: weighted goods_per_item #32 9.21, items @channels[2].orders[0].items or 1, goods_per_order #33 2.50, one 1 = 11.71
	46 refund_back_on_sale @channels[2].returns: product returned @channels[2].returns.returned 10%, resold @channels[2].returns.resold 50% = 0.05
	47 sold_again @channels[2].orders[0]: product made_per_item #31 8.31, items @channels[2].orders[0].items or 1, refund_back_on_sale #46 0.05 = 0.4155
	48 order_cost @channels[2].orders[0]: sum order_cost #45 11.71, sold_again #47 −0.4155 = 11.2945
	49 order_goods @channels[2].orders[0]: quotient order_cost #48 11.2945, contingency @contingency 1+10%, loss @channels[2].lost_parcels 1−20% = 15.5299375
	// three: (27.63 + 2.50 − 15% × 8.31) × 1.1 ÷ 0.8 = 28.8835 × 1.375
	50 unit_price @channels[2].orders[1]: product list price 50.00, uplift @channels[2].uplift or 1+0% = 50.00 half_up 50.00
	51 items @channels[2].orders[1]: product unit_price #50 50.00, items @channels[2].orders[1].items 3, promotion @channels[2].promotion or 1−0% = 150.00 half_up 150.00
	52 tax @channels[2].orders[1]: product items #51 150.00, tax rate @channels[2].tax.rate or 0% = 0.00 half_up 0.00
	53 order_revenue @channels[2].orders[1]: sum items #51 150.00, shipping @channels[2].orders[1].shipping or 0 = 150.00
	54 fee_base @channels[2].returns (refunds): sum items #51 150.00 = 150.00
	55 refund_share @channels[2].returns (refunds): weighted returned @channels[2].returns.returned 10%, part @channels[2].returns.part or 100%, disputed @channels[2].returns.disputed or 0%, lost @channels[2].returns.lost or 100% = 0.1
	56 fee_rated @channels[2].returns (refunds): product fee_base #54 150.00, refund_share #55 0.1 = 15.00
	57 fee_charge @channels[2].returns (refunds): sum fee_rated #56 15.00, fixed @channels[2].returns.fixed or 0 = 15.00
	58 fee @channels[2].returns (refunds): product fee_charge #57 15.00, share @channels[2].returns.share or 100% = 15.00
	59 order_fees @channels[2].orders[1]: sum refunds #58 15.00 = 15.00
	60 order_fulfilment @channels[2].orders[1]: quotient postage @channels[2].orders[1].postage 4.00, loss @channels[2].lost_parcels 1−20% = 5.00
	61 order_cost @channels[2].orders[1]: weighted goods_per_item #32 9.21, items @channels[2].orders[1].items 3, goods_per_order #33 2.50, one 1 = 30.13
	62 refund_back_on_sale @channels[2].returns: product returned @channels[2].returns.returned 10%, resold @channels[2].returns.resold 50% = 0.05
	63 sold_again @channels[2].orders[1]: product made_per_item #31 8.31, items @channels[2].orders[1].items 3, refund_back_on_sale #62 0.05 = 1.2465
	64 order_cost @channels[2].orders[1]: sum order_cost #61 30.13, sold_again #63 −1.2465 = 28.8835
	65 order_goods @channels[2].orders[1]: quotient order_cost #64 28.8835, contingency @contingency 1+10%, loss @channels[2].lost_parcels 1−20% = 39.7148125
	// 75% × 1 + 25% × 3 = 1.5 prints an order, which bear 21.57615625 for goods
	66 items_per_order @channels[2]: weighted share @channels[2].orders[0].share 75%, items @channels[2].orders[0].items or 1, share @channels[2].orders[1].share 25%, items @channels[2].orders[1].items 3 = 1.5
	67 weighted_total @channels[2]: weighted order_revenue #37 50.00, share @channels[2].orders[0].share 75%, order_revenue #53 150.00, share @channels[2].orders[1].share 25% = 75.00
	68 revenue @channels[2]: quotient weighted_total #67 75.00, items_per_order #66 1.5 = 50.00
	69 weighted_total @channels[2]: weighted tax #36 0.00, share @channels[2].orders[0].share 75%, tax #52 0.00, share @channels[2].orders[1].share 25% = 0.00
	70 tax_passed_on @channels[2]: quotient weighted_total #69 0.00, items_per_order #66 1.5 = 0.00
	71 weighted_total @channels[2]: weighted order_goods #49 15.5299375, share @channels[2].orders[0].share 75%, order_goods #65 39.7148125, share @channels[2].orders[1].share 25% = 21.57615625
	72 goods @channels[2]: quotient weighted_total #71 21.57615625, items_per_order #66 1.5 = 14.384104166667
	// own time: 0.32 h of 18.00 a print, 0.05 h an order
	73 time_per_item @products[1]: sum line_cost #11 4.50, run_per_item #12 0.36, line_cost #23 0.90 = 5.76
	74 time_per_order @products[1]: sum line_cost #18 0.90 = 0.90
	75 made_per_item @products[1]: sum line_cost #11 4.50, run_per_item #12 0.36 = 4.86
	76 order_cost @channels[2].orders[0]: weighted time_per_item #73 5.76, items @channels[2].orders[0].items or 1, time_per_order #74 0.90, one 1 = 6.66
	77 refund_back_on_sale @channels[2].returns: product returned @channels[2].returns.returned 10%, resold @channels[2].returns.resold 50% = 0.05
	78 sold_again @channels[2].orders[0]: product made_per_item #75 4.86, items @channels[2].orders[0].items or 1, refund_back_on_sale #77 0.05 = 0.243
	79 order_cost @channels[2].orders[0]: sum order_cost #76 6.66, sold_again #78 −0.243 = 6.417
	80 order_goods @channels[2].orders[0]: quotient order_cost #79 6.417, contingency @contingency 1+10%, loss @channels[2].lost_parcels 1−20% = 8.823375
	// three: (17.28 + 0.90 − 15% × 4.86) × 1.375
	81 order_cost @channels[2].orders[1]: weighted time_per_item #73 5.76, items @channels[2].orders[1].items 3, time_per_order #74 0.90, one 1 = 18.18
	82 refund_back_on_sale @channels[2].returns: product returned @channels[2].returns.returned 10%, resold @channels[2].returns.resold 50% = 0.05
	83 sold_again @channels[2].orders[1]: product made_per_item #75 4.86, items @channels[2].orders[1].items 3, refund_back_on_sale #82 0.05 = 0.729
	84 order_cost @channels[2].orders[1]: sum order_cost #81 18.18, sold_again #83 −0.729 = 17.451
	85 order_goods @channels[2].orders[1]: quotient order_cost #84 17.451, contingency @contingency 1+10%, loss @channels[2].lost_parcels 1−20% = 23.995125
	86 weighted_total @channels[2]: weighted order_goods #80 8.823375, share @channels[2].orders[0].share 75%, order_goods #85 23.995125, share @channels[2].orders[1].share 25% = 12.6163125
	87 own_time @channels[2]: quotient weighted_total #86 12.6163125, items_per_order #66 1.5 = 8.410875
	// paid time: 2.00 a print and 1.00 an order
	88 time_per_item @products[1]: sum line_cost #16 2.00 = 2.00
	89 time_per_order @products[1]: sum line_cost #25 1.00 = 1.00
	90 made_per_item @products[1]: sum line_cost #16 2.00 = 2.00
	91 order_cost @channels[2].orders[0]: weighted time_per_item #88 2.00, items @channels[2].orders[0].items or 1, time_per_order #89 1.00, one 1 = 3.00
	92 refund_back_on_sale @channels[2].returns: product returned @channels[2].returns.returned 10%, resold @channels[2].returns.resold 50% = 0.05
	93 sold_again @channels[2].orders[0]: product made_per_item #90 2.00, items @channels[2].orders[0].items or 1, refund_back_on_sale #92 0.05 = 0.10
	94 order_cost @channels[2].orders[0]: sum order_cost #91 3.00, sold_again #93 −0.10 = 2.90
	95 order_goods @channels[2].orders[0]: quotient order_cost #94 2.90, contingency @contingency 1+10%, loss @channels[2].lost_parcels 1−20% = 3.9875
	96 order_cost @channels[2].orders[1]: weighted time_per_item #88 2.00, items @channels[2].orders[1].items 3, time_per_order #89 1.00, one 1 = 7.00
	97 refund_back_on_sale @channels[2].returns: product returned @channels[2].returns.returned 10%, resold @channels[2].returns.resold 50% = 0.05
	98 sold_again @channels[2].orders[1]: product made_per_item #90 2.00, items @channels[2].orders[1].items 3, refund_back_on_sale #97 0.05 = 0.30
	99 order_cost @channels[2].orders[1]: sum order_cost #96 7.00, sold_again #98 −0.30 = 6.70
	100 order_goods @channels[2].orders[1]: quotient order_cost #99 6.70, contingency @contingency 1+10%, loss @channels[2].lost_parcels 1−20% = 9.2125
	101 weighted_total @channels[2]: weighted order_goods #95 3.9875, share @channels[2].orders[0].share 75%, order_goods #100 9.2125, share @channels[2].orders[1].share 25% = 5.29375
	102 paid_time @channels[2]: quotient weighted_total #101 5.29375, items_per_order #66 1.5 = 3.529166666667
	// (75% × 5.00 + 25% × 15.00) ÷ 1.5; (25% × 4.00 ÷ 0.8) ÷ 1.5
	103 weighted_total @channels[2]: weighted order_fees #43 5.00, share @channels[2].orders[0].share 75%, order_fees #59 15.00, share @channels[2].orders[1].share 25% = 7.50
	104 fees @channels[2]: quotient weighted_total #103 7.50, items_per_order #66 1.5 = 5.00
	105 weighted_total @channels[2]: weighted order_fulfilment #44 0, share @channels[2].orders[0].share 75%, order_fulfilment #60 5.00, share @channels[2].orders[1].share 25% = 1.25
	106 fulfilment @channels[2]: quotient weighted_total #105 1.25, items_per_order #66 1.5 = 0.833333333333
	107 fixed_cost @channels[2].fixed_cost: quotient cost @channels[2].fixed_cost.cost 12.00, items @channels[2].fixed_cost.items 8 = 1.50
	108 overhead @overhead: quotient cost @overhead.cost 30.00, items @overhead.items 20 = 1.50
	// 50 − 14.384104… − 5 − 0.8333… − 1.50 = 28.2825625, less 1.50 and a quarter of the rest
	109 gross @channels[2]: sum revenue #68 50.00, goods #72 −14.384104166667 = 35.615895833333
	110 contribution @channels[2]: sum gross #109 35.615895833333, fees #104 −5.00, fulfilment #106 −0.833333333333, fixed_cost #107 −1.50 = 28.2825625
	111 operating @channels[2]: sum contribution #110 28.2825625, overhead #108 −1.50 = 26.7825625
	112 operating_above_0 @channels[2]: greatest operating #111 26.7825625, nothing 0 = 26.7825625
	113 income_tax @channels[2]: product operating_above_0 #112 26.7825625, income tax @income_tax 25% = 6.695640625
	114 net @channels[2]: sum operating #111 26.7825625, income_tax #113 −6.695640625 = 20.086921875`

const packedLedger = `
	1 made @makes[5]: sum given @makes[5].cost 0.20 = 0.20
	2 line_cost @products[7].bill[3] (label): product unit_cost #1 0.20, quantity @products[7].bill[3].quantity 1 label = 0.20
	3 landed_cost @supplies[1] (box): sum price @supplies[1].price 3.00, discount @supplies[1].discount or −0, freight @supplies[1].freight or 0, duty @supplies[1].duty or 0 = 3.00
	4 unit_cost @supplies[1] (box): quotient landed_cost #3 3.00, exchange @supplies[1].exchange or 1, quantity @supplies[1].quantity 1 box = 3.00
	5 line_cost @products[0].packing.crate[0] (box): product unit_cost #4 3.00, quantity @products[0].packing.crate[0].quantity 1 box = 3.00
	6 goods_per_parcels @products[0].packing.crate[0] (box): product line_cost #5 3.00, parcels 2 = 6.00
	7 one_test @products[7].run: weighted unit_cost #1 0.20, quantity @products[7].bill[3].quantity 1 label = 0.20
	8 run_total @products[7].run: weighted one_test #7 0.20, tests @products[7].run.tests or 0, setup @products[7].run.setup 2.00, one 1 = 2.00
	9 run_per_item @products[7].run: quotient run_total #8 2.00, good @products[7].run.good 4 = 0.50
	10 goods_per_item @products[0]: sum line_cost #2 0.20, run_per_item #9 0.50 = 0.70
	11 goods_per_order @products[0]: sum goods_per_parcels #6 6.00 = 6.00
	12 line_cost @products[7].bill[3] (label): product unit_cost #1 0.20, quantity @products[7].bill[3].quantity 1 label = 0.20
	13 one_test @products[7].run: weighted unit_cost #1 0.20, quantity @products[7].bill[3].quantity 1 label = 0.20
	14 run_total @products[7].run: weighted one_test #13 0.20, tests @products[7].run.tests or 0, setup @products[7].run.setup 2.00, one 1 = 2.00
	15 run_per_item @products[7].run: quotient run_total #14 2.00, good @products[7].run.good 4 = 0.50
	16 goods_per_item @products[0]: sum line_cost #12 0.20, run_per_item #15 0.50 = 0.70
	17 unit_price @channels[0].orders[0]: product list price 50.00, uplift @channels[0].uplift or 1+0% = 50.00 half_up 50.00
	18 items @channels[0].orders[0]: product unit_price #17 50.00, items @channels[0].orders[0].items or 1, promotion @channels[0].promotion or 1−0% = 50.00 half_up 50.00
	19 tax @channels[0].orders[0]: product items #18 50.00, tax rate @channels[0].tax.rate or 0% = 0.00 half_up 0.00
	20 order_revenue @channels[0].orders[0]: sum items #18 50.00, shipping @channels[0].orders[0].shipping or 0 = 50.00
	21 order_fulfilment @channels[0].orders[0]: quotient postage @channels[0].orders[0].postage or 0, loss @channels[0].lost_parcels or 1−0% = 0
	22 order_cost @channels[0].orders[0]: weighted goods_per_item #10 0.70, items @channels[0].orders[0].items or 1, goods_per_order #11 6.00, one 1 = 6.70
	23 order_goods @channels[0].orders[0]: quotient order_cost #22 6.70, contingency @contingency or 1+0%, loss @channels[0].lost_parcels or 1−0% = 6.70
	24 unit_price @channels[0].orders[1]: product list price 50.00, uplift @channels[0].uplift or 1+0% = 50.00 half_up 50.00
	25 items @channels[0].orders[1]: product unit_price #24 50.00, items @channels[0].orders[1].items or 1, promotion @channels[0].promotion or 1−0% = 50.00 half_up 50.00
	26 tax @channels[0].orders[1]: product items #25 50.00, tax rate @channels[0].tax.rate or 0% = 0.00 half_up 0.00
	27 order_revenue @channels[0].orders[1]: sum items #25 50.00, shipping @channels[0].orders[1].shipping or 0 = 50.00
	28 order_fulfilment @channels[0].orders[1]: quotient postage @channels[0].orders[1].postage or 0, loss @channels[0].lost_parcels or 1−0% = 0
	29 order_cost @channels[0].orders[1]: weighted goods_per_item #16 0.70, items @channels[0].orders[1].items or 1, goods_per_order 0, one 1 = 0.70
	30 order_goods @channels[0].orders[1]: quotient order_cost #29 0.70, contingency @contingency or 1+0%, loss @channels[0].lost_parcels or 1−0% = 0.70
	31 items_per_order @channels[0]: weighted share @channels[0].orders[0].share 50%, items @channels[0].orders[0].items or 1, share @channels[0].orders[1].share 50%, items @channels[0].orders[1].items or 1 = 1
	32 weighted_total @channels[0]: weighted order_revenue #20 50.00, share @channels[0].orders[0].share 50%, order_revenue #27 50.00, share @channels[0].orders[1].share 50% = 50.00
	33 revenue @channels[0]: quotient weighted_total #32 50.00, items_per_order #31 1 = 50.00
	34 weighted_total @channels[0]: weighted tax #19 0.00, share @channels[0].orders[0].share 50%, tax #26 0.00, share @channels[0].orders[1].share 50% = 0.00
	35 tax_passed_on @channels[0]: quotient weighted_total #34 0.00, items_per_order #31 1 = 0.00
	36 weighted_total @channels[0]: weighted order_goods #23 6.70, share @channels[0].orders[0].share 50%, order_goods #30 0.70, share @channels[0].orders[1].share 50% = 3.70
	37 goods @channels[0]: quotient weighted_total #36 3.70, items_per_order #31 1 = 3.70
	38 weighted_total @channels[0]: weighted order_fees 0, share @channels[0].orders[0].share 50%, order_fees 0, share @channels[0].orders[1].share 50% = 0
	39 fees @channels[0]: quotient weighted_total #38 0, items_per_order #31 1 = 0
	40 weighted_total @channels[0]: weighted order_fulfilment #21 0, share @channels[0].orders[0].share 50%, order_fulfilment #28 0, share @channels[0].orders[1].share 50% = 0
	41 fulfilment @channels[0]: quotient weighted_total #40 0, items_per_order #31 1 = 0
	42 fixed_cost @channels[0].fixed_cost: sum cost @channels[0].fixed_cost.cost or 0 = 0
	43 overhead @overhead: sum cost @overhead.cost or 0 = 0
	44 gross @channels[0]: sum revenue #33 50.00, goods #37 −3.70 = 46.30
	45 contribution @channels[0]: sum gross #44 46.30, fees #39 −0, fulfilment #41 −0, fixed_cost #42 −0 = 46.30
	46 operating @channels[0]: sum contribution #45 46.30, overhead #43 −0 = 46.30
	47 operating_above_0 @channels[0]: greatest operating #46 46.30, nothing 0 = 46.30
	48 income_tax @channels[0]: product operating_above_0 #47 46.30, income tax @income_tax or 0% = 0.00
	49 net @channels[0]: sum operating #46 46.30, income_tax #48 −0.00 = 46.30`

const houseLedger = `
	1 goods_per_item @products[1]: sum base @channels[2].on_demand.sizes[0].base 7.00 = 7.00
	2 unit_price @channels[2]: product list price 6.00, uplift @channels[2].uplift or 1+0% = 6.00 half_up 6.00
	3 items @channels[2]: product unit_price #2 6.00, items @channels[2].items or 1, promotion @channels[2].promotion or 1−0% = 6.00 half_up 6.00
	4 tax @channels[2]: product items #3 6.00, tax rate @channels[2].tax.rate or 0% = 0.00 half_up 0.00
	5 order_revenue @channels[2]: sum items #3 6.00, shipping @channels[2].shipping or 0 = 6.00
	6 order_fulfilment @channels[2]: quotient postage @channels[2].postage or 0, loss @channels[2].lost_parcels or 1−0% = 0
	7 order_cost @channels[2]: weighted goods_per_item #1 7.00, items @channels[2].items or 1, goods_per_order 0, one 1 = 7.00
	8 items_per_order @channels[2]: weighted share @channels[2].share or 100%, items @channels[2].items or 1 = 1
	9 weighted_total @channels[2]: weighted order_revenue #5 6.00, share @channels[2].share or 100% = 6.00
	10 revenue @channels[2]: quotient weighted_total #9 6.00, items_per_order #8 1 = 6.00
	11 weighted_total @channels[2]: weighted tax #4 0.00, share @channels[2].share or 100% = 0.00
	12 tax_passed_on @channels[2]: quotient weighted_total #11 0.00, items_per_order #8 1 = 0.00
	13 weighted_total @channels[2]: weighted order_cost #7 7.00, share @channels[2].share or 100% = 7.00
	14 goods @channels[2]: quotient weighted_total #13 7.00, items_per_order #8 1 = 7.00
	15 weighted_total @channels[2]: weighted order_fees 0, share @channels[2].share or 100% = 0
	16 fees @channels[2]: quotient weighted_total #15 0, items_per_order #8 1 = 0
	17 weighted_total @channels[2]: weighted order_fulfilment #6 0, share @channels[2].share or 100% = 0
	18 fulfilment @channels[2]: quotient weighted_total #17 0, items_per_order #8 1 = 0
	19 fixed_cost @channels[2].fixed_cost: sum cost @channels[2].fixed_cost.cost or 0 = 0
	20 overhead @overhead: sum cost @overhead.cost or 0 = 0
	21 gross @channels[2]: sum revenue #10 6.00, goods #14 −7.00 = -1.00
	22 contribution @channels[2]: sum gross #21 -1.00, fees #16 −0, fulfilment #18 −0, fixed_cost #19 −0 = -1.00
	23 operating @channels[2]: sum contribution #22 -1.00, overhead #20 −0 = -1.00
	24 operating_above_0 @channels[2]: greatest operating #23 -1.00, nothing 0 = 0
	25 income_tax @channels[2]: product operating_above_0 #24 0, income tax @income_tax 25% = 0
	26 net @channels[2]: sum operating #23 -1.00, income_tax #25 −0 = -1.00`
