// Package rule decides prices from what each rule allows.
//
// A rule is the Set of prices that it allows: sorted, disjoint runs on the price grid. A few
// operations decide everything:
//
//   - What all rules allow is an intersection.
//   - If nothing is left, that is a conflict. It names a smallest group of rules that contradict
//     each other.
//   - A preference is added if it leaves a price.
//   - Rules between sizes remove prices. A price of A4 stays only if some price of A5 fits it, and
//     the other way round. This is repeated until nothing changes.
//
// Sets are exact, and a high price limit costs nothing. Prices are not tried one by one. A few
// prices change the terms: postage becomes free, a fee reaches its maximum. Between such points
// the amount kept grows in a straight line, except for rounding. Only the few prices near the
// limit of a rule are tried one by one. Endings are kept as a pattern that repeats.
//
// Decide checks what it is given and finds the prices. Rule.Allowed is the set of one rule, and
// Rule.Judge is its verdict on one price. Custom is a rule that a program adds. Sets have the
// operations And, Or, Without and Complement.
package rule
