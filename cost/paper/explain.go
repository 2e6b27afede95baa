package paper

import "example.com/quoin"

// StepMass is the code of the mass of a sheet: width × height in mm × grammage
// ÷ 1 000 000.
const StepMass quoin.StepCode = "sheet_mass"

// Explain computes what a sheet weighs in grams, for a size and a grammage that
// Mass accepts and that stand at paths of their own.
func Explain(t *quoin.Trail, size quoin.Size, sizeAt quoin.Path, grammage quoin.Quantity, grammageAt quoin.Path) quoin.Operand {
	width, _ := size.Width().In("mm")
	height, _ := size.Height().In("mm")
	return t.Quotient(StepMass, sizeAt, t.Given("width", sizeAt, width.Figure()), t.Given("height", sizeAt, height.Figure()),
		t.Given("grammage", grammageAt, grammage.Figure()), quoin.FactorOf(1_000_000).Called("mm2 in 1 m2"))
}
