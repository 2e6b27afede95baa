package tables_test

import (
	"encoding/csv"
	"errors"
	"fmt"
	"reflect"
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist/tables"
)

// place finds a cell, which may lie outside of the table so far: Ways of selling!D3.
func place(t testing.TB, all map[string][][]string, at, text string) {
	t.Helper()
	sheet, name, _ := strings.Cut(at, "!")
	var row, column int
	if _, err := fmt.Sscanf(name[1:], "%d", &row); err != nil {
		t.Fatal(at, err)
	}
	row, column = row-1, int(name[0]-'A')
	for len(all[sheet]) <= row {
		all[sheet] = append(all[sheet], nil)
	}
	for len(all[sheet][row]) <= column {
		all[sheet][row] = append(all[sheet][row], "")
	}
	all[sheet][row][column] = text
}

func problems(t testing.TB, all map[string][][]string) quoin.Problems {
	t.Helper()
	doc, err := tables.Read(all)
	var found quoin.Problems
	if err == nil {
		if err := doc.Check(); err != nil {
			t.Errorf("read, and then refused: %v", err)
		}
		return nil
	}
	if !errors.As(err, &found) || len(found) == 0 {
		t.Fatalf("found %v, wanted problems", err)
	}
	return found
}

func TestMistakesNameTheirCells(t *testing.T) {
	for _, c := range []struct{ at, to, want string }{
		{"Materials!D2", "62,00", `Materials!D2: found "62,00", wanted an amount such as 17.50; write a point`},
		{"Materials!D2", "", `Materials!D2: found nothing, wanted something in the column Price`},
		{"Materials!D2", "TRUE", `Materials!D2: found "TRUE", wanted an amount`},
		{"Materials!C2", "50", `Materials!C2: found`},
		{"Materials!A3", "paper", `Materials!A3: found`},
		{"Materials!D1", "Prise", `Materials!D1: found the column "Prise", wanted one of Material, Name`},
		{"Materials!D1", "Prise", `did you mean Price? [unknown_field]`},
		{"Materials!D1", "Prise", `Materials!A2: found nothing, wanted something in the column Price [missing_field]`},
		{"Materials!B1", "PRICE ", `Materials!D1: found the column "Price" twice, wanted it once [duplicate_field]`},
		{"Losses!B2", "15", `Losses!B2: found "15"`},
		{"Prints!E2", "160 by 250", `Prints!E2: found`},
		{"Bill!A2", "heron-a5", `Bill!A2: found "heron-a5", wanted what stands in the first column of the sheet Prints; did you mean heron-a`},
		{"Bill!C2", "papper", `Bill!C2: found "papper"`},
		{"Bill!D5", "1 sheet", `Bill!D5: found`},
		{"Bill!F2", "prnt", `Bill!F2: found "prnt"`},
		{"Ways of selling!F2", "7.4", `Ways of selling!F2: found "7.4"`},
		{"Ways of selling!F2", "20,5%", `Ways of selling!F2: found "20,5%"`},
		{"Ways of selling!G2", "maybe", `Ways of selling!G2: found "maybe", wanted true or false`},
		{"Ways of selling!D3", "50%; 12,5%", `Ways of selling!D3: found "12,5%"`},
		{"Orders!D3", "ten", `Orders!D3: found "ten", wanted a whole number`},
		{"Fees!D2", "items; shiping", `Fees!D2: found "shiping"`},
		{"Fees!A2", "", `Fees!A2: found "", wanted what stands in the first column of the sheet Ways of selling`},
		{"Rules!B2", "band", `Rules!B2: found "band"`},
		{"Rules!G3", "webb", `Rules!G3: found "webb"`},
		{"Settings!A3", "EUR", `Settings!A3: found a second row, wanted one [too_many]`},
		{"Settings!A2", "ERU", `Settings!A2: found "ERU"`},
		{"Settings!A2", "", `Settings!A2: found nothing, wanted something in the column Currency`},
		{"Settings!A1", "", `Settings: found nothing, wanted something in the column Currency`},
		{"Settings!B2", "0.005", `Settings!B2: found`},
		{"Materials!M2", "paid", `Materials!M2: found "paid" without a head above it, wanted one of Material`},
		{"Materials!D1", "", `Materials!D2: found "62.00" without a head above it`},
		{"Materials!B2", "caf\xe9", `Materials!B2: found`},
		{"Material!A1", "Name", `Material!A1: found the sheet "Material", wanted no others than Settings, Materials, `},
		{"Material!A1", "Name", `did you mean Materials? [unknown_field]`},
		{"Comparables!E2", "2026", `Comparables!E2: found "2026", wanted a date such as 2026-03-01 [bad_date]`},
	} {
		all := tables.Example()
		place(t, all, c.at, c.to)
		if strings.HasPrefix(c.at, "Comparables") {
			for at, text := range map[string]string{"A2": "heron-a4", "B2": "fair", "D2": "20.00"} {
				place(t, all, "Comparables!"+at, text)
			}
		}
		found := problems(t, all)
		if !strings.Contains(found.Error(), c.want) {
			t.Errorf("%s as %q: found\n%v\nwanted %s", c.at, c.to, found, c.want)
		}
		for _, p := range found {
			if p.Severity != quoin.Fault || p.Line != 0 || p.Column != 0 {
				t.Errorf("%s as %q: %+v", c.at, c.to, p)
			}
		}
	}
}

