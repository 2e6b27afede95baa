package compare

import "testing"

const highest = 20000 // cents

// Worked out by hand.
func TestSettlementByHand(t *testing.T) {
	for _, c := range []struct{ price, net int64 }{
		{1, -24},       // 0.00 (0.00065), 0.25 (0.2503), 0.00
		{100, 64},      // 0.07 (0.065, half a cent), 0.28, 0.01 (0.012)
		{950, 823},     // 0.62 (0.6175), 0.54 (0.535, half a cent), 0.11 (0.114)
		{2000, 1761},   // 1.30, 0.85, 0.24
		{18950, 16897}, // 12.32 (12.3175), 5.94 (5.935, half a cent), 2.27 (2.274)
	} {
		for _, p := range Peers() {
			want := c.net
			if p.Name == "float64" && c.price == 950 {
				want++ // 0.53: its 0.535 is a little below half a cent
			}
			if got := p.Settle(c.price); got != want {
				t.Errorf("%s: %d cents leave %d, want %d", p.Name, c.price, got, want)
			}
		}
	}
}

func TestSettlementIsTheSame(t *testing.T) {
	for _, p := range Peers() {
		if p.Name == "float64" {
			continue // TestFloatsAreOff
		}
		t.Run(p.Name, func(t *testing.T) {
			for cents := int64(1); cents <= highest; cents++ {
				if got, want := p.Settle(cents), settled(cents); got != want {
					t.Fatalf("%d cents leave %d, want %d", cents, got, want)
				}
			}
		})
	}
}

func TestSheetByHand(t *testing.T) {
	for _, p := range Peers() {
		got := p.Sheet([Sizes]int64{2050, 4000, 10010})
		for _, c := range []struct{ result, want int }{
			// 20.50 + 4.90, tax 4.23 (4.2333), commission 0.31 (0.3075), payment 0.61
			// (0.6056): 25.40 − 4.23 − 7.35 − 0.31 − 0.61 − 4.20
			{0, 870},
			// 11.28 (11.275, half a cent) + 9.00, tax 4.06 (4.056) on top, commission 0.23
			// (0.2256), payment 0.29 (0.2947): 20.28 − 7.35 − 0.23 − 0.29 − 7.50
			{2, 491},
			// 40.00 + 5.50, tax 9.10 on top, commission 2.60, payment 1.89 (1.888):
			// 45.50 − 11.80 − 2.60 − 1.89 − 4.20
			{5, 2501},
			// 70.07 + 7.00, tax 12.85 (12.845), commission 2.45 (2.45245), payment 1.12
			// (1.12484): 77.07 − 12.85 − 20.65 − 2.45 − 1.12 − 6.10
			{11, 3390},
		} {
			if got[c.result] != int64(c.want) {
				t.Errorf("%s: result %d is %d, want %d", p.Name, c.result, got[c.result], c.want)
			}
		}
	}
}

// steps are the distances of the prices that the sheet is tried with: 541 of
// them, and 42 in the workbook, which takes its time.
func steps(peer string) int64 {
	if peer == "workbook" {
		return 487
	}
	return 37
}

func TestSheetIsTheSame(t *testing.T) {
	for _, p := range Peers() {
		if p.Name == "float64" {
			continue // TestFloatsAreOff
		}
		t.Run(p.Name, func(t *testing.T) {
			for cents := int64(1); cents <= highest; cents += steps(p.Name) {
				list := Lists(cents)
				if got, want := p.Sheet(list), contributions(list); got != want {
					t.Fatalf("list prices %d leave\n%d, want\n%d", list, got, want)
				}
			}
		})
	}
}
