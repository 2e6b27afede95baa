package source

import (
	"testing"

	"example.com/quoin"
)

// From when on a line costs less than the best one, or as much, by trying one print after the other.
func TestPassesOneByOne(t *testing.T) {
	amount := func(n int64) quoin.Amount { return quoin.AmountOf(n, 1) }
	passed, never := 0, 0
	for i := range int64(6 * 5 * 6 * 5 * 3) {
		l, best := line{amount(i % 6 * 7), amount(i / 6 % 5)}, line{amount(i / 30 % 6 * 5), amount(i / 180 % 5)}
		now := i / 900 * 4
		for _, asMuch := range []bool{false, true} {
			if c := l.after(now).Cmp(best.after(now)); c < 0 || c == 0 && asMuch {
				continue // the best one is another
			}
			want := int64(0)
			for n := now + 1; n < 500 && want == 0; n++ {
				if c := l.after(n).Cmp(best.after(n)); c < 0 || c == 0 && asMuch {
					want = n
				}
			}
			got, ok := l.passes(best, now, asMuch)
			if ok != (want > 0) || got != want {
				t.Fatalf("%v beside %v from %d on, as much %t: %d, %t, want %d", l, best, now, asMuch, got, ok, want)
			}
			if ok {
				passed++
			} else {
				never++
			}
		}
	}
	if passed < 100 || never < 100 {
		t.Errorf("%d passed, %d never", passed, never)
	}
	// Beyond a million prints nothing matters.
	for off, want := range map[int64]int64{1_000_000: 1_000_000, 1_000_001: 0} {
		if got, ok := (line{amount(off), amount(1)}).passes(line{amount(0), amount(2)}, 0, true); got != want || ok != (want > 0) {
			t.Errorf("%d apart: %d, %t, want %d", off, got, ok, want)
		}
	}
	far := quoin.AmountOf(1<<62, 0).Times(quoin.FactorOf(1 << 10))
	if got, ok := (line{far, amount(1)}).passes(line{amount(0), amount(2)}, 0, true); ok || got != 0 {
		t.Errorf("far apart: %d", got)
	}
}
