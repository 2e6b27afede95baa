package sheet_test

import (
	"encoding/json"
	"strings"
	"testing"

	"example.com/quoin/margin/pricelist"
)

// told is an answer written by hand that has one of everything a page can say. A page works nothing
// out but margins, so that every figure it prints can be looked up here.
//
// Web: 25.00 + 4.00 − 4.83 of tax is 24.17; less 5.00, 1.27, 5.20 and 0.70 it is 12.00; less 2.00
// and 2.50 it is 7.50. Materials are 5.00 − 1.50 − 0.50 of time. (24.17 − 5.00) ÷ 24.17 is 79.3%,
// 7.50 ÷ 24.17 is 31.0%.
// Fair: 25.00 − 4.17 is 20.83; less 5.00 and 0.33 it is 15.50; less 2.00 and 3.38 it is 10.12.
// 15.83 ÷ 20.83 is 76.0%, 10.12 ÷ 20.83 is 48.6%.
const told = `{"currency": "EUR", "price_step": "0.01", "price_limit": "90.00", "choose": "nearest",
"dropped": ["ladder", "round"], "emptied": ["heron-a4"], "cautions": ["Estimates only."],
"products": [{"id": "heron-a4", "name": "Heron, A4", "size": "210 x 297 mm", "price": "25.00", "today": "24.00", "change": "4.17%",
  "least": "20.00", "greatest": "40.00", "may_lie": [{"first": "20.00", "last": "25.00"}, {"first": "26.00", "last": "40.00"}],
  "lower": {"price": "19.99", "by": [{"rule": "leaves ten", "kind": "contribution", "product": "heron-a4", "price": "19.99", "channel": "web", "order": 2, "bound": "at_least", "asked": "10.00", "got": "9.99"}]},
  "higher": {"price": "25.01", "by": [{"rule": "market", "kind": "price", "product": "heron-a4", "price": "25.01", "bound": "at_most", "asked": "25.00", "got": "25.01"}]},
  "channels": [
    {"id": "web", "name": "Own shop", "buyer": {"item": "25.00", "postage": "4.00"}, "range": {"goods": {"low": "4.50", "high": "5.60"}, "contribution": {"low": "11.40", "high": "12.50"}, "net": {"low": "6.90", "high": "8.00"}},
     "statement": {"revenue": "24.17", "tax": "4.83", "goods": "5.00", "own_time": "1.50", "paid_time": "0.50", "gross": "19.17", "fees": "1.27", "fulfilment": "5.20", "fixed_cost": "0.70", "contribution": "12.00", "overhead": "2.00", "operating": "10.00", "income_tax": "2.50", "net": "7.50"},
     "orders": [
       {"id": "one", "name": "One print", "order": 0, "share": "60%", "items": 1, "currency": "EUR", "unit": "25.00", "paid": "29.00", "revenue": "24.17", "goods": "5.00", "fees": [{"name": "card", "amount": "0.87"}, {"name": "listing", "amount": "0.40"}], "fulfilment": "5.20", "contribution": "11.40", "per_item": "11.40", "refund": {"items": "25.00", "shipping": "0.00", "tax": "4.17", "total": "25.00", "tax_back": "4.17", "fees_back": "0.00", "fees_kept": "0.87", "goods_back": "5.00", "postage": "3.00", "dispute": "0.00", "result": "-6.30"}},
       {"share": "40%", "order": 1, "items": 3, "currency": "USD", "unit": "27.004", "paid": "80.995", "revenue": "72.00", "goods": "15.00", "fulfilment": "9.90", "contribution": "42.00", "per_item": "14.00"}]},
    {"id": "fair", "name": "Weekend fair", "buyer": {"item": "25.00", "postage": "0.00"},
     "statement": {"revenue": "20.83", "tax": "4.17", "goods": "5.00", "own_time": "1.50", "paid_time": "0.50", "gross": "15.83", "fees": "0.33", "fulfilment": "0.00", "fixed_cost": "0.00", "contribution": "15.50", "overhead": "2.00", "operating": "13.50", "income_tax": "3.38", "net": "10.12"}}],
  "by_channel": [
    {"channel": "web", "floor": "23.10", "sets_price": true, "contribution": "12.00",
     "below": {"after": "19.00", "contribution": "9.00", "first": "20.00", "last": "23.48", "again": "23.49"},
     "inside": {"after": "24.00", "contribution": "12.40", "first": "24.50", "last": "25.50", "again": "25.51"},
     "above": {"after": "29.00", "contribution": "15.00", "first": "30.00", "last": "90.00"},
     "break_even": [{"what": "fixed_cost", "path": "x", "cost": "30.00", "items": "2.5"}, {"what": "overhead", "path": "x", "cost": "40.00", "items": "3.2"}, {"what": "listing", "path": "x", "cost": "12.00", "items": "1"}],
     "discount": {"by": "15.5%", "contribution": "8.50", "volume": "1.412", "rules": ["leaves ten"], "more": true}},
    {"channel": "fair", "sets_price": false, "no_rule": true, "contribution": "15.50", "break_even": [{"what": "stand", "path": "x", "cost": "60.00"}],
     "discount": {"by": "61%", "contribution": "0.25", "loss": true}}],
  "parcels": [
    {"channel": "web", "order": 0, "shipment": {"packing": "tube", "index": 0, "prints": 1, "parcels": 1, "each": 1, "last": 1, "mass": "0.2 kg", "billable": "0.25 kg", "zone": 0, "step": 0, "last_step": 0, "postage": "5.20", "per_pack": "0.40", "packed": "0.40", "total": "6.00"}, "next": "6.00", "rises": 4},
    {"channel": "web", "order": 1, "shipment": {"packing": "flat", "index": 0, "prints": 3, "parcels": 2, "each": 3, "last": 3, "mass": "0.2 kg", "billable": "1 kg", "zone": 0, "step": 0, "last_step": 0, "postage": "9.90", "per_pack": "0.40", "packed": "0.40", "total": "6.00"}, "next": "9.90"},
    {"channel": "post", "order": 0, "shipment": {"packing": "box", "index": 0, "prints": 2, "parcels": 1, "each": 2, "last": 2, "mass": "0.2 kg", "billable": "2 kg", "zone": 0, "step": 0, "last_step": 0, "postage": "7.00", "per_pack": "0.40", "packed": "0.40", "total": "6.00"}, "next": "7.00"}],
  "worked_out": [
    {"path": "x", "supply": "paper", "quantity": "0.125 sheet", "sheet": {"whole": "500 x 700 mm", "pieces": 8, "blocks": [], "used": "71.24%", "bound": 8, "proven": true}, "mass": "18.5 g", "edge": "0.03"},
    {"path": "x", "supply": "canvas", "quantity": "0.3 m", "roll": {"width": "600 mm", "length": "2 m", "pieces": 12, "rows": [], "used": "80%", "left": "0.1 m"}, "edge": "0.00"},
    {"path": "x", "supply": "moulding", "quantity": "1.2 m", "sticks": {"sticks": 2, "bound": 2, "proven": true, "saws": []}},
    {"path": "x", "supply": "ink", "quantity": "3.5 ml"}],
  "run_start": {"good": 10, "start": 12, "chance": "95.99%", "average": 11, "average_chance": "61.5%"},
  "sourcing": {"home": {"fixed": "5.00", "each": "4.00"}, "stretches": [{"from": 1, "to": 40, "source": "home", "first": "9.00", "last": "165.00"}, {"from": 41, "to": 90, "source": "mill", "first": "166.00", "last": "300.00"}],
    "quotes": [{"id": "mill", "prints": 41, "cost": "166.00", "per_print": "4.05", "ordered": 50, "fewest": 39, "most": 52, "cash": "180.00", "order": 45, "left_over": "3.26"},
      {"id": "house", "prints": 41, "cost": "205.00", "per_print": "5.00", "ordered": 41, "fewest": 41, "most": 41, "cash": "205.00"}]},
  "uncertainty": {"cheapest": {"least": "19.00", "price": "24.00"}, "dearest": {"least": "24.00", "conflict": ["leaves ten", "market"]}, "matters": true,
    "inputs": [{"path": "x", "name": "Heron, A4, ink", "low": "3 ml", "high": "4 ml", "goods": {"low": "4.80", "high": "5.30"}, "channel": "web"},
      {"path": "supplies[0].price", "name": "", "low": "60.00", "high": "70.00", "goods": {"low": "4.95", "high": "5.10"}, "channel": "web"}]},
  "market": {"counted": 9, "venues": 3, "sellers": 1, "needs_counted": 5, "needs_venues": 2, "low": "12.00", "high": "48.00", "lower_quartile": "18.00", "median": "22.50", "upper_quartile": "31.00", "today_above": "56%", "price_above": "66.7%",
    "left_out": [{"code": "asked_only", "count": 4}, {"code": "sold_too_few", "count": 3}, {"code": "frame_worth_unknown", "count": 2}, {"code": "comparable_without_size", "count": 5}, {"code": "nothing_left_of_price", "count": 6}]}},
 {"id": "wren", "price": "8.00", "today": "8.00", "change": "0%", "least": "8.00", "greatest": "12.00", "may_lie": [{"first": "0.01", "last": "12.00", "none_lower": true}], "channels": [],
  "lower": null, "higher": {"price": "12.01", "by": [
    {"rule": "r0", "kind": "size_ratio", "product": "wren", "price": "12.01", "bound": "at_most", "asked": "12.00", "got": "12.01", "neighbour": "heron-a4", "neighbour_price": "24.00"}]},
  "uncertainty": {"cheapest": {"least": "7.00"}, "dearest": {"least": "7.50"}, "matters": false},
  "market": {"counted": 1, "venues": 1, "sellers": 1, "needs_counted": 5, "needs_venues": 2, "low": "9.00", "left_out": []}},
 {"id": "tern", "name": "Tern", "price": "30.00", "least": "30.00", "greatest": "30.00", "may_lie": [{"first": "30.00", "last": "30.00"}], "channels": [],
  "lower": {"price": "29.99", "by": [{"rule": "r1", "kind": "size_ratio", "product": "tern", "price": "29.99", "bound": "at_least", "asked": "30.00", "got": "29.99", "neighbour": "heron-a4", "neighbour_price": "25.00"}]},
  "higher": {"price": "30.01", "by": [{"rule": "r2", "kind": "size_ratio", "product": "tern", "price": "30.01", "bound": "at_most", "asked": "30.00", "got": "30.01", "neighbour": "wren"}]},
  "uncertainty": {"cheapest": {"least": "30.00"}, "dearest": {"least": "30.00"}, "matters": false},
  "market": {"counted": 0, "venues": 0, "sellers": 0, "needs_counted": 5, "needs_venues": 2, "left_out": [{"code": "asked_only", "count": 1}]}}],
"fairs": [
  {"id": "reed", "name": "Reed fair", "channel": "fair", "fixed": "120.00", "average": {"price": "25.00", "revenue": "25.00", "kept": "16.00"}, "hours_worth": "0.00", "asked": "0.00", "sales": "500.00", "commission": "25.00", "result": "75.504", "verdict": "go", "break_even": {"prints": "11.3", "sales": "282.50"}, "per_hour": "6.29", "in_three": {"cash": "300.00", "profit": "80.00", "stock_left": "44.995"}},
  {"id": "mud", "channel": "fair", "fixed": "90.00", "average": {"price": "25.00", "revenue": "25.00", "kept": "16.00"}, "hours_worth": "0.00", "asked": "0.00", "sales": "50.00", "commission": "0.00", "result": "-64.25", "verdict": "stay"}],
"sets": [
  {"id": "pair", "name": "Pair", "channel": "web", "sum_of_prices": "33.00", "expected": "14.00", "least": "30.00", "saves": "9.09%"},
  {"id": "trio", "channel": "web", "sum_of_prices": "63.00", "expected": "30.00", "saves": "0%"}],
"editions": [
  {"id": "marsh", "name": "Marsh edition", "numberings": [{"numbers": {"of": 50, "sold": 12, "reserved": 3, "free": 35}}],
   "products": [{"product": "heron-a4", "steps": [{"sold": 0, "price": "25.00", "count": 20}, {"sold": 20, "price": "32.00", "count": 18}], "count": 38, "proceeds": "1076.00", "contribution": "610.00", "months": "9.46"},
     {"product": "wren", "steps": [{"sold": 0, "price": "8.00", "count": 38}], "count": 38, "proceeds": "304.00", "contribution": "90.00"}]},
  {"id": "reeds", "numberings": [{"product": "tern", "numbers": {"of": 9, "sold": 1, "reserved": 0, "free": 8}}],
   "products": [{"product": "tern", "steps": [{"sold": 1, "price": "30.00", "count": 8}], "count": 8, "proceeds": "240.00", "contribution": "88.00"}]}],
"bought": [
  {"supply": "paper", "order": {"quantity": 60, "cost": "58.00", "left": 10, "bound": "9.67"}, "dominated": [{"from": 45, "to": 59, "instead": 60}, {"from": 40, "to": 40, "instead": 41}]},
  {"supply": "ink", "order": {"quantity": 5, "cost": "50.00", "left": 0, "bound": "0.00"}, "standing": {"basis": "average", "quantity": "120 ml", "value": "48.00", "paid": "60.00", "unit": "0.41"}},
  {"supply": "card", "standing": {"basis": "last", "quantity": "30 sheet", "value": "9.00", "paid": "9.00", "unit": "0.30"}}],
"machines": [{"id": "press", "per_print": "0.85", "volume": "1200"}]}`

func toldAnswer(t *testing.T, changes ...string) pricelist.Answer {
	t.Helper()
	text := told
	for i := 0; i < len(changes); i += 2 {
		if strings.Count(text, changes[i]) != 1 {
			t.Fatalf("%q stands there %d times", changes[i], strings.Count(text, changes[i]))
		}
		text = strings.Replace(text, changes[i], changes[i+1], 1)
	}
	var a pricelist.Answer
	if err := json.Unmarshal([]byte(text), &a); err != nil {
		t.Fatal(err)
	}
	return a
}

// plain is Markdown without what keeps brackets from being links.
func plain(markdown string) string {
	return strings.NewReplacer(`\(`, "(", `\)`, ")", `\_`, "_", `\[`, "[", `\]`, "]", `\!`, "!").Replace(markdown)
}
