// Package fair answers whether a fair pays: a stall, an art fair, a weekend of
// markets.
//
// Going to a fair costs most of its money before the first print is sold: the
// stand, the journey, the nights, a share of the display, and the fees for
// those applications that came to nothing. Against that stands what each print
// keeps once the print itself and the card fee are paid. How many prints bring
// the outlay back is the first answer (break-even); whether what is left at the
// number expected is worth the days, against what they would bring otherwise
// and against what an hour is to bring, is the second.
//
// Prints are not sold one kind at a time, so a fair is reckoned in an average
// print of the mix that is expected to go. A break-even is as good as that mix.
//
// A commission of the sales with a minimum is two things: below the sales at
// which the rate reaches the minimum it is a cost of going, above them it is a
// cost of every print. Break-even looks at both.
//
// Nothing is rounded in a plan, which is made of expectations; only counts of
// prints are, where it says so. Till rounds a price at the
// stand to the coins there are.
package fair
