package pricelist_test

import (
	"encoding/json"
	"math/big"
	"os"
	"path/filepath"
	"testing"

	"example.com/quoin"
	"example.com/quoin/channel/fair"
	"example.com/quoin/margin"
	"example.com/quoin/margin/edition"
	"example.com/quoin/margin/pricelist"
)

// shops are the example shops and the document with every field.
func shops(t testing.TB) map[string][]byte {
	t.Helper()
	files, err := filepath.Glob("../../examples/shops/*.json")
	if err != nil || len(files) == 0 {
		t.Fatalf("no shops: %v", err)
	}
	out := make(map[string][]byte)
	for _, f := range append(files, "../../internal/schematest/testdata/full.json") {
		data, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		out[filepath.Base(f)] = data
	}
	return out
}

// Every statement of the example shops is explained to the digit, by steps that
// replay; so is what is said of sets, fairs and editions.
func TestShopsAreExplained(t *testing.T) {
	for name, data := range shops(t) {
		a := decidedShop(t, string(data))
		for _, p := range a.Products {
			for _, c := range p.Channels {
				statementExplained(t, name+" "+p.ID+" "+c.ID, c)
			}
		}
		for _, s := range a.Sets {
			reasoned(t, name+" "+s.ID, s.Steps, map[quoin.StepCode]quoin.Figure{pricelist.StepExpected: s.Expected.Figure()})
		}
		for _, f := range a.Fairs {
			want := map[quoin.StepCode]quoin.Figure{fair.StepResult: f.Result.Figure(), fair.StepFixed: f.Fixed.Figure(), fair.StepCommission: f.Commission.Figure(), fair.StepSales: f.Sales.Figure()}
			if hour, ok := f.PerHour.Get(); ok {
				want[fair.StepPerHour] = hour.Figure()
			}
			reasoned(t, name+" "+f.ID, f.Steps, want)
		}
		for _, e := range a.Editions {
			for _, r := range e.Products {
				want := map[quoin.StepCode]quoin.Figure{edition.StepGross: r.Proceeds.Figure(), edition.StepKept: r.Contribution.Figure()}
				if months, ok := r.Months.Get(); ok {
					want[edition.StepMonths] = months.Figure()
				}
				reasoned(t, name+" "+r.Product, r.Reasons, want)
			}
		}
	}
}

func statementExplained(t *testing.T, what string, c pricelist.ChannelResult) {
	t.Helper()
	steps := c.Steps.Steps()
	if err := quoin.Replay(steps); err != nil {
		t.Errorf("%s: %v", what, err)
	}
	s := c.Statement
	for code, want := range map[quoin.StepCode]quoin.Amount{
		margin.StepRevenue: s.Revenue, margin.StepTax: s.Tax, margin.StepGoods: s.Goods, margin.StepGross: s.Gross,
		margin.StepFees: s.Fees, margin.StepFulfilment: s.Fulfilment, margin.StepFixedCost: s.FixedCost, margin.StepContribution: s.Contribution,
		margin.StepOverhead: s.Overhead, margin.StepOperating: s.Operating, margin.StepIncomeTax: s.IncomeTax, margin.StepNet: s.Net,
	} {
		found := quoin.Find(steps, func(s quoin.Step) bool { return s.Code == code })
		if len(found) != 1 {
			t.Errorf("%s: %d steps %s", what, len(found), code)
			continue
		}
		if got := steps[found[0]-1].Value; !got.Factor().Equal(want.Figure().Factor()) {
			t.Errorf("%s: %s is %v, but explained as %v", what, code, want, got)
		}
	}
}

// The kinds of order of a channel average to its statement: Σ share × what an order
// keeps ÷ Σ share × items is the contribution with the channel's period left out.
func TestOrdersAverageToTheStatement(t *testing.T) {
	seen := 0
	for name, data := range shops(t) {
		for _, p := range decidedShop(t, string(data)).Products {
			for _, c := range p.Channels {
				if len(c.Orders) == 0 {
					continue
				}
				seen++
				var keeps quoin.Amount
				var items quoin.Factor
				for _, o := range c.Orders {
					keeps = keeps.Add(o.Contribution.Part(o.Share))
					items = items.Add(quoin.FactorOf(o.Items).Times(o.Share.Factor()))
				}
				off := new(big.Rat).Sub(keeps.Over(items).Rat(), c.Statement.Contribution.Add(c.Statement.FixedCost).Rat())
				if off.Abs(off).Cmp(big.NewRat(1, 1_000_000_000)) > 0 {
					t.Errorf("%s, %s in %s: orders keep %v an item, the statement %v", name, p.ID, c.ID, keeps.Over(items), c.Statement.Contribution.Add(c.Statement.FixedCost))
				}
			}
		}
	}
	if seen < 10 {
		t.Errorf("only %d channels tell their orders apart", seen)
	}
}

