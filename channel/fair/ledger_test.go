package fair_test

import (
	"testing"

	"example.com/quoin"
	"example.com/quoin/channel/fair"
	"example.com/quoin/internal/problemtest"
	"example.com/quoin/internal/steptest"
)

func steps(f fair.Fair, prints []fair.Print) []quoin.Step {
	t := quoin.NewTrail(32)
	given := make([]fair.PrintOperands, len(prints))
	for i, p := range prints {
		given[i] = p.Given(quoin.InList("prints", i))
	}
	f.Explain(t, quoin.InList("fairs", 2), given)
	return t.Steps()
}

// market has nothing but an application fee, a commission and one print.
func market() fair.Fair {
	return fair.Fair{
		ID: "market", Channel: "fairs", Jury: amount("10.00"), Commission: rate("10%"),
		Mix: []fair.Share{{Product: "heron", Share: rate("100%")}}, Prints: factor("10"),
	}
}

func TestLedgers(t *testing.T) {
	costs := prints()
	costs[0].Goods, costs[0].OwnTime = amount("4.00"), amount("2.00")
	costs[1].Goods, costs[1].OwnTime = amount("9.00"), amount("2.00")
	f := autumn()
	f.Taken = factor("50")
	steptest.Ledger(t, "autumn", steps(f, costs), autumnLedger)
	steptest.Ledger(t, "market", steps(market(), prints()), marketLedger)
}

// A result of nothing is no loss; and what is not asked is not missed.
func TestVerdicts(t *testing.T) {
	f := market()
	f.Jury, f.Commission, f.Stand = quoin.Amount{}, quoin.Rate{}, amount("310.00") // 10 × 31.00
	for _, c := range []struct{ stand, want string }{
		{"310.00", "310.00 | 484.00 | 0.00 | 0.00 | 10.0000 (10) | 10.0000 (10) | go "},
		{"310.01", "310.01 | 484.00 | 0.00 | -0.01 | 10.0003 (11) | 10.0003 (11) | stay loss"},
	} {
		f.Stand = amount(c.stand)
		if got := line(mustPlan(t, f, prints())); got != c.want {
			t.Errorf("a stand at %s: %s, want %s", c.stand, got, c.want)
		}
	}
}

// What is refused, in full: all money is at least 0.
func TestProblemsTold(t *testing.T) {
	less := amount("-0.01")
	negative := autumn()
	negative.Channel = "fairs"
	negative.Stand, negative.Jury, negative.Travel, negative.Night, negative.Helper, negative.Display = less, less, less, less, less, less
	negative.CommissionAtLeast, negative.HourWorth, negative.OpportunityCost = less, less, less
	alone := market()
	alone.Commission, alone.CommissionAtLeast, alone.Display, alone.Night, alone.HourWorth, alone.Taken = quoin.Rate{}, amount("75.00"), amount("240.00"), amount("65.00"), amount("9.00"), factor("9")
	alone.Mix = []fair.Share{{Product: "heron", Share: rate("50%")}, {Product: "heron", Share: rate("40%")}}
	unpriced := market()
	unpriced.Mix[0].Product = "herno"
	priced := append(prints(), fair.Print{Product: "heron"})
	below := prints()
	below[1].Price = amount("-0.01")
	outcome := func(f fair.Fair, prints []fair.Print) error {
		_, err := f.Outcome(prints)
		return err
	}
	for _, c := range []struct {
		what string
		err  error
		want string
	}{
		{"below 0", negative.Check(), `fault stand: found -0.01, wanted a value of at least 0 [out_of_range]
fault jury: found -0.01, wanted a value of at least 0 [out_of_range]
fault travel: found -0.01, wanted a value of at least 0 [out_of_range]
fault night: found -0.01, wanted a value of at least 0 [out_of_range]
fault helper: found -0.01, wanted a value of at least 0 [out_of_range]
fault display: found -0.01, wanted a value of at least 0 [out_of_range]
fault commission_at_least: found -0.01, wanted a value of at least 0 [out_of_range]
fault hour_worth: found -0.01, wanted a value of at least 0 [out_of_range]
fault opportunity_cost: found -0.01, wanted a value of at least 0 [out_of_range]`},
		{"alone", alone.Check(), `fault commission_at_least: found 75.00 without a commission, wanted a commission beside it; put a charge that is due whatever is sold under other [commission_minimum_without_rate]
fault display_fairs: found nothing, wanted how many fairs the display of 240.00 serves [display_without_fairs]
fault nights: found nothing, wanted how many nights are paid at 65.00 [night_without_nights]
fault taken: found 9, wanted at least the 10 prints that are sold [out_of_range]
fault hours: found nothing, wanted how many own hours are to bring 9.00 each [hour_worth_without_hours]
fault mix[1].product: found "heron" again, wanted each product once [duplicate_id]`},
		{"not priced", outcome(unpriced, prints()), `fault mix[0].product: found "herno", wanted a product that is priced for the fair; did you mean heron? [unknown_id]`},
		{"priced twice", outcome(market(), priced), `fault found prints of "heron" given twice, wanted each product once [duplicate_id]`},
		{"a price below 0", outcome(market(), below), `fault mix[0].product: found a price of -0.01, revenue 40.00, wanted values of at least 0 [out_of_range]`},
		{"free, and taken as sold", outcome(fair.Fair{Mix: market().Mix, Prints: factor("10"), Taken: factor("10")}, []fair.Print{{Product: "heron"}}), ""},
	} {
		if got := problemtest.Told(c.err); got != c.want {
			t.Errorf("%s:\n%s\nwant\n%s", c.what, got, c.want)
		}
	}
}

