package market

import (
	"example.com/quoin/internal/form"
	"example.com/quoin/margin/comparables"
)

// MostRecords is how many records are looked at together.
const MostRecords = 100_000

// Check is Record.Check for a list, with where each record stands. More than
// MostRecords are refused. The error is Problems.
func Check(records []comparables.Record) error {
	var k form.Collector
	checkRecords(&k, records)
	return k.All().Err()
}

func checkRecords(k *form.Collector, records []comparables.Record) {
	at := form.In("records")
	if len(records) > MostRecords {
		k.TooMany(at, len(records), MostRecords)
		return
	}
	for i, r := range records {
		if k.Full {
			return
		}
		k.AddAll(at.At(i), r.Check())
	}
}
