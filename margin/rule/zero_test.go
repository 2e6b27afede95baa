package rule_test

import (
	"testing"

	"example.com/quoin/internal/zerotest"
	"example.com/quoin/margin/rule"
)

func TestZeroValues(t *testing.T) {
	all := []any{
		rule.Bound(""),
		rule.CheckedItems{},
		rule.Choice(""),
		rule.Contribution{},
		rule.CostMultiple{},
		rule.DeadZone{},
		rule.Decision{},
		rule.RangeEnd(""),
		rule.Ending{},
		rule.Gap{},
		rule.GrossMargin{},
		rule.Item{},
		rule.Market{},
		rule.MaxChange{},
		rule.NetMargin{},
		rule.Offer{},
		rule.LadderOrder(""),
		rule.Custom{},
		rule.Pattern{},
		rule.Price{},
		rule.Refusal{},
		rule.Rule{},
		rule.Scope(""),
		rule.Set{},
		new(rule.CompiledChannel),
		rule.SizeRatio{},
		rule.Strength(""),
		rule.Verdict{},
		rule.WhyNot{},
		rule.AllowedRange{},
		rule.All, rule.Between, rule.DeadZones, rule.Decide, rule.Fit, rule.Kinds, rule.NewItem, rule.CompileChannel, rule.Only,
		new(rule.Plan), new(rule.PlannedItem),
		rule.PlannedGoods{},
		rule.NewPlan,
	}
	zerotest.Complete(t, all...)
	zerotest.Calls(t, all...)
}
