package compare

import "math/big"

// The reference does the sums with fractions, written apart from all peers.

func thousandths(n int64) *big.Rat { return big.NewRat(n, 1000) }

// rounded is x, not below zero, rounded half up to an integer.
func rounded(x *big.Rat) int64 {
	x = new(big.Rat).Add(x, big.NewRat(1, 2))
	return new(big.Int).Div(x.Num(), x.Denom()).Int64()
}

func partOf(cents int64, rate *big.Rat) *big.Rat { return new(big.Rat).Mul(big.NewRat(cents, 1), rate) }

func feeOn(f Fee, cents int64) int64 {
	return rounded(new(big.Rat).Add(partOf(cents, thousandths(f.PerMille)), big.NewRat(f.Fixed, 1)))
}

func settled(cents int64) int64 {
	net := cents
	for _, f := range Settlement() {
		net -= feeOn(f, cents)
	}
	return net
}

func contributions(list [Sizes]int64) (out [Results]int64) {
	for i := range out {
		out[i] = contribution(Table()[i%Channels], list[i/Channels], Costs()[i/Channels])
	}
	return out
}

func contribution(c Channel, list, cost int64) int64 {
	items := rounded(partOf(list, thousandths(1000-c.Discount)))
	goods := items
	if items < c.FreeFrom {
		goods += c.Shipping
	}
	revenue, paid := goods, goods
	if c.InPrice {
		revenue -= rounded(partOf(goods, big.NewRat(c.Tax, 1000+c.Tax)))
	} else {
		paid += rounded(partOf(goods, thousandths(c.Tax)))
	}
	return revenue - feeOn(Fee{PerMille: c.Commission}, items) - feeOn(c.Payment, paid) - c.Postage - cost
}
