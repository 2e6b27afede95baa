package paper

import "example.com/quoin"

// GSM is the unit of grammage: grams for a square metre (ISO 536). It is a unit
// of its own, so that 308 gsm cannot pass for 308 g.
const GSM quoin.Unit = "gsm"

// Codes of weights that cannot be told.
const (
	NotGrammage quoin.Code = "not_a_grammage"
	MissingSize quoin.Code = "missing_size"
)

func fault(code quoin.Code, found, wanted string) error {
	return quoin.Problem{Code: code, Severity: quoin.Fault, Found: found, Wanted: wanted}
}

// Mass returns what a sheet weighs, grammage × area, in grams, exactly. It
// errs, with a Problem, where grammage is not in gsm or there is no size.
func Mass(size quoin.Size, grammage quoin.Quantity) (quoin.Quantity, error) {
	area, err := squareMetres(size)
	if err != nil {
		return quoin.Quantity{}, err
	}
	if grammage.Unit() != GSM {
		return quoin.Quantity{}, fault(NotGrammage, grammage.String(), "a grammage such as 308 gsm")
	}
	return quoin.Unit("g").Times(grammage.Number().Times(area)), nil
}

func squareMetres(size quoin.Size) (quoin.Factor, error) {
	if size.IsZero() {
		return quoin.Factor{}, fault(MissingSize, "no size", "the size of a sheet")
	}
	in, err := size.Area().In("m2")
	return in.Number(), err
}

// Ream is how many sheets a basis weight is of.
const Ream = 500

// Grammage returns the grammage of a paper whose ream of 500 sheets of a basic
// size has a mass: mass ÷ (500 × area), to 34 digits. Basis weights differ by
// the basic size of their grade: 17 × 22 in for bond, 25 × 38 for book, 20 × 26
// for cover (common practice). It errs, with a Problem, where the mass is none
// or there is no size.
func Grammage(mass quoin.Quantity, basic quoin.Size) (quoin.Quantity, error) {
	area, err := squareMetres(basic)
	if err != nil {
		return quoin.Quantity{}, err
	}
	grams, err := mass.In("g")
	if err != nil {
		return quoin.Quantity{}, err
	}
	return GSM.Times(grams.Number().Over(area.Times(quoin.FactorOf(Ream)))), nil
}

// BasisWeight returns the mass of a ream of 500 sheets of a basic size, in
// pounds: grammage × 500 × area, to 34 digits. It errs as Mass does.
func BasisWeight(grammage quoin.Quantity, basic quoin.Size) (quoin.Quantity, error) {
	sheet, err := Mass(basic, grammage)
	if err != nil {
		return quoin.Quantity{}, err
	}
	return sheet.Times(quoin.FactorOf(Ream)).In("lb")
}

// Reams returns how many reams of so many sheets a number of sheets is; a ream of 0 has
// the 500 sheets of Ream.
func Reams(sheets quoin.Factor, ream int64) quoin.Factor {
	if ream == 0 {
		ream = Ream
	}
	return sheets.Over(quoin.FactorOf(ream))
}
