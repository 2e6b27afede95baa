package history

import (
	"fmt"
	"strconv"

	"example.com/quoin"
)

// day is a day counted from 0001-01-01, which is 1, in the Gregorian calendar
// (fixed dates, as in Reingold and Dershowitz, Calendrical Calculations; from
// memory).
type day int64

const (
	// forever is after every day that a date can name.
	forever day = 1 << 40

	yearDays       = 365
	cycleYears     = 400
	cycleDays      = 146_097
	lastYear       = 9999
	lastDay    day = 3_652_059 // 9999-12-31
)

// dayOf returns the day of a date; forever of none.
func dayOf(d quoin.Date) day {
	if d.IsZero() {
		return forever
	}
	s := d.String()
	year, month := number(s[:4]), number(s[5:7])
	return day(beforeYear(year) + beforeMonth(year, month) + number(s[8:]))
}

// number reads digits that a date has written.
func number(s string) int64 {
	n, _ := strconv.ParseInt(s, 10, 64)
	return n
}

// beforeYear is how many days lie before a year, from 0001-01-01 on: every
// fourth year has a day more, but not every hundredth, but every 400th.
func beforeYear(year int64) int64 {
	y := year - 1
	return yearDays*y + y/4 - y/100 + y/cycleYears
}

// beforeMonth is how many days of a year lie before a month; of month 13, all.
func beforeMonth(year, month int64) int64 {
	days := [...]int64{0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334, 365}[month-1]
	if month > 2 && leap(year) {
		days++
	}
	return days
}

func leap(year int64) bool { return year%4 == 0 && (year%100 != 0 || year%cycleYears == 0) }

// date returns the date of a day: none of forever, and the first or the last
// date there is of a day beyond them.
func (d day) date() quoin.Date {
	if d == forever {
		return quoin.Date{}
	}
	d = min(max(d, 1), lastDay)
	// A year of mean length is too short or too long by less than a year.
	year := min((int64(d)-1)*cycleYears/cycleDays+1, lastYear)
	for beforeYear(year) >= int64(d) {
		year--
	}
	for beforeYear(year+1) < int64(d) {
		year++
	}
	rest := int64(d) - beforeYear(year)
	month := int64(1)
	for beforeMonth(year, month+1) < rest {
		month++
	}
	out, _ := quoin.ParseDate(fmt.Sprintf("%04d-%02d-%02d", year, month, rest-beforeMonth(year, month)))
	return out
}

// Days is the time from a day up to, and without, another. The zero value of
// Until stands for no end.
type Days struct {
	From  quoin.Date `json:"from"`
	Until quoin.Date `json:"until,omitzero"`
}

// String says the days in words.
func (d Days) String() string {
	if d.Until.IsZero() {
		return "from " + d.From.String()
	}
	return fmt.Sprintf("from %s until %s", d.From, d.Until)
}

// Count returns how many days these are; false where they have no end.
func (d Days) Count() (int64, bool) {
	if d.From.IsZero() || d.Until.IsZero() {
		return 0, false
	}
	return max(int64(dayOf(d.Until)-dayOf(d.From)), 0), true
}

// Holds reports whether a day is one of these.
func (d Days) Holds(on quoin.Date) bool {
	return !on.IsZero() && d.From.Cmp(on) <= 0 && (d.Until.IsZero() || on.Cmp(d.Until) < 0)
}

// span is Days as they are reckoned with.
type span struct{ from, until day }

func (s span) days() Days { return Days{s.from.date(), s.until.date()} }

// within returns the part of s that lies in t; of no days where none does.
func (s span) within(t span) span { return span{max(s.from, t.from), min(s.until, t.until)} }

func (s span) empty() bool { return s.from >= s.until }
