// Package edition answers what a limited edition is worth while it sells: which
// numbers are still free, what the next print costs and what is still to come in.
//
// A limited edition promises that no more than so many prints are made. Each
// carries its number, 7/50, and beside them stand a few artist's proofs outside
// the numbering. As it sells it grows scarce, and many raise the price in steps:
// the first twenty at the list price, the next fifteen at 1.15 times it, the
// rest at 1.30 times. The ledger says what became of each number: sold,
// reserved, destroyed, or kept back.
//
// An Edition holds all of that. Check finds what cannot be meant in it, Audit
// goes through the ledger. Ladder sets the price of each step from a list
// price, and Expected adds up what the prints that are left will bring
// if all of them sell at these prices. That is an expectation, and so are the
// months: they are as good as the pace that was given.
//
// Steps are counted by prints sold, not by number: print 7/50 may well be the
// thirtieth to sell. Artist's proofs are in no step and in no takings.
package edition
