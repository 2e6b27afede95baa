package form

import (
	"reflect"
	"strings"

	"example.com/quoin"
	"example.com/quoin/internal/prose"
)

// Hints are, by the type of an object and by a word that is no field of it, the fields that are
// most likely meant. A name alone is a field of the object; "stages.yield" is one of the objects
// in a list of the document, and "rule cost_multiple" is a kind of rule.
type Hints map[string]map[string]string

// Meanings returns the hints of all objects. Words are plain English.
func Meanings() Hints { return meanings }

// meanings is what people call fields that have another name here.
var meanings = Hints{
	"pricelist.Document": {
		"articles": "products", "prints": "products", "items": "products", "materials": "supplies", "shops": "channels", "outlets": "channels",
		"competitors": "comparables", "market": "comparables, rule market", "costs": "overhead", "overheads": "overhead", "rent": "overhead",
		"rounding": "price_step", "maximum_price": "price_limit", "vat": "channels.tax", "tax": "channels.tax, income_tax", "sales_tax": "channels.tax",
		"discount": "channels.trade_discount, channels.promotion", "markup": "rule cost_multiple", "margin": "rule gross_margin, rule net_margin",
		"waste": "stages.yield, contingency", "spoilage": "stages.yield, contingency", "fees": "channels.fees", "shipping": "channels.orders, tariffs",
		"postage": "channels.orders, tariffs", "bundles": "sets", "labour": "supplies.labour", "labor": "supplies.labour",
	},
	"pricelist.Product": {
		"cost": "bill, supplies.price", "materials": "bill", "components": "bill", "bom": "bill", "title": "name", "packaging": "packing",
		"current_price": "price", "list_price": "price", "retail": "price", "retail_price": "price", "rrp": "price",
		"size": "image, sheet", "paper": "sheet", "print_size": "image", "weight": "mass", "series": "design", "image_size": "image",
		"waste": "stages.yield", "spoilage": "stages.yield", "wastage": "stages.yield", "yield": "stages.yield", "markup": "rule cost_multiple",
		"margin": "rule gross_margin, rule net_margin", "discount": "channels.trade_discount, channels.promotion", "vat": "channels.tax", "tax": "channels.tax",
		"postage": "channels.orders", "shipping": "channels.orders", "edition": "editions.size", "labour": "supplies.labour", "labor": "supplies.labour",
		"hours": "supplies.labour", "time": "supplies.labour", "competitors": "comparables.product", "quantity": "run",
	},
	"cost.Supply": {
		"cost": "price", "unit_cost": "price", "unit_price": "price", "units": "quantity", "amount": "quantity", "count": "quantity", "size": "sheet, roll",
		"shipping": "freight", "postage": "freight", "delivery": "freight", "customs": "duty", "tariff": "duty", "weight": "mass, grammage", "gsm": "grammage",
		"currency": "exchange", "exchange_rate": "exchange", "rate": "exchange", "labor": "labour", "wage": "labour", "title": "name",
		"waste": "stages.yield", "spoilage": "stages.yield", "vat": "purchases.tax", "tax": "purchases.tax", "rebate": "discount",
	},
	"cost.BillLine": {
		"amount": "quantity", "units": "quantity", "count": "quantity", "qty": "quantity", "item": "supply", "material": "supply",
		"waste": "stage, stages.yield", "spoilage": "stage, stages.yield", "yield": "stage, stages.yield", "cost": "supplies.price", "price": "supplies.price",
		"basis": "per", "share": "shared_by", "pieces": "cut",
	},
	"waste.Stage": {
		"waste": "yield, lost_of_started", "spoilage": "yield, lost_of_started", "loss": "yield, lost_of_started", "lost": "lost_of_started", "success": "yield",
		"salvage": "recovery", "name": "id",
	},
	"machine.Machine": {
		"cost": "price", "residual": "resale", "salvage": "resale", "life": "life_months, life_prints", "months": "life_months", "prints": "prints_per_month",
		"maintenance": "service", "depreciation": "method",
	},
	"channel.Channel": {
		"discount": "trade_discount, promotion", "wholesale": "trade_discount", "wholesale_discount": "trade_discount", "sale": "promotion",
		"vat": "tax", "gst": "tax", "sales_tax": "tax", "fee": "fees", "commission": "fees, consignment", "postage": "orders", "shipping": "orders",
		"delivery": "orders", "free_from": "orders", "free_shipping": "orders", "subscription": "fixed_cost, fees", "rent": "fixed_cost", "stand": "fixed_cost, fairs.stand",
		"cost": "fixed_cost", "markup": "uplift", "surcharge": "uplift", "premium": "uplift", "margin": "rule gross_margin, rule net_margin",
		"currency": "foreign_currency", "coupons": "promotions", "codes": "promotions", "vouchers": "promotions", "refunds": "returns", "carrier": "tariff",
		"packaging": "packing", "lost": "lost_parcels", "rounding": "price_points", "price_step": "price_points", "payment": "fees, trade",
	},
	"channel.Order": {
		"quantity": "items", "units": "items", "count": "items", "prints": "items", "qty": "items", "cost": "postage", "carriage": "postage", "delivery": "shipping",
		"vat": "tax_rate", "tax": "tax_rate", "free_shipping": "free_from", "frequency": "share", "percent": "share", "coupons": "codes", "discount": "codes, channels.promotion",
		"destination": "zone", "country": "zone",
	},
	"channel.Fee": {
		"percent": "rate", "percentage": "rate", "commission": "rate", "amount": "fixed", "flat": "fixed", "base": "of", "on": "of", "minimum": "at_least",
		"maximum": "at_most", "cap": "at_most", "vat": "tax", "months": "orders_together", "monthly": "orders_together", "id": "name",
	},
	"channel.Tax":       {"vat": "rate", "percent": "rate", "included": "in_price", "inclusive": "in_price", "shipping": "on_shipping"},
	"channel.FixedCost": {"amount": "cost", "price": "cost", "units": "items", "sales": "items", "prints": "items", "per": "items"},
	"rule.Rule": {
		"kind": "rule", "type": "rule", "minimum": "at_least", "min": "at_least", "maximum": "at_most", "max": "at_most", "product": "products",
		"channel": "channels", "design": "designs", "from": "at_least, from_quantile", "to": "at_most, to_quantile", "soft": "strength", "priority": "strength", "ending": "ends_in",
	},
	"comparables.Record": {
		"shop": "venue", "marketplace": "venue", "place": "venue", "artist": "seller", "sales": "sold", "quantity": "sold", "vat": "tax", "shipping": "postage_on_top",
		"frame": "framed", "frame_price": "frame_worth",
	},
	"fair.Fair": {
		"cost": "stand", "fee": "stand", "booth": "stand", "stall": "stand", "hotel": "nights", "fuel": "travel", "hourly": "hour_worth", "wage": "hour_worth",
		"products": "mix", "sales": "prints", "card": "cash",
	},
	"edition.Edition": {"number": "size", "limit": "size", "copies": "size", "price": "steps", "prices": "steps"},
}

// meant says which fields a word most likely means, of the object of a type that has some; false
// where nothing is known of it.
func meant(object, word string, known []string) (near, remedy string, ok bool) {
	all := meanings[object][word]
	if all == "" {
		return "", "", false
	}
	var others []string
	for _, name := range strings.Split(all, ", ") {
		switch {
		case near == "" && has(known, name):
			near = name
		case has(known, name) || strings.Contains(name, ".") || !strings.Contains(name, " "):
			others = append(others, prose.Quoted(name))
		default:
			others = append(others, "a "+name)
		}
	}
	if len(others) > 0 {
		remedy = "or " + strings.Join(others, ", or ")
		if near == "" {
			remedy = "say it by " + strings.Join(others, ", or ")
		}
	}
	return near, remedy, true
}

func has(names []string, name string) bool {
	for _, n := range names {
		if n == name {
			return true
		}
	}
	return false
}

// hinted puts into a problem what a word that is no field most likely means.
func hinted(p *quoin.Problem, of reflect.Type, word string, known []string) bool {
	if of == nil {
		return false
	}
	near, remedy, ok := meant(of.String(), word, known)
	if ok {
		p.Near, p.Remedy = near, remedy
	}
	return ok
}
