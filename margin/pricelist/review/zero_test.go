package review_test

import (
	"testing"

	"example.com/quoin/internal/zerotest"
	"example.com/quoin/margin/pricelist/review"
)

func TestZeroValues(t *testing.T) {
	all := []any{
		review.Method(""),
		review.BrokenRule{},
		review.InputChange{},
		review.ChangeKind(""),
		review.Floor{},
		review.ChannelFloor{},
		review.Reason{},
		review.Advice(""),
		review.Proposal{},
		review.Review{},
		review.InputEffect{},
		review.Swing{},
		review.Share{},
		review.Volume{},
		review.Compare, review.Prices, review.Sensitivity, review.Matter,
	}
	zerotest.Complete(t, all...)
	zerotest.Calls(t, all...)
	zerotest.Printed(t, all...)
}
