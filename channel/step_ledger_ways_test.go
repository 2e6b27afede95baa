package channel_test

// The ledgers of ways of selling, for TestStepLedgers.

const tradeLedger = `
	// 4 × 20 = 80, and 9.00 of freight below 100; 20% on the items
	1 unit_price @channels[3].orders[0]: product list price @list 40.00, uplift @channels[3].uplift or 1+0%, trade discount @channels[3].trade_discount[0] 1−50% = 20.00 half_up 20.00
	2 items @channels[3].orders[0]: product unit_price #1 20.00, items @channels[3].orders[0].items 4, promotion @channels[3].promotion or 1−0% = 80.00 half_up 80.00
	3 freight_charged @channels[3].orders[0]: sum postage @channels[3].orders[0].postage 9.00 = 9.00 half_up 9.00
	4 shipping @channels[3].orders[0]: below freight_charged #3 9.00, items #2 80.00, free from @channels[3].trade.free_from 100.00 = 9.00
	5 tax @channels[3].orders[0]: product items #2 80.00, tax rate @channels[3].tax.rate 20% = 16.00 half_up 16.00
	6 order_revenue @channels[3].orders[0]: sum items #2 80.00, shipping #4 9.00 = 89.00
	// of 105.00: half of 2%, 7.3% × 20 ÷ 365, and 1%
	7 fee_base @channels[3].trade.credit (early payment): sum items #2 80.00, shipping #4 9.00, tax #5 16.00 = 105.00
	8 fee_rated @channels[3].trade.credit (early payment): product fee_base #7 105.00, early @channels[3].trade.credit.early 2% = 2.10
	9 fee_charge @channels[3].trade.credit (early payment): sum fee_rated #8 2.10, fixed @channels[3].trade.credit.fixed or 0 = 2.10 half_down 2.10
	10 fee @channels[3].trade.credit (early payment): product fee_charge #9 2.10, taken @channels[3].trade.credit.taken 50% = 1.05
	11 fee_base @channels[3].trade.credit (waiting for the money): sum items #2 80.00, shipping #4 9.00, tax #5 16.00 = 105.00
	12 days_waited @channels[3].trade.credit (waiting for the money): product early_days @channels[3].trade.credit.early_days 10, taken @channels[3].trade.credit.taken 50% = 5
	13 days_waited @channels[3].trade.credit (waiting for the money): product days @channels[3].trade.credit.days 30, taken @channels[3].trade.credit.taken 1−50% = 15
	14 days_waited @channels[3].trade.credit (waiting for the money): sum days_waited #12 5, days_waited #13 15 = 20
	15 cost_of_waiting @channels[3].trade.credit (waiting for the money): quotient money @channels[3].trade.credit.interest 7.3%, days_waited #14 20, days in a year 365 = 0.004
	16 fee_rated @channels[3].trade.credit (waiting for the money): product fee_base #11 105.00, cost_of_waiting #15 0.004 = 0.42
	17 fee_charge @channels[3].trade.credit (waiting for the money): sum fee_rated #16 0.42, fixed @channels[3].trade.credit.fixed or 0 = 0.42
	18 fee @channels[3].trade.credit (waiting for the money): product fee_charge #17 0.42, share @channels[3].trade.credit.share or 100% = 0.42
	19 fee_base @channels[3].trade.credit (bad debts): sum items #2 80.00, shipping #4 9.00, tax #5 16.00 = 105.00
	20 fee_rated @channels[3].trade.credit (bad debts): product fee_base #19 105.00, bad @channels[3].trade.credit.bad 1% = 1.05
	21 fee_charge @channels[3].trade.credit (bad debts): sum fee_rated #20 1.05, fixed @channels[3].trade.credit.fixed or 0 = 1.05
	22 fee @channels[3].trade.credit (bad debts): product fee_charge #21 1.05, share @channels[3].trade.credit.share or 100% = 1.05
	// 5% and 1% of 80
	23 fee_rated @channels[3].trade (agent): product items #2 80.00, agent_reorder @channels[3].trade.agent_reorder 5% = 4.00
	24 fee_charge @channels[3].trade (agent): sum fee_rated #23 4.00, fixed @channels[3].trade.fixed or 0 = 4.00 half_up 4.00
	25 fee @channels[3].trade (agent): product fee_charge #24 4.00, share @channels[3].trade.share or 100% = 4.00
	26 fee_rated @channels[3].trade (defects): product items #2 80.00, defects @channels[3].trade.defects 1% = 0.80
	27 fee_charge @channels[3].trade (defects): sum fee_rated #26 0.80, fixed @channels[3].trade.fixed or 0 = 0.80 half_up 0.80
	28 fee @channels[3].trade (defects): product fee_charge #27 0.80, share @channels[3].trade.share or 100% = 0.80
	29 order_fees @channels[3].orders[0]: sum early payment #10 1.05, waiting for the money #18 0.42, bad debts #22 1.05, agent #25 4.00, defects #28 0.80 = 7.32
	30 order_fulfilment @channels[3].orders[0]: quotient postage @channels[3].orders[0].postage 9.00, loss @channels[3].lost_parcels or 1−0% = 9.00`

