package pricelist_test

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/margin/comparables"
	"example.com/quoin/margin/edition"
	"example.com/quoin/margin/history"
	"example.com/quoin/margin/market"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/pricelist/review"
	"example.com/quoin/margin/trial"
)

// reason is the severity that the catalogue gives to codes that are no problems:
// they say why an answer is as it is, and have no severity of their own.
const reason quoin.Severity = "reason"

// besideDocuments is the codes of histories, comparables, trials and reviews.
var besideDocuments = map[quoin.Code]maker{
	quoin.EmptyPeriod: {"of histories", recorded(`{"record": "price", "product": "heron", "price": "12.00", "from": "2026-03-01", "until": "2026-03-01"}`)},
	history.Overlap:   {"of histories", recorded(askedInMarch, strings.Replace(askedInMarch, "12.00", "13.00", 1))},
	history.NotInHistory: {"of histories", func() error {
		h, _ := past(askedInMarch)
		_, err := h.Timeline("egret", "")
		return err
	}},
	history.NeverOnSale:     {"of histories", before("2026-03-01", 30)},
	history.NotAlwaysOnSale: {"of histories", before("2026-03-02", 30)},
	history.NothingReduced:  {"of histories", warned(`{"record": "reduction", "product": "heron", "price": "9.00", "from": "2026-02-20", "until": "2026-03-02"}`)},
	history.NotBelow:        {"of histories", warned(`{"record": "reduction", "product": "heron", "price": "12.00", "from": "2026-05-20", "until": "2026-05-27"}`)},
	history.OtherPrice:      {"of histories", warned(heronTrial)},

	market.FrameUnknown: {"of comparables by themselves", observed(func(r *comparables.Record) { r.Framed = true })},
	market.NothingLeft:  {"of comparables by themselves", observed(func(r *comparables.Record) { r.Postage = r.Price })},
	market.SizeUnknown:  {"of comparables by themselves", observed(func(r *comparables.Record) { r.Size = quoin.Size{} })},
	market.SizeTooFar:   {"of comparables by themselves", observed(func(r *comparables.Record) { r.Size = quoin.MustSize("0.1 x 0.1 mm") })},

	market.ByCaller:       {"why a comparable is left out", leftOut(market.ByCaller, market.Options{Without: []int{0}}, 1)},
	market.AskedOnly:      {"why a comparable is left out", leftOut(market.AskedOnly, market.Options{}, 0)},
	market.SoldTooFew:     {"why a comparable is left out", leftOut(market.SoldTooFew, market.Options{MinSold: quoin.Some(int64(3))}, 2)},
	market.OtherSignature: {"why a comparable is left out", leftOut(market.OtherSignature, market.Options{Signed: quoin.Some(true)}, 1)},
	market.OtherEdition:   {"why a comparable is left out", leftOut(market.OtherEdition, market.Options{Limited: quoin.Some(true)}, 1)},
	market.FarAbove:       {"why a comparable is named", farOff(market.FarAbove, "400.00")},
	market.FarBelow:       {"why a comparable is named", farOff(market.FarBelow, "4.00")},

	trial.MixedProducts: {"of trials by themselves", tried(func(p *trial.Period) { p.Product = "egret" })},
	trial.MixedPrices:   {"of trials by themselves", tried(func(p *trial.Period) { p.Price = quoin.MustAmount("13.00") })},
	trial.MixedKept:     {"of trials by themselves", tried(func(p *trial.Period) { p.Kept = quoin.MustAmount("6.00") })},
	trial.UnlikePeriods: {"of trials by themselves", func() error {
		one, other := atWeb("first"), atWeb("second")
		other.Occasion = "christmas"
		_, err := trial.SlopeOf([]trial.Period{one, other}, trial.SlopeOptions{})
		return err
	}},

	review.CurrencyChanged: {"of two documents", func() error {
		_, err := compared(lastYear, strings.Replace(lastYear, "EUR", "CHF", 1), "12.00", "0%")
		return err
	}},
	review.NoLastPrices: {"of two documents", func() error {
		_, err := compared(impossible(), lastYear, "", "0%")
		return err
	}},
	review.NewProduct:  {"why a floor has no shares", floored(review.NewProduct, lastYear, withEgret())},
	review.GoneProduct: {"why a floor has no shares", floored(review.GoneProduct, withEgret(), lastYear)},
	review.NoFloor:     {"why a floor has no shares", floored(review.NoFloor, lastYear, impossible())},

	// A year later the floor is (5.00 + 5.80) ÷ (1 − 20%) = 13.50.
	review.BreaksRules:     {"why a move is advised", moved(review.BreaksRules, "12.00")},
	review.HoldsStill:      {"why a move is advised", moved(review.HoldsStill, "13.50")},
	review.WithinMove:      {"why a move is advised", moved(review.WithinMove, "12.00")},
	review.BeyondMove:      {"why a move is advised", moved(review.BeyondMove, "10.00")},
	review.StepBreaksRules: {"why a move is advised", moved(review.StepBreaksRules, "10.00")},
	review.StepKeepsRules:  {"why a move is advised", moved(review.StepKeepsRules, "20.00")},
	review.NoStep: {"why a move is advised", moved(review.NoStep, "13.00",
		`"rules": [`, `"rules": [{"id": "tens", "rule": "ending", "ends_in": ["0.00"], "every": "10.00"}, `)},
}

