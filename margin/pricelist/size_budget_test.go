package pricelist_test

import (
	"math/bits"
	"reflect"
	"testing"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/cost"
	"example.com/quoin/margin"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/rule"
)

// What is listed here is passed by value or kept in slices by the thousand: a price
// list holds a statement of fourteen amounts for each product in each channel, twice
// where it has ranges, and every sum copies its amounts. So what is added to one of
// these is added everywhere it is copied, and most of the time nobody reads it. A
// budget makes that a decision: whoever needs the room raises the budget, or puts what
// is seldom there behind a pointer. Numbers have no room to spare, since everything
// else is made of them; the others have a few words.
func TestSizesStayWithinBudgets(t *testing.T) {
	t.Parallel()
	if bits.UintSize != 64 {
		t.Skip("budgets are those of machines with 64 bits")
	}
	for _, s := range []struct {
		of     reflect.Type
		budget uintptr // bytes
		copied string
	}{
		{reflect.TypeFor[quoin.Amount](), 40, "by every sum"},
		{reflect.TypeFor[quoin.Rate](), 40, "by every share that is taken"},
		{reflect.TypeFor[quoin.Factor](), 40, "by every product and quotient"},
		{reflect.TypeFor[quoin.Quantity](), 56, "in every line of a bill, twice more in its range"},

		{reflect.TypeFor[channel.Units](), 56, "back from each order that is settled"},
		{reflect.TypeFor[channel.Sums](), 24, "back from each price that is tried"},
		{reflect.TypeFor[channel.Terms](), 256, "in every sale, and as a receiver"},
		{reflect.TypeFor[channel.Piece](), 384, "for each stretch of the curve of each channel"},

		{reflect.TypeFor[margin.Sale](), 512, "in every offer, and as a receiver at each price that is tried"},
		{reflect.TypeFor[margin.Statement](), 576, "back from each price that is tried"},

		{reflect.TypeFor[rule.Set](), 96, "for each product by each rule"},
		{reflect.TypeFor[rule.Offer](), 640, "for each product in each channel, and each kind of order where the worst is asked"},
		{reflect.TypeFor[rule.Item](), 288, "by each rule for each product; 16 are the end of ranges that own rules are told, 16 the thirds that its size may be given in"},

		{reflect.TypeFor[cost.BillLine](), 384, "in every bill, and in every charge"},
		{reflect.TypeFor[cost.Charge](), 640, "for each line of each bill, by way of goods"},

		{reflect.TypeFor[pricelist.Product](), 1152, "into the worked-out document, and into its cases with ranges"},
		{reflect.TypeFor[pricelist.ProductResult](), 2752, "for each product of an answer"},
		{reflect.TypeFor[pricelist.ChannelResult](), 2432, "for each product of an answer in each channel"},
	} {
		size := s.of.Size()
		t.Logf("%-18s %4d of %4d bytes, copied %s", s.of, size, s.budget, s.copied)
		if size > s.budget {
			t.Errorf("a %s takes %d bytes and is to take %d at most: it is copied %s", s.of, size, s.budget, s.copied)
		}
	}
}
