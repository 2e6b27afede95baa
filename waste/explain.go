package waste

import "example.com/quoin"

// Codes of the steps that explain what is lost.
const (
	StepOnward  quoin.StepCode = "yield_onward" // the yields of a stage and every later one, multiplied
	StepStarts  quoin.StepCode = "starts"       // 1 ÷ yield onward
	StepSpoiled quoin.StepCode = "spoiled"      // starts here − starts at the next stage
	StepSalvage quoin.StepCode = "salvage"      // recovery × spoiled
)

func unity() quoin.Operand { return quoin.Given("one", quoin.Path{}, quoin.FactorOf(1).Figure()) }

// ExplainStarts computes the starts at stage i, where at gives the path of a
// stage.
func (r Route) ExplainStarts(t *quoin.Trail, i int, at func(int) quoin.Path) quoin.Operand {
	if i >= len(r) {
		return unity().Called(string(StepStarts))
	}
	t.On(r[i].ID)
	yields := make([]quoin.Operand, 0, len(r)-i)
	for j, s := range r[i:] {
		yields = append(yields, quoin.GivenOr("yield", at(i+j).Field("yield"), s.yield().Rate().Figure(), !s.Yield.IsZero()))
	}
	return t.Quotient(StepStarts, at(i), unity(), t.Product(StepOnward, at(i), yields...))
}

// ExplainSalvage computes what stage i gives back for each good piece, from the
// starts there and at the next.
func (r Route) ExplainSalvage(t *quoin.Trail, i int, at func(int) quoin.Path, here, next quoin.Operand) quoin.Operand {
	t.On(r[i].ID)
	spoiled := t.Sum(StepSpoiled, at(i), here, next.Minus())
	return t.Product(StepSalvage, at(i), quoin.Given("recovery", at(i).Field("recovery"), r[i].Recovery.Figure()), spoiled)
}
