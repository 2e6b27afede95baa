package trial_test

import (
	"encoding/json"
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/margin/trial"
)

// left is 60% of a price less 9.00 for paper, print and postage.
func left(price quoin.Amount) quoin.Amount { return price.Part(rate("60%")).Sub(amount("9")) }

func amounts(texts ...string) (out []quoin.Amount) {
	for _, s := range texts {
		out = append(out, amount(s))
	}
	return out
}

// choice is a print at 79 that sold 60 times before 3,000 visits.
func choice() trial.Choice {
	return trial.Choice{
		Today: amount("79"), Sold: trial.SalesCount{Units: 60, Exposure: factor("3000")}, Allowed: amounts("69", "75", "79", "85", "89", "95", "129"),
		Kept: left, Move: rate("15%"), Horizon: factor("200000"),
	}
}

func TestNext(t *testing.T) {
	running := &trial.Comparison{Answer: trial.CannotTell}
	over := &trial.Comparison{Answer: trial.Better}
	for _, c := range []struct {
		what   string
		change func(*trial.Choice)
		price  string // none where it is to stay
		reason trial.Reason
	}{
		{"a trial is on", func(c *trial.Choice) { c.Running = running }, "none", trial.Unfinished},
		{"a trial is over", func(c *trial.Choice) { c.Running = over }, "69", trial.MostWorth}, // the larger step, as a ratio
		{"a trial is over, and only rises are allowed", func(c *trial.Choice) { c.Running, c.Allowed = over, amounts("85", "89") }, "89", trial.MostWorth},
		{"nothing allowed but today's", func(c *trial.Choice) { c.Allowed = amounts("79") }, "none", trial.NothingInReach},
		{"nothing within a step", func(c *trial.Choice) { c.Move = rate("1%") }, "none", trial.NothingInReach},
		{"nothing allowed", func(c *trial.Choice) { c.Allowed = nil }, "none", trial.NothingInReach},
		{"nothing sold", func(c *trial.Choice) { c.Sold.Units = 0 }, "none", trial.NothingSold},
		{"too few visits to come", func(c *trial.Choice) { c.Horizon = factor("3000") }, "none", trial.TooShort},
		{"today's price loses", func(c *trial.Choice) { c.Kept = func(p quoin.Amount) quoin.Amount { return p.Sub(amount("80")) } }, "85", trial.TodayLoses},
		{"dearer is surely worse", func(c *trial.Choice) {
			c.Allowed, c.Belief = amounts("85", "89"), quoin.Some(trial.Belief{Elasticity: factor("-9"), Spread: factor("0.1")})
		}, "none", trial.NotWorth},
		{"dearer is surely better", func(c *trial.Choice) {
			c.Horizon = factor("400000")
			c.Belief = quoin.Some(trial.Belief{Elasticity: factor("0"), Spread: factor("0.5")})
		}, "89", trial.MostWorth},
		{"cheaper is surely better", func(c *trial.Choice) {
			c.Belief = quoin.Some(trial.Belief{Elasticity: factor("-5"), Spread: factor("0.5")})
		}, "69", trial.MostWorth},
	} {
		in := choice()
		c.change(&in)
		p, err := trial.Next(in)
		if err != nil {
			t.Fatal(c.what, err)
		}
		if p.Reason != c.reason || p.Price.String() != c.price {
			b, _ := json.MarshalIndent(p.Candidates, "", " ")
			t.Errorf("%s: %s, %s, want %s, %s\n%s", c.what, p.Price, p.Reason, c.price, c.reason, b)
		}
	}
}

// At 95 a sale keeps 48.00, at 79 it keeps 38.40: as much is earned at 80% of the
// sales.
func TestEven(t *testing.T) {
	c := choice()
	c.Move = rate("25%")
	p, err := trial.Next(c)
	if err != nil {
		t.Fatal(err)
	}
	last := p.Candidates[len(p.Candidates)-1]
	even, _ := last.Even.Get()
	if !last.Price.Equal(amount("95")) || !last.Kept.Equal(amount("48")) || !even.Equal(factor("0.8")) || !last.Change.Round(2).Equal(rate("20.25%")) {
		t.Errorf("%+v", last)
	}
}

func TestNextKeepsToReach(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := choice()
		c.Allowed = nil
		for range rapid.IntRange(0, 12).Draw(t, "allowed") {
			c.Allowed = append(c.Allowed, quoin.AmountOf(rapid.Int64Range(0, 20_000).Draw(t, "price"), 2))
		}
		c.Move = quoin.FactorOf(rapid.Int64Range(1, 50).Draw(t, "move")).Over(factor("100")).Rate()
		c.Sold.Units = rapid.Int64Range(0, 3000).Draw(t, "units")
		c.Horizon = quoin.FactorOf(rapid.Int64Range(1, 1_000_000_000).Draw(t, "horizon"))
		if rapid.Bool().Draw(t, "believes") {
			c.Belief = quoin.Some(trial.Belief{
				Elasticity: quoin.FactorOf(rapid.Int64Range(-50, 50).Draw(t, "elasticity")), Spread: quoin.FactorOf(rapid.Int64Range(0, 20).Draw(t, "spread")),
			})
		}
		p, err := trial.Next(c)
		if err != nil {
			t.Fatal(err)
		}
		price, moves := p.Price.Get()
		if !moves {
			return
		}
		step := price.Sub(c.Today)
		if step.Sign() < 0 {
			step = step.Neg()
		}
		allowed := false
		for _, a := range c.Allowed {
			allowed = allowed || a.Equal(price)
		}
		if !allowed || step.Cmp(c.Today.Part(c.Move)) > 0 || left(price).Sign() <= 0 {
			t.Errorf("%s is proposed: allowed %v, a step of %s", price, allowed, step)
		}
		again := c
		again.Allowed = rapid.Permutation(c.Allowed).Draw(t, "order")
		if q, _ := trial.Next(again); fmt.Sprint(q) != fmt.Sprint(p) {
			t.Errorf("%v, in another order %v", p, q)
		}
	})
}

func TestNextProblems(t *testing.T) {
	_, err := trial.Next(trial.Choice{Belief: quoin.Some(trial.Belief{Elasticity: factor("99"), Spread: factor("-1")})})
	const want = "missing_field today missing_field sold missing_field move missing_field horizon " +
		"out_of_range belief.elasticity out_of_range belief.spread missing_field kept"
	if got := codes(err); got != want {
		t.Errorf("%s, want %s", got, want)
	}
	c := choice()
	for i := range int64(20_000) {
		c.Allowed = append(c.Allowed, quoin.AmountOf(7900_000+i, 5))
	}
	if _, err := trial.Next(c); codes(err) != "too_many allowed" {
		t.Error(err)
	}
}
