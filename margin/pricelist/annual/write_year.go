package annual

import (
	"cmp"
	"fmt"
	"slices"

	"example.com/quoin"
	"example.com/quoin/internal/prose"
	"example.com/quoin/margin/history"
	"example.com/quoin/margin/market"
	"example.com/quoin/margin/trial"
)

func (w writer) trials(r Results) {
	if len(r.Trials)+len(r.Alone) == 0 {
		return
	}
	w.Section("What the trials say", ", like compared with like")
	for i, t := range r.Trials {
		if i > 0 {
			w.Gap()
		}
		w.tried(t)
	}
	for _, l := range r.Alone {
		w.Line(0, "%s, %s: not compared; %s", w.product(l.Product), w.trialsOf(l), w.lone(l, priceOf(r.Prices, l.Product)))
	}
}

func priceOf(prices map[string]quoin.Amount, product string) quoin.Optional[quoin.Amount] {
	if price, ok := prices[product]; ok {
		return quoin.Some(price)
	}
	return quoin.Optional[quoin.Amount]{}
}

func (w writer) tried(t TriedPrice) {
	c := t.Comparison
	w.Topic("%s at %s beside %s: %s", w.product(t.Product), w.money(t.Price), w.money(t.Beside), say(c.Answer))
	if why := reasons(c); len(why) > 0 {
		w.Line(1, "since: %s", joined("; ", why, say))
	}
	for _, g := range c.Groups {
		w.group(g, c.Groups)
	}
	if ratio, ok := c.Anytime.Get(); ok {
		w.Line(1, "%s earns %s to %s times as much as %s, however often you check", w.money(t.Price), number(ratio.Low, 2), upTo(ratio), w.money(t.Beside))
	}
	if len(c.Groups) > 0 {
		w.Line(1, "if you check %s with an ordinary 95%% test, you see a difference where there is none in %s of 100 trials", prose.Count(c.Look, "time"), number(c.Inflation.Factor().Times(hundred()), 0))
	}
	if n, ok := c.Needed.Get(); ok && c.Answer == trial.CannotTell {
		w.Line(1, "%s", w.needed(n, c.Groups))
	}
	for _, l := range t.LeftOut {
		other := t.Price
		if l.Price.Equal(t.Price) {
			other = t.Beside
		}
		w.Line(1, "left out: %s: %s", w.trialsOf(l), w.unlike(l, other))
	}
}

// reasons are why a trial is answered so. Why periods are left out is said of each.
func reasons(c trial.Comparison) []trial.Mark {
	return slices.DeleteFunc(slices.Clone(c.Why), func(m trial.Mark) bool {
		return slices.ContainsFunc(c.LeftOut, func(l trial.LeftOut) bool { return l.Mark == m })
	})
}

func hundred() quoin.Factor { return quoin.FactorOf(100) }

// group is named by its channel, and by its occasion where there are several there.
func (w writer) group(g trial.Group, all []trial.Group) {
	name := w.channel(g.Channel)
	if g.Occasion != "" && slices.ContainsFunc(all, func(o trial.Group) bool { return o.Channel == g.Channel && o.Occasion != g.Occasion }) {
		name += fmt.Sprintf(", %q", g.Occasion)
	}
	w.Table(1, name+", "+prose.Words(g.Kind), "sold", "of", "per 100", "95% from", "to", "earned")
	w.side(g.A, g.Once.A)
	w.side(g.B, g.Once.B)
}

// side is a price, with its rate and earnings for a hundred visits or visitors.
func (w writer) side(s trial.Side, o trial.LookPrice) {
	of := func(f quoin.Factor) string { return number(f.Times(hundred()), 2) }
	w.Row(2, w.money(s.Price), fmt.Sprint(s.Units), number(s.Exposure, 0), of(o.Rate.Value), of(o.Rate.Interval.Low), of(o.Rate.Interval.High), w.money(o.Earnings.Times(hundred())))
}

func upTo(r trial.Ratio) string {
	if high, ok := r.High.Get(); ok {
		return number(high, 2)
	}
	return "any number of"
}

func (w writer) needed(n trial.SampleSize, groups []trial.Group) string {
	text := fmt.Sprintf("a difference of %s shows after %d sales at both prices together, %d more than now", percent(n.Difference), n.Sales, n.More)
	if e, ok := n.Exposure.Get(); ok && len(groups) == 1 {
		text += fmt.Sprintf("; at this pace that takes %s more %s", number(e, 0), prose.Words(groups[0].Kind))
	}
	return text
}

