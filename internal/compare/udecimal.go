package compare

import "github.com/quagmt/udecimal"

// ofUdecimal is quagmt/udecimal, with 19 places.
func ofUdecimal() Peer {
	of := func(n int64, places int) udecimal.Decimal { return udecimal.MustFromInt64(n, uint8(places)) }
	return decimals[udecimal.Decimal](of).peer("udecimal", udecimalNet, udecimalLeft)
}

func udecimalFee(f *fee[udecimal.Decimal], base udecimal.Decimal) udecimal.Decimal {
	return base.Mul(f.rate).Add(f.fixed).RoundHAZ(2)
}

func udecimalNet(fees *[3]fee[udecimal.Decimal], price udecimal.Decimal) int64 {
	net := price
	for i := range fees {
		net = net.Sub(udecimalFee(&fees[i], price))
	}
	return have(net.Mul64(100).Int64())
}

func udecimalLeft(t *terms[udecimal.Decimal], list, cost udecimal.Decimal) int64 {
	items := list.Mul(t.keep).RoundHAZ(2)
	paid := items
	if items.LessThan(t.freeFrom) {
		paid = paid.Add(t.shipping)
	}
	tax := paid.Mul(t.tax)
	if t.inPrice {
		tax = have(tax.Div(t.onePlus)).RoundHAZ(2)
	} else {
		tax = tax.RoundHAZ(2)
		paid = paid.Add(tax)
	}
	commission, payment := items.Mul(t.commission).RoundHAZ(2), udecimalFee(&t.payment, paid)
	return have(paid.Sub(tax).Sub(commission).Sub(payment).Sub(t.postage).Sub(cost).Mul64(100).Int64())
}
