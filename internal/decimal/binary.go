package decimal

import (
	"encoding/binary"
	"math/big"
)

// What stands first in the bytes of a number.
const (
	isMade = 1 << iota
	isNegative
	isInexact
	known = isMade | isNegative | isInexact
)

// AppendBinary writes x behind b with all its digits, and what it remembers: flags, the
// exponent as a varint, and the coefficient, the highest byte first.
func (x Decimal) AppendBinary(b []byte) []byte {
	var flags byte
	if x.made {
		flags |= isMade
	}
	if x.neg {
		flags |= isNegative
	}
	if x.inexact {
		flags |= isInexact
	}
	b = binary.AppendVarint(append(b, flags), int64(x.exp))
	return append(b, x.coefficient().Bytes()...)
}

// FromBinary reads what AppendBinary writes; false for all that no number writes, or that
// is longer than any.
func FromBinary(data []byte) (Decimal, bool) {
	if len(data) == 0 || data[0]&^known != 0 {
		return Decimal{}, false
	}
	flags := data[0]
	exp, n := binary.Varint(data[1:])
	if n <= 0 || n > 1 && data[n] == 0 || exp < -MostDigits || exp > MostDigits || len(data)-1-n > maxBits/8 {
		return Decimal{}, false
	}
	digits := data[1+n:]
	if len(digits) > 0 && digits[0] == 0 {
		return Decimal{}, false
	}
	x := FromBig(new(big.Int).SetBytes(digits), int32(exp))
	x.made, x.neg, x.inexact = flags&isMade != 0, flags&isNegative != 0, flags&isInexact != 0
	if x.neg && x.isZero() || x.inexact && x.big != nil || !x.made && (len(digits) > 0 || exp != 0 || flags != 0) {
		return Decimal{}, false
	}
	return x, true
}
