package annual

import (
	"cmp"
	"fmt"
	"strings"

	"example.com/quoin"
	"example.com/quoin/internal/prose"
	"example.com/quoin/margin/market"
	"example.com/quoin/margin/pricelist/review"
	"example.com/quoin/margin/trial"
)

// plain is what is said of codes, by the code.
var plain = map[string]string{
	string(review.NewProduct):  "it was not in the last document",
	string(review.GoneProduct): "it is not in the new document",
	string(review.NoFloor):     "in one of the documents, or between them, it has no lowest price",

	string(review.BreaksRules):     "the last price breaks a rule",
	string(review.HoldsStill):      "the last price breaks no rule",
	string(review.WithinMove):      "the whole step may be taken at once",
	string(review.BeyondMove):      "the whole step is too large to take at once",
	string(review.StepKeepsRules):  "the first step breaks no rule",
	string(review.StepBreaksRules): "the first step still breaks a rule",
	string(review.NoStep):          "no price between may be asked",

	string(trial.CannotTell): "can't tell yet",

	string(trial.Passed):        "the difference is too large to be chance",
	string(trial.NotPassed):     "the difference may be chance",
	string(trial.Loses):         "a sale at one of the prices leaves nothing",
	string(trial.NeitherEarns):  "a sale at either price leaves nothing",
	string(trial.NothingAlike):  "the two prices were never tried in like circumstances",
	string(trial.Disagree):      "one price is better here and the other there",
	string(trial.Unmatched):     "one price was tried in more periods than the other",
	string(trial.AfterOther):    "the prices stood at different times, so the season may be the reason",
	string(trial.OtherOccasion): "another occasion",
	string(trial.OtherChannel):  "another channel",
	string(trial.OtherKind):     "counted otherwise",

	string(trial.MostWorth):      "of all prices in reach its test is worth most",
	string(trial.TodayLoses):     "a sale at today's price leaves nothing",
	string(trial.Unfinished):     "no new test while one is running",
	string(trial.NothingInReach): "no test: no allowed price is near enough",
	string(trial.NothingSold):    "no test: nothing has sold yet",
	string(trial.TooShort):       "no test is worth it: too few visitors are expected",
	string(trial.NotWorth):       "no test is worth it: each costs more than it brings",

	string(market.AskedOnly):    "asked, and nothing sold at it",
	string(market.SoldTooFew):   "too few sold at it",
	string(market.FrameUnknown): "framed, and the worth of the frame is not known",
	string(market.NothingLeft):  "nothing is left of it without postage and frame",
	string(market.SizeUnknown):  "its size is not known",
	string(market.SizeTooFar):   "its size is too different",
	string(market.FarAbove):     "far above the middle",
	string(market.FarBelow):     "far below the middle",
}

// say puts a code in plain words.
func say[T ~string](code T) string { return cmp.Or(plain[string(code)], prose.Words(code)) }

func list[T any](items []T, say func(T) string) string { return joined(", ", items, say) }

func joined[T any](by string, items []T, say func(T) string) string {
	said := make([]string, len(items))
	for i, v := range items {
		said[i] = say(v)
	}
	return strings.Join(said, by)
}

func orNone(value string) string { return cmp.Or(value, "-") }

func percent(r quoin.Rate) string { return fmt.Sprintf("%.0f%%", r) }

// number is a factor with its places cut to so many.
func number(f quoin.Factor, places int) string { return fmt.Sprintf("%.*f", places, f) }

// given says what is given, or that nothing is.
func given[T any](v quoin.Optional[T], say func(T) string) string {
	if is, ok := v.Get(); ok {
		return say(is)
	}
	return "-"
}

func (w writer) money(a quoin.Amount) string { return w.currency.Round(a, quoin.HalfUp).String() }

func (w writer) maybe(a quoin.Optional[quoin.Amount]) string { return given(a, w.money) }

// signed is a change, with a sign before it.
func (w writer) signed(a quoin.Amount) string {
	if a.Sign() <= 0 {
		return w.money(a)
	}
	return "+" + w.money(a)
}
