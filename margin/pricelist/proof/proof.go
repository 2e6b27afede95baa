// Package proof writes the statements of a price list as sheets of formulas, so that a sceptic can
// follow every figure in any spreadsheet, and see what another input would make of it.
//
// Of gives the sheets as data: texts, numbers, and formulas that spreadsheets work out. A program
// that writes workbooks puts each cell where it stands, as examples/spreadsheet does. The package
// itself reads and writes no files.
//
// A proof follows the sums that were done. If a changed input passes a threshold, such as a tier of
// a fee or the number of pieces on a sheet, the engine would do other sums: price it again.
package proof

import (
	"cmp"
	"fmt"
	"strings"

	"example.com/quoin"
	"example.com/quoin/internal/prose"
	"example.com/quoin/margin/pricelist"
)

// The names of the sheets. Formulas refer to them.
const (
	statements = "Statements"
	inputs     = "Inputs"
	steps      = "Proof"
)

// first is the row of the first line of a statement, counted from 1.
const first = 4

// Sheet is one sheet of a proof.
type Sheet struct {
	// Name of the sheet. It has to keep it, since formulas of other sheets refer to it.
	Name string
	// The rows from the first on, each with its cells from the first column on.
	Rows [][]Cell
}

// String returns the name of the sheet.
func (s Sheet) String() string { return cmp.Or(s.Name, "no sheet") }

// Cell is what stands in one cell: a formula, a number, or else a text.
type Cell struct {
	// A formula without its equals sign, in the language of workbooks: points in numbers, commas
	// between arguments, English names of functions.
	Formula string
	// A number; its kind says how to show it.
	Number quoin.Optional[quoin.Figure]
	// A text, which is never a formula, whatever it begins with.
	Text string
	// Whether it is a head, to be shown in bold.
	Head bool
}

// String returns what stands in the cell, a formula behind an equals sign.
func (c Cell) String() string {
	if c.Formula != "" {
		return "=" + c.Formula
	}
	if n, ok := c.Number.Get(); ok {
		return n.String()
	}
	return cmp.Or(c.Text, "empty")
}

// Of returns the proof of all statements of an answer to a document. There is none of an answer
// without statements, such as a conflict. The sheets are
//
//   - Statements: the lines of every statement, worked out and as the engine has them. Its cell A1
//     says whether all figures agree.
//   - Inputs: each number of the document that a sum uses, once, and the prices.
//   - Proof: each step as a formula over inputs and other steps, rounded as the step rounds, with
//     the engine's figure beside it.
//
// Figures agree if they are within 0.000001: spreadsheets count in binary fractions, with about 15
// digits. A line that is zero because nothing leads to it is left out.
func Of(doc pricelist.Document, answer pricelist.Answer) []Sheet {
	p := proof{doc: doc, inputs: make(map[string]string), steps: make(map[string]string)}
	p.sheets[0] = Sheet{statements, [][]Cell{nil, nil, heads("Print", "Way of selling", "Line", "Worked out here", "By the engine", "Agree")}}
	p.sheets[1] = Sheet{inputs, [][]Cell{heads("What the document says", "Number", "As written", "Where")}}
	p.sheets[2] = Sheet{steps, [][]Cell{heads("Figure", "Of", "Is", "Before rounding", "Figure", "By the engine", "Agree")}}
	for _, product := range answer.Products {
		for _, c := range product.Channels {
			p.statement(product, c)
		}
	}
	lines := len(p.sheets[0].Rows)
	if lines < first {
		return nil
	}
	p.sheets[0].Rows[0] = []Cell{{Head: true, Formula: fmt.Sprintf(
		`IF(AND(%s!F%d:F%d,%s!G2:G%d),"All figures agree.","Some figures do not agree: an input was changed, or a sum is wrong.")`,
		statements, first, lines, steps, len(p.sheets[2].Rows),
	)}}
	return p.sheets[:]
}