// saidToo is the codes that a history, comparables and trials say as documents do, for they
// mean the same: one row of the catalogue speaks of both.
var saidToo = map[string]struct {
	code quoin.Code
	make func() error
}{
	"quoin.BadJSON":        {quoin.BadJSON, recorded(`{"record": "price"`)},
	"quoin.BadText":        {quoin.BadText, recorded(`{"record": "sale", "edition": "her\u0000on", "number": 7, "date": "2026-04-12"}`)},
	"quoin.WrongType":      {quoin.WrongType, recorded(`["price"]`)},
	"quoin.UnknownField":   {quoin.UnknownField, recorded(strings.Replace(askedInMarch, "}", `, "chanel": "web"}`, 1))},
	"quoin.DuplicateField": {quoin.DuplicateField, recorded(strings.Replace(askedInMarch, "}", `, "price": "12.00"}`, 1))},
	"quoin.MissingField":   {quoin.MissingField, recorded(`{"record": "price", "product": "heron", "price": "12.00"}`)},
	"quoin.RivalFields":    {quoin.RivalFields, recorded(strings.Replace(seventh, "}", `, "proof": 1}`, 1))},
	"quoin.OutOfRange":     {quoin.OutOfRange, recorded(strings.Replace(askedInMarch, "12.00", "0.00", 1))},
	"quoin.TooMany":        {quoin.TooMany, recorded("{" + strings.Repeat(`"record": "price", `, 64) + `"record": "price"}`)},
	"quoin.MoreProblems":   {quoin.MoreProblems, recorded(strings.Repeat("0\n", 1001))},
	"quoin.TooLong":        {quoin.TooLong, recorded(strings.Repeat(" ", 1<<20+1))},
	"edition.NumberTwice":  {edition.NumberTwice, recorded(seventh, seventh)},
	"quoin.StrayTerms":     {quoin.StrayTerms, observed(func(r *comparables.Record) { r.FrameWorth = quoin.Some(quoin.MustAmount("15.00")) })},
	"quoin.EmptyPeriod":    {quoin.EmptyPeriod, tried(func(p *trial.Period) { p.To = p.From })},
	"quoin.DuplicateID":    {quoin.DuplicateID, recorded(heronTrial, strings.Replace(heronTrial, "heron", "egret", 1))},
	"edition.NoSuchNumber": {edition.NoSuchNumber, left(seventh)},
	"edition.NoSuchProof":  {edition.NoSuchProof, left(strings.Replace(seventh, "number", "proof", 1))},
}

func TestCodesSaidToo(t *testing.T) {
	listed := catalogue(t)
	for where, s := range saidToo {
		checkMade(t, s.code, listed[s.code].severity, where, s.make())
	}
}

// because is a reason as an error, where it is among those given.
func because(c quoin.Code, given ...quoin.Code) error {
	if !slices.Contains(given, c) {
		return fmt.Errorf("%s is not among %q", c, given)
	}
	return quoin.Problem{Code: c, Severity: reason}
}

const (
	askedInMarch = `{"record": "price", "product": "heron", "price": "12.00", "from": "2026-03-01"}`
	seventh      = `{"record": "sale", "edition": "heron", "number": 7, "date": "2026-04-12"}`
	heronTrial   = `{"record": "trial", "id": "spring", "product": "heron", "channel": "web", "price": "15.00", "from": "2026-04-01", "until": "2026-05-01",` +
		` "exposure": "412", "exposure_unit": "visits", "sold": 9}`
)

// past puts records together, one to a line.
func past(records ...string) (history.History, error) {
	all, err := history.ReadAll(strings.NewReader(strings.Join(records, "\n")))
	if err != nil {
		return history.History{}, err
	}
	return history.New(all)
}

func recorded(records ...string) func() error {
	return func() error {
		_, err := past(records...)
		return err
	}
}

// warned is the warnings of a record beside the price of March.
func warned(record string) func() error {
	return func() error {
		h, err := past(askedInMarch, record)
		if err != nil {
			return err
		}
		return h.Warnings()
	}
}

// before is what is said of the lowest price before a day.
func before(day string, days int64) func() error {
	return func() error {
		h, _ := past(askedInMarch)
		lowest, err := h.LowestBefore("heron", "", quoin.MustDate(day), days)
		if err != nil {
			return err
		}
		return lowest.Warnings
	}
}

// left asks what is left of an edition of five after a sale.
func left(sale string) func() error {
	return func() error {
		h, _ := past(sale)
		sold, err := h.Sold("heron")
		if err != nil {
			return err
		}
		_, err = sold.Left(5, 0)
		return err
	}
}

