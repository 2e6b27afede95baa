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

// workbook reads all sheets of a workbook: what is in the cells, not how it is shown.
func workbook(path string) (map[string][][]string, error) {
	raw := excelize.Options{RawCellValue: true, UnzipSizeLimit: 64 << 20, UnzipXMLSizeLimit: 16 << 20}
	f, err := excelize.OpenFile(path, raw)
	if err != nil {
		return nil, fmt.Errorf("%s: reading the workbook: %w", path, err)
	}
	defer f.Close()
	if props, err := f.GetWorkbookProps(); err != nil || props.Date1904 != nil && *props.Date1904 {
		return nil, fmt.Errorf("%s: found dates that are counted from 1904, wanted from 1900; copy the sheets into a new workbook", path)
	}
	shop := make(map[string][][]string)
	for _, name := range f.GetSheetList() {
		rows, err := f.GetRows(name, raw)
		if err != nil {
			return nil, fmt.Errorf("%s: reading the sheet %s: %w", path, name, err)
		}
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
		shop[name] = rows
	}
	return shop, nil
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
func folder(files fs.FS, path string) (map[string][][]string, error) {
	names, err := fs.Glob(files, "*.csv")
	if err != nil || len(names) == 0 {
		return nil, fmt.Errorf("%s: found no CSV files, wanted Materials.csv and others; -template shows them as sheets", path)
	}
	shop := make(map[string][][]string)
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
		if shop[strings.TrimSuffix(name, ".csv")], err = r.ReadAll(); err != nil {
			return nil, fmt.Errorf("%s/%s: %w", path, name, err)
		}
	}
	return shop, nil
}
