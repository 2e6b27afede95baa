package edition

import (
	"example.com/quoin"
	"example.com/quoin/internal/form"
)

// Entry says what became of one number, or of one artist's proof.
type Entry struct {
	// Number of the print.
	Number int64 `json:"number,omitzero" need:"yes" range:"[1,100000]" or:"proof"`
	// In its place: number of an artist's proof.
	Proof int64 `json:"proof,omitzero" range:"[1,100000]"`
	// Id of the product that it is of. Needed where each product has a numbering.
	Product string `json:"product,omitempty"`
	// What became of it: sold, promised, spoiled or lost, or kept back.
	State State `json:"state" need:"yes"`
	// For whom it is, or where.
	To string `json:"to,omitempty"`
	// Anything else about it.
	Note string `json:"note,omitempty"`
}

// State is what became of a print: sold, reserved, destroyed or kept.
type State string

const (
	Sold      State = "sold"      // and paid
	Reserved  State = "reserved"  // promised, and expected to sell
	Destroyed State = "destroyed" // spoiled, lost or cancelled, and not replaced
	Kept      State = "kept"      // kept back or given away, and not to be sold
)

// UnmarshalText reads sold, reserved, destroyed or kept. The error is a Problem.
func (s *State) UnmarshalText(text []byte) error { return form.SetWord(s, text, states()...) }

func states() []State { return []State{Sold, Reserved, Destroyed, Kept} }

// Codes of what a ledger can have wrong, beside Oversold. A history says the last three of
// its sales.
const (
	UnclearProduct quoin.Code = "unclear_product"        // no product, where each has its numbering
	ForeignProduct quoin.Code = "product_not_of_edition" // a product that the edition is not of
	NumberTwice    quoin.Code = "number_twice"           // a number or a proof with two entries, or sold twice
	NoSuchNumber   quoin.Code = "no_such_number"         // outside 1 to the size
	NoSuchProof    quoin.Code = "no_such_proof"          // outside 1 to the number of proofs
)

// Codes of what deserves a look.
const (
	ReservedForNobody quoin.Code = "reserved_for_nobody" // a number reserved that does not say for whom
	StepUnreached     quoin.Code = "step_unreached"      // a step that begins when nothing is left to sell
)
