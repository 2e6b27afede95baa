package sheet

import (
	"cmp"
	"fmt"
	"html"
	"strings"

	"example.com/quoin"
	"example.com/quoin/internal/page"
	"example.com/quoin/margin/pricelist"
)

// LabelSheet is a sheet of price labels, such as for a stand at a fair.
type LabelSheet struct {
	// Paper is the size of the sheet: A4 where it is not given.
	Paper quoin.Size
	// Across and Down are how many labels lie side by side and above each other: 1 to 50, 3 and 8
	// where they are 0.
	Across, Down int
	// Rim is what stays free along all edges of the sheet; nothing where it is not given.
	Rim quoin.Quantity
	// Copies is how many labels each product gets: 1 to 1000, 1 where it is 0.
	Copies int
}

const (
	mostAcross = 50
	mostCopies = 1000
	leastLabel = 10 // millimetres
)

// Labels writes a price label for each product of the answer as a page to print: the name, the
// size, and the price with its currency. All labels of a sheet have the same size: the paper
// without its rim, divided by their numbers. The error is quoin.Problems: numbers out of their
// range, a rim that is no length, labels smaller than 10 mm, or an answer without prices.
func Labels(a pricelist.Answer, s LabelSheet) (string, error) {
	if s.Paper.IsZero() {
		s.Paper = quoin.MustSize("A4")
	}
	s.Across, s.Down, s.Copies = cmp.Or(s.Across, 3), cmp.Or(s.Down, 8), cmp.Or(s.Copies, 1)
	wide, high, err := s.label(a)
	if err != nil {
		return "", err
	}
	var labels []string
	for _, it := range a.Products {
		text := fmt.Sprintf(`<div class="label"><b>%s</b><span>%s</span><strong>%s</strong></div>`,
			printed(named(it.Name, it.ID)), printed(it.Size.String()), printed(it.Price.String()+" "+a.Currency.String()))
		if it.Size.IsZero() {
			text = strings.Replace(text, "<span></span>", "", 1)
		}
		for range s.Copies {
			labels = append(labels, text)
		}
	}
	var b strings.Builder
	fmt.Fprintf(&b, labelPage, s.Paper, mm(s.Paper.Width()), mm(s.Paper.Height()), mm(s.rim()), s.Across, wide, high, pointsOf(high))
	for each := s.Across * s.Down; len(labels) > 0; labels = labels[min(each, len(labels)):] {
		b.WriteString("<div class=\"sheet\">\n" + strings.Join(labels[:min(each, len(labels))], "\n") + "\n</div>\n")
	}
	b.WriteString("<footer>\n")
	for _, c := range a.Cautions {
		b.WriteString("<p>" + printed(c) + "</p>\n")
	}
	b.WriteString("</footer>\n</body>\n</html>\n")
	return b.String(), nil
}

// label is how wide and high a label is.
func (s LabelSheet) label(a pricelist.Answer) (wide, high string, err error) {
	var ps quoin.Problems
	for _, n := range []struct {
		field    string
		n, limit int
	}{{"Across", s.Across, mostAcross}, {"Down", s.Down, mostAcross}, {"Copies", s.Copies, mostCopies}} {
		if n.n < 1 || n.n > n.limit {
			ps = append(ps, refused(quoin.OutOfRange, n.field, fmt.Sprint(n.n), fmt.Sprintf("a value of at least 1 and at most %d", n.limit)))
		}
	}
	if _, err := s.rim().In("mm"); err != nil || s.rim().Sign() < 0 {
		ps = append(ps, refused(quoin.OutOfRange, "Rim", s.Rim.String(), "a length of at least 0"))
	}
	if len(a.Products) == 0 {
		ps = append(ps, refused(quoin.MissingField, "Products", "an answer without prices", "decided prices"))
	}
	if len(ps) > 0 {
		return "", "", ps
	}
	rims := millimetres(s.rim()).Times(quoin.FactorOf(2))
	w := millimetres(s.Paper.Width()).Sub(rims).Over(quoin.FactorOf(int64(s.Across))).Round(2, quoin.Down)
	h := millimetres(s.Paper.Height()).Sub(rims).Over(quoin.FactorOf(int64(s.Down))).Round(2, quoin.Down)
	if least := quoin.FactorOf(leastLabel); w.Cmp(least) < 0 || h.Cmp(least) < 0 {
		return "", "", quoin.Problems{refused(quoin.OutOfRange, "Across", fmt.Sprintf("labels of %s x %s mm", w, h), fmt.Sprintf("labels of at least %d mm on each side", leastLabel))}
	}
	return w.String(), h.String(), nil
}

func refused(code quoin.Code, at, found, wanted string) quoin.Problem {
	return quoin.Problem{Code: code, Severity: quoin.Fault, Path: at, Found: found, Wanted: wanted}
}

func (s LabelSheet) rim() quoin.Quantity {
	if s.Rim.IsZero() {
		return quoin.MustQuantity("0 mm")
	}
	return s.Rim
}

func millimetres(q quoin.Quantity) quoin.Factor {
	mm, _ := q.In("mm")
	return mm.Number()
}

func mm(q quoin.Quantity) string { return millimetres(q).String() }

func printed(text string) string { return html.EscapeString(page.Visible(text)) }

// pointsOf is the size of letters that suits a label so many millimetres high: a fifth of it.
func pointsOf(high string) string {
	return quoin.MustFactor(high).Over(quoin.FactorOf(5)).Round(2, quoin.HalfUp).String()
}

// labelPage has room for: the paper in words, its width and height, the rim, how many across, a
// label's width and height, and the size of letters, in millimetres.
const labelPage = `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width">
<title>Price labels, %[1]s</title>
<style>
@page{size:%[2]smm %[3]smm;margin:0}
body{margin:0;color:#000;background:#fff;font-family:Georgia,serif}
.sheet{box-sizing:border-box;width:%[2]smm;height:%[3]smm;padding:%[4]smm;overflow:hidden;display:grid;grid-template-columns:repeat(%[5]d,%[6]smm);grid-auto-rows:%[7]smm;page-break-after:always;break-inside:avoid}
.sheet:last-of-type{page-break-after:auto}
.label{box-sizing:border-box;border:.1mm dashed #999;padding:2mm;overflow:hidden;display:flex;flex-direction:column;justify-content:center;text-align:center;font-size:min(4mm,%[8]smm)}
.label b{overflow-wrap:anywhere}.label span{font-size:.8em}.label strong{font-size:1.7em;font-variant-numeric:tabular-nums}
footer{padding:1em;font-size:13px}@media print{footer{display:none}}
</style>
</head>
<body>
`
