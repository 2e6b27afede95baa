package waste

import "example.com/quoin"

// Stage is one step of making at which pieces can fail. The loss is given in one of three ways,
// which differ: 15% lost of the started pieces is a yield of 85%; 15% lost of the good pieces
// is a yield of 86.96%.
type Stage struct {
	// What lines of bills refer to the stage by.
	ID string `json:"id" need:"yes"`
	// What somebody reading the document should know, such as where a figure comes from. It is read,
	// and has no part in any sum.
	Note string `json:"note,omitempty"`
	// The share of the pieces started here that leave the stage good, above 0; all of them where
	// it is not given. 15% lost is a yield of 85%.
	Yield      quoin.Rate              `json:"yield,omitzero" range:"(0,1]" or:"lost_of_started lost_of_good"`
	YieldRange quoin.Range[quoin.Rate] `json:"yield_range,omitzero" dear:"low"`
	// In place of yield: what is spoiled, as a share of the pieces started here; below 1.
	LostOfStarted      quoin.Rate              `json:"lost_of_started,omitzero" range:"[0,1)"`
	LostOfStartedRange quoin.Range[quoin.Rate] `json:"lost_of_started_range,omitzero" dear:"high"`
	// In place of yield: what is spoiled, as a share of the pieces that come out good.
	LostOfGood      quoin.Rate              `json:"lost_of_good,omitzero" range:"[0,"`
	LostOfGoodRange quoin.Range[quoin.Rate] `json:"lost_of_good_range,omitzero" dear:"high"`
	// What a spoiled piece still brings or saves; nothing where it is not given.
	Recovery quoin.Amount `json:"recovery,omitzero" range:"[0,"`
	// The spoiled pieces that are sold cheap; none where it is not given.
	Seconds Seconds `json:"seconds,omitzero"`
}

// Seconds are spoiled pieces that are good enough to be sold cheap.
type Seconds struct {
	// Their share of the spoiled pieces.
	Share quoin.Rate `json:"share" need:"yes" range:"[0,1]"`
	// What one brings, after what selling it costs.
	Price quoin.Amount `json:"price" need:"yes" range:"[0,"`
}

// yield is the share of what is started that comes out good, however it is
// given.
func (s Stage) yield() quoin.Factor {
	switch {
	case !s.Yield.IsZero():
		return s.Yield.Factor()
	case !s.LostOfGood.IsZero():
		return quoin.FactorOf(1).Over(some(s.LostOfGood.OnePlus()))
	}
	return s.LostOfStarted.Complement()
}

// Recovers returns what a spoiled piece brings on average: recovery × (1 − share of seconds) +
// price of seconds × share, exactly. 0.40 with a quarter sold at 4.00 is 1.30.
func (s Stage) Recovers() quoin.Amount {
	return s.Recovery.Times(s.Seconds.Share.Complement()).Add(s.Seconds.Price.Part(s.Seconds.Share))
}

// Route is the stages that a piece goes through, in order.
type Route []Stage

// Starts returns how many pieces must enter a stage for one good piece at the end: 1 ÷ (its
// yield × all later yields), to 34 significant digits. Yields of 90% and 80% give 1 ÷ 0.72 =
// 1.3889 at the first. It returns false for a stage that is not on the route. It panics if a
// stage loses everything.
func (r Route) Starts(stage string) (quoin.Factor, bool) {
	for i := range r {
		if r[i].ID == stage {
			return r.startsAt(i), true
		}
	}
	return quoin.Factor{}, false
}

func (r Route) startsAt(i int) quoin.Factor {
	return quoin.FactorOf(1).Over(some(r[i:].Yield().Factor()))
}

// some is what is left of pieces; none is a fault that Check finds.
func some(left quoin.Factor) quoin.Factor {
	if left.IsZero() {
		panic("quoin: a stage that loses all, of which nothing comes out: Route.Check refuses it")
	}
	return left
}

// First returns the id of the first stage, or "" if there is none.
func (r Route) First() string {
	if len(r) == 0 {
		return ""
	}
	return r[0].ID
}

// Yield returns the share of the pieces started at the first stage that come out good at the
// end.
func (r Route) Yield() quoin.Rate {
	good := quoin.FactorOf(1)
	for _, s := range r {
		good = good.Times(s.yield())
	}
	return good.Rate()
}

// Salvage is what the spoiled pieces of one stage give back for each good piece at the end.
type Salvage struct {
	Stage   string
	Spoiled quoin.Factor // starts here less starts at the next stage
	Amount  quoin.Amount // what a spoiled piece recovers × spoiled
}

// Salvage returns what each stage with a recovery gives back for each good piece.
func (r Route) Salvage() []Salvage {
	var out []Salvage
	for i, s := range r {
		recovers := s.Recovers()
		if recovers.IsZero() {
			continue
		}
		spoiled := r.startsAt(i).Sub(r.startsAt(i + 1))
		out = append(out, Salvage{s.ID, spoiled, recovers.Times(spoiled)})
	}
	return out
}

// Recovered returns the sum of Salvage. It is subtracted from the cost of each good piece.
func (r Route) Recovered() quoin.Amount {
	var sum quoin.Amount
	for _, s := range r.Salvage() {
		sum = sum.Add(s.Amount)
	}
	return sum
}
