package main

import (
	"fmt"
	"slices"

	"example.com/quoin"
	"example.com/quoin/margin/history"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/rule"
	"example.com/quoin/margin/trial"
)

// tried is another price of a product beside the one in force.
type tried struct {
	Product    string           `json:"product"`
	Price      quoin.Amount     `json:"price"`
	Beside     quoin.Amount     `json:"beside"`
	Comparison trial.Comparison `json:"comparison"`
}

// next is the next price to try in a channel.
type next struct {
	Product  string         `json:"product"`
	Channel  string         `json:"channel"`
	Today    quoin.Amount   `json:"today"`
	Proposal trial.Proposal `json:"proposal"`
}

// trials compares each other price that was tried with the price in force.
func (y year) trials(prices map[string]quoin.Amount) ([]tried, error) {
	var out []tried
	for _, p := range y.now.Products {
		today, priced := prices[p.ID]
		periods, err := y.periods(p.ID)
		if err != nil {
			return nil, err
		}
		if !priced {
			continue
		}
		for _, other := range pricesOf(periods) {
			if other.Equal(today) {
				continue
			}
			c, err := trial.Compare(at(periods, other), at(periods, today), trial.Options{})
			if err != nil {
				return nil, fmt.Errorf("trials of %s: %w", p.ID, err)
			}
			out = append(out, tried{p.ID, other, today, c})
		}
	}
	return out, nil
}

// periods are the trials of a product in all channels, each with what a sale keeps.
func (y year) periods(product string) ([]trial.Period, error) {
	var out []trial.Period
	for _, c := range y.now.Channels {
		for _, placed := range y.history.TrialsOf(product, c.ID) {
			t := placed.Entry
			kept, err := y.kept(product, c.ID, t.Price)
			if err != nil {
				return nil, err
			}
			out = append(out, trial.Period{
				ID: t.ID, Product: product, Channel: c.ID, Price: t.Price, Kept: kept, From: t.From, To: t.Until,
				Exposure: trial.Exposure{Number: t.Exposure, Kind: kindOf(t.ExposureUnit)}, Units: t.Sold.Or(0), Occasion: t.Occasion,
			})
		}
	}
	return out, nil
}

func kindOf(u history.ExposureUnit) trial.Kind {
	switch u {
	case history.Visits:
		return trial.Visits
	case history.Visitors:
		return trial.Visitors
	}
	return trial.StandDays
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
	var out []trial.Period
	for _, p := range periods {
		if p.Price.Equal(price) {
			out = append(out, p)
		}
	}
	return out
}

// kept is what one more sale leaves at a price, by the new document. The selling
// costs of a period are the same however many are sold, so they are not taken off.
func (y year) kept(product, channel string, price quoin.Amount) (quoin.Amount, error) {
	doc := y.now
	only := quoin.Some(price)
	doc.Rules = []rule.Rule{{ID: "price", Products: []string{product}, Kind: rule.Price{AtLeast: only, AtMost: only}}}
	answer, err := pricelist.Decide(doc)
	if err != nil {
		return quoin.Amount{}, err
	}
	for _, p := range answer.Products {
		for _, c := range p.Channels {
			if p.ID == product && c.ID == channel {
				return c.Statement.Contribution.Add(c.Statement.Selling), nil
			}
		}
	}
	return quoin.Amount{}, fmt.Errorf("no price %s of %s in %s", price, product, channel)
}

// next proposes a price to try wherever the price in force was counted.
func (y year) next(prices map[string]quoin.Amount, all []tried) ([]next, error) {
	answer, err := pricelist.Decide(y.now)
	if err != nil {
		return nil, err
	}
	var out []next
	for _, p := range answer.Products {
		periods, err := y.periods(p.ID)
		if err != nil {
			return nil, err
		}
		for _, c := range y.now.Channels {
			today := prices[p.ID]
			in := inChannel(periods, c.ID)
			if len(at(in, today)) == 0 || y.brief.horizon(c.ID).IsZero() {
				continue
			}
			choice, err := y.choice(in, today, p.Allowed.Set)
			if err != nil {
				return nil, err
			}
			choice.Running = running(all, p.ID, c.ID)
			proposal, err := trial.Next(choice)
			if err != nil {
				return nil, fmt.Errorf("next price of %s: %w", p.ID, err)
			}
			out = append(out, next{p.ID, c.ID, today, proposal})
		}
	}
	return out, nil
}

func inChannel(periods []trial.Period, channel string) []trial.Period {
	return slices.DeleteFunc(slices.Clone(periods), func(p trial.Period) bool { return p.Channel != channel })
}

// choice is what the next price to try in a channel is chosen by. Where prices have
// been tried there, it goes by the elasticity that came out.
func (y year) choice(periods []trial.Period, today quoin.Amount, allowed rule.Set) (trial.Choice, error) {
	c := trial.Choice{Today: today, Move: y.brief.Move, Horizon: y.brief.horizon(periods[0].Channel)}
	for _, p := range at(periods, today) {
		c.Sold.Units += p.Units
		c.Sold.Exposure = c.Sold.Exposure.Add(p.Exposure.Number)
	}
	slope, err := trial.SlopeOf(periods, trial.SlopeOptions{})
	if err != nil {
		return trial.Choice{}, err
	}
	if e, ok := slope.Elasticity.Get(); ok {
		c.Belief = quoin.Some(trial.Belief{Elasticity: e, Spread: quoin.FactorOf(2)})
	}
	c.Allowed = inReach(allowed, today, y.brief.Move)
	kept := map[string]quoin.Amount{}
	for _, price := range slices.Concat(c.Allowed, []quoin.Amount{today}) {
		if kept[price.String()], err = y.kept(periods[0].Product, periods[0].Channel, price); err != nil {
			return trial.Choice{}, err
		}
	}
	c.Kept = func(price quoin.Amount) quoin.Amount { return kept[price.String()] }
	return c, nil
}

// inReach are the allowed prices at most a move away.
func inReach(allowed rule.Set, today quoin.Amount, move quoin.Rate) []quoin.Amount {
	cent, room := quoin.AmountOf(1, 2), today.Part(move)
	high := today.Add(room)
	var out []quoin.Amount
	for p, ok := allowed.Next(today.Sub(room)); ok && p.Cmp(high) <= 0; p, ok = allowed.Next(p.Add(cent)) {
		out = append(out, p)
	}
	return out
}

// running is a trial in a channel that can't tell yet.
func running(all []tried, product, channel string) *trial.Comparison {
	for i := range all {
		if all[i].Product != product {
			continue
		}
		for _, g := range all[i].Comparison.Groups {
			if g.Channel == channel && all[i].Comparison.Answer == trial.CannotTell {
				return &all[i].Comparison
			}
		}
	}
	return nil
}