// A bad text is told once, though the document would refuse what is left of it too.
func TestOneProblemACell(t *testing.T) {
	all := tables.Example()
	place(t, all, "Materials!D2", "6\xff")
	if found := problems(t, all); len(found) != 1 || found[0].Code != quoin.BadText || found[0].Path != "Materials!D2" {
		t.Errorf("found %v", found)
	}
}

func TestAllMistakesAtOnce(t *testing.T) {
	all, want := tables.Example(), map[string]bool{}
	for at, text := range map[string]string{"Materials!D2": "x", "Bill!A2": "y", "Ways of selling!F3": "20", "Rules!B4": "z", "Nothing!A1": "n"} {
		place(t, all, at, text)
		want[at] = true
	}
	found := map[string]bool{}
	for _, p := range problems(t, all) {
		found[p.Path] = true
	}
	if !reflect.DeepEqual(found, want) {
		t.Errorf("found %v, wanted %v", found, want)
	}
}

// What is missing altogether is named by its sheet.
func TestNothing(t *testing.T) {
	const want = `Settings: found nothing, wanted something in the column Currency [missing_field]
Prints: found nothing, wanted at least one row [missing_field]
Ways of selling: found nothing, wanted at least one row [missing_field]`
	for _, all := range []map[string][][]string{nil, {}, {"Settings": nil}, {"Settings": {{}, {" "}}, "Sheet1": {{""}, nil}}} {
		if found := problems(t, all).Error(); found != want {
			t.Errorf("%v: found\n%s\nwanted\n%s", all, found, want)
		}
	}
	all := tables.Example()
	delete(all, "Prints") // materials and losses, which are read before, are no prints
	place(t, all, "Bill!A2", "paper")
	if found := problems(t, all); !errors.Is(found, quoin.Problem{Code: quoin.UnknownID, Path: "Bill!A2"}) {
		t.Errorf("found %v", found)
	}
}

// Every line of a packing list is found, and what has no name is named by nothing.
func TestRowsUnderOtherRows(t *testing.T) {
	all := tables.Example()
	all["Bill"] = append(all["Bill"], []string{"heron-a3", "parcel", "mailr", "1 piece"}, []string{"", "", "paper", "1 sheet"})
	place(t, all, "Prints!A3", "")
	place(t, all, "Fees!A3", "web")
	place(t, all, "Fees!C3", "2")
	all["Bill"][9][0] = "heron-a4"
	found := problems(t, all)
	for _, want := range []string{`Bill!C10: found "mailr"`, `Bill!A11: found ""`, `Bill!A6: found "heron-a3"`, "Prints!A3: found nothing", `Fees!C3: found "2"`} {
		if !strings.Contains(found.Error(), want) {
			t.Errorf("found\n%v\nwanted %s", found, want)
		}
	}
}

// A table as people have it: columns left out and in another order, rows of no text, spaces, and a
// row that is shorter than its heads.
func TestTablesAsPeopleHaveThem(t *testing.T) {
	all := tables.Example()
	all["Losses"] = [][]string{{" spoiled", "", "STEP "}, nil, {"", " ", "\t"}, {" 15% ", "", " print"}}
	all["Materials"][1] = all["Materials"][1][:6]
	all["Sheet1"] = [][]string{{"", " "}, nil}
	delete(all, "Comparables")
	got, err := tables.Read(all)
	if want := first(t); err != nil || !reflect.DeepEqual(got, want) {
		t.Errorf("found %+v, %v, wanted %+v", got, err, want)
	}
}

// More problems than are listed are not: the last one says that there are more.
func TestProblemsAreBounded(t *testing.T) {
	all := tables.Example()
	for range 5000 {
		all["Bill"] = append(all["Bill"], []string{"heron-a5"})
	}
	found := problems(t, all)
	if len(found) != 1001 || found[1000].Code != quoin.MoreProblems {
		t.Errorf("found %d problems, the last %v", len(found), found[len(found)-1])
	}
}

// FuzzRead: any tables are read or refused, each problem at a sheet or at one of its cells.
func FuzzRead(f *testing.F) {
	for i, s := range tables.Layout() {
		var text strings.Builder
		if err := csv.NewWriter(&text).WriteAll(tables.Example()[s.Name]); err != nil {
			f.Fatal(err)
		}
		f.Add(uint8(i), text.String())
	}
	f.Add(uint8(4), "Print,Packing,Material\nheron-a4,a.b]\"[0],papper\nheron-a4,\x00,paper\n")
	f.Add(uint8(9), "Print,Venue,Price,Date\nheron-a4,fair,20.00,46027\n")
	f.Add(uint8(10), "\xff,\n")
	f.Fuzz(func(t *testing.T, sheet uint8, text string) {
		all, name := tables.Example(), "Sheet1"
		if layout := tables.Layout(); int(sheet) < len(layout) {
			name = layout[sheet].Name
		}
		var rows [][]string
		for line := range strings.Lines(text) {
			rows = append(rows, strings.Split(strings.TrimSuffix(line, "\n"), ","))
		}
		all[name] = rows
		for _, p := range problems(t, all) {
			sheet, _, _ := strings.Cut(p.Path, "!")
			if _, ok := all[sheet]; p.Code != quoin.MoreProblems && (!ok || p.Severity != quoin.Fault || p.Found+p.Wanted == "") {
				t.Errorf("%+v", p)
			}
		}
	})
}