func (w writer) next(all []Next) {
	if len(all) == 0 {
		return
	}
	w.Section("Which price to try next", "")
	for _, n := range all {
		price, ok := n.Proposal.Price.Get()
		try := ""
		if ok {
			try = fmt.Sprintf("try %s beside %s: ", w.money(price), w.money(n.Today))
		}
		w.Line(0, "%s at %s, %s: %s%s", w.product(n.Product), w.money(n.Today), w.channel(n.Channel), try, say(n.Proposal.Reason))
		if c, ok := n.closest(); ok {
			w.candidate(n, c)
		}
	}
}

// closest is the candidate that is proposed, or else the one that would be told
// soonest; none while a trial is on.
func (n Next) closest() (trial.Candidate, bool) {
	price, proposed := n.Proposal.Price.Get()
	told := slices.DeleteFunc(slices.Clone(n.Proposal.Candidates), func(c trial.Candidate) bool {
		return c.Trial.IsZero() || proposed && !c.Price.Equal(price)
	})
	if len(told) == 0 || n.Proposal.Reason == trial.Unfinished {
		return trial.Candidate{}, false
	}
	exposure := func(c trial.Candidate) quoin.Factor { return c.Trial.Or(trial.TrialValue{}).Exposure }
	return slices.MinFunc(told, func(a, b trial.Candidate) int { return exposure(a).Cmp(exposure(b)) }), true
}

func (w writer) candidate(n Next, c trial.Candidate) {
	t, _ := c.Trial.Get()
	which := "the test"
	if n.Proposal.Price.IsZero() {
		which = "the quickest test is " + w.money(c.Price)
	}
	w.Line(1, "%s: a difference of %s shows after %d sales (%s %s at each price)", which,
		percent(t.Difference.Sub(quoin.FactorOf(1)).Rate()), t.Sales, number(t.Exposure, 0), prose.Words(n.Counted))
	w.Line(1, "it is expected to lose %s while it runs, and to bring %s after it", w.money(t.Loss), w.money(t.Gain))
}

func (w writer) market(all []MarketStanding) {
	if len(all) == 0 {
		return
	}
	w.Section("Where the prices stand", " among prints like these that sold")
	for _, s := range all {
		position, ok := s.Position.Get()
		if !ok {
			w.Line(0, "%s: too few sales to compare with; note %s", w.product(s.Product), lacking(s.Summary.Collect))
			continue
		}
		w.Line(0, "%s: %s is dearer than %s of them (with so few, anything from %s to %s); the middle price is %s", w.product(s.Product), w.money(position.Price),
			percent(position.Percentile), percent(position.Interval.Low), percent(position.Interval.High), w.maybe(s.Summary.Centre))
		for _, v := range s.Summary.Venues {
			w.Line(1, "%s: %s of %s, the middle one %s", v.Name, prose.Count(v.Records, "price"), prose.Count(v.Sellers, "seller"), w.maybe(v.Median))
		}
		for _, l := range s.Summary.LeftOut {
			w.Line(1, "left out: %s (%s)", w.noted(s, l.Record), say(l.Code))
		}
		for _, o := range s.Summary.Outliers {
			w.Line(1, "have a look at %s: with your tax, and without postage and frame, it is %s, which is %s", w.noted(s, o.Record), w.money(o.Price), say(o.Code))
		}
	}
}

// noted says what was noted: at what price, where, by whom and when.
func (w writer) noted(s MarketStanding, record int) string {
	r, ok := s.Noted[record]
	if !ok {
		return fmt.Sprintf("price %d of the market", record+1)
	}
	text := w.money(r.Price) + " at " + r.Venue + prose.Behind(", ", r.Seller)
	if !r.Date.IsZero() {
		text += ", " + r.Date.String()
	}
	return text
}

func lacking(c market.Missing) string {
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
	if len(r.Reduced) > 0 {
		w.Section("Before each reduction", "")
	}
	for _, l := range r.Reduced {
		w.Line(0, "%s%s, reduced on %s: the lowest price of the %d days before was %s", w.product(l.Product), prose.Behind(" in ", w.channel(l.Channel)), l.Window.Until, l.Asked, w.maybe(l.Price))
		for _, s := range l.Held {
			w.Line(1, "%s: %s", s.Days, w.money(s.Price))
		}
	}
	if len(r.Editions) > 0 {
		w.Section("What was sold of editions", "")
	}
	for _, e := range r.Editions {
		w.Line(0, "%s: %s; %s", w.edition(e.Edition), cmp.Or(list(e.Numbers, numbered), "no numbers"), prose.Count(int64(len(e.Proofs)), "proof"))
	}
	if len(r.Doubts) > 0 {
		w.Section("What looks wrong in the history", "")
	}
	for _, d := range r.Doubts {
		w.Line(0, "%v", d)
	}
}

func numbered(s history.Placed[history.Sale]) string { return fmt.Sprintf("no. %d", s.Entry.Number) }
