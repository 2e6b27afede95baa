package annual

import (
	"fmt"

	"example.com/quoin"
	"example.com/quoin/internal/prose"
	"example.com/quoin/margin/history"
	"example.com/quoin/margin/market"
	"example.com/quoin/margin/trial"
)

// answers are what is said of each answer.
var answers = map[trial.Answer]string{
	trial.Better: "better", trial.Worse: "worse", trial.CannotTell: "can't tell yet",
}

func (w writer) trials(all []Trial) {
	if len(all) == 0 {
		return
	}
	w.Section("What the trials say", ", unlike occasions kept apart")
	for i, t := range all {
		if i > 0 {
			w.Gap()
		}
		c := t.Comparison
		w.Topic("%s at %s beside %s: %s", t.Product, w.money(t.Price), w.money(t.Beside), answers[c.Answer])
		w.Line(1, "since: %s", list(c.Why, prose.Words[trial.Mark]))
		for _, g := range c.Groups {
			w.group(g)
		}
		if ratio, ok := c.Anytime.Get(); ok {
			w.Line(1, "%s earns %s to %s times as much, however often one looks", w.money(t.Price), number(ratio.Low, 2), upTo(ratio))
		}
		w.Line(1, "who went by the 95%% of each of %d looks would be misled in %s of trials", c.Look, percent(c.Inflation))
		if n, ok := c.Needed.Get(); ok && c.Answer == trial.CannotTell {
			w.Line(1, "%s", w.needed(n, c.Groups))
		}
		for _, l := range c.LeftOut {
			w.Line(1, "not held against it: %s, %s", l.ID, prose.Words(l.Mark))
		}
	}
}

func (w writer) group(g trial.Group) {
	w.Table(1, g.Channel+", "+prose.Words(g.Kind), "sold", "of", "per 100", "95% from", "to", "earned")
	w.side(g.A, g.Once.A)
	w.side(g.B, g.Once.B)
}

// side is a price, with its rate and earnings for a hundred visits or visitors.
func (w writer) side(s trial.Side, o trial.One) {
	hundred := quoin.FactorOf(100)
	of := func(f quoin.Factor) string { return number(f.Times(hundred), 2) }
	w.Row(2, w.money(s.Price), fmt.Sprint(s.Units), number(s.Exposure, 0), of(o.Rate.Value), of(o.Rate.Interval.Low), of(o.Rate.Interval.High), w.money(o.Earnings.Times(hundred)))
}

func upTo(r trial.Ratio) string {
	if high, ok := r.High.Get(); ok {
		return number(high, 2)
	}
	return "any number of"
}

func (w writer) needed(n trial.Needed, groups []trial.Group) string {
	text := fmt.Sprintf("to tell a difference of %s takes %d sales of both, %d more", percent(n.Difference), n.Sales, n.More)
	if e, ok := n.Exposure.Get(); ok && len(groups) == 1 {
		text += fmt.Sprintf(": at this pace %s more %s", number(e, 0), prose.Words(groups[0].Kind))
	}
	return text
}

func (w writer) next(all []Next) {
	if len(all) == 0 {
		return
	}
	w.Section("Which price to try next", ", beside what costs ask for")
	for _, n := range all {
		price, ok := n.Proposal.Price.Get()
		if ok {
			w.Line(0, "%s, %s: try %s beside %s: %s", n.Product, n.Channel, w.money(price), w.money(n.Today), prose.Words(n.Proposal.Reason))
		} else {
			w.Line(0, "%s, %s: none beside %s: %s", n.Product, n.Channel, w.money(n.Today), prose.Words(n.Proposal.Reason))
		}
		if c, ok := n.closest(); ok {
			w.candidate(c)
		}
	}
}

// closest is the candidate that is proposed, or else the one that would be told
// soonest; none while a trial is on.
func (n Next) closest() (trial.Candidate, bool) {
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

func (w writer) candidate(c trial.Candidate) {
	t, _ := c.Trial.Get()
	w.Line(1, "%s is told soonest: if it earns %s times as much, or as much less, after %d sales, %s of exposure to each price",
		w.money(c.Price), number(t.Difference, 2), t.Sales, number(t.Exposure, 0))
	w.Line(1, "that is expected to lose %s on the way, and to bring %s after", w.money(t.Loss), w.money(t.Gain))
}

func (w writer) market(all []Standing) {
	if len(all) == 0 {
		return
	}
	w.Section("Where the prices stand", " among prints like these that sold")
	for _, s := range all {
		position, ok := s.Position.Get()
		if !ok {
			w.Line(0, "%s: nothing to say yet; collect %s", s.Product, lacking(s.Summary.Collect))
			continue
		}
		w.Line(0, "%s: %s is above %s of them, between %s and %s; the middle is %s", s.Product, w.money(position.Price),
			percent(position.Percentile), percent(position.Interval.Low), percent(position.Interval.High), w.maybe(s.Summary.Centre))
		for _, v := range s.Summary.Venues {
			w.Line(1, "%s: %s of %s, the middle %s", v.Name, prose.Count(v.Records, "price"), prose.Count(v.Sellers, "seller"), w.maybe(v.Median))
		}
		for _, l := range s.Summary.LeftOut {
			w.Line(1, "left out: record %d, %s", l.Record+1, prose.Words(l.Code))
		}
		for _, o := range s.Summary.Outliers {
			w.Line(1, "look at: record %d, %s, %s", o.Record+1, w.money(o.Price), prose.Words(o.Code))
		}
	}
}

func lacking(c market.Collect) string {
	text := "more"
	if c.Sales > 0 {
		text = prose.Count(c.Sales, "more price") + " at which prints sold"
	}
	if c.Venues > 0 {
		text += ", from " + prose.Count(c.Venues, "more venue")
	}
	return text
}

func (w writer) past(r Results) {
	if len(r.Reduced)+len(r.Editions)+len(r.Doubts) == 0 {
		return
	}
	w.Section("Before each reduction", ", and what was sold of editions")
	for _, l := range r.Reduced {
		w.Line(0, "%s%s, reduced on %s: the lowest price of the %d days before was %s", l.Product, where(l.Channel), l.Window.Until, l.Asked, w.maybe(l.Price))
		for _, s := range l.Held {
			w.Line(1, "%s: %s", s.Days, w.money(s.Price))
		}
	}
	for _, e := range r.Editions {
		w.Line(0, "edition %s: %s; %s", e.Edition, list(e.Numbers, numbered), prose.Count(int64(len(e.Proofs)), "proof"))
	}
	for _, d := range r.Doubts {
		w.Line(0, "look at: %v", d)
	}
}

func numbered(s history.Placed[history.Sale]) string { return fmt.Sprintf("no. %d", s.Entry.Number) }

// number is a factor with its places cut to so many.
func number(f quoin.Factor, places int) string { return fmt.Sprintf("%.*f", places, f) }
