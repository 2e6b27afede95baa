package steptest_test

import (
	"fmt"
	"testing"

	"example.com/quoin"
	"example.com/quoin/internal/steptest"
)

// sums are two sheets of 0.615, rounded to 1.23, and a reserve of 10% that nobody gave.
func sums() []quoin.Step {
	t := quoin.NewTrail(2)
	at := quoin.InList("supplies", 0)
	sheets := t.On("paper").Product("sheets", at, quoin.Given("price", at.Field("price"), quoin.MustAmount("0.615").Figure()), quoin.FactorOf(2).Named("sheets"))
	sheets = t.Rounded(2, quoin.HalfUp, sheets)
	t.On("").Product("reserved", quoin.Path{}, sheets, quoin.GivenOr("reserve", quoin.InField("reserve"), quoin.MustRate("10%").Figure(), false).OnePlus())
	return t.Steps()
}

const ledger = `
	// 2 × 0.615 = 1.23, and 1.23 × 1.10 = 1.353
	1 sheets @supplies[0] (paper): product price @supplies[0].price 0.615, sheets 2 = 1.230 half_up 1.23
	2 reserved: product sheets #1 1.23, reserve @reserve or 1+10% = 1.353`

// spy is a test that keeps what fails in it.
type spy struct {
	testing.TB
	failed []string
}

func (*spy) Helper() {}

func (s *spy) Errorf(text string, args ...any) {
	s.failed = append(s.failed, fmt.Sprintf(text, args...))
}

func TestLedger(t *testing.T) {
	steptest.Ledger(t, "sums", sums(), ledger)
	wrong := sums()
	wrong[1].Value = quoin.MustAmount("1.36").Figure()
	for what, c := range map[string]struct {
		steps  []quoin.Step
		want   string
		failed int
	}{
		"a step too many":     {sums(), ledger + "\n3 net: sum = 0", 1},
		"a step too few":      {sums()[:1], ledger, 1},
		"no ledger":           {sums(), "", 2},
		"another figure":      {sums()[:1], "1 sheets @supplies[0] (paper): product price @supplies[0].price 0.615, sheets 2 = 1.230 half_up 1.24", 1},
		"a sum that is wrong": {wrong, ledger, 2}, // it is another line, and does not replay
	} {
		s := &spy{TB: t}
		steptest.Ledger(s, what, c.steps, c.want)
		if len(s.failed) != c.failed {
			t.Errorf("%s: %d failures, want %d: %q", what, len(s.failed), c.failed, s.failed)
		}
	}
}
