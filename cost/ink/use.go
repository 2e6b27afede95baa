package ink

import (
	"example.com/quoin"
	"example.com/quoin/internal/form"
)

// Use is the ink of one print: (per m² × image + upkeep) ÷ (1 − share of upkeep). Exactly one of
// per_m2, log and spent is given.
type Use struct {
	// The volume that a square metre of image takes.
	PerM2      quoin.Quantity              `json:"per_m2,omitzero" need:"yes" or:"log spent rated_pages" range:"[0," dim:"volume"`
	PerM2Range quoin.Range[quoin.Quantity] `json:"per_m2_range,omitzero" dear:"high"`
	// In its place: jobs with the ink that each took.
	Log []Job `json:"log,omitempty" most:"1000"`
	// In its place: ink used up in periods, upkeep and all. They give a range, as a log does.
	Spent []Period `json:"spent,omitempty" most:"1000"`
	// Refused: page yields rest on pages of text, not on art.
	RatedPages int64 `json:"rated_pages,omitzero"`
	// What is printed; the image of the product where it is not given.
	Image quoin.Size `json:"image,omitzero"`
	// What the printer takes beside the prints.
	Upkeep Upkeep `json:"upkeep,omitzero"`
}

// Upkeep is the ink that keeps the printer going.
type Upkeep struct {
	// Spread over the prints of a month.
	PerMonth      quoin.Quantity              `json:"per_month,omitzero" range:"[0," dim:"volume"`
	PerMonthRange quoin.Range[quoin.Quantity] `json:"per_month_range,omitzero" dear:"high"`
	// Those prints.
	PrintsPerMonth      quoin.Factor              `json:"prints_per_month,omitzero" range:"(0,"`
	PrintsPerMonthRange quoin.Range[quoin.Factor] `json:"prints_per_month_range,omitzero" dear:"low"`
	// Spread over the prints of a session.
	PerSession      quoin.Quantity              `json:"per_session,omitzero" range:"[0," dim:"volume"`
	PerSessionRange quoin.Range[quoin.Quantity] `json:"per_session_range,omitzero" dear:"high"`
	// Those prints.
	PrintsPerSession      quoin.Factor              `json:"prints_per_session,omitzero" range:"(0,"`
	PrintsPerSessionRange quoin.Range[quoin.Factor] `json:"prints_per_session_range,omitzero" dear:"low"`
	// Part of all ink bought that no print gets; below 1.
	Share      quoin.Rate              `json:"share,omitzero" range:"[0,1)"`
	ShareRange quoin.Range[quoin.Rate] `json:"share_range,omitzero" dear:"high"`
}

// Codes of ink that cannot be worked out, or looks wrong.
const (
	RatedPageYield quoin.Code = "rated_page_yield"   // ink given as pages of text
	MissingImage   quoin.Code = "missing_image"      // no size of what is printed
	MissingPrints  quoin.Code = "missing_prints"     // an upkeep that no prints share
	NegativeInk    quoin.Code = "negative_ink"       // an entry that printed nothing, or used up less than nothing
	UnlikelyInk    quoin.Code = "ink_looks_unlikely" // a warning: less or more than is common practice
)

// Check returns everything that is wrong with the use, at once: values that its fields do not
// take, a page yield, periods that used less than nothing, an upkeep that no prints share. The
// image may be missing, because a product may give it. The error is quoin.Problems.
func (u Use) Check() error { return u.check().All().Err() }

func (u Use) check() *form.Collector {
	k := form.Computed(u)
	if u.RatedPages != 0 {
		k.Fault(form.In("rated_pages"), RatedPageYield, "a page yield", "what a square metre of image takes, as per_m2, log or spent",
			"page yields rest on pages of text (ISO/IEC 24712), not on art; log a few jobs instead")
	}
	for _, p := range u.Spent {
		if p.used().Sign() < 0 {
			k.Fault(form.In("spent"), NegativeInk, "an entry that printed nothing, or used up less than nothing", "entries with an area and the ink it took",
				"check opening and closing stock")
		}
	}
	for _, p := range u.Upkeep.parts() {
		if !p.volume.IsZero() && p.prints.IsZero() {
			k.Fault(form.In("upkeep").Field(p.over), MissingPrints, "an upkeep of "+p.volume.String(), "how many prints it is spread over", "")
		}
	}
	return k
}

