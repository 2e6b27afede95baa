package annual_test

import (
	"encoding/json"
	"testing"

	"example.com/quoin/margin/pricelist/annual"
)

// told is a review written by hand that has one of everything that can be said. Writing works nothing
// out but what is for a hundred visitors, and is rounded.
const told = `{"today": "2026-11-21", "move": "12.5%", "prices": {"heron": "20.00"}, "cautions": ["Estimates only."],
"names": {"supplies[\"paper\"]": "Cotton rag", "products[\"heron\"]": "Heron, A4", "channels[\"web\"]": "Own shop", "editions[\"marsh\"]": "Marsh edition"},
"review": {"currency": "EUR", "conflict": ["keeps", "ends"], "cautions": [],
  "changes": [{"input": "supplies[\"paper\"].price", "old": "4.00", "new": "4.90"}, {"input": "rules[\"keeps\"].at_least", "old": "5.00"}, {"input": "products[\"heron\"].bill[\"paper\"].quantity", "new": "2 sheet"}, {"input": "products[\"wren\"].bill[\"ink\"].quantity", "old": "1 ml", "new": "2 ml"}],
  "floors": [
    {"product": "heron", "before": "18.00", "after": "19.504", "change": "1.504", "shares": [{"inputs": ["supplies[\"paper\"].price", "rules[\"keeps\"].at_least"], "by": "2.00"}, {"inputs": ["products[\"heron\"].bill[\"paper\"].quantity"], "by": "-0.80"}], "together": {"inputs": [], "by": "0.304"},
     "channels": [{"channel": "web", "before": "18.00", "after": "19.50", "change": "1.50", "set": true, "sets": true}, {"channel": "fair", "after": "12.00", "set": false, "sets": true}, {"channel": "post", "before": "11.00", "set": true, "sets": false}, {"channel": "mill", "before": "9.00", "after": "9.00", "change": "0.00", "set": false, "sets": false}]},
    {"product": "wren", "before": "7.00", "without": {"code": "gone_product"}}],
  "broken": [
    {"product": "heron", "price": "20.00", "rule": "keeps", "channel": "web", "asked": "5.00", "got": "4.10", "bound": "at_least"}, {"product": "wren", "price": "8.00", "rule": "most", "asked": "7.00", "got": "8.00", "bound": "at_most"},
    {"product": "wren", "price": "8.00", "rule": "sizes", "neighbour": "heron", "neighbour_price": "20.00"}, {"product": "wren", "price": "8.00", "rule": "ends"}],
  "moves": [
    {"product": "heron", "advice": "wait", "last": "20.00", "now": "22.50", "decided": "26.00", "by": "30%", "reasons": [{"code": "last_price_breaks_rules"}, {"code": "beyond_move"}, {"code": "step_breaks_rules"}], "still": [{"product": "heron", "price": "22.50", "rule": "keeps", "channel": "fair", "asked": "5.00", "got": "4.90", "bound": "at_least"}],
     "volumes": [{"channel": "web", "before": "10.00", "after": "12.50", "may_lose": "20%"}, {"channel": "fair", "before": "0.00", "after": "-1.00"}]},
    {"product": "tern", "advice": "wait", "last": "13.00", "now": "13.00", "decided": "20.00", "by": "53.85%", "reasons": [{"code": "last_price_still_holds"}, {"code": "beyond_move"}, {"code": "no_step"}]},
    {"product": "wren", "advice": "stay", "last": "8.00", "now": "8.00", "decided": "8.00", "by": "0%", "reasons": [{"code": "last_price_still_holds"}]},
    {"product": "knot", "advice": "lower", "last": "20.00", "now": "18.50", "decided": "18.50", "by": "-7.5%", "reasons": [{"code": "last_price_still_holds"}, {"code": "within_move"}]},
    {"product": "rail", "advice": "raise", "last": "0.00", "now": "5.00", "decided": "5.00", "reasons": [{"code": "step_keeps_rules"}]},
    {"product": "dunlin", "advice": "new", "now": "6.00", "decided": "6.00"}]},
"trials": [
  {"product": "heron", "price": "24.00", "beside": "20.00", "comparison": {"answer": "cannot_tell", "why": ["boundary_not_passed", "other_occasion"], "confidence": "95%", "misled": "5%", "anytime": {"low": "0.454", "high": "1.876"}, "look": 3, "inflation": "10.7%",
    "groups": [{"channel": "web", "kind": "visits", "a": {"price": "24.00", "kept": "9.00", "periods": 2, "units": 9, "exposure": "640", "earned": "81.00"}, "b": {"price": "20.00", "kept": "6.00", "periods": 2, "units": 12, "exposure": "640.4", "earned": "72.00"}, "answer": "cannot_tell", "pairs": 2, "probability": "60%",
      "once": {"a": {"rate": {"value": "0.01406", "interval": {"low": "0.00643", "high": "0.0267"}}, "earnings": "0.12654", "between": {"low": "0", "high": "1"}}, "b": {"rate": {"value": "0.01875", "interval": {"low": "0.00969", "high": "0.03275"}}, "earnings": "0.1125", "between": {"low": "0", "high": "1"}}}}],
    "left_out": [{"id": "t9", "mark": "other_occasion"}], "needed": {"difference": "50%", "power": "80%", "sales": 120, "once": 100, "more": 99, "exposure": "5280.4"}},
   "left_out": [
     {"product": "heron", "channel": "fair", "price": "24.00", "occasion": "spring", "counted": "visitors", "trials": 1, "sold": 4, "exposure": "250", "why": "other_occasion", "other": ["", "autumn"]},
     {"product": "heron", "channel": "fair", "price": "20.00", "occasion": "spring", "counted": "visitors", "trials": 2, "sold": 5, "exposure": "1", "why": "other_kind", "other": ["stand_days", "visits"]},
     {"product": "heron", "channel": "mill", "price": "20.00", "counted": "stand_days", "trials": 1, "sold": 0, "exposure": "1", "why": "other_channel"}]},
  {"product": "wren", "price": "9.00", "beside": "8.00", "comparison": {"answer": "better", "why": ["boundary_passed"], "confidence": "95%", "misled": "5%", "anytime": {"low": "1.2"}, "look": 1, "inflation": "5%", "needed": {"difference": "50%", "power": "80%", "sales": 120, "once": 100, "more": 99},
    "groups": [{"channel": "fair", "kind": "visitors", "occasion": "spring", "a": {"price": "9.00", "units": 1, "exposure": "100"}, "b": {"price": "8.00", "units": 2, "exposure": "100"}, "once": {}}, {"channel": "fair", "kind": "visitors", "occasion": "autumn", "a": {"price": "9.00", "units": 3, "exposure": "100"}, "b": {"price": "8.00", "units": 4, "exposure": "100"}, "once": {}}, {"channel": "web", "kind": "visits", "occasion": "sale", "a": {"price": "9.00", "units": 5, "exposure": "100"}, "b": {"price": "8.00", "units": 6, "exposure": "100"}, "once": {}}]}},
  {"product": "tern", "price": "9.00", "beside": "8.00", "comparison": {"answer": "cannot_tell", "why": ["nothing_alike"], "groups": [], "needed": {"difference": "50%", "power": "80%", "sales": 120, "once": 100, "more": 120, "exposure": "10"}}}],
"alone": [
  {"product": "heron", "channel": "web", "price": "21.00", "counted": "visits", "trials": 3, "sold": 2, "exposure": "77", "why": "today_not_tried"},
  {"product": "wren", "channel": "web", "price": "7.00", "counted": "visits", "trials": 1, "sold": 2, "exposure": "77", "why": "no_price_in_use"},
  {"product": "knot", "channel": "post", "price": "7.00", "counted": "visits", "trials": 1, "sold": 2, "exposure": "77", "why": "not_sold"}],
"next": [
  {"product": "heron", "channel": "web", "counted": "visits", "today": "20.00", "proposal": {"price": "22.00", "reason": "most_worth", "candidates": [{"price": "21.00", "kept": "7.00", "trial": {"difference": "1.1", "sales": 50, "exposure": "400", "loss": "1.00", "gain": "2.00", "worth": "1.00"}}, {"price": "22.00", "kept": "8.00", "trial": {"difference": "1.25", "sales": 60, "exposure": "900", "loss": "3.50", "gain": "40.25", "worth": "36.75"}}]}},
  {"product": "heron", "channel": "fair", "counted": "visitors", "today": "20.00", "proposal": {"reason": "not_worth_it", "candidates": [{"price": "21.00", "kept": "7.00", "trial": {"difference": "1.1", "sales": 50, "exposure": "400", "loss": "1.00", "gain": "2.00", "worth": "1.00"}}, {"price": "22.00", "kept": "8.00", "trial": {"difference": "1.2", "sales": 30, "exposure": "399", "loss": "4.00", "gain": "2.00", "worth": "-2.00"}}, {"price": "23.00", "kept": "9.00"}]}},
  {"product": "wren", "channel": "web", "counted": "visits", "today": "8.00", "proposal": {"reason": "trial_unfinished", "candidates": [{"price": "9.00", "kept": "7.00", "trial": {"difference": "1.1", "sales": 50, "exposure": "400", "loss": "1.00", "gain": "2.00", "worth": "1.00"}}]}}],
"market": [
  {"product": "heron", "position": {"price": "22.50", "percentile": "62.5%", "interval": {"low": "30%", "high": "88%"}}, "summary": {"product": "heron", "centre": "21.00", "venues": [{"name": "harbour", "records": 4, "sellers": 1, "sold": 9, "median": "20.50"}, {"name": "mill", "records": 1, "sellers": 1, "sold": 9}],
     "left_out": [{"record": 0, "code": "asked_only"}, {"record": 6, "code": "comparable_size_too_far"}], "outliers": [{"record": 1, "code": "far_above_centre", "price": "99.004"}]},
   "noted": {"0": {"product": "heron", "venue": "harbour", "seller": "stall 4", "price": "31.00", "date": "2026-08-01"}, "1": {"product": "heron", "venue": "mill", "price": "99.00"}}},
  {"product": "wren", "summary": {"product": "wren", "collect": {"sales": 3, "venues": 1}}}, {"product": "tern", "summary": {"product": "tern", "collect": {"sales": 1}}}, {"product": "knot", "summary": {"product": "knot", "collect": {"venues": 2}}}],
"reduced": [
  {"product": "heron", "channel": "web", "window": {"from": "2026-05-13", "until": "2026-06-12"}, "asked": 30, "price": "18.00", "covered": 30, "held": [{"from": "2026-05-13", "until": "2026-05-20", "price": "18.00"}, {"from": "2026-05-20", "until": "2026-06-12", "price": "20.00"}]},
  {"product": "wren", "window": {"from": "2026-05-13", "until": "2026-06-12"}, "asked": 30, "covered": 0}],
"editions": [
  {"edition": "marsh", "numbers": [{"entry": {"number": 3}}, {"entry": {"number": 7}}], "proofs": [{"entry": {}}]}, {"edition": "heron", "numbers": [], "proofs": []}],
"matter": [
  {"input": "supplies[\"paper\"].price", "path": "x", "value": "4.90", "down": "4.41", "up": "5.39", "swing": "1.08", "products": [{"product": "heron", "floor": "19.50", "down": "18.96", "up": "20.04", "swing": "1.08"}, {"product": "wren", "floor": "8.00", "down": "7.50", "no_price": true, "swing": "0.50"}]},
  {"input": "channels[\"web\"].fees[0].rate", "path": "x", "value": "10%", "down": "9%", "swing": "0.20", "products": []}],
"doubts": [{"code": "odd", "severity": "warning", "path": "[3]", "found": "a price twice"}]}`

func toldResults(t *testing.T) annual.Results {
	t.Helper()
	var r annual.Results
	if err := json.Unmarshal([]byte(told), &r); err != nil {
		t.Fatal(err)
	}
	return r
}