const allowanceLedger = `
	1 unit_price @channels[3].orders[0]: product list price @list 40.00, uplift @channels[3].uplift or 1+0% = 40.00 half_up 40.00
	2 items @channels[3].orders[0]: product unit_price #1 40.00, items @channels[3].orders[0].items or 1, promotion @channels[3].promotion or 1−0% = 40.00 half_up 40.00
	3 tax @channels[3].orders[0]: product items #2 40.00, tax rate @channels[3].tax.rate or 0% = 0.00 half_up 0.00
	4 order_revenue @channels[3].orders[0]: sum items #2 40.00, shipping @channels[3].orders[0].shipping or 0 = 40.00
	// a tenth of 40, since the freight is more
	5 fee_rated @channels[3].trade (freight allowance): product items #2 40.00, allowance @channels[3].trade.allowance 10% = 4.00
	6 fee_charge @channels[3].trade (freight allowance): sum fee_rated #5 4.00, fixed @channels[3].trade.fixed or 0 = 4.00
	7 freight_charged @channels[3].orders[0] (freight allowance): sum postage @channels[3].orders[0].postage 9.00 = 9.00 half_up 9.00
	8 fee_at_most @channels[3].trade (freight allowance): least fee_charge #6 4.00, freight_charged #7 9.00 = 4.00 half_up 4.00
	9 fee @channels[3].trade (freight allowance): product fee_at_most #8 4.00, share @channels[3].trade.share or 100% = 4.00
	10 order_fees @channels[3].orders[0]: sum freight allowance #9 4.00 = 4.00
	11 order_fulfilment @channels[3].orders[0]: quotient postage 0, loss @channels[3].lost_parcels or 1−0% = 0`

