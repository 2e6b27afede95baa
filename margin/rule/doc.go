// Package rule decides prices from what each rule allows.
//
// A rule is not a check but the Set of prices it allows, kept as sorted,
// disjoint runs on the price grid. Then everything follows from a few
// operations: what all rules allow is an intersection; none left is a conflict,
// and the smallest group of rules that cannot hold together names it; a
// preference joins where something stays; the ladder between sizes prunes pairs
// of sets until every price left has a partner.
//
// The sets are exact and cost nothing to have many prices in. Between the
// points where terms break, what a price keeps is a straight line but for the
// cents of each rounding, so a rule is decided by the line almost everywhere
// and price by price only in the few cents around a crossing. Endings are kept
// as a pattern that repeats.
//
// Decide checks what it is handed and finds the prices. Rule.Allowed is the set of one
// rule by itself, and Rule.Judge what it says of one price. Own is a rule that a program
// adds. Sets have the operations of an algebra: And, Or, Without, Complement.
package rule
