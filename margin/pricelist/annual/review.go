package annual

import (
	"slices"

	"example.com/quoin"
	"example.com/quoin/internal/form"
	"example.com/quoin/margin/comparables"
	"example.com/quoin/margin/history"
	"example.com/quoin/margin/market"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/pricelist/review"
	"example.com/quoin/margin/rule"
)

// daysBefore is the days before a reduction whose lowest price is looked up; how many the law
// asks for differs by place.
const daysBefore = 30

// Results are what a review found.
type Results struct {
	Today  quoin.Date    `json:"today"`
	Move   quoin.Rate    `json:"move"`
	Review review.Review `json:"review"`
	// Names are what the documents call their supplies, machines, products, channels and
	// editions, by where they stand: "Own shop" for channels["own-shop"].
	Names map[string]string `json:"names,omitempty"`
	// Prices are those in force today, by the ids of their products.
	Prices map[string]quoin.Amount `json:"prices,omitempty"`
	// Trials compare each price that was tried with the price in force. Next are the prices to
	// try next.
	Trials []TriedPrice `json:"trials"`
	Next   []Next       `json:"next"`
	// Alone are the trials that stand beside no other price, and why.
	Alone []LeftOutTrials `json:"alone,omitempty"`
	// Market is where the prices to ask now stand among similar prints that sold. It is empty if
	// the year has no records of a market.
	Market []MarketStanding `json:"market"`
	// Reduced is the lowest price of the 30 days before each reduction. A reduction in all
	// channels has one entry for each channel that had a price.
	Reduced []history.Lowest `json:"reduced"`
	// Editions is what was sold of each.
	Editions []history.EditionSales `json:"editions"`
	// Matter are the figures that move lowest prices most if one is 10% lower or higher, at most
	// three.
	Matter []review.InputEffect `json:"matter"`
	// Doubts is what looks wrong in the history.
	Doubts quoin.Problems `json:"doubts,omitempty"`
	// Cautions belong under every printed result.
	Cautions []string `json:"cautions"`
}

// MarketStanding is where the price to ask now stands among what sold.
type MarketStanding struct {
	Product  string                          `json:"product"`
	Summary  market.Summary                  `json:"summary"`
	Position quoin.Optional[market.Position] `json:"position,omitzero"`
	// Noted are the records that the summary leaves out or that stand far from the others, by their
	// place in the list of the market.
	Noted map[int]comparables.Record `json:"noted,omitempty"`
}

// String writes what is given of the results.
func (r Results) String() string { return form.String(r) }

// String writes what is given of the standing.
func (s MarketStanding) String() string { return form.String(s) }

// reviewer is a year with what is worked out of it.
type reviewer struct {
	Year
	answer pricelist.Answer // of the new document
	items  []rule.Item
	prices map[string]quoin.Amount // in force today, where no channel says another
}

// Review goes over a year. Last prices are those that the history says are in force today. If it
// says none, they are those that the last document decides.
//
// The errors are quoin.Problems: those of the terms, in which channels are to be those of the
// new document, and those of review.Compare, trial.Compare, trial.Next and market.Summarize.
func Review(y Year) (Results, error) {
	if err := y.check(); err != nil {
		return Results{}, err
	}
	r, err := newReviewer(y)
	if err != nil {
		return Results{}, err
	}
	out := Results{Today: y.Today, Move: y.Move, Names: y.names(), Prices: r.prices, Alone: r.alone(), Doubts: y.History.Warnings(), Cautions: y.Now.Cautions()}
	for _, step := range []func() error{
		func() (err error) { out.Review, err = review.Compare(y.Last, r.prices, y.Now, y.Move); return err },
		func() (err error) { out.Trials, out.Next, err = r.trials(); return err },
		func() (err error) { out.Market, err = y.standings(out.Review.Moves); return err },
		func() (err error) { out.Reduced, err = y.reduced(); return err },
		func() (err error) { out.Editions, err = each(y.History.Editions(), y.History.Sold); return err },
		func() (err error) { out.Matter, err = y.matter(); return err },
	} {
		if err := step(); err != nil {
			return Results{}, err
		}
	}
	if len(out.Reduced) > 0 {
		out.Cautions = append(out.Cautions, history.LowestCaution)
	}
	return out, nil
}