const galleryLedger = `
	// 30% of the sales, at 120 − 12; a sixth of that is tax
	1 share_of_orders @channels[3]: product share @channels[3].share or 100%, discounted @channels[3].consignment.discount.share 30% = 0.3
	2 unit_price @channels[3]: product list price @list 120.00, uplift @channels[3].uplift or 1+0% = 120.00 half_up 120.00
	3 items @channels[3]: product unit_price #2 120.00, items @channels[3].items or 1, promotion @channels[3].promotion or 1−0% = 120.00 half_up 120.00
	4 offer_off @channels[3].consignment.discount (discount): product items #3 120.00, rate @channels[3].consignment.discount.rate 10% = 12.00 half_up 12.00
	5 offer_left @channels[3].consignment.discount (discount): sum items #3 120.00, offer_off #4 −12.00 = 108.00
	6 tax @channels[3]: quotient offer_left #5 108.00, tax rate @channels[3].tax.rate 20%, tax rate @channels[3].tax.rate 1+20% = 18.00 half_up 18.00
	7 order_revenue @channels[3]: sum offer_left #5 108.00, shipping @channels[3].shipping or 0, tax #6 −18.00 = 90.00
	// half of 120 − 10, of the price before the discount
	8 fee_base @channels[3].consignment (commission): sum items #3 120.00 = 120.00
	9 comes_first @channels[3].consignment (commission): product costs first @channels[3].consignment.costs_first 10.00, items @channels[3].items or 1 = 10.00
	10 fee_slice @channels[3].consignment (commission): sum next from #9 10.00, from −0 = 10.00
	11 fee_slice @channels[3].consignment (commission): sum fee_base #8 120.00, from #9 −10.00 = 110.00
	12 shops_share @channels[3].consignment (commission): quotient on maker @channels[3].consignment.on_maker 100%, on maker @channels[3].consignment.on_maker 1+100% = 0.5
	13 fee_rated @channels[3].consignment (commission): weighted fee_slice #10 10.00, tier rate 0%, fee_slice #11 110.00, shops_share #12 0.5 = 55.00
	14 fee_charge @channels[3].consignment (commission): sum fee_rated #13 55.00, fixed @channels[3].consignment.fixed or 0 = 55.00 half_up 55.00
	15 fee @channels[3].consignment (commission): product fee_charge #14 55.00, share @channels[3].consignment.share or 100% = 55.00
	// 5% × 73 ÷ 365 of the half that is waited for
	16 cost_of_waiting @channels[3].consignment (waiting for the money): quotient money @channels[3].consignment.interest 5%, days @channels[3].consignment.days 73, days in a year 365 = 0.01
	17 shops_share @channels[3].consignment (waiting for the money): quotient on maker @channels[3].consignment.on_maker 100%, on maker @channels[3].consignment.on_maker 1+100% = 0.5
	18 cost_of_waiting @channels[3].consignment (waiting for the money): product cost_of_waiting #16 0.01, shops_share #17 1−0.5 = 0.005
	19 fee_rated @channels[3].consignment (waiting for the money): product offer_left #5 108.00, cost_of_waiting #18 0.005 = 0.54
	20 fee_charge @channels[3].consignment (waiting for the money): sum fee_rated #19 0.54, fixed @channels[3].consignment.fixed or 0 = 0.54
	21 fee @channels[3].consignment (waiting for the money): product fee_charge #20 0.54, share @channels[3].consignment.share or 100% = 0.54
	22 order_fees @channels[3]: sum commission #15 55.00, waiting for the money #21 0.54 = 55.54
	23 order_fulfilment @channels[3]: quotient postage @channels[3].postage or 0, loss @channels[3].lost_parcels or 1−0% = 0`

const shelfLedger = `
	1 unit_price @channels[3]: product list price @list 50.00, uplift @channels[3].uplift or 1+0% = 50.00 half_up 50.00
	2 items @channels[3]: product unit_price #1 50.00, items @channels[3].items or 1, promotion @channels[3].promotion or 1−0% = 50.00 half_up 50.00
	// a maker who is not registered owes none, whatever the rate
	3 tax @channels[3]: product items #2 50.00, tax rate 0% = 0.00 half_up 0.00
	4 order_revenue @channels[3]: sum items #2 50.00, shipping @channels[3].shipping or 0 = 50.00
	// two fifths of 50
	5 fee_rated @channels[3].consignment (commission): product items #2 50.00, commission @channels[3].consignment.commission 40% = 20.00
	6 fee_charge @channels[3].consignment (commission): sum fee_rated #5 20.00, fixed @channels[3].consignment.fixed or 0 = 20.00 half_up 20.00
	7 fee @channels[3].consignment (commission): product fee_charge #6 20.00, share @channels[3].consignment.share or 100% = 20.00
	// 5% × 73 ÷ 365 of the three fifths that are waited for
	8 cost_of_waiting @channels[3].consignment (waiting for the money): quotient money @channels[3].consignment.interest 5%, days @channels[3].consignment.days 73, days in a year 365 = 0.01
	9 cost_of_waiting @channels[3].consignment (waiting for the money): product cost_of_waiting #8 0.01, commission @channels[3].consignment.commission 1−40% = 0.006
	10 fee_rated @channels[3].consignment (waiting for the money): product items #2 50.00, cost_of_waiting #9 0.006 = 0.30
	11 fee_charge @channels[3].consignment (waiting for the money): sum fee_rated #10 0.30, fixed @channels[3].consignment.fixed or 0 = 0.30
	12 fee @channels[3].consignment (waiting for the money): product fee_charge #11 0.30, share @channels[3].consignment.share or 100% = 0.30
	13 order_fees @channels[3]: sum commission #7 20.00, waiting for the money #12 0.30 = 20.30
	14 order_fulfilment @channels[3]: quotient postage @channels[3].postage or 0, loss @channels[3].lost_parcels or 1−0% = 0`

