package main

import (
	"cmp"
	"fmt"
	"strconv"
	"strings"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
)

// proof writes the steps of all statements as formulas: each number of the document once on the
// sheet Inputs, each step once on the sheet Proof, and the statements on the sheet Statements.
type proof struct {
	*book
	doc    pricelist.Document
	inputs map[string]string // cells, by what stands there
	steps  map[string]string // cells, by their formulas and what they are of
	lines  int               // of statements
}

func (b *book) prove(doc pricelist.Document) {
	p := proof{b, doc, make(map[string]string), make(map[string]string), 0}
	b.page("Statements", 34, 24, 18, 18, 18, 10)
	b.page("Inputs", 46, 18, 18, 40)
	b.page("Proof", 24, 34, 50, 18, 18, 18, 10)
	b.head("Statements", 3, "Print", "Way of selling", "Line", "Worked out here", "By the engine", "Agree")
	b.head("Inputs", 1, "What the document says", "Number", "As written", "Where")
	b.head("Proof", 1, "Figure", "Of", "Is", "Before rounding", "Figure", "By the engine", "Agree")
	for _, product := range b.answer.Products {
		for _, c := range product.Channels {
			p.statement(product, c)
		}
	}
	agree := fmt.Sprintf(`IF(AND(Statements!F4:F%d,Proof!G2:G%d),"All figures agree.","Some figures do not agree: an input was changed, or a sum is wrong.")`, 3+p.lines, 1+len(p.steps))
	b.head("Statements", 1, formula(agree))
}

// statement writes the steps of a statement that are not there yet, and then its lines.
func (p *proof) statement(product pricelist.ProductResult, c pricelist.ChannelResult) {
	at := make(map[quoin.StepCode]string)
	steps := c.Steps.Steps()
	cells := make([]string, len(steps))
	for i, s := range steps {
		cells[i] = p.step(s, cells[:i], cmp.Or(product.Name, product.ID))
		at[s.Code] = cells[i]
	}
	for code, amount := range c.Statement.Lines() {
		if at[code] == "" && amount.IsZero() {
			continue // there is none of it
		}
		row := 4 + p.lines
		p.lines++
		p.row("Statements", row, cmp.Or(product.Name, product.ID), cmp.Or(c.Name, c.ID), words(code), formula(at[code]),
			amount, formula(fmt.Sprintf("ABS(D%d-E%d)<0.000001", row, row)))
	}
}

// step writes a step, unless it is there, and returns its cell.
func (p *proof) step(s quoin.Step, before []string, product string) string {
	is := s.Formula(func(o quoin.Operand) string {
		if o.Step > 0 {
			return before[o.Step-1]
		}
		return p.input(o, product)
	})
	said := s.Formula(func(o quoin.Operand) string { return words(o.Name) })
	key := fmt.Sprint(s.Code, s.Subject, s.At, is, s.Places, s.Rounding)
	if cell := p.steps[key]; cell != "" {
		return cell
	}
	of := s.Subject
	if of == "" {
		of = p.doc.Place(s.At.String())
	}
	row := 2 + len(p.steps)
	p.steps[key] = fmt.Sprintf("Proof!$E$%d", row)
	p.row("Proof", row, words(s.Code), of, strings.NewReplacer("*", " x ", "/", " / ", "+", " + ").Replace(said), formula(is),
		formula(s.RoundingFormula(fmt.Sprintf("D%d", row))), s.Value, formula(fmt.Sprintf("ABS(E%d-F%d)<0.000001", row, row)))
	return p.steps[key]
}

// input is the cell of a number that the document gives, or the price that is asked. Other
// numbers stand in the formula itself: the minutes of an hour.
func (p *proof) input(o quoin.Operand, product string) string {
	what, where := p.doc.Place(o.Path.String())+", "+words(o.Name), o.Path.String()
	if o.Path.IsZero() {
		if o.Value.Kind() != quoin.IsAmount || o.Value.Factor().IsZero() {
			return strconv.FormatFloat(o.Value.Factor().Float64(), 'f', -1, 64)
		}
		what, where = product+", "+words(o.Name), "decided"
	}
	if o.Default {
		where += " (not given, so this holds)"
	}
	key := where + "\x00" + o.Value.String()
	if o.Path.IsZero() {
		key = what
	}
	if p.inputs[key] == "" {
		row := 2 + len(p.inputs)
		p.inputs[key] = fmt.Sprintf("Inputs!$B$%d", row)
		p.row("Inputs", row, what, o.Value, o.Value.String(), where)
	}
	return p.inputs[key]
}

func words[T ~string](code T) string { return strings.ReplaceAll(string(code), "_", " ") }
