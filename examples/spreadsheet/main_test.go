package main

import (
	"bytes"
	"cmp"
	"context"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"reflect"
	"strconv"
	"strings"
	"testing"
	"time"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/pricelist/tables"
	"example.com/quoin/margin/rule"
	"github.com/xuri/excelize/v2"
)

func decoded(t *testing.T, path string) pricelist.Document {
	t.Helper()
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	doc, err := pricelist.Decode(text)
	if err != nil {
		t.Fatal(path, err)
	}
	return doc
}

// documents are those of the library's examples and cases.
func documents(t *testing.T) map[string]pricelist.Document {
	t.Helper()
	docs := make(map[string]pricelist.Document)
	for _, pattern := range []string{"../first/shop.json", "../pricesheet/scenario.json", "../shops/*.json", "../../margin/pricelist/testdata/cases/*.json"} {
		paths, err := filepath.Glob(pattern)
		if err != nil || len(paths) == 0 {
			t.Fatalf("found no %s", pattern)
		}
		for _, path := range paths {
			if name := filepath.Base(path); !strings.HasSuffix(name, ".want.json") {
				docs[strings.TrimSuffix(name, ".json")] = decoded(t, path)
			}
		}
	}
	return docs
}

// recalculated has LibreOffice work out workbooks and returns what it wrote, by the names of files.
func recalculated(t *testing.T, paths ...string) map[string]*excelize.File {
	t.Helper()
	office, err := exec.LookPath("soffice")
	if err != nil {
		t.Fatal("LibreOffice is missing: apt-get install --no-install-recommends libreoffice-calc")
	}
	out, home := t.TempDir(), t.TempDir()
	ctx, cancel := context.WithTimeout(t.Context(), 5*time.Minute)
	defer cancel()
	args := append([]string{"-env:UserInstallation=file://" + home, "--headless", "--convert-to", "xlsx", "--outdir", out}, paths...)
	if said, err := exec.CommandContext(ctx, office, args...).CombinedOutput(); err != nil {
		t.Fatalf("LibreOffice: %v\n%s", err, said)
	}
	files := make(map[string]*excelize.File)
	for _, path := range paths {
		files[path] = opened(t, filepath.Join(out, filepath.Base(path)))
	}
	return files
}

func opened(t *testing.T, path string) *excelize.File {
	t.Helper()
	f, err := excelize.OpenFile(path)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { f.Close() })
	return f
}

// statements are the lines that an answer has, in order: print, channel, the words of the line,
// and its amount.
func statements(a pricelist.Answer) (lines [][3]string, amounts []quoin.Amount) {
	for _, p := range a.Products {
		for _, c := range p.Channels {
			v := reflect.ValueOf(c.Statement)
			for i := range v.NumField() {
				name := v.Type().Field(i).Name
				lines = append(lines, [3]string{cmp.Or(p.Name, p.ID), cmp.Or(c.Name, c.ID), name})
				amounts = append(amounts, v.Field(i).Interface().(quoin.Amount))
			}
		}
	}
	return lines, amounts
}

var lineNames = map[string]string{
	"Revenue": "revenue", "Tax": "tax passed on", "Goods": "goods", "OwnTime": "own time", "PaidTime": "paid time", "Gross": "gross",
	"Fees": "fees", "Fulfilment": "fulfilment", "FixedCost": "fixed cost", "Contribution": "contribution", "Overhead": "overhead",
	"Operating": "operating", "IncomeTax": "income tax", "Net": "net",
}

// holds compares the sheet Statements, as some program worked it out, with an answer. A line may
// be missing only where it is nothing.
func holds(t *testing.T, what string, a pricelist.Answer, read func(sheet, cell string) (string, error)) {
	t.Helper()
	row := 4
	lines, amounts := statements(a)
	if len(lines) == 0 {
		t.Errorf("%s: no statements", what)
	}
	cell := func(column string) string {
		text, err := read("Statements", fmt.Sprintf("%s%d", column, row))
		if err != nil {
			t.Fatalf("%s: Statements!%s%d: %v", what, column, row, err)
		}
		return text
	}
	for i, line := range lines {
		if [3]string{cell("A"), cell("B"), cell("C")} != [3]string{line[0], line[1], lineNames[line[2]]} {
			if !amounts[i].IsZero() {
				t.Fatalf("%s: row %d is %s %s %s, wanted %v", what, row, cell("A"), cell("B"), cell("C"), line)
			}
			continue
		}
		got, err := strconv.ParseFloat(cell("D"), 64)
		want, _ := amounts[i].Rat().Float64()
		if err != nil || math.Abs(got-want) > 1e-6 {
			t.Errorf("%s: %v is %s, wanted %s", what, line, cell("D"), amounts[i])
		}
		if agree := cell("F"); !strings.EqualFold(agree, "TRUE") && agree != "1" {
			t.Errorf("%s: %v agrees: %s", what, line, agree)
		}
		row++
	}
	if more := cell("A"); more != "" {
		t.Errorf("%s: found a further line of %s", what, more)
	}
}

