// Package source compares making prints at home with having a print house make them. It finds at
// which numbers of prints the cheaper source changes, and how many prints to order.
//
// At home a run has a cost of set-up and a cost for each good print. A print house quotes prices
// that fall with the quantity, in steps. So the cheaper source often changes more than once. All
// these numbers are found from the lines between the steps, not by trying every number.
//
// How many to order when the demand is uncertain is the newsvendor problem. If one print short
// loses 18.00 and one left over loses 2.00, order so many that the demand stays below with a
// probability of 18 ÷ (18 + 2) = 90%.
package source
