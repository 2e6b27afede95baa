package history

import "example.com/quoin"

// DayOf is the number of a date's day, and DateOf the date of one.
func DayOf(d quoin.Date) int64 { return int64(dayOf(d)) }

// DateOf is the other way round.
func DateOf(n int64) quoin.Date { return day(n).date() }
