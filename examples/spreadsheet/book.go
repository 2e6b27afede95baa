package main

import (
	"cmp"
	"fmt"
	"image"
	"image/color"
	"io"
	"os"
	"path/filepath"
	"strings"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/pricelist/picture"
	"example.com/quoin/margin/pricelist/sheet"
	"example.com/quoin/margin/pricelist/tables"
	"github.com/xuri/excelize/v2"
)

// formula is a cell that is worked out. All other text in a workbook stays text, whatever it
// begins with.
type formula string

// The writer of workbooks asks package image how large a picture is.
func init() { image.RegisterFormat("svg", "<svg", nil, svgSize) }

func svgSize(r io.Reader) (image.Config, error) {
	text, err := io.ReadAll(r)
	size := image.Config{ColorModel: color.RGBAModel}
	_, view, _ := strings.Cut(string(text), `viewBox="0 0 `)
	if err == nil {
		_, err = fmt.Sscanf(view, "%d %d", &size.Width, &size.Height)
	}
	return size, err
}

// book is a workbook while it is written. It keeps the first error.
type book struct {
	*excelize.File
	answer             pricelist.Answer
	money, share, bold int
	err                error
}

func newBook(a pricelist.Answer) *book {
	b := &book{File: excelize.NewFile(), answer: a.WithCurves()}
	places := strings.TrimSuffix("0."+strings.Repeat("0", a.Currency.Digits()), ".")
	b.money = b.style(excelize.Style{CustomNumFmt: new(fmt.Sprintf(`#,##%s "%s"`, places, a.Currency))})
	b.share = b.style(excelize.Style{CustomNumFmt: new("0.0%")})
	b.bold = b.style(excelize.Style{Font: &excelize.Font{Bold: true}})
	return b
}

func (b *book) style(s excelize.Style) int {
	id, err := b.NewStyle(&s)
	b.keep(err)
	return id
}

func (b *book) keep(err error) {
	if b.err == nil {
		b.err = err
	}
}

// page adds a sheet with columns of some widths.
func (b *book) page(name string, widths ...float64) {
	_, err := b.NewSheet(name)
	b.keep(err)
	b.keep(b.SetPageLayout(name, &excelize.PageLayoutOptions{Orientation: new("landscape"), FitToWidth: new(1), FitToHeight: new(0)}))
	b.keep(b.SetSheetProps(name, &excelize.SheetPropsOptions{FitToPage: new(true)}))
	for i, wide := range widths {
		column, _ := excelize.ColumnNumberToName(i + 1)
		b.keep(b.SetColWidth(name, column, column, wide))
	}
}

// row writes cells from the first column on: texts, amounts, rates, other numbers, formulas.
func (b *book) row(page string, row int, cells ...any) {
	for i, v := range cells {
		at, _ := excelize.CoordinatesToCellName(i+1, row)
		switch v := v.(type) {
		case formula:
			b.keep(b.SetCellFormula(page, at, string(v)))
		case quoin.Amount:
			b.keep(b.SetCellFloat(page, at, v.Float64(), -1, 64))
			b.keep(b.SetCellStyle(page, at, at, b.money))
		case quoin.Rate:
			b.keep(b.SetCellFloat(page, at, v.Factor().Float64(), -1, 64))
			b.keep(b.SetCellStyle(page, at, at, b.share))
		case quoin.Figure:
			b.keep(b.SetCellFloat(page, at, v.Factor().Float64(), -1, 64))
		case string:
			b.keep(b.SetCellStr(page, at, v))
		}
	}
}

func (b *book) head(page string, row int, cells ...any) {
	b.row(page, row, cells...)
	last, _ := excelize.CoordinatesToCellName(len(cells), row)
	b.keep(b.SetCellStyle(page, fmt.Sprintf("A%d", row), last, b.bold))
}

// list writes the price list, and a sheet for each print.
func (b *book) list(doc pricelist.Document) {
	const page = "Price list"
	b.keep(b.SetSheetName("Sheet1", page))
	b.page(page, 34, 13, 13, 13, 34, 13, 10)
	b.head(page, 1, "Print", "Price", "From", "To", "Held from below by", "Today", "Change")
	at := 2
	for i, p := range b.answer.Products {
		today, change := any(nil), any(nil)
		if price, known := p.Today.Get(); known {
			today, change = price, p.Change.Or(quoin.Rate{})
		}
		b.row(page, at, cmp.Or(p.Name, p.ID), p.Price, p.Least, p.Greatest, holders(p), today, change)
		b.product(doc, i)
		at++
	}
	if len(b.answer.Conflict) > 0 {
		at = b.lines(page, at, strings.Split(sheet.Text(b.answer, 100), "\n")...)
	}
	at = b.lines(page, at+1, sheet.Warnings(b.answer)...)
	b.lines(page, at+1, b.answer.Cautions...)
}