var raw = excelize.Options{RawCellValue: true}

func TestProofHoldsInBothPrograms(t *testing.T) {
	answers := make(map[string]pricelist.Answer)
	var paths []string
	folder := t.TempDir()
	for name, doc := range documents(t) {
		path := filepath.Join(folder, name+".xlsx")
		a, err := write(doc, path)
		if err != nil {
			t.Fatal(name, err)
		}
		if len(a.Conflict) > 0 {
			continue
		}
		answers[path], paths = a, append(paths, path)
		f := opened(t, path)
		if said, err := f.CalcCellValue("Statements", "A1"); err != nil || said != "All figures agree." {
			t.Errorf("%s: A1 is %q, %v", name, said, err)
		}
		holds(t, name+" by excelize", a, func(sheet, cell string) (string, error) { return f.CalcCellValue(sheet, cell, raw) })
	}
	for path, f := range recalculated(t, paths...) {
		name := filepath.Base(path)
		if said, err := f.GetCellValue("Statements", "A1"); err != nil || said != "All figures agree." {
			t.Errorf("%s: A1 is %q, %v", name, said, err)
		}
		holds(t, name+" by LibreOffice", answers[path], func(sheet, cell string) (string, error) { return f.GetCellValue(sheet, cell, raw) })
	}
}

// A price of paper that is changed on the sheet Inputs gives the engine's statements of the
// document with that price, at the prices that were decided before.
func TestChangedInput(t *testing.T) {
	doc := decoded(t, "../first/shop.json")
	path := filepath.Join(t.TempDir(), "changed.xlsx")
	before, err := write(doc, path)
	if err != nil {
		t.Fatal(err)
	}
	f := opened(t, path)
	rows, err := f.GetRows("Inputs")
	if err != nil {
		t.Fatal(err)
	}
	changed := 0
	for r, row := range rows {
		if len(row) > 3 && row[3] == "supplies[0].price" {
			changed++
			if err := f.SetCellFloat("Inputs", fmt.Sprintf("B%d", r+1), 75.35, -1, 64); err != nil {
				t.Fatal(err)
			}
		}
	}
	if changed != 1 {
		t.Fatalf("the price of paper stands %d times among the inputs, wanted once", changed)
	}
	if err := f.Save(); err != nil {
		t.Fatal(err)
	}
	doc.Supplies[0].Price = quoin.MustAmount("75.35")
	dearer, err := pricelist.Decide(doc)
	if err != nil {
		t.Fatal(err)
	}
	items, err := doc.Items(rule.Likely)
	if err != nil {
		t.Fatal(err)
	}
	for i := range dearer.Products {
		for k := range dearer.Products[i].Channels {
			c := &dearer.Products[i].Channels[k]
			offer, ok := items[i].Offer(c.ID)
			if !ok {
				t.Fatal("no offer in", c.ID)
			}
			c.Statement = offer.Sale.At(before.Products[i].Price)
		}
	}
	got := recalculated(t, path)[path]
	if said, _ := got.GetCellValue("Statements", "A1"); !strings.HasPrefix(said, "Some figures do not agree") {
		t.Errorf("A1 is %q", said)
	}
	lines, amounts := statements(dearer)
	row, other := 4, 0
	for i, line := range lines {
		label, _ := got.GetCellValue("Statements", fmt.Sprintf("C%d", row))
		if label != lineNames[line[2]] {
			continue
		}
		text, _ := got.GetCellValue("Statements", fmt.Sprintf("D%d", row), raw)
		was, _ := got.GetCellValue("Statements", fmt.Sprintf("E%d", row), raw)
		x, err := strconv.ParseFloat(text, 64)
		want, _ := amounts[i].Rat().Float64()
		if err != nil || math.Abs(x-want) > 1e-6 {
			t.Errorf("%v is %s, wanted %s", line, text, amounts[i])
		}
		if y, _ := strconv.ParseFloat(was, 64); math.Abs(x-y) > 1e-6 {
			other++
		}
		row++
	}
	if other < 8 {
		t.Errorf("%d lines changed, wanted goods, gross, contribution, and what follows, of each statement", other)
	}
}