const houseLedger = `
	1 unit_price @channels[3]: product list price @list 50.00, uplift @channels[3].uplift or 1+0% = 50.00 half_up 50.00
	2 items @channels[3]: product unit_price #1 50.00, items @channels[3].items or 1, promotion @channels[3].promotion or 1−0% = 50.00 half_up 50.00
	3 tax @channels[3]: quotient items #2 50.00, tax rate @channels[3].tax.rate 25%, tax rate @channels[3].tax.rate 1+25% = 10.00 half_up 10.00
	4 order_revenue @channels[3]: sum items #2 50.00, shipping @channels[3].shipping or 0, tax #3 −10.00 = 40.00
	// 60% of 50 − 10, out of which the house pays the tax of 10
	5 comes_first @channels[3].on_demand (the house keeps): product base @channels[3].on_demand.sizes[0].base 10.00, items @channels[3].items or 1 = 10.00
	6 fee_slice @channels[3].on_demand (the house keeps): sum next from #5 10.00, from −0 = 10.00
	7 fee_slice @channels[3].on_demand (the house keeps): sum items #2 50.00, from #5 −10.00 = 40.00
	8 house_keeps @channels[3].on_demand (the house keeps): sum one 1, rate @channels[3].on_demand.rate −40% = 0.6
	9 fee_rated @channels[3].on_demand (the house keeps): weighted fee_slice #6 10.00, tier rate 0%, fee_slice #7 40.00, house_keeps #8 0.6 = 24.00
	10 fee_charge @channels[3].on_demand (the house keeps): sum fee_rated #9 24.00, fixed @channels[3].on_demand.fixed or 0 = 24.00
	11 fee_base_tax @channels[3].on_demand (the house keeps): quotient items #2 50.00, tax rate @channels[3].tax.rate 25%, tax rate @channels[3].tax.rate 1+25% = 10.00 half_up 10.00
	12 fee_charge @channels[3].on_demand (the house keeps): sum fee_charge #10 24.00, fee_base_tax #11 −10.00 = 14.00
	13 fee_at_least @channels[3].on_demand (the house keeps): greatest fee_charge #12 14.00, nothing 0 = 14.00 half_up 14.00
	14 fee @channels[3].on_demand (the house keeps): product fee_at_least #13 14.00, share @channels[3].on_demand.share or 100% = 14.00
	15 order_fees @channels[3]: sum the house keeps #14 14.00 = 14.00
	16 order_fulfilment @channels[3]: quotient postage @channels[3].postage or 0, loss @channels[3].lost_parcels or 1−0% = 0`

const flatLedger = `
	1 unit_price @channels[3]: product list price @list 50.00, uplift @channels[3].uplift or 1+0% = 50.00 half_up 50.00
	2 items @channels[3]: product unit_price #1 50.00, items @channels[3].items or 1, promotion @channels[3].promotion or 1−0% = 50.00 half_up 50.00
	3 tax @channels[3]: quotient items #2 50.00, tax rate @channels[3].tax.rate 25%, tax rate @channels[3].tax.rate 1+25% = 10.00 half_up 10.00
	4 order_revenue @channels[3]: sum items #2 50.00, shipping @channels[3].shipping or 0, tax #3 −10.00 = 40.00
	// all of 50 ÷ 1.25 but 3.00
	5 fee_base_tax @channels[3].on_demand (the house keeps): quotient items #2 50.00, tax rate @channels[3].tax.rate 25%, tax rate @channels[3].tax.rate 1+25% = 10.00 half_up 10.00
	6 fee_base @channels[3].on_demand (the house keeps): sum items #2 50.00, fee_base_tax #5 −10.00 = 40.00
	7 comes_first @channels[3].on_demand (the house keeps): product flat @channels[3].on_demand.sizes[0].flat 3.00, items @channels[3].items or 1 = 3.00
	8 fee_slice @channels[3].on_demand (the house keeps): sum next from #7 3.00, from −0 = 3.00
	9 fee_slice @channels[3].on_demand (the house keeps): sum fee_base #6 40.00, from #7 −3.00 = 37.00
	10 fee_rated @channels[3].on_demand (the house keeps): weighted fee_slice #8 3.00, tier rate 0%, fee_slice #9 37.00, all of it 100% = 37.00
	11 fee_charge @channels[3].on_demand (the house keeps): sum fee_rated #10 37.00, fixed @channels[3].on_demand.fixed or 0 = 37.00 half_up 37.00
	12 fee @channels[3].on_demand (the house keeps): product fee_charge #11 37.00, share @channels[3].on_demand.share or 100% = 37.00
	13 order_fees @channels[3]: sum the house keeps #12 37.00 = 37.00
	14 order_fulfilment @channels[3]: quotient postage @channels[3].postage or 0, loss @channels[3].lost_parcels or 1−0% = 0`

