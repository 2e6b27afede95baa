package compare

import "math"

// floats is money as float64, rounded as is usual there. It is not right
// everywhere: see the tests. A product is converted before it is added to, so
// that no machine fuses the two.
func floats() Peer {
	of := decimals[float64](func(n int64, places int) float64 { return float64(n) / math.Pow10(places) })
	fees, table, costs := of.fees(), of.table(), of.costs()
	return Peer{
		Name: "float64",
		Settle: func(cents int64) int64 {
			price := float64(cents) / 100
			net := price
			for i := range fees {
				net -= roundFloat(float64(price*fees[i].rate) + fees[i].fixed)
			}
			return int64(math.Round(net * 100))
		},
		Sheet: func(list [Sizes]int64) (out [Results]int64) {
			for s, cents := range list {
				price := float64(cents) / 100
				for c := range table {
					out[s*Channels+c] = int64(math.Round((floatLeft(&table[c], price) - costs[s]) * 100))
				}
			}
			return out
		},
	}
}

func roundFloat(x float64) float64 { return math.Round(x*100) / 100 }

func floatLeft(c *terms[float64], list float64) float64 {
	items := roundFloat(list * c.keep)
	paid := items
	if items < c.freeFrom {
		paid += c.shipping
	}
	var tax float64
	if c.inPrice {
		tax = roundFloat(paid * c.tax / c.onePlus)
	} else {
		tax = roundFloat(paid * c.tax)
		paid += tax
	}
	commission := roundFloat(items * c.commission)
	payment := roundFloat(float64(paid*c.payment.rate) + c.payment.fixed)
	return paid - tax - commission - payment - c.postage
}
