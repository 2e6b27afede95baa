package ink

import "example.com/quoin"

// Job is one entry of a job log: the area it printed, and the ink it took.
type Job struct {
	Area   quoin.Quantity `json:"area" need:"yes" range:"(0," dim:"area"`
	Volume quoin.Quantity `json:"volume" need:"yes" range:"[0," dim:"volume"`
}

// Period is some time in which ink was bought and an area printed. What was
// used up is what was there at its opening and was bought, less what was left.
type Period struct {
	Opening quoin.Quantity `json:"opening,omitzero" range:"[0," dim:"volume"`
	Bought  quoin.Quantity `json:"bought" need:"yes" range:"[0," dim:"volume"`
	Closing quoin.Quantity `json:"closing,omitzero" range:"[0," dim:"volume"`
	Area    quoin.Quantity `json:"area" need:"yes" range:"(0," dim:"area"`
}

func (p Period) used() quoin.Factor { return ml(p.Opening).Add(ml(p.Bought)).Sub(ml(p.Closing)) }

// Likely returns the use with PerM2 and its range worked out of the log or the
// periods, where these are given: the likely value is all ink ÷ all area, and
// the range goes from the least to the greatest of the entries. It errs, with a
// Problem, where nothing was printed, a period used up less than nothing, or
// only a page yield is given.
func (u Use) Likely() (Use, error) {
	if u.RatedPages != 0 {
		return u, fault(RatedPageYield, "rated_pages", "a page yield", "what a square metre of image takes, as per_m2, log or spent",
			"page yields rest on pages of text (ISO/IEC 24712), not on art; log a few jobs instead")
	}
	areas, volumes, list := u.entries()
	if len(areas) == 0 {
		return u, nil
	}
	if err := u.measured(); err != nil {
		return u, err
	}
	var area, volume, least, most quoin.Factor
	for i := range areas {
		if areas[i].Sign() <= 0 || volumes[i].Sign() < 0 {
			return u, fault(NegativeInk, list, "an entry that printed nothing, or used up less than nothing", "entries with an area and the ink it took", "check opening and closing stock")
		}
		area, volume = area.Add(areas[i]), volume.Add(volumes[i])
		per := volumes[i].Over(areas[i])
		if i == 0 || per.Cmp(least) < 0 {
			least = per
		}
		if i == 0 || per.Cmp(most) > 0 {
			most = per
		}
	}
	unit := quoin.Unit("ml")
	u.PerM2, u.PerM2Range = unit.Times(volume.Over(area)), quoin.Between(unit.Times(least), unit.Times(most))
	u.Log, u.Spent = nil, nil
	return u, nil
}

// measured checks that entries are areas and volumes.
func (u Use) measured() error {
	check := func(list string, i int, area quoin.Quantity, volumes ...quoin.Quantity) error {
		err := in(area, "m2")
		for _, v := range volumes {
			if err == nil {
				err = in(v, "ml")
			}
		}
		p, ok := err.(quoin.Problem)
		if !ok {
			return err
		}
		p.Path = quoin.InList(list, i).String()
		return p
	}
	for i, j := range u.Log {
		if err := check("log", i, j.Area, j.Volume); err != nil {
			return err
		}
	}
	for i, p := range u.Spent {
		if err := check("spent", i, p.Area, p.Opening, p.Bought, p.Closing); err != nil {
			return err
		}
	}
	return nil
}

// entries are the areas and volumes of the log or else the periods, and which.
func (u Use) entries() (areas, volumes []quoin.Factor, list string) {
	if len(u.Log) > 0 {
		u.Spent = nil
	}
	for _, j := range u.Log {
		areas, volumes, list = append(areas, squareMetres(j.Area)), append(volumes, ml(j.Volume)), "log"
	}
	for _, p := range u.Spent {
		areas, volumes, list = append(areas, squareMetres(p.Area)), append(volumes, p.used()), "spent"
	}
	return areas, volumes, list
}
