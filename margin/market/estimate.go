package market

import "example.com/quoin"

// number is an amount as a plain number, money a plain number as an amount,
// both exactly.
func number(a quoin.Amount) quoin.Factor { return a.Figure().Factor() }
func money(f quoin.Factor) quoin.Amount  { return quoin.AmountOf(1, 0).Times(f) }
