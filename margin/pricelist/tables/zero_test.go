package tables_test

import (
	"testing"

	"example.com/quoin/internal/zerotest"
	"example.com/quoin/margin/pricelist/tables"
)

func TestZeroValues(t *testing.T) {
	all := []any{tables.Sheet{}, tables.Column{}, tables.Text, tables.Layout, tables.Example, tables.Read}
	zerotest.Complete(t, all...)
	zerotest.Calls(t, all...)
	zerotest.Printed(t, all...)
}
