package channel

import "example.com/quoin"

// Exactly gives tests Proceeds by its definition, whether there is a Plan or not.
func (t Terms) Exactly(list quoin.Amount) Proceeds { return t.exactly(list) }
