package margin_test

import (
	"encoding/json"
	"slices"
	"testing"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/cost"
	"example.com/quoin/margin"
	"example.com/quoin/waste"
)

// sharedInputs is a product with working time, tests and salvage in two channels: the first packs its orders in one list, in
// two parcels, and in another list with working time of its own; the second packs in the first list.
func sharedInputs() []margin.StatementInputs {
	amount, quantity := quoin.MustAmount, quoin.MustQuantity
	own := margin.StatementInputs{
		Currency: quoin.MustCurrency("EUR"), Supply: map[string]int{"paper": 0, "time": 1, "mailer": 2, "crate": 3}, Contingency: quoin.MustRate("4%"),
		Supplies: []cost.Supply{
			{ID: "paper", Quantity: quantity("50 sheet"), Price: amount("62.00"), Freight: amount("6.90")},
			{ID: "time", Quantity: quantity("1 h"), Price: amount("18.00"), Labour: cost.OwnTime},
			{ID: "mailer", Quantity: quantity("25 mailer"), Price: amount("20.00")},
			{ID: "crate", Quantity: quantity("3 crate"), Price: amount("20.00")},
		},
		Stages: waste.Route{{ID: "print", Yield: quoin.MustRate("92%")}, {ID: "finish", Yield: quoin.MustRate("98%"), Recovery: amount("0.15")}},
		Bill: cost.Bill{
			{Supply: "paper", Quantity: quantity("0.5 sheet"), Stage: "print"},
			{Supply: "time", Quantity: quantity("7 min"), Stage: "print"},
			{Supply: "time", Quantity: quantity("1 min"), Stage: "finish"},
			// So many lines of orders that the list of an item's lines has room for what packing adds.
			{Supply: "mailer", Quantity: quantity("2 mailer"), Per: cost.EachOrder},
			{Supply: "mailer", Quantity: quantity("3 mailer"), Per: cost.EachOrder},
			{Supply: "mailer", Quantity: quantity("4 mailer"), Per: cost.EachOrder},
			{Supply: "mailer", Quantity: quantity("5 mailer"), Per: cost.EachOrder},
		},
		Run:       cost.Run{Good: 30, Tests: 2},
		ProductAt: quoin.InList("products", 1), ChannelAt: quoin.InList("channels", 0),
	}
	parcel := cost.Bill{{Supply: "mailer", Quantity: quantity("1 mailer"), Per: cost.EachOrder}, {Supply: "time", Quantity: quantity("3 min")}}
	crate := cost.Bill{{Supply: "crate", Quantity: quantity("1 crate")}, {Supply: "time", Quantity: quantity("5 min")}}
	web := own
	web.Packed = []margin.PackingList{{Name: "parcel", Bill: parcel, Parcels: 1}, {Name: "parcel", Bill: parcel, Parcels: 2}, {Name: "crate", Bill: crate}}
	web.Channel = channel.Channel{ID: "web", Orders: []channel.Order{
		{Share: quoin.Some(quoin.MustRate("60%"))}, {Share: quoin.Some(quoin.MustRate("30%")), Items: 2}, {Share: quoin.Some(quoin.MustRate("10%")), Items: 3},
	}}
	fair := own
	fair.PackingName, fair.Packing = "parcel", parcel
	fair.Channel, fair.ChannelAt = channel.Channel{ID: "fair", Fees: []channel.Fee{{Name: "payment", Rate: quoin.MustRate("2%")}}}, quoin.InList("channels", 1)
	return []margin.StatementInputs{web, fair}
}

// What a journal explains of several channels on one trail are the steps of each.
func TestChannelsShareWhatTheySell(t *testing.T) {
	price := quoin.MustAmount("25.00")
	var shared, each quoin.Journal
	for range 2 {
		for i, in := range sharedInputs() {
			steps := in.Explain(price)
			if err := quoin.Replay(steps); err != nil {
				t.Fatal(err)
			}
			got := first(shared.Explain(func(t *quoin.Trail) { in.ExplainOn(t, price) }))
			if want := first(each.Add(steps)); !slices.Equal(got, want) {
				t.Errorf("channel %d: steps %v, by itself %v", i, got, want)
			}
		}
	}
	got, err := json.Marshal(&shared)
	want, err2 := json.Marshal(&each)
	if err != nil || err2 != nil || string(got) != string(want) {
		t.Errorf("%v %v: shared\n%s\neach by itself\n%s", err, err2, got, want)
	}
}

// first are the numbers, each where it comes first.
func first(numbers []int) (out []int) {
	for _, n := range numbers {
		if !slices.Contains(out, n) {
			out = append(out, n)
		}
	}
	return out
}
