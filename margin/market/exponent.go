package market

import (
	"cmp"
	"math"
	"slices"

	"example.com/quoin"
	"example.com/quoin/internal/estimate"
	"example.com/quoin/margin/comparables"
)

// Exponent says by which power of the area prices grow: a print of twice the
// area is 2^exponent times as dear.
type Exponent struct {
	// Used is the exponent to go by: the fitted one drawn to the default by their
	// precisions, or the one that the options give. Interval is between which it
	// lies with the confidence of the options, by data and default together; it
	// is not given for an exponent that the options give.
	Used     quoin.Factor                              `json:"used"`
	Interval quoin.Optional[quoin.Range[quoin.Factor]] `json:"interval,omitzero"`
	// DataWeight is how much of Used the data decided: 0% is the default alone.
	DataWeight quoin.Rate `json:"data_weight"`
	// Default and Spread are what the fit was drawn to and how strongly.
	Default quoin.Factor `json:"default"`
	Spread  quoin.Factor `json:"spread"`
	// Given says that the options gave Used.
	Given bool `json:"given,omitzero"`
	// Records, Sellers and Sizes are how many there were to fit.
	Records int64 `json:"records"`
	Sellers int64 `json:"sellers"`
	Sizes   int64 `json:"sizes"`
	// Fit is what the data say alone; none where they are too few.
	Fit quoin.Optional[Fit] `json:"fit,omitzero"`
}

// Fit is a straight line of log price against log area, by weighted least
// squares.
type Fit struct {
	Exponent      quoin.Factor              `json:"exponent"`
	StandardError quoin.Factor              `json:"standard_error"`
	Interval      quoin.Range[quoin.Factor] `json:"interval"`
	// Effective is the effective number of sellers; two of them go into the line,
	// the rest are the degrees of freedom.
	Effective quoin.Factor `json:"effective"`
}

// FitExponent fits the exponent of area over the records of a product, or of
// all with an empty name, that count, have a size and can be brought to the
// basis but for it.
//
// Log price is put against log area by least squares, each venue as heavy as
// the other, each seller as the other within it, each record as the other of
// its seller. The weights sum to the effective number of sellers n (Kish); the
// standard error is √(Σw·residual² ÷ (n − 2) ÷ Σw·(x − mean x)²), and the
// interval that many as Student's t with n − 2 degrees of freedom says, both as
// any textbook on regression has it for equal weights. It takes for granted
// that sellers differ by chance and not by size. Below MinSizes sizes, or where
// n is below 3, there is no fit.
//
// The fit is drawn to the default by precision: weight of the data = spread² ÷
// (spread² + error²), the mean of a normal prior with normal data (Gelman and
// others, Bayesian Data Analysis, 2nd ed. 2004, section 2.6; from memory). The
// error there is half the interval ÷ what a normal one would have of standard
// errors, which makes it larger where there are few sellers to tell it from. No
// fit leaves the default. Results are rounded to six significant digits.
//
// The error is Problems, of records, basis and options.
func FitExponent(records []comparables.Record, product string, b Basis, o Options) (Exponent, error) {
	if err := checkAll(records, b, o); err != nil {
		return Exponent{}, err
	}
	kept, _, _ := choose(records, product, o)
	return fitExponent(records, kept, b, o), nil
}

func fitExponent(records []comparables.Record, kept []int, b Basis, o Options) Exponent {
	x := Exponent{Used: o.defaultExponent(), Default: o.defaultExponent(), Spread: o.exponentSpread()}
	sized := sizedSales(records, kept, b)
	from := sharesOf(records, sized)
	x.Records, x.Sellers, x.Sizes = int64(len(sized)), from.named(), sizesOf(records, sized)
	spread, z := estimate.Float(x.Spread), estimate.NormalBeyond(o.within())
	x.Interval = estimate.Between(estimate.Float(x.Used)-z*spread, estimate.Float(x.Used)+z*spread)
	if fit, ok := from.fit(sized, x.Sizes >= o.minSizes(), o.within()); ok {
		x.Fit = quoin.Some(fit)
		x.shrink(fit, z)
	}
	if own, given := o.Exponent.Get(); given {
		x.Used, x.DataWeight, x.Given, x.Interval = own, quoin.Rate{}, true, quoin.Optional[quoin.Range[quoin.Factor]]{}
	}
	return x
}

// shrink draws the fit to the default.
func (x *Exponent) shrink(fit Fit, z float64) {
	half := (estimate.Float(fit.Interval.High) - estimate.Float(fit.Interval.Low)) / 2
	prior, own := math.Pow(estimate.Float(x.Spread), 2), math.Pow(half/z, 2)
	weight := prior / (prior + own)
	used := weight*estimate.Float(fit.Exponent) + (1-weight)*estimate.Float(x.Default)
	if u, ok := estimate.Six(used).Get(); ok {
		x.Used, x.DataWeight = u, estimate.Six(weight).Or(quoin.Factor{}).Rate()
		room := z * math.Sqrt(weight*own)
		x.Interval = estimate.Between(used-room, used+room)
	}
}

// sizedSales is the records that have a size, with their price at it.
func sizedSales(records []comparables.Record, kept []int, b Basis) []sale {
	var out []sale
	for _, i := range kept {
		if a, code := b.atOwnSize(&records[i]); code == "" && !records[i].Size.IsZero() {
			out = append(out, sale{i, a.Price})
		}
	}
	return out
}

func sizesOf(records []comparables.Record, sales []sale) int64 {
	areas := make(map[float64]bool)
	for _, s := range sales {
		areas[logArea(records[s.record].Size)] = true
	}
	return int64(len(areas))
}

// named is how many sellers there are.
func (s *shares) named() int64 {
	all := make(map[comparables.Place]bool)
	for at := range s.Records {
		all[who(at)] = true
	}
	return int64(len(all))
}

func (s *shares) fit(sales []sale, sizes bool, confidence float64) (Fit, bool) {
	n := s.effective()
	if !sizes || n < 3-1e-9 {
		return Fit{}, false
	}
	data := make([][3]float64, len(sales)) // log area, log price, weight
	for i, x := range sales {
		data[i] = [3]float64{logArea(s.records[x.record].Size), math.Log(estimate.Float(number(x.price))), n / float64(s.parts(x.record))}
	}
	slices.SortFunc(data, func(a, b [3]float64) int {
		return cmp.Or(cmp.Compare(a[0], b[0]), cmp.Compare(a[1], b[1]), cmp.Compare(a[2], b[2]))
	})
	var x, y, w []float64
	for _, d := range data {
		x, y, w = append(x, d[0]), append(y, d[1]), append(w, d[2])
	}
	l, ok := estimate.Through(x, y, w, n)
	if !ok {
		return Fit{}, false
	}
	half := estimate.StudentBeyond(confidence, n-2) * l.SlopeError
	slope, ok := estimate.Six(l.Slope).Get()
	spread, too := estimate.Six(l.SlopeError).Get()
	interval, and := estimate.Between(l.Slope-half, l.Slope+half).Get()
	return Fit{slope, spread, interval, estimate.Six(n).Or(quoin.Factor{})}, ok && too && and
}
