package main

import (
	"slices"

	"example.com/quoin"
	"example.com/quoin/margin/history"
	"example.com/quoin/margin/market"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/pricelist/review"
)

// asLawsAsk is the days before a reduction whose lowest price is looked up; places
// differ in it.
const asLawsAsk = 30

// results is what the review found.
type results struct {
	Today    quoin.Date       `json:"today"`
	Move     quoin.Rate       `json:"move"`
	Review   review.Review    `json:"review"`
	Trials   []tried          `json:"trials"`
	Next     []next           `json:"next"`
	Market   []standing       `json:"market"`
	Reduced  []history.Lowest `json:"reduced"`
	Editions []history.Sold   `json:"editions"`
	// Matter is the inputs that move least prices most.
	Matter []review.Influence `json:"matter"`
	// Doubts is what looks wrong in the history.
	Doubts   quoin.Problems `json:"doubts,omitempty"`
	Cautions []string       `json:"cautions"`
}

// standing is where the price to ask now stands among what sold.
type standing struct {
	Product  string                          `json:"product"`
	Summary  market.Summary                  `json:"summary"`
	Position quoin.Optional[market.Position] `json:"position,omitzero"`
}

func (y year) results() (results, error) {
	prices, err := y.inForce()
	if err != nil {
		return results{}, err
	}
	out := results{Today: y.brief.Today, Move: y.brief.Move, Doubts: y.history.Warnings(), Cautions: pricelist.Cautions()}
	for _, step := range []func() error{
		func() (err error) { out.Review, err = review.Compare(y.last, prices, y.now, y.brief.Move); return err },
		func() (err error) { out.Trials, err = y.trials(prices); return err },
		func() (err error) { out.Next, err = y.next(prices, out.Trials); return err },
		func() (err error) { out.Market, err = y.standings(out.Review.Moves); return err },
		func() (err error) { out.Reduced, err = y.reduced(); return err },
		func() (err error) { out.Editions, err = y.editions(); return err },
		func() (err error) { out.Matter, err = y.matter(); return err },
	} {
		if err := step(); err != nil {
			return results{}, err
		}
	}
	return out, nil
}

// standings puts each price to ask now beside what prints of its size sold for, all
// with the tax of the list, without postage and frames.
func (y year) standings(moves []review.Move) ([]standing, error) {
	var out []standing
	for _, m := range moves {
		basis := market.Basis{Tax: y.brief.Tax}
		s, err := market.Summarize(y.market, m.Product, basis, market.Options{Today: y.brief.Today})
		if err != nil {
			return nil, err
		}
		out = append(out, standing{Product: m.Product, Summary: s, Position: s.Position(m.Now)})
	}
	return out, nil
}

// reduced is, for each reduction, the lowest price of the days before it; of one without
// a channel, in each channel that had a price.
func (y year) reduced() ([]history.Lowest, error) {
	var out []history.Lowest
	for _, product := range y.history.Products() {
		for _, channel := range y.history.Channels(product) {
			t, err := y.history.Timeline(product, channel)
			if err != nil {
				return nil, err
			}
			for _, s := range t.Held {
				if s.Record != history.ReductionRecord || s.Channel != channel || !s.From.Equal(s.Stated.From) {
					continue
				}
				l, err := y.history.LowestBefore(product, channel, s.From, asLawsAsk)
				if err != nil {
					return nil, err
				}
				if len(l.Channels) == 0 || l.Price.IsZero() {
					out = append(out, l)
					continue
				}
				for _, one := range l.Channels {
					if !one.Price.IsZero() {
						out = append(out, one)
					}
				}
			}
		}
	}
	return out, nil
}

func (y year) editions() ([]history.Sold, error) {
	var out []history.Sold
	for _, e := range y.history.Editions() {
		s, err := y.history.Sold(e)
		if err != nil {
			return nil, err
		}
		out = append(out, s)
	}
	return out, nil
}

// matter is the first few inputs by what a tenth more or less of each does.
func (y year) matter() ([]review.Influence, error) {
	all, err := review.Sensitivity(y.now, quoin.Rate{})
	return slices.Clone(all[:min(len(all), review.Foremost)]), err
}
