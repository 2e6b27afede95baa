package compare

import "math"

// floatChannel is a channel with money and rates as float64.
type floatChannel struct {
	keep, tax, onePlus, commission, rate, fixed float64
	shipping, freeFrom, postage                 float64
	inPrice                                     bool
}

// floats is money as float64, rounded as is usual there. It is not right
// everywhere: see the tests. A product is converted before it is added to, so
// that no machine fuses the two.
func floats() Peer {
	table, costs := floatTable(), Costs()
	var rates, fixed [3]float64
	for i, f := range Settlement() {
		rates[i], fixed[i] = float64(f.PerMille)/1000, float64(f.Fixed)/100
	}
	return Peer{
		Name: "float64",
		Settle: func(cents int64) int64 {
			price := float64(cents) / 100
			net := price
			for i := range rates {
				net -= roundFloat(float64(price*rates[i]) + fixed[i])
			}
			return int64(math.Round(net * 100))
		},
		Sheet: func(list [Sizes]int64) (out [Results]int64) {
			for s, cents := range list {
				price, cost := float64(cents)/100, float64(costs[s])/100
				for c := range table {
					out[s*Channels+c] = int64(math.Round((table[c].left(price) - cost) * 100))
				}
			}
			return out
		},
	}
}

func roundFloat(x float64) float64 { return math.Round(x*100) / 100 }

func floatTable() (out [Channels]floatChannel) {
	for i, c := range Table() {
		out[i] = floatChannel{
			keep: 1 - float64(c.Discount)/1000, tax: float64(c.Tax) / 1000, onePlus: 1 + float64(c.Tax)/1000,
			commission: float64(c.Commission) / 1000, rate: float64(c.Payment.PerMille) / 1000, fixed: float64(c.Payment.Fixed) / 100,
			shipping: float64(c.Shipping) / 100, freeFrom: float64(c.FreeFrom) / 100, postage: float64(c.Postage) / 100,
			inPrice: c.InPrice,
		}
	}
	return out
}

func (c *floatChannel) left(list float64) float64 {
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
	payment := roundFloat(float64(paid*c.rate) + c.fixed)
	return paid - tax - commission - payment - c.postage
}