const besideLedger = `
	// half of the shipping of 6; 23 ÷ 11 is tax
	1 unit_price @channels[3].orders[0]: product list price @list 20.00, uplift @channels[3].uplift or 1+0% = 20.00 half_up 20.00
	2 items @channels[3].orders[0]: product unit_price #1 20.00, items @channels[3].orders[0].items or 1, promotion @channels[3].promotion or 1−0% = 20.00 half_up 20.00
	3 all_items @channels[3].orders[0]: sum items @channels[3].orders[0].items or 1, other items @channels[3].orders[0].others.items 1 = 2
	4 own_share @channels[3].orders[0]: quotient shipping @channels[3].orders[0].shipping 6.00, items @channels[3].orders[0].items or 1, all_items #3 2 = 3.00 half_up 3.00
	5 others_shipping @channels[3].orders[0]: sum shipping @channels[3].orders[0].shipping 6.00, own_share #4 −3.00 = 3.00
	6 taxable @channels[3].orders[0]: sum items #2 20.00, own_share #4 3.00 = 23.00
	7 tax @channels[3].orders[0]: quotient taxable #6 23.00, tax rate @channels[3].tax.classes[0].rate 10%, tax rate @channels[3].tax.classes[0].rate 1+10% = 2.090909090909 half_up 2.09
	// 1% of 23 and half of 0.20; a sixth of 0.33, up from a half cent; others bear the rest
	8 all_items @channels[3].orders[0]: sum items @channels[3].orders[0].items or 1, other items @channels[3].orders[0].others.items 1 = 2
	9 own_share @channels[3].orders[0]: quotient fixed @channels[3].orders[0].surcharge.fixed 0.20, items @channels[3].orders[0].items or 1, all_items #8 2 = 0.10
	10 before_surcharge @channels[3].orders[0].surcharge: sum items #2 20.00, own_share #4 3.00, tax on top 0 = 23.00
	11 surcharge_rated @channels[3].orders[0].surcharge: product before_surcharge #10 23.00, rate @channels[3].orders[0].surcharge.rate 1% = 0.23
	12 surcharge @channels[3].orders[0].surcharge: sum surcharge_rated #11 0.23, own_share #9 0.10 = 0.33 half_up 0.33
	13 surcharge_tax @channels[3].orders[0].surcharge: quotient surcharge #12 0.33, tax rate @channels[3].tax.rate 20%, tax rate @channels[3].tax.rate 1+20% = 0.055 half_up 0.06
	14 others_surcharge @channels[3].orders[0].surcharge: sum fixed @channels[3].orders[0].surcharge.fixed 0.20, own_share #9 −0.10 = 0.10
	15 before_surcharge @channels[3].orders[0].surcharge: sum worth of others @channels[3].orders[0].others.worth 30.00, others_shipping #5 3.00, tax on top 0 = 33.00
	16 surcharge_rated @channels[3].orders[0].surcharge: product before_surcharge #15 33.00, rate @channels[3].orders[0].surcharge.rate 1% = 0.33
	17 surcharge @channels[3].orders[0].surcharge: sum surcharge_rated #16 0.33, others_surcharge #14 0.10 = 0.43 half_up 0.43
	18 surcharge_tax @channels[3].orders[0].surcharge: quotient surcharge #17 0.43, tax rate @channels[3].tax.rate 20%, tax rate @channels[3].tax.rate 1+20% = 0.071666666667 half_up 0.07
	19 tax @channels[3].orders[0]: sum tax #7 2.09, surcharge_tax #13 0.06 = 2.15
	20 order_revenue @channels[3].orders[0]: sum items #2 20.00, own_share #4 3.00, surcharge #12 0.33, tax #19 −2.15 = 21.18
	// 2% of 56 and 0.30: 2% of 23, and half of 0.30
	21 fee_base @channels[3].fees[0] (card): sum items #2 20.00, own_share #4 3.00 = 23.00
	22 fee_base @channels[3].fees[0] (card): sum worth of others @channels[3].orders[0].others.worth 30.00, others_shipping #5 3.00 = 33.00
	23 fee_whole_base @channels[3].fees[0] (card): sum fee_base #21 23.00, fee_base #22 33.00 = 56.00
	24 all_items @channels[3].orders[0] (card): sum items @channels[3].orders[0].items or 1, other items @channels[3].orders[0].others.items 1 = 2
	25 fee_rated @channels[3].fees[0] (card): product fee_whole_base #23 56.00, rate @channels[3].fees[0].rate 2% = 1.12
	26 fee_charge @channels[3].fees[0] (card): sum fee_rated #25 1.12, fixed @channels[3].fees[0].fixed 0.30 = 1.42
	27 fee_whole_rated @channels[3].fees[0] (card): product fee_whole_base #23 56.00, rate @channels[3].fees[0].rate 2% = 1.12
	28 fee_beside_rate @channels[3].fees[0] (card): sum fee_charge #26 1.42, fee_whole_rated #27 −1.12 = 0.30
	29 fee_own_rated @channels[3].fees[0] (card): product fee_base #21 23.00, rate @channels[3].fees[0].rate 2% = 0.46
	30 own_share @channels[3].fees[0] (card): quotient fee_beside_rate #28 0.30, items @channels[3].orders[0].items or 1, all_items #24 2 = 0.15
	31 fee_own @channels[3].fees[0] (card): sum fee_own_rated #29 0.46, own_share #30 0.15 = 0.61
	32 fee_own @channels[3].fees[0] (card): greatest fee_own #31 0.61, nothing 0 = 0.61
	33 fee_own @channels[3].fees[0] (card): least fee_own #32 0.61, fee_charge #26 1.42 = 0.61 half_up 0.61
	34 fee @channels[3].fees[0] (card): product fee_own #33 0.61, share @channels[3].fees[0].share or 100% = 0.61
	35 order_fees @channels[3].orders[0]: sum card #34 0.61 = 0.61
	// half of 8
	36 all_items @channels[3].orders[0]: sum items @channels[3].orders[0].items or 1, other items @channels[3].orders[0].others.items 1 = 2
	37 own_share @channels[3].orders[0]: quotient postage @channels[3].orders[0].postage 8.00, items @channels[3].orders[0].items or 1, all_items #36 2 = 4.00
	38 order_fulfilment @channels[3].orders[0]: quotient own_share #37 4.00, loss @channels[3].lost_parcels or 1−0% = 4.00`