func newReviewer(y Year) (r reviewer, err error) {
	r.Year = y
	if r.answer, err = pricelist.Decide(y.Now); err != nil {
		return r, err
	}
	if r.items, err = y.Now.Items(rule.Likely); err != nil {
		return r, err
	}
	known := y.History.Products()
	for _, p := range y.Now.Products {
		if !slices.Contains(known, p.ID) {
			continue
		}
		t, err := y.History.Timeline(p.ID, "")
		if err != nil {
			return r, err
		}
		if held, ok := t.On(y.Today); ok {
			if r.prices == nil {
				r.prices = make(map[string]quoin.Amount)
			}
			r.prices[p.ID] = held.Price
		}
	}
	return r, nil
}

// standings puts each price to ask now beside what prints of its size sold for, all
// with the tax of the list, without postage and frames.
func (y Year) standings(moves []review.Proposal) ([]MarketStanding, error) {
	if len(y.Market) == 0 {
		return nil, nil
	}
	return each(moves, func(m review.Proposal) (MarketStanding, error) {
		s, err := market.Summarize(y.Market, m.Product, market.Basis{Tax: y.Tax}, market.Options{Today: y.Today})
		return MarketStanding{Product: m.Product, Summary: s, Position: s.Position(m.Now), Noted: y.noted(s)}, err
	})
}

// noted are the records that a summary names.
func (y Year) noted(s market.Summary) map[int]comparables.Record {
	var out map[int]comparables.Record
	note := func(i int) {
		if out == nil {
			out = make(map[int]comparables.Record)
		}
		out[i] = y.Market[i]
	}
	for _, l := range s.LeftOut {
		note(l.Record)
	}
	for _, o := range s.Outliers {
		note(o.Record)
	}
	return out
}

// reduced is, for each reduction, the lowest price of the days before it; of one without
// a channel, in each channel that had a price.
func (y Year) reduced() ([]history.Lowest, error) {
	var out []history.Lowest
	for _, product := range y.History.Products() {
		for _, channel := range y.History.Channels(product) {
			found, err := y.reducedIn(product, channel)
			if err != nil {
				return nil, err
			}
			out = append(out, found...)
		}
	}
	return out, nil
}

func (y Year) reducedIn(product, channel string) ([]history.Lowest, error) {
	t, err := y.History.Timeline(product, channel)
	if err != nil {
		return nil, err
	}
	var out []history.Lowest
	for _, s := range t.Held {
		if s.Record != history.ReductionRecord || s.Channel != channel || !s.From.Equal(s.Stated.From) {
			continue
		}
		l, err := y.History.LowestBefore(product, channel, s.From, daysBefore)
		if err != nil {
			return nil, err
		}
		if len(l.Channels) == 0 || l.Price.IsZero() {
			out = append(out, l)
			continue
		}
		out = append(out, slices.DeleteFunc(l.Channels, func(one history.Lowest) bool { return one.Price.IsZero() })...)
	}
	return out, nil
}

// each is what is found for each of a list.
func each[T, R any](all []T, find func(T) (R, error)) ([]R, error) {
	var out []R
	for _, v := range all {
		found, err := find(v)
		if err != nil {
			return nil, err
		}
		out = append(out, found)
	}
	return out, nil
}

// matter is the first few inputs by what a tenth more or less of each does.
func (y Year) matter() ([]review.InputEffect, error) {
	all, err := review.Sensitivity(y.Now, quoin.Rate{})
	return slices.Clone(all[:min(len(all), review.Foremost)]), err
}
