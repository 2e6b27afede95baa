package margin

import (
	"fmt"
	"strings"

	"example.com/quoin"
	"example.com/quoin/internal/prose"
)

// Texts for a person who reads a log or a test: amounts as they are, to eight places.

// said writes amounts under their names, those that are nothing left out.
func said(lines ...any) string {
	var parts []string
	for i := 0; i+1 < len(lines); i += 2 {
		if a := lines[i+1].(quoin.Amount); !a.IsZero() {
			parts = append(parts, fmt.Sprintf("%s %s", lines[i], a.Figure().Long()))
		}
	}
	if len(parts) == 0 {
		return "nothing"
	}
	return strings.Join(parts, ", ")
}

// String lists the lines of the statement that are not zero.
func (s Statement) String() string {
	return said("revenue", s.Revenue, "goods", s.Goods, "gross", s.Gross, "fees", s.Fees, "fulfilment", s.Fulfilment, "fixed cost", s.FixedCost,
		"contribution", s.Contribution, "overhead", s.Overhead, "operating", s.Operating, "income tax", s.IncomeTax, "net", s.Net)
}

// String lists the lines of the statement in minor units.
func (c RoundedStatement) String() string {
	return fmt.Sprintf("revenue %d, goods %d, gross %d, fees %d, fulfilment %d, fixed cost %d, contribution %d, overhead %d, operating %d, income tax %d, net %d",
		c.Revenue, c.Goods, c.Gross, c.Fees, c.Fulfilment, c.FixedCost, c.Contribution, c.Overhead, c.Operating, c.IncomeTax, c.Net)
}

// String says which channel it is in, and what an item's goods cost.
func (s Sale) String() string {
	return fmt.Sprintf("sale in %s of goods for %s", prose.Quoted(s.Terms.Channel()), s.GoodsPerItem().Figure().Long())
}

// String says what the goods cost.
func (g Goods) String() string {
	return said("goods of an item", g.PerItem, "goods of an order", g.PerOrder)
}

// String says what the goods cost, and making them.
func (g OrderGoods) String() string {
	return said("goods of an order", g.Cost, "making them", g.Making)
}

// String says what the working time costs.
func (l Labour) String() string {
	return said("time of an item", l.PerItem, "time of an order", l.PerOrder)
}

// String says what making an item costs.
func (m Making) String() string {
	return said("making an item", m.made, "making for an order", m.perOrder)
}

// String says how much the recipe takes.
func (r Recipe) String() string {
	return fmt.Sprintf("recipe of %d lines, and %d of packing", len(r.Bill), len(r.Packing))
}

// String says how an order is packed.
func (p PackingList) String() string {
	return fmt.Sprintf("%s of %d lines in %d parcels", prose.Quoted(p.Name), len(p.Bill), max(p.Parcels, 1))
}

// String says whether the plan is one.
func (p Plan) String() string {
	if p.terms == nil {
		return "no plan"
	}
	return "plan of a sale"
}

// String says between which prices the stretch is.
func (s CurvePiece) String() string { return fmt.Sprintf("%v to %v", s.First, s.Last) }

// String says whose ledger it is.
func (l StatementInputs) String() string {
	return fmt.Sprintf("ledger of %d lines in %s", len(l.Bill), prose.Quoted(l.Channel.ID))
}
