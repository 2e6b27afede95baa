package annual

import (
	"fmt"
	"slices"

	"example.com/quoin"
	"example.com/quoin/internal/form"
	"example.com/quoin/margin/rule"
	"example.com/quoin/margin/trial"
)

// TriedPrice is another price of a product beside the one in force.
type TriedPrice struct {
	Product    string           `json:"product"`
	Price      quoin.Amount     `json:"price"`
	Beside     quoin.Amount     `json:"beside"`
	Comparison trial.Comparison `json:"comparison"`
	// LeftOut are the trials that the comparison left out, with why.
	LeftOut []LeftOutTrials `json:"left_out,omitempty"`
}

// Next is the next price to try in a channel.
type Next struct {
	Product string `json:"product"`
	Channel string `json:"channel"`
	// Counted is what the exposure of its trials is counted in.
	Counted  trial.Kind     `json:"counted"`
	Today    quoin.Amount   `json:"today"`
	Proposal trial.Proposal `json:"proposal"`
}

// String writes what is given of the trial.
func (t TriedPrice) String() string { return form.String(t) }

// String writes what is given of the next price.
func (n Next) String() string { return form.String(n) }

// trials compares each other price that was tried with the price in force, and proposes a
// price to try wherever the price in force was counted.
func (r reviewer) trials() (all []TriedPrice, next []Next, err error) {
	for _, it := range r.items {
		today, priced := r.prices[it.ID]
		if !priced {
			continue
		}
		periods := r.periods(it)
		if len(at(periods, today)) == 0 {
			continue // they stand alone
		}
		tried, err := compared(it.ID, periods, today)
		if err != nil {
			return nil, nil, err
		}
		proposed, err := r.next(it, periods, today, tried)
		if err != nil {
			return nil, nil, err
		}
		all, next = append(all, tried...), append(next, proposed...)
	}
	return all, next, nil
}

func compared(product string, periods []trial.Period, today quoin.Amount) ([]TriedPrice, error) {
	var out []TriedPrice
	for _, other := range pricesOf(periods) {
		if other.Equal(today) {
			continue
		}
		c, err := trial.Compare(at(periods, other), at(periods, today), trial.Options{})
		if err != nil {
			return nil, fmt.Errorf("trials of %s: %w", product, err)
		}
		out = append(out, TriedPrice{product, other, today, c, leftOut(c, periods, other, today)})
	}
	return out, nil
}

// periods are the trials of a product in all channels, each with what one more sale leaves by
// the new document.
func (r reviewer) periods(it rule.Item) []trial.Period {
	var out []trial.Period
	for _, o := range it.Offers {
		for _, placed := range r.History.TrialsOf(it.ID, o.Channel) {
			p := periodOf(placed.Entry)
			p.Kept = o.Sale.At(p.Price).BeforeFixedCost()
			out = append(out, p)
		}
	}
	return out
}

// pricesOf are the prices of periods, the lowest first.
func pricesOf(periods []trial.Period) []quoin.Amount {
	var out []quoin.Amount
	for _, p := range periods {
		out = append(out, p.Price)
	}
	slices.SortFunc(out, quoin.Amount.Cmp)
	return slices.CompactFunc(out, quoin.Amount.Equal)
}

func at(periods []trial.Period, price quoin.Amount) []trial.Period {
	return slices.DeleteFunc(slices.Clone(periods), func(p trial.Period) bool { return !p.Price.Equal(price) })
}

// next proposes a price to try in each channel where the price in force was counted.
func (r reviewer) next(it rule.Item, periods []trial.Period, today quoin.Amount, tried []TriedPrice) ([]Next, error) {
	var out []Next
	for _, o := range it.Offers {
		in := slices.DeleteFunc(slices.Clone(periods), func(p trial.Period) bool { return p.Channel != o.Channel })
		in = most(in, today, func(p trial.Period) string { return string(p.Exposure.Kind) })
		if len(r.answer.Conflict) > 0 || len(at(in, today)) == 0 || r.toCome(o.Channel).IsZero() {
			continue
		}
		choice, err := r.choice(it.ID, o, in, today)
		if err != nil {
			return nil, err
		}
		choice.Running = running(tried, o.Channel)
		proposal, err := trial.Next(choice)
		if err != nil {
			return nil, fmt.Errorf("next price of %s: %w", it.ID, err)
		}
		out = append(out, Next{it.ID, o.Channel, at(in, today)[0].Exposure.Kind, today, proposal})
	}
	return out, nil
}

// choice is what the next price to try in a channel is chosen by. Where prices have
// been tried there, it goes by the elasticity that came out.
func (r reviewer) choice(product string, o rule.Offer, periods []trial.Period, today quoin.Amount) (trial.Choice, error) {
	c := trial.Choice{
		Today: today, Move: r.Move, Horizon: r.toCome(o.Channel), Allowed: r.inReach(product, today),
		Kept: func(price quoin.Amount) quoin.Amount { return o.Sale.At(price).BeforeFixedCost() },
	}
	for _, p := range at(periods, today) {
		c.Sold.Units += p.Units
		c.Sold.Exposure = c.Sold.Exposure.Add(p.Exposure.Number)
	}
	alike := most(periods, today, func(p trial.Period) string { return p.Occasion })
	slope, err := trial.SlopeOf(alike, trial.SlopeOptions{})
	if err != nil {
		return trial.Choice{}, err
	}
	if e, ok := slope.Elasticity.Get(); ok {
		c.Belief = quoin.Some(trial.Belief{Elasticity: e, Spread: quoin.FactorOf(2)})
	}
	return c, nil
}

// most are the periods that share what the price in force was tried in most often; of two that
// are as frequent, the first. Exposure counted in two ways does not sum up, and an elasticity is
// told on one kind of occasion.
func most(periods []trial.Period, today quoin.Amount, of func(trial.Period) string) []trial.Period {
	count := make(map[string]int)
	found := ""
	for _, p := range at(periods, today) {
		count[of(p)]++
	}
	for _, p := range at(periods, today) {
		if count[of(p)] > count[found] {
			found = of(p)
		}
	}
	return slices.DeleteFunc(slices.Clone(periods), func(p trial.Period) bool { return of(p) != found })
}

// mostInReach is more prices than trial.Next takes.
const mostInReach = 10_001

// inReach are the allowed prices of a product at most a move away.
func (r reviewer) inReach(product string, today quoin.Amount) []quoin.Amount {
	var out []quoin.Amount
	for _, p := range r.answer.Products {
		if p.ID != product {
			continue
		}
		allowed, room := p.Allowed.Set, today.Part(r.Move)
		high := today.Add(room)
		for price, ok := allowed.Next(today.Sub(room)); ok && price.Cmp(high) <= 0 && len(out) < mostInReach; {
			out = append(out, price)
			price, ok = allowed.Next(price.Add(r.Now.Currency.Minor()))
		}
	}
	return out
}

// running is a trial in a channel that can't tell yet.
func running(tried []TriedPrice, channel string) *trial.Comparison {
	for i, t := range tried {
		of := func(g trial.Group) bool { return g.Channel == channel }
		if t.Comparison.Answer == trial.CannotTell && slices.ContainsFunc(t.Comparison.Groups, of) {
			return &tried[i].Comparison
		}
	}
	return nil
}