// sales is comparables of two venues, each of a seller of its own.
func sales(prices ...string) []comparables.Record {
	var out []comparables.Record
	for i, p := range prices {
		out = append(out, comparables.Record{
			Product: "heron", Venue: []string{"fair", "web"}[i%2], Seller: fmt.Sprint("seller ", i), Price: quoin.MustAmount(p), Sold: 1, Size: quoin.MustSize("A4"),
		})
	}
	return out
}

// observed brings a comparable that is changed before to a size, by its area.
func observed(change func(*comparables.Record)) func() error {
	return func() error {
		r := sales("40.00")[0]
		change(&r)
		_, err := market.Basis{Size: quoin.MustSize("A3")}.Bring(r, quoin.FactorOf(1))
		return err
	}
}

// leftOut is why a summary leaves out a comparable of which so many were sold.
func leftOut(c quoin.Code, o market.Options, sold int64) func() error {
	return func() error {
		records := sales("40.00")
		records[0].Sold = sold
		s, err := market.Summarize(records, "", market.Basis{}, o)
		if err != nil {
			return err
		}
		var given []quoin.Code
		for _, l := range s.LeftOut {
			given = append(given, l.Code)
		}
		return because(c, given...)
	}
}

// farOff is what a summary names a price for that is unlike five others.
func farOff(c quoin.Code, price string) func() error {
	return func() error {
		s, err := market.Summarize(sales("40.00", "42.00", "44.00", "46.00", "48.00", price), "", market.Basis{}, market.Options{})
		if err != nil {
			return err
		}
		var given []quoin.Code
		for _, o := range s.Outliers {
			given = append(given, o.Code)
		}
		return because(c, given...)
	}
}

func atWeb(id string) trial.Period {
	return trial.Period{
		ID: id, Product: "heron", Channel: "web", Price: quoin.MustAmount("12.00"), Kept: quoin.MustAmount("5.00"),
		From: quoin.MustDate("2026-03-01"), To: quoin.MustDate("2026-04-01"), Units: 3,
		Exposure: trial.Exposure{Number: quoin.MustFactor("100"), Kind: trial.Visits},
	}
}

// tried compares two periods, of which the second is changed before, with another.
func tried(change func(*trial.Period)) func() error {
	return func() error {
		second := atWeb("second")
		change(&second)
		_, err := trial.Compare([]trial.Period{atWeb("first"), second}, []trial.Period{atWeb("third")}, trial.Options{})
		return err
	}
}

// lastYear is a shop in which a sheet costs 4.00, the channel takes 10%, and a sale
// is to leave 5.00.
const lastYear = `{
 "version": 1, "currency": "EUR", "choose": "least", "price_limit": "200.00",
 "supplies": [{"id": "paper", "quantity": "1 sheet", "price": "4.00"}],
 "products": [{"id": "heron", "bill": [{"supply": "paper", "quantity": "1 sheet"}]}],
 "channels": [{"id": "web", "fees": [{"name": "commission", "rate": "10%"}]}],
 "rules": [{"id": "keeps", "rule": "contribution", "at_least": "5.00"}]
}`

func impossible() string { return strings.Replace(lastYear, `"5.00"`, `"500.00"`, 1) }

// withEgret has another product, and dearer paper.
func withEgret() string {
	return strings.NewReplacer(`"4.00"`, `"5.80"`, `"products": [`, `"products": [{"id": "egret", "bill": [{"supply": "paper", "quantity": "1 sheet"}]}, `).Replace(lastYear)
}

// compared reviews a document against the last one, and the last price of the heron.
func compared(last, now, price, move string) (review.Review, error) {
	was, err := pricelist.Decode([]byte(last))
	if err != nil {
		return review.Review{}, err
	}
	is, err := pricelist.Decode([]byte(now))
	if err != nil {
		return review.Review{}, err
	}
	var prices map[string]quoin.Amount
	if price != "" {
		prices = map[string]quoin.Amount{"heron": quoin.MustAmount(price)}
	}
	return review.Compare(was, prices, is, quoin.MustRate(move))
}

func floored(c quoin.Code, last, now string) func() error {
	return func() error {
		r, err := compared(last, now, "12.00", "0%")
		if err != nil {
			return err
		}
		var given []quoin.Code
		for _, f := range r.Floors {
			given = append(given, f.Without.Code)
		}
		return because(c, given...)
	}
}

// moved reviews a price a year later, when paper costs 5.80 and the channel takes
// 20%; no price is to move by more than a quarter at once.
func moved(c quoin.Code, price string, edits ...string) func() error {
	return func() error {
		edits := append([]string{`"4.00"`, `"5.80"`, `10%`, `20%`}, edits...)
		r, err := compared(lastYear, strings.NewReplacer(edits...).Replace(lastYear), price, "25%")
		if err != nil {
			return err
		}
		var given []quoin.Code
		for _, m := range r.Moves {
			for _, why := range m.Reasons {
				given = append(given, why.Code)
			}
		}
		return because(c, given...)
	}
}

// joined is all entries of two maps.
func joined(a, b map[quoin.Code]maker) map[quoin.Code]maker {
	out := maps.Clone(a)
	maps.Copy(out, b)
	return out
}
