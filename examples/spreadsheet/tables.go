package main

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"io/fs"
	"strconv"
	"strings"

	"github.com/xuri/excelize/v2"
)

// table is what stands in a sheet, as texts, and how a person finds it.
type table struct {
	at   string // before the name of a cell: shop.xlsx: Materials!
	rows [][]string
}

func (t table) cell(col, row int) string {
	name, _ := excelize.CoordinatesToCellName(col+1, row+1) // both are above 0
	return t.at + name
}

// workbook reads all sheets of a workbook: what is in the cells, not how it is shown.
func workbook(path string) (map[string]table, error) {
	raw := excelize.Options{RawCellValue: true, UnzipSizeLimit: 64 << 20, UnzipXMLSizeLimit: 16 << 20}
	f, err := excelize.OpenFile(path, raw)
	if err != nil {
		return nil, fmt.Errorf("%s: reading the workbook: %w", path, err)
	}
	defer f.Close()
	tables := make(map[string]table)
	for _, name := range f.GetSheetList() {
		rows, err := f.GetRows(name, raw)
		if err != nil {
			return nil, fmt.Errorf("%s: reading the sheet %s: %w", path, name, err)
		}
		t := table{at: path + ": " + name + "!", rows: rows}
		for r, row := range rows {
			for c := range row {
				at, _ := excelize.CoordinatesToCellName(c+1, r+1)
				switch kind, _ := f.GetCellType(name, at); kind {
				case excelize.CellTypeUnset, excelize.CellTypeNumber:
					row[c] = digits(row[c])
				case excelize.CellTypeBool:
					row[c] = map[string]string{"1": "TRUE", "0": "FALSE"}[row[c]]
				}
			}
		}
		tables[name] = t
	}
	return tables, nil
}

// digits writes a number of a spreadsheet, which keeps 15 digits and shows 0.3 where it holds
// 0.30000000000000004.
func digits(number string) string {
	x, err := strconv.ParseFloat(number, 64)
	if err != nil || len(number) <= 15 && !strings.ContainsAny(number, "eE") {
		return number
	}
	x, _ = strconv.ParseFloat(strconv.FormatFloat(x, 'g', 15, 64), 64)
	return strconv.FormatFloat(x, 'f', -1, 64)
}

// folder reads CSV files, one for each sheet, with commas or semicolons.
func folder(files fs.FS, path string) (map[string]table, error) {
	names, err := fs.Glob(files, "*.csv")
	if err != nil || len(names) == 0 {
		return nil, fmt.Errorf("%s: found no CSV files, wanted Materials.csv and others; -template shows them as sheets", path)
	}
	tables := make(map[string]table)
	for _, name := range names {
		text, err := fs.ReadFile(files, name)
		if err != nil {
			return nil, err
		}
		text = bytes.TrimPrefix(text, []byte("\ufeff"))
		r := csv.NewReader(bytes.NewReader(text))
		r.FieldsPerRecord = -1
		if heads, _, _ := bytes.Cut(text, []byte("\n")); bytes.Count(heads, []byte(";")) > bytes.Count(heads, []byte(",")) {
			r.Comma = ';'
		}
		t := table{at: path + "/" + name + ": "}
		if t.rows, err = r.ReadAll(); err != nil {
			return nil, fmt.Errorf("%s/%s: %w", path, name, err)
		}
		tables[strings.TrimSuffix(name, ".csv")] = t
	}
	return tables, nil
}
