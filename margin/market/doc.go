// Package market looks at what similar prints really sold for.
//
// Costs say how low a price may be. Only buyers say how high. What can be seen of buyers are
// records (comparables.Record): a similar print of some size was sold at a venue, by a seller, at
// a price. That price may include tax, postage and a frame.
//
//	s, err := market.Summarize(records, "bittern-a4", market.Basis{Tax: tax}, market.Options{})
//	s.Centre                     // 28.57: half of the weight is cheaper, half dearer
//	s.Position(price)            // 24.00 is dearer than 28% of them, somewhere from 6% to 69%
//
// Three things lead astray, and each has its remedy:
//
//   - Asking prices are what sellers hope for. A record counts only if something was sold at
//     its price.
//   - A seller with forty listings would speak forty times. So all venues weigh the same, within
//     a venue all sellers do, and within a seller all records. Of two venues, one with a single
//     seller and one with two, that single seller weighs 1/2 and each of the two 1/4. Someone
//     who sells at two venues has a share of the weight at each.
//   - Unlike things are compared. A Basis says at which rate of tax, and for which size, prices
//     are compared. Basis.Bring brings a record there. Postage and frame are always taken off.
//
// Between sizes, a price grows with a power of the area. FitExponent takes that power from the
// records. The fewer they are, the nearer it stays to the default of 0.5: twice the area is then
// 1.41 times as dear.
//
// Summarize puts it together. It says which records were used, which were left out and why. It
// gives the middle price and the spread, which a few strange prices cannot move far, names those
// strange prices, and says what each venue shows. Summary.Position says where a price stands
// among the records, and Summary.PriceAt which price stands at a percentile, both with how
// uncertain that is. With fewer than five records, or fewer than two venues, it gives no
// figures: Summary.Collect then says what is still needed.
//
// Sums of money are exact. What is estimated, such as a power or an interval, is rounded to six
// significant digits, so that it is the same on every machine. It has at most 16 places after
// the point: figures below 10^−11 have fewer digits than six.
package market
