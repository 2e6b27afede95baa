package ink

import "example.com/quoin"

// Codes of the steps that explain the ink of a print.
const (
	StepUsed    quoin.StepCode = "ink_used"     // of a period: opening + bought − closing
	StepAllInk  quoin.StepCode = "all_ink"      // of all entries
	StepAllArea quoin.StepCode = "all_area"     // of all entries
	StepPerM2   quoin.StepCode = "ink_per_m2"   // all ink ÷ all area
	StepImage   quoin.StepCode = "image_area"   // width × height, in m²
	StepOnPaper quoin.StepCode = "ink_on_paper" // per m² × image
	StepUpkeep  quoin.StepCode = "ink_upkeep"   // of a month or session ÷ its prints
	StepPrint   quoin.StepCode = "ink_of_print" // on paper and upkeep, together
	StepInk     quoin.StepCode = "ink"          // ÷ (1 − share of upkeep)
)

// Explain computes the ink of one print in ml, step by step. Volume must accept the use. The
// image stands at a path of its own.
func (u Use) Explain(t *quoin.Trail, at, imageAt quoin.Path) quoin.Operand {
	perM2 := u.explainPerM2(t, at)
	width, _ := u.Image.Width().In("mm")
	height, _ := u.Image.Height().In("mm")
	area := t.Quotient(StepImage, at, t.Given("width", imageAt, width.Figure()),
		t.Given("height", imageAt, height.Figure()), quoin.FactorOf(1_000_000).Named("mm2 in 1 m2"))
	parts := []quoin.Operand{t.Product(StepOnPaper, at, perM2, area)}
	upkeep := at.Inside("upkeep")
	for _, p := range u.Upkeep.parts() {
		if !p.volume.IsZero() {
			volume := quoin.Unit("ml").Times(ml(p.volume))
			parts = append(parts, t.Quotient(StepUpkeep, at, t.Given(p.name, upkeep.Field(p.name), volume.Figure()), t.Given(p.over, upkeep.Field(p.over), p.prints.Figure())))
		}
	}
	print := t.Sum(StepPrint, at, parts...)
	return t.Quotient(StepInk, at, print,
		quoin.GivenOr("share of upkeep", upkeep.Field("share"), u.Upkeep.Share.Figure(), !u.Upkeep.Share.IsZero()).OneMinus())
}

func (u Use) explainPerM2(t *quoin.Trail, at quoin.Path) quoin.Operand {
	if len(u.Log)+len(u.Spent) > 0 {
		return u.ExplainLikely(t, at)
	}
	return t.Given("per m2", at.Field("per_m2"), quoin.Unit("ml").Times(ml(u.PerM2)).Figure())
}

// ExplainLikely computes the ink for a square metre, in ml, from a log or from periods, step by
// step.
func (u Use) ExplainLikely(t *quoin.Trail, at quoin.Path) quoin.Operand {
	areas, volumes, list := u.entries()
	var inks, printed []quoin.Operand
	for i := range areas {
		volume := quoin.Given("ink", at.Sub(list, i).Field("volume"), volumes[i].Figure())
		if list == "spent" {
			p := u.Spent[i]
			part := func(name string, q quoin.Quantity) quoin.Operand {
				return quoin.Given(name, at.Sub(list, i).Field(name), ml(q).Figure())
			}
			volume = t.Sum(StepUsed, at.FieldAt(list, i), part("opening", p.Opening), part("bought", p.Bought), part("closing", p.Closing).Minus())
		}
		inks = append(inks, volume)
		printed = append(printed, quoin.Given("area", at.Sub(list, i).Field("area"), areas[i].Figure()))
	}
	return t.Quotient(StepPerM2, at, t.Sum(StepAllInk, at, inks...), t.Sum(StepAllArea, at, printed...))
}
