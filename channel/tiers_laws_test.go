package channel_test

import (
	"fmt"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/channel"
)

// tiered is a random fee of up to four tiers with rates, fixed amounts, or both.
func (d draws) tiered() channel.Fee {
	f := d.fee()
	f.Rate, f.Tiers = quoin.Rate{}, nil
	f.TierMode = rapid.SampledFrom([]channel.TierMode{"", channel.Marginal, channel.Whole}).Draw(d.T, "mode of tiers")
	from := d.money("first from", 600)
	for range rapid.IntRange(1, 4).Draw(d.T, "tiers") {
		tier := channel.Tier{From: from}
		switch rapid.IntRange(0, 2).Draw(d.T, "says") {
		case 0:
			tier.Rate = d.rate("rate of a tier", 300)
		case 1:
			tier.Fixed = d.fine("fixed of a tier", 4)
		default:
			tier.Rate, tier.Fixed = d.rate("rate of a tier", 300), d.fine("fixed of a tier", 4)
		}
		f.Tiers = append(f.Tiers, tier)
		from = from.Add(d.money("next from", 900)).Add(amount("0.01"))
	}
	return f
}

// order is one that a fee is charged on, with a base near the tiers.
func (d draws) paid(f channel.Fee) channel.Payment {
	p := channel.Payment{Count: rapid.Int64Range(1, 4).Draw(d.T, "count"), Shipping: d.money("shipping", 500), Tax: d.money("tax", 500), Discount: d.money("discount", 500)}
	p.Items = d.money("items", 9000)
	if d.yes("where a tier begins") {
		p.Items = rapid.SampledFrom(f.Tiers).Draw(d.T, "tier").From.Times(quoin.FactorOf(p.Count))
	}
	return p
}

// tierLaw draws fees of tiers and orders, and compares what two fees charge.
func tierLaw(t *testing.T, change func(d draws, f channel.Fee, p channel.Payment) (one, other channel.Charge)) {
	drawn, charged := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		d := draws{t}
		f := d.tiered()
		p := d.paid(f)
		one, other := change(d, f, p)
		drawn++
		if one.Computed.Sign() > 0 {
			charged++
		}
		if !one.Computed.Equal(other.Computed) || !one.Total.Equal(other.Total) {
			t.Fatalf("%+v of %+v: %+v, and %+v", f, p, one, other)
		}
	})
	if charged < drawn/2 {
		t.Errorf("of %d fees %d charge something", drawn, charged)
	}
}

