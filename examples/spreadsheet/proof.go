package main

import (
	"fmt"
	"strconv"
	"strings"

	"example.com/quoin"
	"example.com/quoin/margin"
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
		cells[i] = p.step(s, cells[:i], nameOf(product.Name, product.ID))
		at[s.Code] = cells[i]
	}
	st := c.Statement
	for _, line := range []struct {
		code   quoin.StepCode
		amount quoin.Amount
	}{
		{margin.StepRevenue, st.Revenue}, {margin.StepTax, st.Tax}, {margin.StepGoods, st.Goods},
		{margin.StepOwnTime, st.OwnTime}, {margin.StepPaidTime, st.PaidTime}, {margin.StepGross, st.Gross},
		{margin.StepFees, st.Fees}, {margin.StepFulfilment, st.Fulfilment}, {margin.StepFixedCost, st.FixedCost},
		{margin.StepContribution, st.Contribution}, {margin.StepOverhead, st.Overhead},
		{margin.StepOperating, st.Operating}, {margin.StepIncomeTax, st.IncomeTax}, {margin.StepNet, st.Net},
	} {
		if at[line.code] == "" && line.amount.IsZero() {
			continue // there is none of it
		}
		row := 4 + p.lines
		p.lines++
		p.row("Statements", row, nameOf(product.Name, product.ID), nameOf(c.Name, c.ID), words(line.code), formula(at[line.code]),
			line.amount, formula(fmt.Sprintf("ABS(D%d-E%d)<0.000001", row, row)))
	}
}

// step writes a step, unless it is there, and returns its cell.
func (p *proof) step(s quoin.Step, before []string, product string) string {
	var refs, names []string
	for _, o := range s.Operands {
		if o.Default && o.Neutral(s.Op) {
			continue // a discount that is not given, and the like
		}
		cell := ""
		if o.Step > 0 {
			cell = before[o.Step-1]
		} else {
			cell = p.input(o, product)
		}
		refs = append(refs, formed(o.Form, cell))
		names = append(names, formed(o.Form, words(o.Name)))
	}
	op := s.Op
	if last := len(s.Operands) - 1; op == quoin.OpQuotient && s.Operands[last].Default && s.Operands[last].Neutral(op) {
		op = quoin.OpProduct
	}
	is := expression(op, refs)
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
	p.row("Proof", row, words(s.Code), of, strings.NewReplacer("*", " x ", "/", " / ", "+", " + ").Replace(expression(op, names)), formula(is),
		formula(rounded(s, fmt.Sprintf("D%d", row))), s.Value, formula(fmt.Sprintf("ABS(E%d-F%d)<0.000001", row, row)))
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

// expression is a sum over cells, or over names.
func expression(op quoin.Op, of []string) string {
	switch {
	case len(of) == 0 && (op == quoin.OpProduct || op == quoin.OpQuotient):
		return "1"
	case len(of) == 0:
		return "0"
	case op == quoin.OpProduct:
		return strings.Join(of, "*")
	case op == quoin.OpQuotient:
		return strings.Join(append(of[:len(of)-1:len(of)-1], "1")[:max(1, len(of)-1)], "*") + "/" + of[len(of)-1]
	case op == quoin.OpWeighted:
		var pairs []string
		for i := 0; i+1 < len(of); i += 2 {
			pairs = append(pairs, of[i]+"*"+of[i+1])
		}
		return strings.Join(pairs, "+")
	case op == quoin.OpGreatest:
		return "MAX(" + strings.Join(of, ",") + ")"
	case op == quoin.OpLeast:
		return "MIN(" + strings.Join(of, ",") + ")"
	case op == quoin.OpBelow:
		return fmt.Sprintf("IF(ROUND(%s-%s,9)<0,%s,0)", of[1], of[2], of[0])
	}
	return strings.Join(of, "+")
}

func formed(f quoin.Form, x string) string {
	switch f {
	case quoin.Minus:
		return "(-" + x + ")"
	case quoin.OnePlus:
		return "(1+" + x + ")"
	case quoin.OneMinus:
		return "(1-" + x + ")"
	}
	return x
}

// rounded rounds a cell as a step does. A spreadsheet counts in binary fractions: what is half a
// cent may be a hair more or less there, so a hair is added or taken off where it matters.
func rounded(s quoin.Step, cell string) string {
	if s.Places < 0 {
		return cell
	}
	form := map[quoin.Rounding]string{
		quoin.Up:       "SIGN(x)*ROUNDUP(MAX(0,ABS(x)-1E-9),places)",
		quoin.Down:     "SIGN(x)*ROUNDDOWN(ABS(x)+1E-9,places)",
		quoin.HalfUp:   "ROUND(ROUND(x,9),places)",
		quoin.HalfDown: "SIGN(x)*ROUND(MAX(0,ABS(x)-1E-9),places)",
		quoin.HalfEven: "SIGN(x)*ROUND(ABS(x)+IF(MOD(INT(ABS(x)*10^places+1E-7),2)=0,-1E-9,1E-9),places)",
	}[s.Rounding]
	return strings.NewReplacer("(x", "("+cell, "places", strconv.Itoa(s.Places)).Replace(form)
}

func words[T ~string](code T) string { return strings.ReplaceAll(string(code), "_", " ") }
