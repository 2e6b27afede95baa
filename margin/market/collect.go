package market

import (
	"fmt"

	"example.com/quoin"
	"example.com/quoin/margin/comparables"
)

// Missing says what to look for next. It is given with every summary, also with one that has
// figures.
type Missing struct {
	// Sales is how many more records that count it takes for a summary to give figures, and Venues
	// from how many more venues. The first record of a new venue is one of the Sales.
	Sales  int64 `json:"sales,omitzero"`
	Venues int64 `json:"venues,omitzero"`
	// Sizes is how many more sizes it takes to fit the exponent of area, and SizedSellers how many
	// more sellers whose sizes are known. Both are 0 if the basis has no size.
	Sizes        int64 `json:"sizes,omitzero"`
	SizedSellers int64 `json:"sized_sellers,omitzero"`
	// Alone are the venues with a single seller, who has the weight of the whole venue.
	Alone []LoneSeller `json:"alone,omitempty"`
	// AskedOnly are the records of which no sale is known. Old are records that count and are
	// MaxDays old or older, and Undated those without a date; both are empty without Today. The
	// other three are records that lack a size, the worth of a frame, or a seller.
	AskedOnly         []int `json:"asked_only,omitempty"`
	Old               []int `json:"old,omitempty"`
	Undated           []int `json:"undated,omitempty"`
	WithoutSize       []int `json:"without_size,omitempty"`
	WithoutFrameWorth []int `json:"without_frame_worth,omitempty"`
	WithoutSeller     []int `json:"without_seller,omitempty"`
}

// LoneSeller is a seller who is the only one of a venue.
type LoneSeller struct {
	Venue  string `json:"venue"`
	Seller string `json:"seller,omitempty"`
}

func (s Summary) collect(records []comparables.Record, o Options) Missing {
	c := Missing{Venues: max(o.minVenues()-int64(len(s.Venues)), 0)}
	c.Sales = max(o.minSales()-int64(len(s.Used)), c.Venues)
	if !s.Basis.Size.IsZero() && s.Exponent.Fit.IsZero() && !s.Exponent.Given {
		c.Sizes = max(o.minSizes()-s.Exponent.Sizes, 0)
		c.SizedSellers = max(3-s.Exponent.Sellers, 0)
	}
	c.leftOut(s.LeftOut)
	c.used(s, records, o)
	return c
}

func (c *Missing) leftOut(left []LeftOut) {
	for _, l := range left {
		switch l.Code {
		case AskedOnly:
			c.AskedOnly = append(c.AskedOnly, l.Record)
		case SizeUnknown:
			c.WithoutSize = append(c.WithoutSize, l.Record)
		case FrameUnknown:
			c.WithoutFrameWorth = append(c.WithoutFrameWorth, l.Record)
		}
	}
}

func (c *Missing) used(s Summary, records []comparables.Record, o Options) {
	only := make(map[string]string)
	for _, u := range s.Used {
		only[u.Venue] = u.Seller
		date := records[u.Record].Date
		switch {
		case o.Today.IsZero():
		case date.IsZero():
			c.Undated = append(c.Undated, u.Record)
		case days(o.Today)-days(date) >= o.maxDays():
			c.Old = append(c.Old, u.Record)
		}
		if u.Seller == "" {
			c.WithoutSeller = append(c.WithoutSeller, u.Record)
		}
	}
	for _, v := range s.Venues {
		if v.Sellers == 1 {
			c.Alone = append(c.Alone, LoneSeller{v.Name, only[v.Name]})
		}
	}
}

// days numbers the days of the Gregorian calendar, one after the other. Years
// are counted from March, so that the day that leap years add comes last.
func days(d quoin.Date) int64 {
	var year, month, day int64
	if n, _ := fmt.Sscanf(d.String(), "%d-%d-%d", &year, &month, &day); n < 3 {
		return 0
	}
	if month < 3 {
		year, month = year-1, month+12
	}
	return 365*year + year/4 - year/100 + year/400 + (153*(month-3)+2)/5 + day
}
