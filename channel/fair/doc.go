// Package fair computes whether a fair pays: a stall, an art fair, a weekend of markets.
//
// Most costs of a fair come before the first print is sold: the stand, travel, nights, a share of
// the display, and the fees of applications that were not accepted. Prints bring in what is left
// of their price after the print itself and the card fee. The plan has two answers:
//
//   - Break-even: how many prints pay for the outlay.
//   - The verdict: whether the result at the expected number is worth the days, compared with what
//     they would bring otherwise and with what an hour must bring.
//
// A fair sells several kinds of print, so it is computed with an average print of the expected
// mix. A break-even is only as good as that mix.
//
// A commission with a minimum is two things. Below the sales at which the rate reaches the minimum
// it is a fixed cost; above, it is a cost of every print. Break-even considers both.
//
// Nothing in a plan is rounded, because it consists of expectations. Only some numbers of prints
// are, and their comments say so. Till rounds a price at the stand to the available coins.
package fair
