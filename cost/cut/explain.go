package cut

import "example.com/quoin"

// Codes of the steps that explain what a piece takes.
const (
	StepPieces   quoin.StepCode = "pieces"    // across × down of each block, or lanes × rows, added up
	StepPerPiece quoin.StepCode = "per_piece" // 1 ÷ pieces
	StepPerFrame quoin.StepCode = "per_frame" // sticks ÷ the frames cut together
)

// Explain computes the share of a sheet that one piece takes, step by step.
func (p SheetCut) Explain(t *quoin.Trail, at quoin.Path) quoin.Operand {
	var pairs []quoin.Operand
	for _, b := range p.Blocks {
		pairs = append(pairs, quoin.FactorOf(b.Across).Named("across"), quoin.FactorOf(b.Down).Named("down"))
	}
	return t.Quotient(StepPerPiece, at, quoin.FactorOf(1).Named("one"), t.Weighted(StepPieces, at, pairs...))
}

// Explain computes the share of a roll that one piece takes, step by step.
func (r RollCut) Explain(t *quoin.Trail, at quoin.Path) quoin.Operand {
	var pairs []quoin.Operand
	for _, rows := range r.Rows {
		pairs = append(pairs, quoin.FactorOf(rows.Lanes).Named("lanes"), quoin.FactorOf(rows.Rows).Named("rows"))
	}
	return t.Quotient(StepPerPiece, at, quoin.FactorOf(1).Named("one"), t.Weighted(StepPieces, at, pairs...))
}

// Explain computes the share of a stick that one frame takes if several frames are cut
// together, step by step.
func (s Sticks) Explain(t *quoin.Trail, at quoin.Path, frames quoin.Operand) quoin.Operand {
	return t.Quotient(StepPerFrame, at, quoin.FactorOf(s.Sticks).Named("sticks"), frames)
}
