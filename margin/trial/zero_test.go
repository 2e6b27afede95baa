package trial_test

import (
	"testing"

	"example.com/quoin/internal/zerotest"
	"example.com/quoin/margin/trial"
)

func TestZeroValues(t *testing.T) {
	all := []any{
		trial.Answer(""), trial.Mark(""),
		trial.Options{},
		trial.Comparison{},
		trial.LeftOut{},
		trial.SampleSize{},
		trial.Point{},
		trial.SlopeOptions{},
		trial.Slope{},
		trial.AtPrice{},
		trial.SlopeMark(""),
		trial.Group{},
		trial.Side{},
		trial.SingleLook{},
		trial.LookPrice{},
		trial.Choice{},
		trial.Belief{},
		trial.Proposal{},
		trial.Reason(""),
		trial.Candidate{},
		trial.TrialValue{},
		trial.Period{},
		trial.Exposure{},
		trial.Kind(""),
		trial.Certainty{},
		trial.SalesCount{},
		trial.Rate{},
		trial.Share{},
		trial.Ratio{},
		trial.Rates{},
		trial.Compare, trial.Elasticity, trial.SlopeOf, trial.Inflation, trial.Next, trial.VisitorsToTell,
		trial.ExposureToTell, trial.SalesToTell, trial.RateOf, trial.ShareOf,
		trial.CompareRates,
	}
	zerotest.Complete(t, all...)
	zerotest.Calls(t, all...)
	zerotest.Printed(t, all...)
}