// Two prints at one price have an input each, so that one price can be changed; constants such as
// the minutes of an hour are no inputs.
func TestEachPriceIsAnInput(t *testing.T) {
	doc := decoded(t, "../first/shop.json")
	doc.Rules = append(doc.Rules, rule.Rule{ID: "one price", Kind: rule.Price{AtLeast: quoin.Some(quoin.MustAmount("50.00"))}})
	path := filepath.Join(t.TempDir(), "one.xlsx")
	a, err := write(doc, path)
	if err != nil {
		t.Fatal(err)
	}
	if !a.Products[0].Price.Equal(a.Products[1].Price) {
		t.Fatal("two prices, wanted one")
	}
	rows, err := opened(t, path).GetRows("Inputs", raw)
	if err != nil {
		t.Fatal(err)
	}
	prices := make(map[string]string)
	for r, row := range rows[1:] {
		if len(row) < 4 || row[3] == "" {
			t.Errorf("row %d does not say where it is from: %v", r+2, row)
		} else if row[3] == "decided" {
			prices[row[0]] = row[1]
		}
	}
	if want := map[string]string{"Heron, A4, list price": "50", "Heron, A3, list price": "50"}; !reflect.DeepEqual(prices, want) {
		t.Errorf("found %v, wanted %v", prices, want)
	}
}

func TestTemplateIsTheEmbeddedShop(t *testing.T) {
	want := decoded(t, "../first/shop.json")
	path := filepath.Join(t.TempDir(), "shop.xlsx")
	if err := template(path); err != nil {
		t.Fatal(err)
	}
	read1 := func(from string) {
		t.Helper()
		shop, err := tablesOf(from)
		if err != nil {
			t.Fatal(err)
		}
		got, err := tables.Read(shop)
		if err != nil || !reflect.DeepEqual(got, want) {
			t.Errorf("%s: found %+v, %v, wanted %+v", from, got, err, want)
		}
	}
	read1("")
	read1(path)
	f := opened(t, path)
	for _, comma := range []string{",", ";"} {
		folder := t.TempDir()
		for _, sheet := range f.GetSheetList() {
			rows, err := f.GetRows(sheet, raw)
			if err != nil {
				t.Fatal(err)
			}
			text := "\ufeff"
			for _, row := range rows {
				cells := make([]string, len(row))
				for i, c := range row {
					cells[i] = `"` + strings.ReplaceAll(c, `"`, `""`) + `"`
				}
				text += strings.Join(cells, comma) + "\r\n"
			}
			if err := os.WriteFile(filepath.Join(folder, sheet+".csv"), []byte(text), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		read1(folder)
	}
	for _, s := range tables.Layout() {
		notes, err := f.GetComments(s.Name)
		if err != nil || len(notes) != len(s.Columns) {
			t.Errorf("%s has %d comments, wanted one for each head: %v", s, len(notes), err)
		}
	}
}

// A workbook that another program has saved gives the same prices: it keeps 62.00 as 62.
func TestTemplateSavedByLibreOffice(t *testing.T) {
	path := filepath.Join(t.TempDir(), "shop.xlsx")
	if err := template(path); err != nil {
		t.Fatal(err)
	}
	f := recalculated(t, path)[path]
	want, err := pricelist.Decide(decoded(t, "../first/shop.json"))
	if err != nil {
		t.Fatal(err)
	}
	got, err := price(f.Path, filepath.Join(t.TempDir(), "prices.xlsx"))
	if err != nil {
		t.Fatal(err)
	}
	for i, p := range want.Products {
		for k, c := range p.Channels {
			if got := got.Products[i].Channels[k].Statement; !got.Net.Equal(c.Statement.Net) || !got.Revenue.Equal(c.Statement.Revenue) {
				t.Errorf("%s in %s: found %s, wanted %s", p.ID, c.ID, got, c.Statement)
			}
		}
	}
}

// changed is the template with some cells changed, as a file.
func changed(t *testing.T, cells map[string]any) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "shop.xlsx")
	if err := template(path); err != nil {
		t.Fatal(err)
	}
	f := opened(t, path)
	for at, v := range cells {
		sheet, cell, _ := strings.Cut(at, "!")
		if err := f.SetCellValue(sheet, cell, v); err != nil {
			t.Fatal(err)
		}
	}
	if err := f.Save(); err != nil {
		t.Fatal(err)
	}
	return path
}

