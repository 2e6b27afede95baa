package waste_test

import (
	"testing"

	"example.com/quoin"
	"example.com/quoin/waste"
)

// Where neither a stage nor a later one says that anything is lost, one piece is started
// for a good one, and there is no sum to show: 1 ÷ 1 would be steps about nothing. A stage
// before a loss has both steps, 1 ÷ 0.9.
func TestNoStepsWhereNothingIsLost(t *testing.T) {
	route := waste.Route{{ID: "proof"}, {ID: "print", Yield: quoin.MustRate("90%")}, {ID: "dry"}, {ID: "pack"}}
	for i, want := range []int{2, 2, 0, 0, 0} {
		trail := quoin.NewTrail(4)
		starts := route.ExplainStarts(trail, i, func(j int) quoin.Path { return quoin.InList("stages", j) })
		if got := len(trail.Steps()); got != want {
			t.Errorf("stage %d: %d steps, want %d", i, got, want)
		}
		if got := starts.Value.Factor(); want == 0 && (!got.Equal(quoin.FactorOf(1)) || !starts.Neutral(quoin.OpProduct) || !starts.Default) {
			t.Errorf("stage %d: %s starts, want 1, as what holds where nothing is said", i, got)
		}
	}
}
