package main

import (
	"fmt"

	"example.com/quoin"
	"example.com/quoin/margin/history"
	"example.com/quoin/margin/market"
	"example.com/quoin/margin/trial"
)

var answers = map[trial.Answer]string{
	trial.Better: "better", trial.Worse: "worse", trial.CannotTell: "can't tell yet",
}

func (p *page) trials(all []tried) {
	p.title("WHAT THE TRIALS SAY, unlike occasions kept apart")
	for i, t := range all {
		if i > 0 {
			p.gap()
		}
		c := t.Comparison
		p.line(2, "%s at %s beside %s: %s", t.Product, money(t.Price), money(t.Beside), answers[c.Answer])
		p.line(4, "since: %s", list(c.Why, words[trial.Mark]))
		for _, g := range c.Groups {
			p.group(g)
		}
		if ratio, ok := c.Anytime.Get(); ok {
			p.line(4, "%s earns %s to %s times as much, however often one looks", money(t.Price), number(ratio.Low, 2), upTo(ratio))
		}
		p.line(4, "who went by the 95%% of each of %d looks would be misled in %s of trials", c.Look, percent(c.Inflation))
		if n, ok := c.Needed.Get(); ok && c.Answer == trial.CannotTell {
			p.line(4, "%s", needed(n, c.Groups))
		}
		for _, l := range c.LeftOut {
			p.line(4, "not held against it: %s, %s", l.ID, words(l.Mark))
		}
	}
}

func (p *page) group(g trial.Group) {
	p.row(4, g.Channel+", "+words(g.Kind), "sold", "of", "per 100", "95% from", "to", "earned")
	p.side(g.A, g.Once.A)
	p.side(g.B, g.Once.B)
}

// side is a price, with its rate and earnings for a hundred visits or visitors.
func (p *page) side(s trial.Side, o trial.One) {
	hundred := quoin.FactorOf(100)
	of := func(f quoin.Factor) string { return number(f.Times(hundred), 2) }
	p.row(6, money(s.Price), fmt.Sprint(s.Units), number(s.Exposure, 0), of(o.Rate.Value), of(o.Rate.Interval.Low), of(o.Rate.Interval.High), money(o.Earnings.Times(hundred)))
}

func upTo(r trial.Ratio) string {
	if high, ok := r.High.Get(); ok {
		return number(high, 2)
	}
	return "any number of"
}

func needed(n trial.Needed, groups []trial.Group) string {
	text := fmt.Sprintf("to tell a difference of %s takes %d sales of both, %d more", percent(n.Difference), n.Sales, n.More)
	if e, ok := n.Exposure.Get(); ok && len(groups) == 1 {
		text += fmt.Sprintf(": at this pace %s more %s", number(e, 0), words(groups[0].Kind))
	}
	return text
}

func (p *page) next(all []next) {
	p.title("WHICH PRICE TO TRY NEXT, beside what costs ask for")
	for _, n := range all {
		price, ok := n.Proposal.Price.Get()
		if ok {
			p.line(2, "%s, %s: try %s beside %s: %s", n.Product, n.Channel, money(price), money(n.Today), words(n.Proposal.Reason))
		} else {
			p.line(2, "%s, %s: none beside %s: %s", n.Product, n.Channel, money(n.Today), words(n.Proposal.Reason))
		}
		if c, ok := n.closest(); ok {
			p.candidate(c)
		}
	}
}

// closest is the candidate that is proposed, or else the one that would be told
// soonest; none while a trial is on.
func (n next) closest() (trial.Candidate, bool) {
	var best trial.Candidate
	found := false
	price, proposed := n.Proposal.Price.Get()
	for _, c := range n.Proposal.Candidates {
		t, ok := c.Trial.Get()
		switch {
		case !ok || n.Proposal.Reason == trial.Unfinished:
			continue
		case proposed && c.Price.Equal(price):
			return c, true
		case !found || t.Exposure.Cmp(best.Trial.Or(trial.Trial{}).Exposure) < 0:
			best, found = c, true
		}
	}
	return best, found
}

func (p *page) candidate(c trial.Candidate) {
	t, _ := c.Trial.Get()
	p.line(4, "%s is told soonest: if it earns %s times as much, or as much less, after %d sales, %s of exposure to each price",
		money(c.Price), number(t.Difference, 2), t.Sales, number(t.Exposure, 0))
	p.line(4, "that is expected to lose %s on the way, and to bring %s after", money(t.Loss), money(t.Gain))
}

func (p *page) market(all []standing) {
	p.title("WHERE THE PRICES STAND among prints like these that sold")
	for _, s := range all {
		position, ok := s.Position.Get()
		if !ok {
			p.line(2, "%s: nothing to say yet; collect %s", s.Product, lacking(s.Summary.Collect))
			continue
		}
		p.line(2, "%s: %s is above %s of them, between %s and %s; the middle is %s", s.Product, money(position.Price),
			percent(position.Percentile), percent(position.Interval.Low), percent(position.Interval.High), maybe(s.Summary.Centre))
		for _, v := range s.Summary.Venues {
			p.line(4, "%s: %s of %s, the middle %s", v.Name, count(v.Records, "price"), count(v.Sellers, "seller"), maybe(v.Median))
		}
		for _, l := range s.Summary.LeftOut {
			p.line(4, "left out: record %d, %s", l.Record+1, words(l.Code))
		}
		for _, o := range s.Summary.Outliers {
			p.line(4, "look at: record %d, %s, %s", o.Record+1, money(o.Price), words(o.Code))
		}
	}
}

func lacking(c market.Collect) string {
	text := "more"
	if c.Sales > 0 {
		text = count(c.Sales, "more price") + " at which prints sold"
	}
	if c.Venues > 0 {
		text += ", from " + count(c.Venues, "more venue")
	}
	return text
}

func count(n int64, of string) string {
	if n == 1 {
		return "1 " + of
	}
	return fmt.Sprintf("%d %ss", n, of)
}

func (p *page) past(r results) {
	p.title("BEFORE EACH REDUCTION, and what was sold of editions")
	for _, l := range r.Reduced {
		p.line(2, "%s%s, reduced on %s: the lowest price of the %d days before was %s", l.Product, where(l.Channel), l.Window.Until, l.Asked, maybe(l.Price))
		for _, s := range l.Held {
			p.line(4, "%s: %s", s.Days, money(s.Price))
		}
	}
	for _, e := range r.Editions {
		p.line(2, "edition %s: %s; %s", e.Edition, list(e.Numbers, numbered), count(int64(len(e.Proofs)), "proof"))
	}
	for _, d := range r.Doubts {
		p.line(2, "look at: %v", d)
	}
}

func numbered(s history.Placed[history.Sale]) string { return fmt.Sprintf("no. %d", s.Entry.Number) }
