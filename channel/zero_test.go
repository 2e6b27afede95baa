package channel_test

import (
	"fmt"
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/internal/zerotest"
)

func TestZeroValues(t *testing.T) {
	all := []any{
		channel.ForeignCurrency{},
		channel.Channel{},
		channel.Tax{},
		channel.Constant(""),
		channel.Order{},
		channel.Others{},
		channel.Surcharge{},
		channel.FixedCost{},
		channel.BuyerPays{},
		channel.Payment{},
		channel.Charge{},
		channel.Consignment{},
		channel.Reduction{},
		channel.DiscountBearer(""), channel.Party(""),
		channel.Credit{},
		channel.Piece{},
		channel.OrderFigures{},
		channel.Fee{},
		channel.Tier{},
		channel.TierMode(""),
		channel.Part(""),
		channel.StraightLine{},
		channel.OnDemand{},
		channel.OnDemandProduct{},
		channel.Payout(""),
		channel.Plan{},
		channel.Units{},
		channel.Sums{},
		channel.Settlement{},
		channel.Proceeds{},
		channel.PricePoints{},
		channel.Terms{},
		channel.LineSheetHead{},
		channel.Trade{},
		channel.Freight(""),
		channel.IsFee, channel.Flat,
		channel.TaxClass{},
		channel.TaxPer(""), channel.TaxFigure(""), channel.TaxBase(""), channel.ShippingRate(""),
		channel.TaxedPart{},
		channel.TaxedGoods{},
		channel.RoundedFigure(""),
	}
	zerotest.Complete(t, all...)
	zerotest.Calls(t, all...)
}

// Terms that cannot be divided by what is left name Check, which refuses the channel.
func TestTermsOfNothingLeft(t *testing.T) {
	all, none := quoin.MustRate("100%"), quoin.MustRate("-100%")
	for what, c := range map[string]channel.Channel{
		"a loss of all": {ID: "till", LostParcels: all},
		"no price left": {ID: "till", Tax: channel.Tax{Rate: none}},
		"in an order":   {ID: "till", Orders: []channel.Order{{TaxRate: quoin.Some(none)}}},
		"on the maker":  {ID: "till", Consignment: &channel.Consignment{OnMaker: quoin.Some(none)}},
	} {
		if c.Check(quoin.MustCurrency("EUR")) == nil {
			t.Errorf("%s: Check refuses nothing", what)
		}
		func() {
			defer func() {
				if r := fmt.Sprint(recover()); !strings.HasPrefix(r, "quoin: ") || !strings.Contains(r, "Channel.Check") {
					t.Errorf("%s: %s", what, r)
				}
			}()
			c.Terms(quoin.MustCurrency("EUR"))
		}()
	}
}

func TestNoTag(t *testing.T) {
	price := quoin.MustAmount("12.34")
	if got := (channel.PricePoints{}).Nearest(price); !got.Equal(price) {
		t.Errorf("no tag makes %v of %v", got, price)
	}
	if got := (channel.Channel{PricePoints: new(channel.PricePoints)}).Terms(quoin.MustCurrency("EUR")).Settle(0, price); !got.Items.Equal(price) {
		t.Errorf("an empty tag: items come to %v", got.Items)
	}
}

// A line that neither rises nor falls may cross anywhere.
func TestFlatCrossing(t *testing.T) {
	grid, err := quoin.NewGrid(quoin.MustAmount("0.01"), quoin.MustAmount("10.00"))
	if err != nil {
		t.Fatal(err)
	}
	if from, to := channel.Flat(quoin.MustAmount("1")).Crossing(grid, 3, 7); from != 3 || to != 7 {
		t.Errorf("from %d to %d", from, to)
	}
}
