package compare

import "testing"

const highest = 20000 // cents

// Worked out by hand.
func TestSettlementByHand(t *testing.T) {
	for _, c := range []struct{ price, net int64 }{
		{1, -26},       // 0.00 (0.00074), 0.27 (0.27033), 0.00
		{100, 61},      // 0.07 (0.074), 0.30 (0.303), 0.02 (0.016)
		{500, 411},     // 0.37, 0.44 (0.435, half a cent), 0.08
		{750, 630},     // 0.56 (0.555, half a cent), 0.52 (0.5175), 0.12
		{2000, 1727},   // 1.48, 0.93, 0.32
		{18950, 16593}, // 14.02 (14.023), 6.52 (6.5235), 3.03 (3.032)
	} {
		for _, p := range Peers() {
			want := c.net
			if p.Name == "float64" && c.price == 750 {
				want++ // 0.55: its 0.555 is a little below half a cent
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
			// 20.50 + 4.90, tax 4.23 (4.2333), commission 0.31 (0.3075), payment 0.80
			// (0.8034): 25.40 − 4.23 − 7.35 − 0.31 − 0.80 − 4.20
			{0, 851},
			// 11.28 (11.275, half a cent) + 9.00, tax 4.06 (4.056) on top, commission 0.23
			// (0.2256), payment 0.29 (0.2947): 20.28 − 7.35 − 0.23 − 0.29 − 7.50
			{2, 491},
			// 40.00 + 5.50, tax 9.10 on top, commission 2.96, payment 2.07 (2.0718):
			// 45.50 − 11.80 − 2.96 − 2.07 − 4.20
			{5, 2447},
			// 70.07 + 7.00, tax 12.85 (12.845), commission 2.45 (2.45245), payment 1.00
			// (0.99777): 77.07 − 12.85 − 20.65 − 2.45 − 1.00 − 6.10
			{11, 3402},
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
