package tables

import (
	"fmt"
	"strconv"
	"strings"
)

// cell names a cell as spreadsheets do: Materials!D2. Rows and columns are counted from 0.
func cell(sheet string, row, column int) string {
	var letters string
	for n := column + 1; n > 0; n = (n - 1) / 26 {
		letters = string(rune('A'+(n-1)%26)) + letters
	}
	return sheet + "!" + letters + strconv.Itoa(row+1)
}

// value is what a text means in a column of a kind. What is not as its kind wants stays a text,
// which the document refuses.
func value(text string, kind Kind) any {
	switch kind {
	case List:
		parts := strings.Split(text, ";")
		for i, part := range parts {
			parts[i] = strings.TrimSpace(part)
		}
		return parts
	case YesNo:
		switch strings.ToLower(text) {
		case "yes", "true":
			return true
		case "no", "false":
			return false
		}
	case Date:
		if date, ok := dateOf(text); ok {
			return date
		}
	}
	return text
}

// dateOf returns the date that a spreadsheet keeps as a number of days since 1899-12-30, with the
// time of day behind a point. The number has five digits, which are the years 1927 to 2173: a year
// by itself, such as 2026, is none.
func dateOf(number string) (date string, ok bool) {
	whole, time, _ := strings.Cut(number, ".")
	if len(whole) != 5 || whole[0] == '0' || strings.Trim(whole+time, "0123456789") != "" {
		return "", false
	}
	days, _ := strconv.Atoi(whole) // has only digits
	days += 693899                 // since March 1 of the year 0, so that a leap day ends its year
	begins := func(year int) int { return 365*year + year/4 - year/100 + year/400 }
	year := days * 400 / 146097 // 400 years have 146,097 days: the year, or the one before it
	for begins(year+1) <= days {
		year++
	}
	days -= begins(year)
	month := 3
	for _, length := range [...]int{31, 30, 31, 30, 31, 31, 30, 31, 30, 31, 31} {
		if days < length {
			break
		}
		days -= length
		month++
	}
	if month > 12 {
		month, year = month-12, year+1
	}
	return fmt.Sprintf("%04d-%02d-%02d", year, month, days+1), true
}