const setLedger = `
	1 unit_price @channels[3].orders[0]: product list price @list 39.99, uplift @channels[3].uplift or 1+0% = 39.99 half_up 39.99
	2 items @channels[3].orders[0]: product unit_price #1 39.99, items @channels[3].orders[0].items 3, promotion @channels[3].promotion or 1−0% = 119.97 half_up 119.97
	3 taxable @channels[3].orders[0]: sum items #2 119.97, shipping @channels[3].orders[0].shipping 4.00 = 123.97
	// 30 : 10 of 119.97, the odd cent to the first; 10% of 89.98 and 3, 20% of 29.99 and 1
	4 price_of_parts @channels[3].orders[0]: sum price of rail 30, price of frame 10 = 40
	5 share_of_part @channels[3].orders[0]: quotient price of rail 30, price_of_parts #4 40 = 0.75
	6 part @channels[3].orders[0]: product items #2 119.97, share_of_part #5 0.75 = 89.9775 down 89.97
	7 part @channels[3].orders[0]: sum part #6 89.97, left of the minor units 0.01 = 89.98
	8 share_of_part @channels[3].orders[0]: quotient price of frame 10, price_of_parts #4 40 = 0.25
	9 part @channels[3].orders[0]: product items #2 119.97, share_of_part #8 0.25 = 29.9925 down 29.99
	10 price_of_parts @channels[3].orders[0]: sum price of rail 30, price of frame 10 = 40
	11 share_of_part @channels[3].orders[0]: quotient price of rail 30, price_of_parts #10 40 = 0.75
	12 part @channels[3].orders[0]: product shipping @channels[3].orders[0].shipping 4.00, share_of_part #11 0.75 = 3.00 down 3.00
	13 share_of_part @channels[3].orders[0]: quotient price of frame 10, price_of_parts #10 40 = 0.25
	14 part @channels[3].orders[0]: product shipping @channels[3].orders[0].shipping 4.00, share_of_part #13 0.25 = 1.00 down 1.00
	15 tax_of_line @channels[3].orders[0]: product rail #7 89.98, tax rate @channels[3].tax.classes[0].rate 10% = 8.998 half_up 9.00
	16 tax_of_line @channels[3].orders[0]: product rail #12 3.00, tax rate @channels[3].tax.classes[0].rate 10% = 0.30 half_up 0.30
	17 tax_of_line @channels[3].orders[0]: product frame #9 29.99, tax rate @channels[3].tax.rate 20% = 5.998 half_up 6.00
	18 tax_of_line @channels[3].orders[0]: product frame #14 1.00, tax rate @channels[3].tax.rate 20% = 0.20 half_up 0.20
	19 tax @channels[3].orders[0]: sum tax at 10% #15 9.00, tax at 10% #16 0.30, tax at 20% #17 6.00, tax at 20% #18 0.20 = 15.50
	20 order_revenue @channels[3].orders[0]: sum items #2 119.97, shipping @channels[3].orders[0].shipping 4.00 = 123.97
	21 order_fulfilment @channels[3].orders[0]: quotient postage @channels[3].orders[0].postage or 0, loss @channels[3].lost_parcels or 1−0% = 0`