func (b *book) lines(page string, at int, lines ...string) int {
	for _, line := range lines {
		b.row(page, at, line)
		at++
	}
	return at
}

// holders are the rules that refuse the nearest lower price.
func holders(p pricelist.ProductResult) string {
	why, _ := p.Lower.Why()
	var rules []string
	for _, refusal := range why.By {
		rules = append(rules, refusal.Rule)
	}
	return strings.Join(rules, ", ")
}

// product writes the sheet of a print: its statements, reasons, warnings and pictures.
func (b *book) product(doc pricelist.Document, i int) {
	p := b.answer.Products[i]
	page := pageName(i, cmp.Or(p.Name, p.ID))
	b.page(page, 70, 14)
	b.head(page, 1, cmp.Or(p.Name, p.ID))
	b.row(page, 2, "  price", p.Price)
	at := 3
	for _, c := range p.Channels {
		b.head(page, at+1, cmp.Or(c.Name, c.ID))
		at += 2
		for _, line := range sheet.WhereItGoes(c, b.answer.Currency) {
			if line.Total || !line.Amount.IsZero() {
				b.row(page, at, line.Label, line.Amount)
				at++
			}
		}
	}
	story, _ := sheet.WhyNot(b.answer, p.ID, 90)
	at = b.lines(page, at+1, strings.Split(strings.TrimSpace(story), "\n")...)
	own := b.answer
	own.Warnings, own.Places = nil, nil
	for k, w := range b.answer.Warnings {
		if strings.HasPrefix(w.Path, fmt.Sprintf("products[%d]", i)) {
			own.Warnings, own.Places = append(own.Warnings, w), append(own.Places, b.answer.Places[k])
		}
	}
	b.lines(page, at+1, sheet.Warnings(own)...)
	below := 1
	for _, draw := range []func(pricelist.Answer, string) (picture.Picture, bool){picture.Breakdown, picture.Keeps, picture.Market} {
		if drawn, ok := draw(b.answer, p.ID); ok {
			format := &excelize.GraphicOptions{AltText: drawn.Text}
			cell := fmt.Sprintf("D%d", below)
			b.keep(b.AddPictureFromBytes(page, cell, &excelize.Picture{Extension: ".svg", File: []byte(drawn.Plain()), Format: format}))
			below += 28
		}
	}
}

// pageName is a name that a sheet may have, different for each print.
func pageName(i int, name string) string {
	clean := strings.Map(func(r rune) rune {
		if strings.ContainsRune(`[]:*?/\'`, r) || r > 0xFFFF {
			return '-'
		}
		return r
	}, name)
	letters := []rune(fmt.Sprintf("%d %s", i+1, clean))
	return string(letters[:min(31, len(letters))])
}

func (b *book) save(to string) error {
	b.keep(b.SetCalcProps(&excelize.CalcPropsOptions{FullCalcOnLoad: new(true)}))
	if b.err == nil {
		b.err = b.replace(to)
	}
	if b.err != nil {
		return fmt.Errorf("%s: writing the workbook: %w", to, b.err)
	}
	return nil
}

// replace writes the workbook beside the file and puts it in its place, so that nobody finds half
// of one there.
func (b *book) replace(to string) error {
	f, err := os.CreateTemp(filepath.Dir(to), ".prices-*"+filepath.Ext(to))
	if err != nil {
		return err
	}
	defer os.Remove(f.Name()) // which is no longer there when all went well
	if err := cmp.Or(f.Chmod(0o644), f.Close(), b.SaveAs(f.Name())); err != nil {
		return err
	}
	return os.Rename(f.Name(), to)
}

// template writes a workbook to fill in: heads with comments, and the embedded shop.
func template(to string) error {
	b := newBook(pricelist.Answer{})
	text, number := b.style(excelize.Style{NumFmt: 49}), b.style(excelize.Style{})
	for _, s := range tables.Layout() {
		b.page(s.Name)
		for c, column := range s.Columns {
			name, _ := excelize.ColumnNumberToName(c + 1)
			style, write := text, b.SetCellStr
			if column.Kind == tables.Number {
				style, write = number, b.SetCellDefault
			}
			b.keep(b.SetColStyle(s.Name, name, style))
			b.keep(b.SetColWidth(s.Name, name, name, 20))
			b.keep(b.SetCellStr(s.Name, name+"1", column.Head))
			b.keep(b.SetCellStyle(s.Name, name+"1", name+"1", b.bold))
			b.keep(b.AddComment(s.Name, excelize.Comment{Cell: name + "1", Paragraph: []excelize.RichTextRun{{Text: column.Comment}}}))
			for r, row := range s.Example {
				if row[c] != "" {
					b.keep(write(s.Name, fmt.Sprintf("%s%d", name, r+2), row[c]))
				}
			}
		}
	}
	b.keep(b.DeleteSheet("Sheet1"))
	return b.save(to)
}