func TestMistakesNameTheirCells(t *testing.T) {
	for _, c := range []struct {
		at   string
		to   any
		want string
	}{
		{"Materials!D2", "62,00", `Materials!D2: found "62,00", wanted an amount such as 17.50; write a point`},
		{"Materials!D2", "", `Materials!D2: found nothing, wanted something in the column Price`},
		{"Materials!D2", true, `Materials!D2: found "TRUE", wanted an amount`},
		{"Materials!C2", "50", `Materials!C2: found`},
		{"Materials!A3", "paper", `Materials!A3: found`},
		{"Materials!D1", "Prise", `Materials!D1: found the column "Prise", wanted one of Material, Name`},
		{"Materials!B1", "Price", `Materials!D1: found the column "Price" twice`},
		{"Losses!B2", 15, `Losses!B2: found "15"`},
		{"Prints!E2", "160 by 250", `Prints!E2: found`},
		{"Bill!A2", "heron-a5", `Bill!A2: found "heron-a5", wanted what stands in the first column of the sheet Prints`},
		{"Bill!C2", "papper", `Bill!C2: found "papper"`},
		{"Bill!D5", "1 sheet", `Bill!D5: found`},
		{"Bill!F2", "prnt", `Bill!F2: found "prnt"`},
		{"Ways of selling!F2", "7.4", `Ways of selling!F2: found "7.4"`},
		{"Ways of selling!F2", "20,5%", `Ways of selling!F2: found "20,5%"`},
		{"Ways of selling!G2", "maybe", `Ways of selling!G2: found "maybe", wanted true or false`},
		{"Ways of selling!D3", "50%; 12,5%", `Ways of selling!D3: found "12,5%"`},
		{"Orders!D3", "ten", `Orders!D3: found "ten", wanted a whole number`},
		{"Fees!D2", "items; shiping", `Fees!D2: found "shiping"`},
		{"Rules!B2", "band", `Rules!B2: found "band"`},
		{"Rules!G3", "webb", `Rules!G3: found "webb"`},
		{"Settings!A3", "EUR", `Settings!A3: found a second row, wanted one`},
		{"Materials!M2", "paid", `Materials!M2: found "paid" without a head above it, wanted one of Material`},
		{"Materials!D1", "", `Materials!D2: found "62.00" without a head above it`},
		{"Fees!A2", "", `Fees!A2: found "", wanted what stands in the first column of the sheet Ways of selling`},
		{"Settings!A2", "ERU", `Settings!A2: found "ERU"`},
		{"Settings!B2", "0.005", `Settings!B2: found`},
	} {
		path := changed(t, map[string]any{c.at: c.to})
		_, err := price(path, filepath.Join(t.TempDir(), "out.xlsx"))
		if err == nil || !strings.Contains(err.Error(), path+": "+c.want) {
			t.Errorf("%s as %v: found %v, wanted %s", c.at, c.to, err, c.want)
		}
	}
}

func TestAllMistakesAtOnce(t *testing.T) {
	path := changed(t, map[string]any{"Materials!D2": "x", "Bill!A2": "y", "Ways of selling!F3": "20", "Rules!B4": "z"})
	_, err := price(path, filepath.Join(t.TempDir(), "out.xlsx"))
	for _, at := range []string{"Materials!D2: ", "Bill!A2: ", "Ways of selling!F3: ", "Rules!B4: "} {
		if err == nil || !strings.Contains(err.Error(), path+": "+at) {
			t.Errorf("found %v, wanted %s among it", err, at)
		}
	}
}