// The fairs of the example shop, summed with fractions from the document itself and
// the contributions of the answer.
func TestFairsOfTheShop(t *testing.T) {
	data := shops(t)["fairs.json"]
	var doc struct {
		Fairs []struct {
			Channel, Stand, Jury, Chance, Travel, Night, Helper, Display, Commission string
			DisplayFairs                                                             string `json:"display_fairs"`
			CommissionAtLeast                                                        string `json:"commission_at_least"`
			CommissionOf                                                             string `json:"commission_of"`
			Nights                                                                   int64
			Other                                                                    []struct{ Amount string }
			Mix                                                                      []struct{ Product, Share string }
			Prints                                                                   string
		}
	}
	if err := json.Unmarshal(data, &doc); err != nil {
		t.Fatal(err)
	}
	a := decidedShop(t, string(data))
	if len(doc.Fairs) != len(a.Fairs) || len(doc.Fairs) == 0 {
		t.Fatalf("%d fairs of %d", len(a.Fairs), len(doc.Fairs))
	}
	for i, f := range doc.Fairs {
		sum := new(big.Rat)
		less := func(x *big.Rat) { sum.Sub(sum, x) }
		base, prints := new(big.Rat), fraction(t, f.Prints)
		for _, m := range f.Mix {
			s := statementOf(t, a, m.Product, f.Channel)
			n := new(big.Rat).Mul(fraction(t, m.Share), prints)
			kept := new(big.Rat).Add(s.Contribution.Rat(), s.FixedCost.Rat())
			sum.Add(sum, kept.Mul(kept, n))
			sold := s.Revenue.Rat()
			if f.CommissionOf != "net" {
				sold = new(big.Rat).Add(sold, s.Tax.Rat())
			}
			base.Add(base, new(big.Rat).Mul(sold, n))
		}
		commission := new(big.Rat).Mul(base, fraction(t, f.Commission))
		if least := fraction(t, f.CommissionAtLeast); commission.Cmp(least) < 0 {
			commission = least
		}
		less(commission)
		less(fraction(t, f.Stand))
		less(new(big.Rat).Quo(fraction(t, f.Jury), fraction(t, f.Chance)))
		less(fraction(t, f.Travel))
		less(new(big.Rat).Mul(big.NewRat(f.Nights, 1), fraction(t, f.Night)))
		less(fraction(t, f.Helper))
		less(new(big.Rat).Quo(fraction(t, f.Display), fraction(t, f.DisplayFairs)))
		for _, o := range f.Other {
			less(fraction(t, o.Amount))
		}
		off := new(big.Rat).Sub(sum, a.Fairs[i].Result.Rat())
		if off.Abs(off).Cmp(big.NewRat(1, 1_000_000_000)) > 0 {
			t.Errorf("%s: %v, want %s", a.Fairs[i].ID, a.Fairs[i].Result, sum.FloatString(6))
		}
	}
}

func statementOf(t testing.TB, a pricelist.Answer, product, sold string) margin.Statement {
	t.Helper()
	for _, p := range a.Products {
		for _, c := range p.Channels {
			if p.ID == product && c.ID == sold {
				return c.Statement
			}
		}
	}
	t.Fatalf("no %s in %s", product, sold)
	return margin.Statement{}
}

// fraction reads "12.50", "60%" or nothing.
func fraction(t testing.TB, text string) *big.Rat {
	t.Helper()
	if text == "" {
		return new(big.Rat)
	}
	percent := text[len(text)-1] == '%'
	if percent {
		text = text[:len(text)-1]
	}
	x, ok := new(big.Rat).SetString(text)
	if !ok {
		t.Fatalf("%q is no number", text)
	}
	if percent {
		x.Quo(x, big.NewRat(100, 1))
	}
	return x
}