// sound reports at sight that nothing keeps the volume from being worked out of per m²: it is
// asked for each print, at each end of each range.
func (u Use) sound() bool {
	if u.Image.IsZero() || len(u.Log)+len(u.Spent) > 0 || u.RatedPages != 0 || u.Upkeep.Share.Complement().Sign() <= 0 || !isVolume(u.PerM2) {
		return false
	}
	for _, p := range u.Upkeep.parts() {
		if !p.volume.IsZero() && (p.prints.Sign() <= 0 || !isVolume(p.volume)) {
			return false
		}
	}
	return true
}

func isVolume(q quoin.Quantity) bool { return q.Sign() > 0 && q.Unit().Dimension() == "volume" }

// Volume returns the ink of one print, in ml: (per m² × image + monthly upkeep ÷ prints of a
// month + upkeep of a session ÷ its prints) ÷ (1 − share). It errs as Check does, and if there
// is no image.
func (u Use) Volume() (quoin.Quantity, error) {
	if !u.sound() {
		k := u.check()
		if u.Image.IsZero() {
			k.Fault(form.In("image"), MissingImage, "no image", "the size of the image", "give the product an image")
		}
		if err := k.All().Err(); err != nil {
			return quoin.Quantity{}, err
		}
		u = u.likely()
	}
	sum := ml(u.PerM2).Times(squareMetres(u.Image.Area()))
	for _, p := range u.Upkeep.parts() {
		if !p.volume.IsZero() {
			sum = sum.Add(ml(p.volume).Over(p.prints))
		}
	}
	return quoin.Unit("ml").Times(sum.Over(u.Upkeep.Share.Complement())), nil
}

// Range returns the ink of one print with all ranges at their low ends, and with all at their
// high ends. It errs as Volume does.
func (u Use) Range() (quoin.Range[quoin.Quantity], error) {
	u, err := u.Likely()
	if err != nil {
		return quoin.Range[quoin.Quantity]{}, err
	}
	low, err := u.end(false).Volume()
	if err != nil {
		return quoin.Range[quoin.Quantity]{}, err
	}
	high, err := u.end(true).Volume()
	return quoin.Between(low, high), err
}

// part is an upkeep that prints share.
type part struct {
	volume     quoin.Quantity
	prints     quoin.Factor
	name, over string
}

func (k Upkeep) parts() []part {
	return []part{
		{k.PerMonth, k.PrintsPerMonth, "per_month", "prints_per_month"},
		{k.PerSession, k.PrintsPerSession, "per_session", "prints_per_session"},
	}
}

func ml(q quoin.Quantity) quoin.Factor {
	in, err := q.In("ml")
	if err != nil {
		return quoin.Factor{}
	}
	return in.Number()
}

func squareMetres(area quoin.Quantity) quoin.Factor {
	in, err := area.In("m2")
	if err != nil {
		return quoin.Factor{}
	}
	return in.Number()
}

// Plausible returns a warning if a square metre takes less than 3 or more than 22 ml, the
// extremes of common practice. Otherwise it returns false.
func (u Use) Plausible() (quoin.Problem, bool) {
	if len(u.Log)+len(u.Spent) > 0 {
		var err error
		if u, err = u.Likely(); err != nil {
			return quoin.Problem{}, false
		}
	}
	if u.RatedPages != 0 {
		return quoin.Problem{}, false
	}
	n := ml(u.PerM2)
	if n.Cmp(quoin.FactorOf(3)) >= 0 && n.Cmp(quoin.FactorOf(22)) <= 0 {
		return quoin.Problem{}, false
	}
	return quoin.Problem{
		Code: UnlikelyInk, Severity: quoin.Warning, Path: "per_m2",
		Found:  n.Round(2, quoin.HalfUp).String() + " ml for a square metre of image",
		Remedy: "prints on paper commonly take 8 to 16, and 3 to 22 at the extremes; check the figure",
		Args:   []quoin.Arg{{Name: "per_m2", Value: n.Round(2, quoin.HalfUp).String()}},
	}, true
}
