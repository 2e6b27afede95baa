package waste

import (
	"slices"

	"example.com/quoin"
)

// Codes of the steps that explain what is lost.
const (
	StepYield    quoin.StepCode = "yield"        // 1 ÷ (1 + what is lost of the good)
	StepRecovers quoin.StepCode = "recovers"     // recovery × (1 − share of seconds) + their price × share
	StepOnward   quoin.StepCode = "yield_onward" // the yields of a stage and every later one, multiplied
	StepStarts   quoin.StepCode = "starts"       // 1 ÷ yield onward
	StepSpoiled  quoin.StepCode = "spoiled"      // starts here − starts at the next stage
	StepSalvage  quoin.StepCode = "salvage"      // recovers × spoiled
)

func unity() quoin.Operand { return quoin.FactorOf(1).Named("one") }

// ExplainStarts computes the starts at stage i, step by step. At returns the path of a stage.
// If nothing is lost at this stage and later, there is no step: starts are 1 for each good
// piece.
func (r Route) ExplainStarts(t *quoin.Trail, i int, at func(int) quoin.Path) quoin.Operand {
	if i >= len(r) || !slices.ContainsFunc(r[i:], Stage.loses) {
		return quoin.GivenOr(string(StepStarts), quoin.Path{}, quoin.FactorOf(1).Figure(), false)
	}
	yields := make([]quoin.Operand, 0, len(r)-i)
	for j, s := range r[i:] {
		yields = append(yields, s.explainYield(t, at(i+j)))
	}
	t.On(r[i].ID)
	return t.Quotient(StepStarts, at(i), unity(), t.Product(StepOnward, at(i), yields...))
}

// loses reports whether the stage says what is lost at it.
func (s Stage) loses() bool {
	return !s.Yield.IsZero() || !s.LostOfGood.IsZero() || !s.LostOfStarted.IsZero()
}

func (s Stage) explainYield(t *quoin.Trail, at quoin.Path) quoin.Operand {
	switch {
	case !s.Yield.IsZero():
		return quoin.Given("yield", at.Field("yield"), s.Yield.Figure())
	case !s.LostOfGood.IsZero():
		lost := quoin.Given("lost of good", at.Field("lost_of_good"), s.LostOfGood.Figure())
		return t.On(s.ID).Quotient(StepYield, at, unity(), lost.OnePlus())
	case !s.LostOfStarted.IsZero():
		return quoin.Given("lost of started", at.Field("lost_of_started"), s.LostOfStarted.Figure()).OneMinus()
	}
	return quoin.GivenOr("yield", at.Field("yield"), quoin.FactorOf(1).Rate().Figure(), false)
}

func (s Stage) explainRecovers(t *quoin.Trail, at quoin.Path) quoin.Operand {
	recovery := quoin.GivenOr("recovery", at.Field("recovery"), s.Recovery.Figure(), !s.Recovery.IsZero())
	if s.Seconds.Share.IsZero() {
		return recovery
	}
	seconds := at.Sub("seconds", -1)
	share := quoin.Given("share of seconds", seconds.Field("share"), s.Seconds.Share.Figure())
	price := quoin.Given("price of seconds", seconds.Field("price"), s.Seconds.Price.Figure())
	return t.Weighted(StepRecovers, at, recovery, share.OneMinus(), price, share)
}

// ExplainSalvage computes what stage i gives back for each good piece, from the starts there
// and at the next stage. It returns nothing if there is no such stage.
func (r Route) ExplainSalvage(t *quoin.Trail, i int, at func(int) quoin.Path, here, next quoin.Operand) quoin.Operand {
	if i >= len(r) {
		return quoin.GivenOr(string(StepSalvage), quoin.Path{}, quoin.Amount{}.Figure(), false)
	}
	t.On(r[i].ID)
	spoiled := t.Sum(StepSpoiled, at(i), here, next.Minus())
	return t.Product(StepSalvage, at(i), r[i].explainRecovers(t, at(i)), spoiled)
}
