// Package edition computes how a limited edition stands: which numbers are still free, what the
// next print costs, and what the rest will bring.
//
// A limited edition promises that only so many prints are made. Each carries its number, 7/50. A
// few artist's proofs stand outside the numbering. Many artists raise the price in steps as an
// edition sells: the first twenty at the list price, the next fifteen at 1.15 times it, the rest
// at 1.30 times. The ledger says what became of each number: sold, reserved, destroyed or kept.
//
// An Edition holds all of that. Check finds contradictions in it, and Audit goes through the
// ledger. Ladder computes the price of each step from a list price. Expected adds up what the
// prints that are left will bring if all of them sell at these prices. This is an expectation, and
// so are the months: both are only as good as the given pace.
//
// Steps count prints sold, not numbers: print 7/50 may be the thirtieth to sell. Artist's proofs
// are in no step and in no proceeds.
package edition