func TestLawsOfTiers(t *testing.T) {
	for what, law := range map[string]func(d draws, f channel.Fee, p channel.Payment) (one, other channel.Charge){
		"a fixed amount of 0 changes nothing": func(d draws, f channel.Fee, p channel.Payment) (one, other channel.Charge) {
			with := f
			with.Tiers = slices.Clone(f.Tiers)
			for i := range with.Tiers {
				if !with.Tiers[i].Fixed.IsGiven() {
					with.Tiers[i].Fixed = amount("0")
				}
			}
			return f.Charge(p, 2), with.Charge(p, 2)
		},
		"one tier from 0 is a fee without tiers": func(d draws, f channel.Fee, p channel.Payment) (one, other channel.Charge) {
			only := channel.Tier{Rate: f.Tiers[0].Rate, Fixed: f.Tiers[0].Fixed}
			f.Tiers = []channel.Tier{only}
			without := f
			without.Tiers, without.Rate, without.Fixed = nil, only.Rate, f.Fixed.Add(only.Fixed)
			return f.Charge(p, 2), without.Charge(p, 2)
		},
		"a tier cut in two is what it was": func(d draws, f channel.Fee, p channel.Payment) (one, other channel.Charge) {
			i := rapid.IntRange(0, len(f.Tiers)-1).Draw(d.T, "which")
			second := f.Tiers[i]
			second.From = second.From.Add(amount("0.01"))
			if f.TierMode != channel.Whole {
				second.Fixed = quoin.Amount{} // which the first has charged
			}
			if i+1 < len(f.Tiers) && f.Tiers[i+1].From.Equal(second.From) {
				d.Skip("no room for a cut")
			}
			cut := f
			cut.Tiers = slices.Insert(slices.Clone(f.Tiers), i+1, second)
			return f.Charge(p, 2), cut.Charge(p, 2)
		},
		"fixed amounts that add up are those of the highest tier": func(d draws, f channel.Fee, p channel.Payment) (one, other channel.Charge) {
			whole := f
			f.TierMode, whole.TierMode = channel.Marginal, channel.Whole
			f.Tiers, whole.Tiers = slices.Clone(f.Tiers), slices.Clone(f.Tiers)
			var sum quoin.Amount
			for i := range f.Tiers {
				sum = sum.Add(f.Tiers[i].Fixed)
				f.Tiers[i].Rate, whole.Tiers[i].Rate, whole.Tiers[i].Fixed = quoin.Rate{}, quoin.Rate{}, sum
			}
			return f.Charge(p, 2), whole.Charge(p, 2)
		},
		"each item is charged as an order of one": func(d draws, f channel.Fee, p channel.Payment) (one, other channel.Charge) {
			f = channel.Fee{Tiers: f.Tiers, TierMode: f.TierMode, Fixed: f.Fixed, Per: quoin.PerItem, Expected: true}
			single := f
			single.Per = ""
			of := p
			of.Count, of.Items = 1, p.Items
			p.Items = p.Items.Times(quoin.FactorOf(p.Count))
			all := single.Charge(of, 2)
			all.Computed, all.Total = all.Computed.Times(quoin.FactorOf(p.Count)), all.Total.Times(quoin.FactorOf(p.Count))
			return f.Charge(p, 2), all
		},
	} {
		t.Run(what, func(t *testing.T) { tierLaw(t, law) })
	}
}

func TestTiersAgreeEverywhere(t *testing.T) { rapid.Check(t, tiersAgreeEverywhere) }
func FuzzTiersAgreeEverywhere(f *testing.F) { f.Fuzz(rapid.MakeFuzz(tiersAgreeEverywhere)) }

// tiersAgreeEverywhere: of channels whose fees are of tiers, whole numbers come to what
// decimals do, to the digit, prices lie on the curve, and explanations replay.
func tiersAgreeEverywhere(t *rapid.T) {
	d := draws{t}
	c := channel.Channel{
		Promotion: d.rate("promotion", 400), Orders: []channel.Order{{Items: rapid.Int64Range(1, 3).Draw(t, "items"), Shipping: d.money("shipping", 500)}},
		Tax: channel.Tax{Rate: d.rate("tax", 250), InPrice: d.yes("in price"), OnShipping: d.yes("on shipping")},
	}
	for range rapid.IntRange(1, 2).Draw(t, "fees of tiers") {
		f := d.tiered()
		f.Orders = nil
		f.AtLeast, f.AtMost = d.money("at least", 200), d.maybeMoney("at most", 900)
		c.Fees = append(c.Fees, f)
	}
	tm := c.Terms(eur)
	curveHolds(t, tm, d.grid())
	for range 5 {
		price := d.money("price", 3000)
		if got, want := fmt.Sprint(tm.Proceeds(price)), fmt.Sprint(tm.Exactly(price)); got != want {
			t.Fatalf("at %s: %s, by decimals %s", price, got, want)
		}
		trail := quoin.NewTrail(32)
		e := c.Explain(trail, quoin.InList("channels", 0), eur, 0, quoin.Given("list price", quoin.Path{}, price.Figure()))
		if got, _ := e.Fees.Value.Amount(); !got.Equal(tm.Settle(0, price).Fees) {
			t.Fatalf("at %s: explained as %s, settled as %s", price, got, tm.Settle(0, price).Fees)
		}
		if err := quoin.Replay(trail.Steps()); err != nil {
			t.Fatal(err)
		}
	}
}