const autumnLedger = `
	// 15 ÷ 0.6 + 1 × 65 + 240 ÷ 12, and 180 + 46 + 60 + 4: 400.00
	1 fair_jury @fairs[2] (autumn fair): quotient jury @fairs[2].jury 15.00, chance @fairs[2].chance 60% = 25.00
	2 fair_nights @fairs[2] (autumn fair): product night @fairs[2].night 65.00, nights @fairs[2].nights 1 = 65.00
	3 fair_display @fairs[2] (autumn fair): quotient display @fairs[2].display 240.00, display fairs @fairs[2].display_fairs 12 = 20.00
	4 fair_fixed @fairs[2] (autumn fair): sum stand @fairs[2].stand 180.00, fair_jury #1 25.00, travel @fairs[2].travel 46.00, fair_nights #2 65.00, helper @fairs[2].helper 60.00, fair_display #3 20.00, insurance @fairs[2].other[0].amount 4.00 = 400.00
	// 60% × 48.40 + 40% × 18.15 = 36.30; 24 + 6; 18.60 + 4.40
	5 fair_price @fairs[2] (autumn fair): weighted price @prints[1].price 48.40, share of heron @fairs[2].mix[0].share 60%, price @prints[0].price 18.15, share of avocet @fairs[2].mix[1].share 40% = 36.30
	6 fair_revenue @fairs[2] (autumn fair): weighted revenue @prints[1].revenue 40.00, share of heron @fairs[2].mix[0].share 60%, revenue @prints[0].revenue 15.00, share of avocet @fairs[2].mix[1].share 40% = 30.00
	7 fair_kept @fairs[2] (autumn fair): weighted kept @prints[1].kept 31.00, share of heron @fairs[2].mix[0].share 60%, kept @prints[0].kept 11.00, share of avocet @fairs[2].mix[1].share 40% = 23.00
	// 32 × 36.30; 10% of 32 × 30; 32 × 23 − 400 − 96
	8 fair_sales @fairs[2] (autumn fair): product fair_price #5 36.30, prints @fairs[2].prints 32 = 1161.60
	9 fair_base @fairs[2] (autumn fair): product fair_revenue #6 30.00, prints @fairs[2].prints 32 = 960.00
	10 fair_commission_rated @fairs[2] (autumn fair): product fair_base #9 960.00, commission @fairs[2].commission 10% = 96.00
	11 fair_commission @fairs[2] (autumn fair): greatest fair_commission_rated #10 96.00, commission_at_least @fairs[2].commission_at_least 75.00 = 96.00
	12 fair_contribution @fairs[2] (autumn fair): product fair_kept #7 23.00, prints @fairs[2].prints 32 = 736.00
	13 fair_result @fairs[2] (autumn fair): sum fair_contribution #12 736.00, fair_fixed #4 −400.00, fair_commission #11 −96.00 = 240.00
	// 60% × 9 + 40% × 4 = 7, of it 2 own time; 18 × 7 stay; 240 + 32 × 7 − 50 × 5 in cash
	14 fair_goods @fairs[2] (autumn fair): weighted goods @prints[1].goods 9.00, share of heron @fairs[2].mix[0].share 60%, goods @prints[0].goods 4.00, share of avocet @fairs[2].mix[1].share 40% = 7.00
	15 fair_own_time @fairs[2] (autumn fair): weighted own time @prints[1].own_time 2.00, share of heron @fairs[2].mix[0].share 60%, own time @prints[0].own_time 2.00, share of avocet @fairs[2].mix[1].share 40% = 2.00
	16 fair_prints_left @fairs[2] (autumn fair): sum taken @fairs[2].taken 50, prints @fairs[2].prints −32 = 18
	17 fair_stock_left @fairs[2] (autumn fair): product fair_goods #14 7.00, fair_prints_left #16 18 = 126.00
	18 fair_goods_paid @fairs[2] (autumn fair): sum fair_goods #14 7.00, fair_own_time #15 −2.00 = 5.00
	19 fair_goods_taken @fairs[2] (autumn fair): product fair_goods_paid #18 5.00, taken @fairs[2].taken 50 = 250.00
	20 fair_goods_sold @fairs[2] (autumn fair): product fair_goods #14 7.00, prints @fairs[2].prints 32 = 224.00
	21 fair_cash @fairs[2] (autumn fair): sum fair_result #13 240.00, fair_goods_sold #20 224.00, fair_goods_taken #19 −250.00 = 214.00
	// 24 × 9 is more than 200; 240 ÷ 24
	22 fair_hours_worth @fairs[2] (autumn fair): product hour_worth @fairs[2].hour_worth 9.00, hours @fairs[2].hours 24 = 216.00
	23 fair_asked @fairs[2] (autumn fair): greatest opportunity_cost @fairs[2].opportunity_cost 200.00, fair_hours_worth #22 216.00 = 216.00
	24 fair_per_hour @fairs[2] (autumn fair): quotient fair_result #13 240.00, hours @fairs[2].hours 24 = 10.00
	// 23 − 10% × 30 = 20; 400 ÷ 20, and (400 + 75) ÷ 23 = 20.65…, × 36.30
	25 fair_commission_per_print @fairs[2] (autumn fair): product fair_revenue #6 30.00, commission @fairs[2].commission 10% = 3.00
	26 fair_kept_after @fairs[2] (autumn fair): sum fair_kept #7 23.00, fair_commission_per_print #25 −3.00 = 20.00
	27 fair_burden @fairs[2] (autumn fair): sum fair_fixed #4 400.00 = 400.00
	28 fair_prints_by_rate @fairs[2] (autumn fair): quotient fair_burden #27 400.00, fair_kept_after #26 20.00 = 20
	29 fair_burden @fairs[2] (autumn fair): sum fair_fixed #4 400.00, commission_at_least @fairs[2].commission_at_least 75.00 = 475.00
	30 fair_prints_by_minimum @fairs[2] (autumn fair): quotient fair_burden #29 475.00, fair_kept #7 23.00 = 20.652173913043
	31 fair_prints @fairs[2] (autumn fair): greatest fair_prints_by_rate #28 20, fair_prints_by_minimum #30 20.652173913043 = 20.652173913043
	32 fair_prints_sales @fairs[2] (autumn fair): product fair_price #5 36.30, fair_prints #31 20.652173913043 = 749.673913043478
	// 616 ÷ 20 = 30.8, and 691 ÷ 23 = 30.04…
	33 fair_burden @fairs[2] (autumn fair): sum fair_fixed #4 400.00, fair_asked #23 216.00 = 616.00
	34 fair_prints_by_rate @fairs[2] (autumn fair): quotient fair_burden #33 616.00, fair_kept_after #26 20.00 = 30.8
	35 fair_burden @fairs[2] (autumn fair): sum fair_fixed #4 400.00, fair_asked #23 216.00, commission_at_least @fairs[2].commission_at_least 75.00 = 691.00
	36 fair_prints_by_minimum @fairs[2] (autumn fair): quotient fair_burden #35 691.00, fair_kept #7 23.00 = 30.04347826087
	37 fair_prints @fairs[2] (autumn fair): greatest fair_prints_by_rate #34 30.8, fair_prints_by_minimum #36 30.04347826087 = 30.8`