// Numbers of cells are read as they are kept, without what binary fractions add and whatever
// format they are shown in.
func TestNumbersOfCells(t *testing.T) {
	tenth := 0.1 // which Go would add exactly if it were a constant
	path := changed(t, map[string]any{
		"Materials!D2": tenth + 0.2, "Materials!F2": 1234.5, "Ways of selling!F2": 0.125, "Orders!E2": 1e-5,
		"Materials!A4": "0123", "Bill!C4": "0123", "Bill!C8": "0123",
		"Comparables!A2": "heron-a4", "Comparables!B2": "fair", "Comparables!D2": 1234567.89, "Comparables!E2": time.Date(2026, 1, 5, 0, 0, 0, 0, time.UTC), "Comparables!F2": 3,
	})
	f := opened(t, path)
	for cell, format := range map[string]string{"Materials!F2": "#,##0", "Ways of selling!F2": "0%", "Comparables!D2": "#,##0.0"} {
		sheet, at, _ := strings.Cut(cell, "!")
		style, err := f.NewStyle(&excelize.Style{CustomNumFmt: &format})
		if err != nil {
			t.Fatal(err)
		}
		if err := f.SetCellStyle(sheet, at, at, style); err != nil {
			t.Fatal(err)
		}
	}
	if err := f.Save(); err != nil {
		t.Fatal(err)
	}
	shop, err := tablesOf(path)
	if err != nil {
		t.Fatal(err)
	}
	doc, err := tables.Read(shop)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ got, want string }{
		{doc.Supplies[0].Price.String(), "0.3"},
		{doc.Supplies[0].Freight.String(), "1234.5"},
		{doc.Supplies[2].ID, "0123"},
		{doc.Channels[0].Tax.Rate.String(), "12.5%"},
		{doc.Channels[0].Orders[0].Shipping.String(), "0.00001"},
		{doc.Comparables[0].Price.String(), "1234567.89"},
		{doc.Comparables[0].Date.String(), "2026-01-05"},
	} {
		if c.got != c.want {
			t.Errorf("found %s, wanted %s", c.got, c.want)
		}
	}
}

// A workbook that counts its days from 1904 would give other dates.
func TestDatesFrom1904AreRefused(t *testing.T) {
	path := changed(t, nil)
	f := opened(t, path)
	if err := f.SetWorkbookProps(&excelize.WorkbookPropsOptions{Date1904: new(true)}); err != nil {
		t.Fatal(err)
	}
	if err := f.Save(); err != nil {
		t.Fatal(err)
	}
	if _, err := tablesOf(path); err == nil || !strings.Contains(err.Error(), path+": found dates that are counted from 1904") {
		t.Errorf("found %v", err)
	}
}

// A name that begins like a formula stays a text, and a sheet may be called anything.
func TestNamesAreNoFormulas(t *testing.T) {
	doc := decoded(t, "../first/shop.json")
	const evil = `=HYPERLINK("http://example.com","click")`
	doc.Products[0].Name, doc.Products[1].Name = evil, `+1+[x]*'y':?/\-a long name that no sheet may have`
	doc.Channels[0].Name, doc.Supplies[0].Name, doc.Channels[0].Fees[0].Name = "@SUM(1)", "-1", "=2+3"
	path := filepath.Join(t.TempDir(), "names.xlsx")
	a, err := write(doc, path)
	if err != nil {
		t.Fatal(err)
	}
	f := recalculated(t, path)[path]
	if got, _ := f.GetCellValue("Price list", "A2"); got != evil {
		t.Errorf("found %q, wanted %q", got, evil)
	}
	for _, sheet := range f.GetSheetList() {
		rows, err := f.GetRows(sheet)
		if err != nil {
			t.Fatal(err)
		}
		for r, row := range rows {
			for c := range row {
				at, _ := excelize.CoordinatesToCellName(c+1, r+1)
				formula, _ := f.GetCellFormula(sheet, at)
				if strings.Contains(formula, "HYPERLINK") || strings.Contains(formula, "2+3") || formula != "" && sheet != "Proof" && sheet != "Statements" {
					t.Errorf("%s!%s is a formula: %s", sheet, at, formula)
				}
			}
		}
	}
	holds(t, "names", a, func(sheet, cell string) (string, error) { return f.GetCellValue(sheet, cell, raw) })
}

