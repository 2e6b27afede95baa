package compare

// How many sizes and channels the price sheet has, and how many results.
const (
	Sizes    = 3
	Channels = 4
	Results  = Sizes * Channels
)

// Channel is one channel of the price sheet. Amounts are in cents, rates in
// thousandths.
type Channel struct {
	Name       string
	Discount   int64 // taken off the list price
	Tax        int64 // on items and shipping
	InPrice    bool  // prices hold the tax; otherwise it is added on top
	Commission int64 // of the items
	Payment    Fee   // of all that the buyer pays
	Shipping   int64 // charged, unless the items come to FreeFrom
	FreeFrom   int64
	Postage    int64
}

// Table returns the invented channels of the price sheet. What one item leaves
// in one of them is:
//
//	items        list × (1 − discount), rounded
//	shipping     0 where items ≥ free from
//	both         items + shipping
//	tax          both × tax ÷ (1 + tax) in the price, both × tax on top; rounded
//	paid         both, and the tax on top
//	commission   items × rate, rounded
//	payment      paid × rate + fixed, rounded
//	contribution paid − tax − cost − commission − payment − postage
func Table() [Channels]Channel {
	return [Channels]Channel{
		{Name: "own shop", Tax: 200, InPrice: true, Commission: 15, Payment: Fee{21, 27}, Shipping: 490, FreeFrom: 6000, Postage: 420},
		{Name: "market", Tax: 200, Commission: 74, Payment: Fee{33, 27}, Shipping: 550, FreeFrom: 8000, Postage: 420},
		{Name: "shops", Discount: 450, Tax: 200, Commission: 20, Payment: Fee{8, 10}, Shipping: 900, FreeFrom: 5000, Postage: 750},
		{Name: "galleries", Discount: 300, Tax: 200, InPrice: true, Commission: 35, Payment: Fee{11, 15}, Shipping: 700, FreeFrom: 9000, Postage: 610},
	}
}

// Costs returns what making one item of each size costs, in cents; invented.
func Costs() [Sizes]int64 { return [Sizes]int64{735, 1180, 2065} }
