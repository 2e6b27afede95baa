package main

// What the schemas say at their heads.
const (
	documentNote = "A shop: what it buys, makes and sells, and the rules its prices have to keep. This schema says which fields there are, which must be given, and what each may hold. It cannot say what fields mean together, so a document that it accepts may still be refused by the engine: ids that are given twice; references to a supply, stage, product, channel or packing list that there is none of; units that do not meet the unit a supply is bought in; a discount above all that a supply costs; shares of orders that do not sum to 1; a period's cost without items to spread it over; a rate beside tiers, and tiers that do not rise; codes that do not stack with others; terms that are nothing without another, such as days to pay without what money costs; a product that goes into no parcel of a tariff; shares of a fair's mix that do not sum to 1; a ledger that gives a number twice; fees that take all of a higher price; more kinds of order times tiers and bounds of fees than a channel may have; a price_step that is no multiple of the currency's minor unit, and a price_limit below it; three capital letters that are no currency; the same field twice in one object. Nor can it count the digits of a JSON number: one with more digits after its point than the text of the same field may have is refused, and so is a whole number written as 2.0 or 2e0."
	answerNote   = "A decided price list, or the conflict of rules that stands in its way. Numbers are text, so that no digit is lost on the way. Codes, paths, names of fields and the order of entries are stable; sentences, which are for people, are not. Later versions of the engine may add fields, and this schema with them; a reader does well to pass over those it does not know. What this schema cannot say: the names are ids of the shop document, the lines of a statement add up, and each step follows from those before it."
	lineNote     = "One record of what happened; a file has one on each line. This schema says of a line which fields there are, which must be given and what each may hold. It cannot say that an end is after the beginning, that a day is in the calendar, nor what records say together: that no two prices, reductions or trials overlap, that a number is sold once, that an id is given once. Nor can it see the same field twice, count the bytes of text or the digits of a JSON number; a whole number written as 2.0 or 2e0 is refused."
)

// moreOfDocument is what packages check beside what tags say.
var moreOfDocument = map[string]object{
	"document.products":      obj("minItems", 1),
	"document.channels":      obj("minItems", 1),
	"scale.steps":            obj("minItems", 1),
	"ink.log":                obj("minItems", 1),
	"ink.spent":              obj("minItems", 1),
	"ink.rated_pages":        obj("not", object{}),
	"channel":                obj("if", raw(`{"properties": {"tariff": {"type": "string", "minLength": 1}}, "required": ["tariff"]}`), "then", raw(`{"properties": {"orders": {"minItems": 1, "items": {"properties": {"zone": {"minLength": 1}}, "required": ["zone"]}}}, "required": ["orders"], "not": {"required": ["on_demand"]}}`)),
	"promotion":              obj("oneOf", raw(`[{"required": ["rate"]}, {"required": ["amount"]}, {"required": ["buy", "free"]}, {"required": ["price"]}, {"required": ["sale"]}]`), "dependentRequired", raw(`{"buy": ["free"], "free": ["buy"], "price": ["products"]}`)),
	"price_points":           obj("if", raw(`{"required": ["step"]}`), "then", raw(`{"not": {"anyOf": [{"required": ["every"]}, {"properties": {"ends_in": {"minItems": 1}}, "required": ["ends_in"]}]}}`), "else", raw(`{"not": {"properties": {"ends_in": {"maxItems": 0}}}}`)),
	"consignment.registered": obj("uniqueItems", true),
	"order.codes":            obj("uniqueItems", true),
	"tier":                   obj("anyOf", raw(`[{"required": ["rate"]}, {"required": ["fixed"]}]`)),
	"packing":                obj("not", raw(`{"required": ["tube", "depth"]}`)),
	"tariff.zones":           obj("minItems", 1),
	"zone.steps":             obj("minItems", 1),
	"set.products":           obj("minItems", 2, "uniqueItems", true),
	"alternative.products":   obj("minItems", 1, "uniqueItems", true),
	"fair.mix":               obj("minItems", 1),
	"edition.products":       obj("minItems", 1, "uniqueItems", true),
	"rule":                   obj("if", raw(`{"properties": {"products": {"minItems": 1}}, "required": ["products"]}`), "then", raw(`{"not": {"properties": {"designs": {"minItems": 1}}, "required": ["designs"]}}`)),
	"ending_rule.ends_in":    obj("minItems", 1),
	"size_ratio_rule":        obj("if", raw(`{"properties": {"products": {"minItems": 1}}, "required": ["products"]}`), "then", raw(`{"properties": {"products": {"minItems": 2, "uniqueItems": true}}, "not": {"required": ["order"]}}`)),
}

// moreOfAnswer is what stands together in an answer.
var moreOfAnswer = map[string]object{
	"answer":          obj("if", raw(`{"required": ["conflict"]}`), "then", raw(`{"properties": {"products": {"maxItems": 0}}, "not": {"anyOf": [{"required": ["line_sheets"]}, {"required": ["fairs"]}, {"required": ["sets"]}, {"required": ["editions"]}, {"required": ["credits"]}]}}`), "else", raw(`{"properties": {"products": {"minItems": 1}}, "not": {"anyOf": [{"required": ["clashes"]}, {"required": ["gaps"]}, {"required": ["remedies"]}]}}`)),
	"answer.conflict": obj("uniqueItems", true),
	"refusal":         obj("dependentRequired", raw(`{"neighbour_price": ["neighbour"], "because": ["neighbour_price"]}`)),
	"step":            obj("dependentRequired", raw(`{"before": ["places", "rounding"], "places": ["before", "rounding"], "rounding": ["before", "places"]}`)),
	"step.places":     obj("$ref", "#/$defs/count"),
	"told":            obj("items", raw(`{"type": "array", "items": {"type": "integer", "minimum": 1}, "minItems": 2, "maxItems": 2}`), "minItems", 1),
	"rule_bounds":     obj("dependentRequired", raw(`{"least": ["greatest"], "greatest": ["least"]}`)),
}