func TestRun(t *testing.T) {
	to, garbage := filepath.Join(t.TempDir(), "to.xlsx"), filepath.Join(t.TempDir(), "garbage.xlsx")
	if err := os.WriteFile(garbage, []byte("PK no workbook"), 0o644); err != nil {
		t.Fatal(err)
	}
	var out, errs bytes.Buffer
	if status := run([]string{"-out", to}, &out, &errs); status != 0 || !strings.Contains(out.String(), to) || errs.Len() > 0 {
		t.Fatalf("status %d, printed %s %s", status, &out, &errs)
	}
	f := opened(t, to)
	var text strings.Builder
	rows, err := f.GetRows("Price list")
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range rows {
		text.WriteString(strings.Join(row, "|") + "\n")
	}
	for _, want := range []string{"Heron, A4|22.00 EUR|22.00 EUR|100.00 EUR|4.00 stays in shops", "Postage for an order", "not tax, legal or accounting advice"} {
		if !strings.Contains(text.String(), want) {
			t.Errorf("found\n%s\nwanted %s", text.String(), want)
		}
	}
	if pictures, err := f.GetPictures("1 Heron, A4", "D1"); err != nil || len(pictures) != 1 || !bytes.HasPrefix(pictures[0].File, []byte("<svg")) {
		t.Errorf("found %d pictures, %v, wanted the first", len(pictures), err)
	}
	for _, c := range []struct {
		args []string
		want int
		says string
	}{
		{[]string{"none.xlsx"}, 2, "none.xlsx"},
		{[]string{t.TempDir()}, 2, "found no CSV files"},
		{[]string{garbage}, 2, "reading the workbook"},
		{[]string{"-out", to, to}, 2, `to.xlsx: Price list!A1: found the sheet "Price list", wanted no others than Settings, Materials`},
		{[]string{"-out", to, changed(t, map[string]any{"Rules!B2": "price", "Rules!C2": "", "Rules!D2": "5.00"})}, 1, ""},
		{[]string{"-out", filepath.Join(to, "no", "folder.xlsx")}, 2, "writing the workbook"},
	} {
		errs.Reset()
		if got := run(c.args, &out, &errs); got != c.want || !strings.Contains(errs.String(), c.says) {
			t.Errorf("%v: status %d, wanted %d; printed %s", c.args, got, c.want, &errs)
		}
	}
}

// A list that cannot be written leaves what was there before, and nothing beside it.
func TestOldListStays(t *testing.T) {
	folder := t.TempDir()
	to := filepath.Join(folder, "prices.txt") // no name of a workbook
	if err := os.WriteFile(to, []byte("old"), 0o644); err != nil {
		t.Fatal(err)
	}
	var out, errs bytes.Buffer
	if status := run([]string{"-out", to}, &out, &errs); status != 2 || !strings.Contains(errs.String(), "writing the workbook") {
		t.Errorf("status %d, printed %s", status, &errs)
	}
	if text, err := os.ReadFile(to); err != nil || string(text) != "old" {
		t.Errorf("found %.20q, %v", text, err)
	}
	if left, err := os.ReadDir(folder); err != nil || len(left) != 1 {
		t.Errorf("found %v, %v, wanted the old list alone", left, err)
	}
}

// A rounding of each kind is what the engine's is, also where a binary fraction lies beside the
// half that it stands for.
func TestRoundings(t *testing.T) {
	f := excelize.NewFile()
	row := 0
	want := make(map[string]string)
	for _, text := range []string{"2.675", "2.665", "1.005", "-1.005", "-1.015", "0.3", "1.001", "-1.001", "0.005", "0.015", "0.0049", "-0.004", "7", "0", "12345.675"} {
		for _, how := range []quoin.Rounding{quoin.HalfUp, quoin.HalfEven, quoin.HalfDown, quoin.Up, quoin.Down} {
			row++
			amount := quoin.MustAmount(text)
			if err := f.SetCellFormula("Sheet1", fmt.Sprintf("A%d", row), "("+text+"*3)/3+0.1-0.1"); err != nil {
				t.Fatal(err)
			}
			at := fmt.Sprintf("B%d", row)
			if err := f.SetCellFormula("Sheet1", at, quoin.Step{Places: 2, Rounding: how}.RoundingFormula(fmt.Sprintf("A%d", row))); err != nil {
				t.Fatal(err)
			}
			want[at] = amount.Round(2, how).String()
		}
	}
	path := filepath.Join(t.TempDir(), "roundings.xlsx")
	if err := f.SaveAs(path); err != nil {
		t.Fatal(err)
	}
	office := recalculated(t, path)[path]
	for at, want := range want {
		x, _ := strconv.ParseFloat(want, 64)
		one, err := f.CalcCellValue("Sheet1", at, raw)
		if got, _ := strconv.ParseFloat(one, 64); err != nil || math.Abs(got-x) > 1e-9 {
			t.Errorf("%s by excelize is %s, %v, wanted %s", at, one, err, want)
		}
		two, _ := office.GetCellValue("Sheet1", at, raw)
		if got, err := strconv.ParseFloat(two, 64); err != nil || math.Abs(got-x) > 1e-9 {
			t.Errorf("%s by LibreOffice is %s, %v, wanted %s", at, two, err, want)
		}
	}
}
