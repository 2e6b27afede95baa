package paper

import (
	"example.com/quoin"
	"example.com/quoin/internal/prose"
)

// GSM is the unit of grammage: grams for a square metre (ISO 536). It is a unit
// of its own, so that 308 gsm cannot pass for 308 g.
const GSM quoin.Unit = "gsm"

// Mass returns the weight of a sheet in grams, exactly: grammage × area. A sheet of 297 x 420
// mm at 310 gsm weighs 38.6694 g. The error is Problems, if grammage is not in gsm or there is
// no size.
func Mass(size quoin.Size, grammage quoin.Quantity) (quoin.Quantity, error) {
	area, found := squareMetres(size)
	if grammage.Unit() != GSM {
		found = append(found, quoin.Problem{
			Code: quoin.UnitMismatch, Severity: quoin.Fault, Path: "grammage", Found: prose.Quoted(grammage.String()), Wanted: "a grammage such as 308 gsm",
		})
	}
	if err := found.Err(); err != nil {
		return quoin.Quantity{}, err
	}
	return quoin.Unit("g").Times(grammage.Number().Times(area)), nil
}

// squareMetres is an area, nothing of no size, which is a problem.
func squareMetres(size quoin.Size) (quoin.Factor, quoin.Problems) {
	if size.IsZero() {
		return quoin.Factor{}, quoin.Problems{{Code: quoin.MissingField, Severity: quoin.Fault, Path: "size", Found: "nothing", Wanted: "the size of a sheet"}}
	}
	in, _ := size.Area().In("m2") // a size has an area
	return in.Number(), nil
}

// Ream is how many sheets a basis weight is of.
const Ream = 500

// Grammage returns the grammage of a paper from the mass of a ream of 500 sheets of its basic
// size: mass ÷ (500 × area), to 34 digits. Each grade of paper has its own basic size: 17 × 22
// in for bond, 25 × 38 for book, 20 × 26 for cover (common practice). The error is Problems, if
// the mass is not a mass or there is no size.
func Grammage(mass quoin.Quantity, basic quoin.Size) (quoin.Quantity, error) {
	area, found := squareMetres(basic)
	grams, err := mass.In("g")
	if p, ok := err.(quoin.Problem); ok {
		p.Path = "mass"
		found = append(found, p)
	}
	if err := found.Err(); err != nil {
		return quoin.Quantity{}, err
	}
	return GSM.Times(grams.Number().Over(area.Times(quoin.FactorOf(Ream)))), nil
}

// BasisWeight returns the mass of a ream of 500 sheets of a basic size, in pounds: grammage ×
// 500 × area, to 34 digits. It errs as Mass does.
func BasisWeight(grammage quoin.Quantity, basic quoin.Size) (quoin.Quantity, error) {
	sheet, err := Mass(basic, grammage)
	if err != nil {
		return quoin.Quantity{}, err
	}
	return sheet.Times(quoin.FactorOf(Ream)).In("lb")
}
