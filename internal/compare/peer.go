package compare

// Peer is one way to do the sums. Prices go in and results come out as cents;
// what the terms say is made ready beforehand.
type Peer struct {
	Name string
	// Settle returns the net of the settlement at a price.
	Settle func(cents int64) int64
	// Sheet returns the contributions of the price sheet at a list price for each
	// size: those of the first size in each channel, then the next size's.
	Sheet func(list [Sizes]int64) [Results]int64
}

// Peers returns all peers, ready to be used by one goroutine. The first is what the others are
// measured by.
func Peers() []Peer {
	return []Peer{integers(), floats(), ofQuoin(), ofQuoinLines(), ofApd(), ofShopspring(), ofGovalues(), ofUdecimal(), workbook()}
}

// have returns v, and panics where there is none: no price of the comparison
// leads there.
func have[T any](v T, err error) T {
	must(err)
	return v
}

func must(err error) {
	if err != nil {
		panic(err)
	}
}
