package promo_test

import (
	"testing"

	"example.com/quoin/channel/promo"
	"example.com/quoin/internal/zerotest"
)

func TestZeroValues(t *testing.T) {
	all := []any{
		promo.BasketLine{},
		promo.ReducedLine{},
		promo.Basket{},
		promo.Offer{},
		promo.Test(""),
		promo.Apply, promo.Explain, promo.VolumeNeeded,
	}
	zerotest.Complete(t, all...)
	zerotest.Calls(t, all...)
	zerotest.Printed(t, all...)
}
