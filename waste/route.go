package waste

import "example.com/quoin"

// Stage is one step of making at which pieces can fail.
type Stage struct {
	ID string `json:"id" need:"yes"`
	// Yield is the share of the pieces started at this stage that leave it
	// good, above 0 and at most 1; zero means all of them.
	Yield      quoin.Rate              `json:"yield,omitzero" range:"(0,1]"`
	YieldRange quoin.Range[quoin.Rate] `json:"yield_range,omitzero" dear:"low"`
	// Recovery is what a spoiled piece still brings or saves, such as paper
	// that is cut into cards.
	Recovery quoin.Amount `json:"recovery,omitzero" range:"[0,"`
}

func (s Stage) yield() quoin.Factor {
	if s.Yield.IsZero() {
		return quoin.FactorOf(1)
	}
	return s.Yield.Factor()
}

// Route is the stages a piece goes through, in order.
type Route []Stage

// Starts returns how many pieces must enter a stage for one good piece at the
// end: 1 ÷ (its yield and every later one, multiplied), to 34 significant
// digits. It returns false for a stage that is not on the route.
func (r Route) Starts(stage string) (quoin.Factor, bool) {
	for i := range r {
		if r[i].ID == stage {
			return r.startsAt(i), true
		}
	}
	return quoin.Factor{}, false
}

func (r Route) startsAt(i int) quoin.Factor {
	good := quoin.FactorOf(1)
	for _, s := range r[i:] {
		good = good.Times(s.yield())
	}
	return quoin.FactorOf(1).Over(good)
}

// First returns the id of the first stage, empty where there is none.
func (r Route) First() string {
	if len(r) == 0 {
		return ""
	}
	return r[0].ID
}

// Yield returns the share of what is started at the first stage that comes
// out good at the end.
func (r Route) Yield() quoin.Rate {
	good := quoin.FactorOf(1)
	for _, s := range r {
		good = good.Times(s.yield())
	}
	return good.Rate()
}

// Salvage is what the pieces spoiled at one stage give back for each good
// piece at the end.
type Salvage struct {
	Stage   string
	Spoiled quoin.Factor // starts here less starts at the next stage
	Amount  quoin.Amount // recovery × spoiled
}

// Salvage returns what each stage with a recovery gives back, per good piece.
func (r Route) Salvage() []Salvage {
	var out []Salvage
	for i, s := range r {
		if s.Recovery.IsZero() {
			continue
		}
		spoiled := r.startsAt(i).Sub(r.startsAt(i + 1))
		out = append(out, Salvage{s.ID, spoiled, s.Recovery.Times(spoiled)})
	}
	return out
}

// Recovered returns the sum of Salvage: what is taken off the cost of each
// good piece.
func (r Route) Recovered() quoin.Amount {
	var sum quoin.Amount
	for _, s := range r.Salvage() {
		sum = sum.Add(s.Amount)
	}
	return sum
}
