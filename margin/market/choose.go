package market

import (
	"fmt"
	"slices"

	"example.com/quoin"
	"example.com/quoin/internal/form"
	"example.com/quoin/margin/comparables"
)

// LeftOut is a record that was left out, and why. Beside the codes here it may
// have those of Basis.Bring.
type LeftOut struct {
	Record int        `json:"record"`
	Code   quoin.Code `json:"code"`
}

// Codes of why a record is left out, in the order they are looked at.
const (
	ByCaller       quoin.Code = "left_out_by_caller" // the caller asked for it
	AskedOnly                 = comparables.AskedOnly
	SoldTooFew                = comparables.SoldTooFew
	OtherSignature quoin.Code = "other_signature" // signed, or not, other than asked for
	OtherEdition   quoin.Code = "other_edition"   // limited, or open, other than asked for
)

// checkAll reports all that is wrong with what goes in.
func checkAll(records []comparables.Record, b Basis, o Options) error {
	var k form.Collector
	checkRecords(&k, records)
	k.AddAll(form.In("basis"), b.Check())
	k.AddAll(nil, o.Check())
	for i, n := range o.Without {
		if n < 0 || n >= len(records) {
			k.Add(form.In("without").At(i), quoin.Problem{Code: quoin.OutOfRange, Found: fmt.Sprint(n), Wanted: fmt.Sprintf("a record from 0 to %d", len(records)-1)})
		}
	}
	return k.All().Err()
}

// choose parts the records of a product, or all, into those that count and those
// that do not, and counts those of others.
func choose(records []comparables.Record, product string, o Options) (kept []int, left []LeftOut, others int64) {
	without := slices.Sorted(slices.Values(o.Without))
	for i, r := range records {
		if product != "" && r.Product != product {
			others++
			continue
		}
		_, out := slices.BinarySearch(without, i)
		if code := o.unfit(&r, out); code != "" {
			left = append(left, LeftOut{i, code})
			continue
		}
		kept = append(kept, i)
	}
	return kept, left, others
}

func (o Options) unfit(r *comparables.Record, without bool) quoin.Code {
	switch {
	case without:
		return ByCaller
	case r.Sold == 0:
		return AskedOnly
	case r.Sold < o.minSold():
		return SoldTooFew
	case o.Signed.Or(r.Signed) != r.Signed:
		return OtherSignature
	case o.Limited.Or(r.Edition > 0) != (r.Edition > 0):
		return OtherEdition
	}
	return ""
}
