package sheet_test

import (
	"testing"

	"example.com/quoin/internal/zerotest"
	"example.com/quoin/margin/pricelist/sheet"
)

func TestZeroValues(t *testing.T) {
	all := []any{
		sheet.LineSheet, sheet.LineSheetMarkdown, sheet.LineSheetCSV, sheet.LineSheetHTML, sheet.Labels, sheet.LabelSheet{}, sheet.Line{}, sheet.WhereItGoes, sheet.FullHTML, sheet.FullMarkdown, sheet.FullText, sheet.HTML, sheet.Markdown, sheet.Text, sheet.Warnings, sheet.Why, sheet.WhyIn, sheet.WhyNot,
	}
	zerotest.Complete(t, all...)
	zerotest.Calls(t, all...)
}