// proof is a proof while it is written.
type proof struct {
	doc    pricelist.Document
	sheets [3]Sheet
	inputs map[string]string // cells, by what stands there
	steps  map[string]string // cells, by their formulas and what they are of
}

// next is the number of the row that is added next to a sheet, counted from 1.
func (p *proof) next(sheet int) int { return len(p.sheets[sheet].Rows) + 1 }

func (p *proof) add(sheet int, cells ...Cell) {
	p.sheets[sheet].Rows = append(p.sheets[sheet].Rows, cells)
}

func heads(texts ...string) []Cell {
	cells := make([]Cell, len(texts))
	for i, s := range texts {
		cells[i] = Cell{Text: s, Head: true}
	}
	return cells
}

func text(s string) Cell         { return Cell{Text: s} }
func formula(s string) Cell      { return Cell{Formula: s} }
func number(f quoin.Figure) Cell { return Cell{Number: quoin.Some(f)} }
func agree(a, b string, row int) Cell {
	return formula(fmt.Sprintf("ABS(%s%d-%s%d)<0.000001", a, row, b, row))
}

func named(p pricelist.ProductResult) string { return cmp.Or(p.Name, p.ID) }

// statement writes the steps of a statement that are not there yet, and then its lines.
func (p *proof) statement(product pricelist.ProductResult, c pricelist.ChannelResult) {
	at := make(map[quoin.StepCode]string)
	all := c.Steps.Steps()
	cells := make([]string, len(all))
	for i, s := range all {
		cells[i] = p.step(s, cells[:i], product)
		at[s.Code] = cells[i]
	}
	for code, amount := range c.Statement.Lines() {
		if at[code] == "" && amount.IsZero() {
			continue // there is none of it
		}
		p.add(0, text(named(product)), text(cmp.Or(c.Name, c.ID)), text(prose.Words(code)), formula(at[code]), number(amount.Figure()), agree("D", "E", p.next(0)))
	}
}

// step writes a step, unless it is there, and returns its cell.
func (p *proof) step(s quoin.Step, before []string, product pricelist.ProductResult) string {
	is := s.Formula(func(o quoin.Operand) string {
		if o.Step > 0 {
			return before[o.Step-1]
		}
		return p.input(o, product)
	})
	key := fmt.Sprint(s.Code, s.Subject, s.At, is, s.Places, s.Rounding)
	if cell := p.steps[key]; cell != "" {
		return cell
	}
	row := p.next(2)
	p.steps[key] = fmt.Sprintf("%s!$E$%d", steps, row)
	said := s.Formula(func(o quoin.Operand) string { return prose.Words(o.Name) })
	p.add(2, text(prose.Words(s.Code)), text(cmp.Or(s.Subject, p.doc.Place(s.At.String()))),
		text(strings.NewReplacer("*", " x ", "/", " / ", "+", " + ").Replace(said)), formula(is),
		formula(s.RoundingFormula(fmt.Sprintf("D%d", row))), number(s.Value), agree("E", "F", row))
	return p.steps[key]
}

// input is the cell of a number that the document gives, or the price that is asked. Other
// numbers stand in the formula itself: the minutes of an hour.
func (p *proof) input(o quoin.Operand, product pricelist.ProductResult) string {
	what, where := p.doc.Place(o.Path.String())+", "+prose.Words(o.Name), o.Path.String()
	if o.Path.IsZero() {
		if o.Value.Kind() != quoin.IsAmount || o.Value.Factor().IsZero() {
			return o.Value.Factor().String()
		}
		what, where = named(product)+", "+prose.Words(o.Name), "decided"
	}
	if o.Default {
		where += " (not given, so this holds)"
	}
	key := where + "\x00" + o.Value.String()
	if o.Path.IsZero() {
		key = product.ID + "\x00" + o.Name + "\x00" + o.Value.String()
	}
	if p.inputs[key] == "" {
		p.inputs[key] = fmt.Sprintf("%s!$B$%d", inputs, p.next(1))
		p.add(1, text(what), number(o.Value), text(o.Value.String()), text(where))
	}
	return p.inputs[key]
}
