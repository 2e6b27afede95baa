package quoin

// Codes of what can be wrong with any data that is read or put together in Go. The
// packages that read their own add others.
const (
	BadJSON        Code = "bad_json"            // a text that is no JSON
	BadText        Code = "bad_text"            // control characters, or what is no UTF-8
	WrongType      Code = "wrong_type"          // a word where yes or no is asked, one entry where a list is
	UnknownField   Code = "unknown_field"       // a field that is not known
	DuplicateField Code = "duplicate_field"     // a field twice in one object
	MissingField   Code = "missing_field"       // what has to be given, and is not
	OutOfRange     Code = "out_of_range"        // a number that its field does not take
	TooMany        Code = "too_many"            // more entries than are read
	EmptyList      Code = "empty_list"          // a list without an entry, where one is needed
	DuplicateID    Code = "duplicate_id"        // a name given twice, or something listed twice
	UnknownID      Code = "unknown_id"          // a name that nothing has
	RivalFields    Code = "rival_fields"        // two fields of which each says what the other would
	BadDate        Code = "bad_date"            // a text that is no date
	StrayTerms     Code = "stray_terms"         // a field that is nothing without another
	RangeOrder     Code = "range_order"         // a range that does not rise, or does not hold its value
	EmptyPeriod    Code = "empty_period"        // a period that does not end after it begins
	StepOffMinor   Code = "step_off_minor_unit" // an amount that is no whole number of minor units
	MoreProblems   Code = "more_problems"       // the last one, where there are more than are listed
)
