package refund_test

import (
	"testing"

	"example.com/quoin"
	"example.com/quoin/channel/refund"
	"example.com/quoin/internal/zerotest"
)

func TestZeroValues(t *testing.T) {
	all := []any{
		refund.Order{}, refund.OrderLine{}, refund.Code{}, refund.FreePostage{}, refund.Fee{}, refund.Refund{}, refund.Item{}, refund.Rates{}, refund.Settlement{},
	}
	zerotest.Complete(t, all...)
	zerotest.Calls(t, all...)
	zerotest.Printed(t, all...)
}

// Of a currency that costs nothing, as of the shop's own, postage is as it is.
func TestNotAbroad(t *testing.T) {
	r := refund.Rates{Postage: quoin.MustAmount("6.50")}
	for home, want := range map[string]string{"0": "6.50", "1": "6.50", "0.5": "13.00"} {
		if got := r.Abroad(quoin.MustFactor(home)).Postage; !got.Equal(quoin.MustAmount(want)) {
			t.Errorf("at %s: %v, want %s", home, got, want)
		}
	}
}
