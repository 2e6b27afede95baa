package proof_test

import (
	"fmt"
	"math/big"
	"strings"
	"testing"

	"example.com/quoin/margin/pricelist/proof"
)

// calculator works formulas out in fractions, which are exact.
type calculator struct {
	t      *testing.T
	sheets map[string]proof.Sheet
	known  map[string]*big.Rat // cells that are worked out; nil while they are
	sheet  string
	rest   string
}

func calculate(t *testing.T, sheets []proof.Sheet) *calculator {
	c := &calculator{t: t, sheets: make(map[string]proof.Sheet), known: make(map[string]*big.Rat)}
	for _, s := range sheets {
		c.sheets[s.Name] = s
	}
	return c
}

// at is the value of a cell: Proof!E2.
func (c *calculator) at(cell string) *big.Rat {
	c.t.Helper()
	if x, found := c.known[cell]; found {
		if x == nil {
			c.t.Fatalf("%s needs itself", cell)
		}
		return x
	}
	c.known[cell] = nil
	sheet, name, _ := strings.Cut(cell, "!")
	var row int
	rows := c.sheets[sheet].Rows
	if _, err := fmt.Sscanf(name[1:], "%d", &row); err != nil || row > len(rows) || int(name[0]-'A') >= len(rows[row-1]) {
		c.t.Fatalf("there is no cell %s", cell)
	}
	is := rows[row-1][name[0]-'A']
	x := new(big.Rat)
	if n, ok := is.Number.Get(); ok {
		x = n.Rat()
	} else if is.Formula == "" {
		c.t.Fatalf("%s is %q, wanted a number", cell, is)
	} else {
		x = (&calculator{c.t, c.sheets, c.known, sheet, strings.ReplaceAll(is.Formula, "1E-9", "0.000000001")}).whole()
	}
	c.known[cell] = x
	return x
}

func (c *calculator) whole() *big.Rat {
	x, of := c.sum(), c.rest
	if of != "" {
		c.t.Fatalf("left over: %s", of)
	}
	return x
}

func (c *calculator) take(signs string) byte {
	if c.rest == "" || !strings.Contains(signs, c.rest[:1]) {
		return 0
	}
	sign := c.rest[0]
	c.rest = c.rest[1:]
	return sign
}

func (c *calculator) sum() *big.Rat {
	x := new(big.Rat)
	sign := c.take("-")
	for {
		y := c.product()
		if sign == '-' {
			y = new(big.Rat).Neg(y)
		}
		x = new(big.Rat).Add(x, y)
		if sign = c.take("+-"); sign == 0 {
			break
		}
	}
	if c.take("<") != 0 {
		return truth(x.Cmp(c.sum()) < 0)
	}
	return x
}

func truth(yes bool) *big.Rat {
	if yes {
		return big.NewRat(1, 1)
	}
	return new(big.Rat)
}

func (c *calculator) product() *big.Rat {
	x := c.one()
	for {
		switch c.take("*/") {
		case '*':
			x = new(big.Rat).Mul(x, c.one())
		case '/':
			x = new(big.Rat).Quo(x, c.one())
		default:
			return x
		}
	}
}

// one is a number, a cell, a function or what stands in brackets.
func (c *calculator) one() *big.Rat {
	n := strings.IndexAny(c.rest+")", "+-*/<,()")
	word := c.rest[:n]
	c.rest = c.rest[n:]
	if c.take("(") != 0 {
		args := []*big.Rat{c.sum()}
		for c.take(",") != 0 {
			args = append(args, c.sum())
		}
		if c.take(")") == 0 {
			c.t.Fatalf("not closed: %s", c.rest)
		}
		return c.call(word, args)
	}
	if x, ok := new(big.Rat).SetString(word); ok {
		return x
	}
	word = strings.ReplaceAll(word, "$", "")
	if !strings.Contains(word, "!") {
		word = c.sheet + "!" + word
	}
	return c.at(word)
}

func (c *calculator) call(name string, args []*big.Rat) *big.Rat {
	x := args[0]
	switch {
	case name == "" && len(args) == 1:
		return x
	case name == "ABS":
		return new(big.Rat).Abs(x)
	case name == "ROUND": // FloatString rounds halves away from zero
		y, _ := new(big.Rat).SetString(x.FloatString(int(args[1].Num().Int64())))
		return y
	case name == "SIGN":
		return big.NewRat(int64(x.Sign()), 1)
	case name == "ROUNDUP" || name == "ROUNDDOWN":
		places := new(big.Int).Exp(big.NewInt(10), args[1].Num(), nil)
		shifted := new(big.Rat).Mul(x, new(big.Rat).SetInt(places))
		whole, left := new(big.Int).QuoRem(shifted.Num(), shifted.Denom(), new(big.Int)) // towards zero
		if name == "ROUNDUP" && left.Sign() != 0 {
			whole.Add(whole, big.NewInt(int64(x.Sign())))
		}
		return new(big.Rat).SetFrac(whole, places)
	case name == "MAX" || name == "MIN":
		for _, y := range args {
			if (y.Cmp(x) > 0) == (name == "MAX") {
				x = y
			}
		}
		return x
	case name == "IF" && args[0].Sign() != 0:
		return args[1]
	case name == "IF":
		return args[2]
	}
	c.t.Fatalf("no function %s of %d", name, len(args))
	return nil
}
