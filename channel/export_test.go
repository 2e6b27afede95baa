package channel

import "example.com/quoin"

// Exactly gives tests Takings by its definition, whether there is a Plan or not.
func (t Terms) Exactly(list quoin.Amount) Takings { return t.exactly(list) }
