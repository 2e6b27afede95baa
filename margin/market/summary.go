package market

import (
	"maps"
	"slices"

	"example.com/quoin"
	"example.com/quoin/internal/estimate"
	"example.com/quoin/margin/comparables"
)

// Summary is what the comparables of a product say on a basis. Records are
// named by their number in the list that was given, counted from 0.
type Summary struct {
	Product string `json:"product"`
	Basis   Basis  `json:"basis"`
	// Used and LeftOut are all records of the product; Others is how many are of
	// other products.
	Used    []WeightedRecord `json:"used,omitempty"`
	LeftOut []LeftOut        `json:"left_out,omitempty"`
	Others  int64            `json:"others,omitzero"`
	// Venues is what each says, by name.
	Venues  []Venue `json:"venues,omitempty"`
	Sellers int64   `json:"sellers"`
	// Sold is how many prints were sold in the records used.
	Sold int64 `json:"sold"`
	// Exponent is how prices of different sizes were made comparable.
	Exponent Exponent `json:"exponent"`
	// Confidence is that of all intervals.
	Confidence quoin.Rate `json:"confidence"`
	// Effective is the effective number of sellers: how many sellers of the same weight would say
	// as much. It and all that follows, up to Outliers, are not given if there are fewer records
	// than MinSales, or fewer venues than MinVenues.
	Effective quoin.Optional[quoin.Factor] `json:"effective,omitzero"`
	// Centre is the weighted median, the price at 50%.
	Centre    quoin.Optional[quoin.Amount] `json:"centre,omitzero"`
	Spread    quoin.Optional[Spread]       `json:"spread,omitzero"`
	Quantiles []Quantile                   `json:"quantiles,omitempty"`
	Outliers  []Outlier                    `json:"outliers,omitempty"`
	Collect   Missing                      `json:"collect"`
}

// WeightedRecord is a record that counts, its price on the basis, and its weight, of
// which all sum to 1.
type WeightedRecord struct {
	Record int          `json:"record"`
	Venue  string       `json:"venue"`
	Seller string       `json:"seller,omitempty"`
	Price  quoin.Amount `json:"price"`
	Weight quoin.Factor `json:"weight"`
}

// Venue is what one venue says.
type Venue struct {
	Name    string `json:"name"`
	Records int64  `json:"records"`
	Sellers int64  `json:"sellers"`
	Sold    int64  `json:"sold"`
	// Median is the middle price of the venue, with all its sellers of the same weight. It is not
	// given if the summary gives no figures.
	Median quoin.Optional[quoin.Amount] `json:"median,omitzero"`
}

// Summarize puts together what the records of a product, or all of them with an
// empty name, say on a basis.
//
// A record counts where prints were sold at its price and it can be brought to
// the basis. It is one price, however many were sold at it. The weight of a
// record is 1 ÷ (venues × sellers of its venue × records of its seller there).
// Below MinSales records or MinVenues venues that count there is no centre, no
// spread, no quantile and no position, only the count of what is lacking.
//
// Where the basis has a size, prices are brought to it by the exponent of
// FitExponent. Outliers are named and stay in, unless the options leave them
// out.
//
// The error is Problems, of records, basis and options, all at once.
func Summarize(records []comparables.Record, product string, b Basis, o Options) (Summary, error) {
	if err := checkAll(records, b, o); err != nil {
		return Summary{}, err
	}
	kept, left, others := choose(records, product, o)
	s := Summary{Product: product, Basis: b, LeftOut: left, Others: others, Confidence: o.confidence()}
	s.Exponent = fitExponent(records, kept, b, o)
	sales := s.bring(records, kept)
	from := sharesOf(records, sales)
	s.Sellers = from.named()
	for _, x := range sales {
		r := records[x.record]
		s.Used = append(s.Used, WeightedRecord{x.record, r.Venue, r.Seller, x.price, from.weight(x.record, 1)})
		s.Sold = capped(s.Sold, r.Sold)
	}
	enough := int64(len(sales)) >= o.minSales() && int64(len(from.Sellers)) >= o.minVenues()
	s.Venues = venuesOf(records, sales, enough)
	if enough {
		s.say(cloudOf(from.points(sales)), from.effective(), o)
	}
	s.Collect = s.collect(records, o)
	return s, nil
}

// bring brings records to the basis, and leaves out those that cannot be.
func (s *Summary) bring(records []comparables.Record, kept []int) []sale {
	var sales []sale
	for _, i := range kept {
		a, code := s.Basis.bring(&records[i], s.Exponent.Used)
		if code != "" {
			s.LeftOut = append(s.LeftOut, LeftOut{i, code})
			continue
		}
		sales = append(sales, sale{i, a.Price})
	}
	slices.SortFunc(s.LeftOut, func(a, b LeftOut) int { return a.Record - b.Record })
	return sales
}

func (s *Summary) say(c cloud, effective float64, o Options) {
	centre, spread := money(c.median()), c.spread()
	s.Effective, s.Centre, s.Spread = estimate.Six(effective), quoin.Some(centre), quoin.Some(spread)
	for _, share := range o.quantiles() {
		s.Quantiles = append(s.Quantiles, s.at(c, share))
	}
	for _, u := range s.Used {
		if x, ok := spread.outlier(u, centre, o.outlierSpreads()); ok {
			s.Outliers = append(s.Outliers, x)
		}
	}
}

// cloud is the points of what was used.
func (s Summary) cloud() cloud {
	records := make([]comparables.Record, len(s.Used))
	sales := make([]sale, len(s.Used))
	for i, u := range s.Used {
		records[i] = comparables.Record{Venue: u.Venue, Seller: u.Seller}
		sales[i] = sale{i, u.Price}
	}
	return cloudOf(sharesOf(records, sales).points(sales))
}

func venuesOf(records []comparables.Record, sales []sale, enough bool) []Venue {
	by := make(map[string][]sale)
	for _, x := range sales {
		name := records[x.record].Venue
		by[name] = append(by[name], x)
	}
	var out []Venue
	for _, name := range slices.Sorted(maps.Keys(by)) {
		own := by[name]
		from := sharesOf(records, own)
		v := Venue{Name: name, Records: int64(len(own)), Sellers: from.Sellers[name]}
		for _, x := range own {
			v.Sold = capped(v.Sold, records[x.record].Sold)
		}
		if enough {
			v.Median = quoin.Some(money(cloudOf(from.points(own)).median()))
		}
		out = append(out, v)
	}
	return out
}

// capped is a + b, neither negative, kept within 64 bits.
func capped(a, b int64) int64 {
	if sum := a + b; sum >= a {
		return sum
	}
	return 1<<63 - 1
}
