package market

import (
	"math"

	"example.com/quoin"
	"example.com/quoin/internal/estimate"
	"example.com/quoin/internal/form"
	"example.com/quoin/margin/comparables"
)

// Basis is what all prices are brought to before they are compared. Postage and
// frame are always taken off.
type Basis struct {
	// Tax is the rate of tax that prices are to hold, 0 for prices without tax.
	Tax quoin.Rate `json:"tax,omitzero" range:"[0,1]"`
	// Size is the size that prices are to be for; none leaves each at its own.
	Size quoin.Size `json:"size,omitzero"`
}

// Check reports a rate of tax below 0% or above 100%. The error is Problems.
func (b Basis) Check() error { return form.Computed(b).All().Err() }

// AdjustedPrice is a price on its way to a basis.
type AdjustedPrice struct {
	// Bare is price + postage on top − postage − frame.
	Bare quoin.Amount `json:"bare"`
	// Taxed is bare × (1 + tax of the basis) ÷ (1 + tax of the record).
	Taxed quoin.Amount `json:"taxed"`
	// SizeFactor is (area of the basis ÷ area of the record)^exponent, which is
	// estimated and rounded to six significant digits; 1 where nothing is done
	// about size.
	SizeFactor quoin.Factor `json:"size_factor"`
	// Price is taxed × size factor, the price on the basis, not rounded further.
	Price quoin.Amount `json:"price"`
}

// Codes of why a record cannot be brought to a basis.
const (
	FrameUnknown            = comparables.FrameUnknown
	NothingLeft             = comparables.NothingLeft
	SizeUnknown             = comparables.SizeUnknown
	SizeTooFar   quoin.Code = "comparable_size_too_far" // size alone would change the price more than a millionfold
)

// Codes of the steps that bring a record to a basis.
const (
	StepBare      quoin.StepCode = "comparable_bare"       // price + postage on top − postage − frame
	StepTaxed     quoin.StepCode = "comparable_taxed"      // that × (1 + tax of the basis) ÷ (1 + tax of the record)
	StepAreaRatio quoin.StepCode = "comparable_area_ratio" // area of the basis ÷ area of the record
	StepSized     quoin.StepCode = "comparable_sized"      // taxed × size factor, the area ratio to the power of the exponent
)

// Bring returns the price of a record on the basis. Sums and tax are exact, a
// quotient to 34 digits; only the size factor is estimated. With an exponent of
// 0.5 a print of twice the area is 1.41 times as dear, with 1 twice, with 0
// just as dear. It errs, with Problems, where the record cannot be brought
// there, and where Check does, of it or of the basis.
func (b Basis) Bring(r comparables.Record, exponent quoin.Factor) (AdjustedPrice, error) {
	var k form.Collector
	k.AddAll(nil, r.Check())
	k.AddAll(form.In("basis"), b.Check())
	if err := k.All().Err(); err != nil {
		return AdjustedPrice{}, err
	}
	a, code := b.bring(&r, exponent)
	if code != "" {
		return AdjustedPrice{}, quoin.Problems{unlike(&r, code)}
	}
	return a, nil
}

// unlike says why a record cannot be brought to a basis.
func unlike(r *comparables.Record, code quoin.Code) quoin.Problem {
	p := quoin.Problem{Code: code, Severity: quoin.Fault, Found: "nothing"}
	switch code {
	case FrameUnknown:
		p.Path, p.Wanted = "frame_worth", "what the frame is worth, to be taken off"
	case NothingLeft:
		p.Path, p.Found, p.Wanted = "price", r.Price.String(), "a price above postage and frame"
	case SizeUnknown:
		p.Path, p.Wanted = "size", "a size, since the basis has one"
	case SizeTooFar:
		p.Path, p.Found, p.Wanted = "size", r.Size.String(), "a size nearer to that of the basis"
	}
	return p
}

// bring is Bring for what was checked; the code says why there is no price.
func (b Basis) bring(r *comparables.Record, exponent quoin.Factor) (AdjustedPrice, quoin.Code) {
	a, code := b.atOwnSize(r)
	if code != "" || b.Size.IsZero() {
		return a, code
	}
	if r.Size.IsZero() {
		return a, SizeUnknown
	}
	a.SizeFactor, code = sizeFactor(r.Size, b.Size, exponent)
	a.Price = a.Taxed.Times(a.SizeFactor)
	return a, code
}

// atOwnSize brings a price to the basis but for its size.
func (b Basis) atOwnSize(r *comparables.Record) (AdjustedPrice, quoin.Code) {
	taxed, ok := r.At(b.Tax)
	switch {
	case ok:
		bare, _ := r.Bare()
		return AdjustedPrice{Bare: bare, Taxed: taxed, SizeFactor: quoin.FactorOf(1), Price: taxed}, ""
	case r.Framed && r.FrameWorth.IsZero():
		return AdjustedPrice{}, FrameUnknown
	}
	return AdjustedPrice{}, NothingLeft
}

func sizeFactor(from, to quoin.Size, exponent quoin.Factor) (quoin.Factor, quoin.Code) {
	if from.Area().Equal(to.Area()) {
		return quoin.FactorOf(1), ""
	}
	power := estimate.Float(exponent) * (logArea(to) - logArea(from))
	if math.Abs(power) > 6*math.Ln10 {
		return quoin.FactorOf(1), SizeTooFar
	}
	return estimate.Six(math.Exp(power)).Or(quoin.FactorOf(1)), ""
}

// logArea is the natural logarithm of the area in square centimetres.
func logArea(s quoin.Size) float64 { return math.Log(estimate.Float(s.Area().Number())) }

// Explain computes what Bring says on a trail: the price of a record that stands at
// a path, on the basis, which stands at another. A power is no operation of a trail:
// the size factor is an operand with its value. It errs as Bring does.
func (b Basis) Explain(t *quoin.Trail, basis quoin.Path, r comparables.Record, at quoin.Path, exponent quoin.Factor) (quoin.Operand, error) {
	a, err := b.Bring(r, exponent)
	if err != nil {
		return quoin.Operand{}, at.Locate(err)
	}
	given := func(name string, n quoin.Amount) quoin.Operand {
		return quoin.GivenOr(name, at.Field(name), n.Figure(), !n.IsZero())
	}
	tax := func(at quoin.Path, r quoin.Rate) quoin.Operand {
		return quoin.GivenOr("tax", at.Field("tax"), r.Figure(), !r.IsZero()).OnePlus()
	}
	t.On(r.Product)
	bare := t.Sum(StepBare, at, t.Given("price", at.Field("price"), r.Price.Figure()), given("postage_on_top", r.PostageOnTop),
		given("postage", r.Postage).Minus(), given("frame_worth", r.FrameWorth.Or(quoin.Amount{})).Minus())
	taxed := t.Quotient(StepTaxed, at, bare, tax(basis, b.Tax), tax(at, r.Tax))
	if b.Size.IsZero() {
		return taxed, nil
	}
	t.Quotient(StepAreaRatio, at, quoin.Given("size", basis.Field("size"), b.Size.Area().Figure()),
		quoin.Given("size", at.Field("size"), r.Size.Area().Figure()))
	return t.Product(StepSized, at, taxed, a.SizeFactor.Named("size_factor")), nil
}