const unitsLedger = `
	1 unit_price @channels[3].orders[0]: product list price @list 10.00, uplift @channels[3].uplift or 1+0% = 10.00 half_up 10.00
	2 items @channels[3].orders[0]: product unit_price #1 10.00, items @channels[3].orders[0].items 3, promotion @channels[3].promotion 1−0.05% = 29.985 half_up 29.99
	3 taxable @channels[3].orders[0]: sum items #2 29.99, shipping @channels[3].orders[0].shipping 4.00 = 33.99
	// 29.99 is 9.99 and twice 10.00; 20% of each is 2.00
	4 taxed_item @channels[3].orders[0]: quotient items #2 29.99, items @channels[3].orders[0].items 3 = 9.996666666667 down 9.99
	5 items_with_more @channels[3].orders[0]: product taxed_item #4 9.99, items @channels[3].orders[0].items 3 = 29.97
	6 items_with_more @channels[3].orders[0]: sum items #2 29.99, items_with_more #5 −29.97 = 0.02
	7 items_with_more @channels[3].orders[0]: quotient items_with_more #6 0.02, a minor unit more 0.01 = 2
	8 tax_of_item @channels[3].orders[0]: product taxed_item #4 9.99, tax rate @channels[3].tax.rate 20% = 1.998 half_up 2.00
	9 taxed_item @channels[3].orders[0]: sum taxed_item #4 9.99, a minor unit more 0.01 = 10.00
	10 tax_of_item @channels[3].orders[0]: product taxed_item #9 10.00, tax rate @channels[3].tax.rate 20% = 2.00 half_up 2.00
	11 items_with_more @channels[3].orders[0]: sum items @channels[3].orders[0].items 3, items_with_more #7 −2 = 1
	12 tax_of_line @channels[3].orders[0]: weighted tax_of_item #8 2.00, items_with_more #11 1, tax_of_item #10 2.00, items_with_more #7 2 = 6.00
	13 tax_of_line @channels[3].orders[0]: product shipping @channels[3].orders[0].shipping 4.00, tax rate @channels[3].tax.rate 20% = 0.80 half_up 0.80
	14 tax @channels[3].orders[0]: sum tax_of_line #12 6.00, tax on shipping #13 0.80 = 6.80
	15 order_revenue @channels[3].orders[0]: sum items #2 29.99, shipping @channels[3].orders[0].shipping 4.00 = 33.99
	16 order_fulfilment @channels[3].orders[0]: quotient postage @channels[3].orders[0].postage or 0, loss @channels[3].lost_parcels or 1−0% = 0`