const marketLedger = `
	1 fair_jury @fairs[2] (market): quotient jury @fairs[2].jury 10.00, chance @fairs[2].chance or 100% = 10.00
	2 fair_fixed @fairs[2] (market): sum stand @fairs[2].stand or 0, fair_jury #1 10.00, travel @fairs[2].travel or 0, helper @fairs[2].helper or 0 = 10.00
	3 fair_price @fairs[2] (market): weighted price @prints[1].price 48.40, share of heron @fairs[2].mix[0].share 100% = 48.40
	4 fair_revenue @fairs[2] (market): weighted revenue @prints[1].revenue 40.00, share of heron @fairs[2].mix[0].share 100% = 40.00
	5 fair_kept @fairs[2] (market): weighted kept @prints[1].kept 31.00, share of heron @fairs[2].mix[0].share 100% = 31.00
	// 10 × 48.40, 10% of it; 310 − 10 − 48.40
	6 fair_sales @fairs[2] (market): product fair_price #3 48.40, prints @fairs[2].prints 10 = 484.00
	7 fair_commission_rated @fairs[2] (market): product fair_sales #6 484.00, commission @fairs[2].commission 10% = 48.40
	8 fair_commission @fairs[2] (market): greatest fair_commission_rated #7 48.40, commission_at_least @fairs[2].commission_at_least or 0 = 48.40
	9 fair_contribution @fairs[2] (market): product fair_kept #5 31.00, prints @fairs[2].prints 10 = 310.00
	10 fair_result @fairs[2] (market): sum fair_contribution #9 310.00, fair_fixed #2 −10.00, fair_commission #8 −48.40 = 251.60
	11 fair_goods @fairs[2] (market): weighted goods @prints[1].goods 0, share of heron @fairs[2].mix[0].share 100% = 0
	12 fair_own_time @fairs[2] (market): weighted own time @prints[1].own_time 0, share of heron @fairs[2].mix[0].share 100% = 0
	13 fair_prints_left @fairs[2] (market): sum as many as are sold @fairs[2].prints 10, prints @fairs[2].prints −10 = 0
	14 fair_stock_left @fairs[2] (market): product fair_goods #11 0, fair_prints_left #13 0 = 0
	15 fair_goods_paid @fairs[2] (market): sum fair_goods #11 0, fair_own_time #12 −0 = 0
	16 fair_goods_taken @fairs[2] (market): product fair_goods_paid #15 0, as many as are sold @fairs[2].prints 10 = 0
	17 fair_goods_sold @fairs[2] (market): product fair_goods #11 0, prints @fairs[2].prints 10 = 0
	18 fair_cash @fairs[2] (market): sum fair_result #10 251.60, fair_goods_sold #17 0, fair_goods_taken #16 −0 = 251.60
	19 fair_hours_worth @fairs[2] (market): product hour_worth @fairs[2].hour_worth or 0, hours @fairs[2].hours or 0 = 0
	20 fair_asked @fairs[2] (market): greatest opportunity_cost @fairs[2].opportunity_cost or 0, fair_hours_worth #19 0 = 0
	// 31 − 4.84 = 26.16; 10 ÷ 26.16 = 0.3822…, × 48.40 = 18.50…
	21 fair_commission_per_print @fairs[2] (market): product fair_price #3 48.40, commission @fairs[2].commission 10% = 4.84
	22 fair_kept_after @fairs[2] (market): sum fair_kept #5 31.00, fair_commission_per_print #21 −4.84 = 26.16
	23 fair_burden @fairs[2] (market): sum fair_fixed #2 10.00 = 10.00
	24 fair_prints_by_rate @fairs[2] (market): quotient fair_burden #23 10.00, fair_kept_after #22 26.16 = 0.382262996942
	25 fair_prints @fairs[2] (market): greatest fair_prints_by_rate #24 0.382262996942 = 0.382262996942
	26 fair_prints_sales @fairs[2] (market): product fair_price #3 48.40, fair_prints #25 0.382262996942 = 18.501529051988
	27 fair_burden @fairs[2] (market): sum fair_fixed #2 10.00, fair_asked #20 0 = 10.00
	28 fair_prints_by_rate @fairs[2] (market): quotient fair_burden #27 10.00, fair_kept_after #22 26.16 = 0.382262996942
	29 fair_prints @fairs[2] (market): greatest fair_prints_by_rate #28 0.382262996942 = 0.382262996942`
