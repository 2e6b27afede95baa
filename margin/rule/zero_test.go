package rule_test

import (
	"testing"

	"example.com/quoin/internal/zerotest"
	"example.com/quoin/margin/rule"
)

func TestZeroValues(t *testing.T) {
	all := []any{
		rule.Bound(""), rule.Checked{}, rule.Choice(""), rule.Contribution{}, rule.CostMultiple{}, rule.DeadZone{}, rule.Decision{},
		rule.End(""), rule.Ending{}, rule.Gap{}, rule.GrossMargin{}, rule.Item{}, rule.Market{}, rule.Move{}, rule.NetMargin{}, rule.Offer{}, rule.Order(""), rule.Own{},
		rule.Pattern{}, rule.Price{}, rule.Refusal{}, rule.Rule{}, rule.Scope(""), rule.Set{}, new(rule.Shelf), rule.Step{}, rule.Strength(""), rule.Verdict{}, rule.Why{},
		rule.All, rule.Between, rule.DeadZones, rule.Decide, rule.Fit, rule.Kinds, rule.NewItem, rule.NewShelf, rule.Only,
	}
	zerotest.Complete(t, all...)
	zerotest.Calls(t, all...)
}
