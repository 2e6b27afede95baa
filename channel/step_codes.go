package channel

import "example.com/quoin"

// Codes of the steps that explain a settlement. They stand at the kind of order
// or at the fee that they belong to.
const (
	StepUnitPrice       quoin.StepCode = "unit_price"        // list × (1 + uplift) × each (1 − trade discount)
	StepPricePointSteps quoin.StepCode = "price_point_steps" // in whole steps, or in units of every
	StepPricePoint      quoin.StepCode = "price_point"       // the nearest price that can be asked
	StepItems           quoin.StepCode = "items"             // unit price × count × (1 − promotion)
	StepFull            quoin.StepCode = "full_price"        // unit price × count
	StepDiscount        quoin.StepCode = "discount"          // full price − items
	StepShipping        quoin.StepCode = "shipping"          // where items stay below free from
	StepTaxable         quoin.StepCode = "taxable"
	StepTax             quoin.StepCode = "tax"
	StepTaxNet          quoin.StepCode = "price_without_tax" // price ÷ (1 + t), rounded
	StepTaxLine         quoin.StepCode = "tax_of_line"       // of a line, of shipping, or of all of one rate
	StepTaxedUnit       quoin.StepCode = "taxed_item"        // what one item comes to
	StepTaxUnit         quoin.StepCode = "tax_of_item"       // rounded
	StepOddUnits        quoin.StepCode = "items_with_more"   // how many items come to a minor unit more
	StepParts           quoin.StepCode = "price_of_parts"    // of all parts of an item by themselves
	StepShareOfParts    quoin.StepCode = "share_of_part"     // its price ÷ the price of all
	StepPart            quoin.StepCode = "part"              // what a part comes to
	StepBeforeSurcharge quoin.StepCode = "before_surcharge"  // items + shipping + tax on top
	StepSurchargeRated  quoin.StepCode = "surcharge_rated"   // rate of that
	StepSurcharge       quoin.StepCode = "surcharge"         // rate and fixed amount together
	StepSurchargeTax    quoin.StepCode = "surcharge_tax"     // in it, or on top
	StepRevenue         quoin.StepCode = "order_revenue"     // items + shipping + surcharge − tax in them
	StepBase            quoin.StepCode = "fee_base"
	StepBaseTax         quoin.StepCode = "fee_base_tax" // the tax in it
	StepTogether        quoin.StepCode = "fee_together" // base × the orders charged together
	StepFrom            quoin.StepCode = "fee_from"     // where a tier begins: its from × items
	StepSlice           quoin.StepCode = "fee_slice"    // the part of the base in one tier
	StepRated           quoin.StepCode = "fee_rated"    // rate, or the rates of tiers, of the base
	StepFixed           quoin.StepCode = "fee_fixed"    // fixed, of the fee or of a tier, × items
	StepCharge          quoin.StepCode = "fee_charge"
	StepAtLeast         quoin.StepCode = "fee_at_least"
	StepAtMost          quoin.StepCode = "fee_at_most"
	StepFeeTax          quoin.StepCode = "fee_tax"
	StepPerOrder        quoin.StepCode = "fee_per_order" // one order's part of it
	StepFee             quoin.StepCode = "fee"           // as it counts: with its tax, times its share
	StepFees            quoin.StepCode = "order_fees"    // all fees of the order
	StepFulfilment      quoin.StepCode = "order_fulfilment"
	StepHome            quoin.StepCode = "in_shop_currency" // × the rate of the channel's currency

	// What other items in the order come to, and what own items bear.
	StepAllItems       quoin.StepCode = "all_items"       // own items + other items
	StepOwnShare       quoin.StepCode = "own_share"       // × own items ÷ all items
	StepWholeOrder     quoin.StepCode = "whole_order"     // own items and others, in money
	StepOthersShipping quoin.StepCode = "others_shipping" // shipping − what own items bear
	// The tax of all shipping, where goods have several rates, and the part of it that others bear.
	StepShippingTax       quoin.StepCode = "tax_of_shipping"
	StepOthersShippingTax quoin.StepCode = "others_tax_of_shipping"
	StepOthersSurcharge   quoin.StepCode = "others_surcharge" // its fixed amount − what own items bear
	StepWholeBase         quoin.StepCode = "fee_whole_base"   // of the fee: own base + that of others
	StepWholeRated        quoin.StepCode = "fee_whole_rated"  // rate of the whole base
	StepBesideRate        quoin.StepCode = "fee_beside_rate"  // the whole fee − its rate of the whole base
	StepOwnRated          quoin.StepCode = "fee_own_rated"    // rate of the own base
	StepOwnFee            quoin.StepCode = "fee_own"          // its rate of own items + share of the rest

	// What ways of selling come to.
	StepFreight  quoin.StepCode = "freight_charged" // postage, in the currency that buyers pay in
	StepShare    quoin.StepCode = "share_of_orders" // of those with a discount, or without
	StepTakes    quoin.StepCode = "shops_share"     // mark-up ÷ (1 + mark-up)
	StepWaits    quoin.StepCode = "days_waited"
	StepCarrying quoin.StepCode = "cost_of_waiting" // money × days ÷ 365
	StepKeeps    quoin.StepCode = "house_keeps"     // 1 − the maker's rate
	StepFirst    quoin.StepCode = "comes_first"     // an amount for each item × items
	StepStays    quoin.StepCode = "fee_stays"       // 1 − the share that refunds bring back
	StepReturned quoin.StepCode = "fee_returned"    // returned × part × fees
	StepSurvives quoin.StepCode = "arrives"         // of the goods: 1 − each loss, multiplied
	StepLost     quoin.StepCode = "goods_lost"
)

// IsFee reports whether a step belongs to a fee.
func IsFee(s quoin.Step) bool {
	switch s.Code {
	case StepBase, StepBaseTax, StepTogether, StepPerOrder, StepFrom, StepSlice, StepRated, StepFixed, StepCharge, StepAtLeast, StepAtMost, StepFeeTax, StepFee, StepFees,
		StepWholeBase, StepWholeRated, StepBesideRate, StepOwnRated, StepOwnFee:
		return true
	}
	return false
}
