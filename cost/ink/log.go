package ink

import "example.com/quoin"

// Job is one entry of a job log: the printed area and the ink that it took.
type Job struct {
	Area   quoin.Quantity `json:"area" need:"yes" range:"(0," dim:"area"`
	Volume quoin.Quantity `json:"volume" need:"yes" range:"[0," dim:"volume"`
}

// Period is some time in which ink was bought and an area was printed. The ink used is opening
// + bought − closing.
type Period struct {
	Opening quoin.Quantity `json:"opening,omitzero" range:"[0," dim:"volume"`
	Bought  quoin.Quantity `json:"bought" need:"yes" range:"[0," dim:"volume"`
	Closing quoin.Quantity `json:"closing,omitzero" range:"[0," dim:"volume"`
	Area    quoin.Quantity `json:"area" need:"yes" range:"(0," dim:"area"`
}

func (p Period) used() quoin.Factor { return ml(p.Opening).Add(ml(p.Bought)).Sub(ml(p.Closing)) }

// Likely returns the use with PerM2 and its range, if a log or periods are given. The likely
// value is all ink ÷ all area. The range goes from the lowest entry to the highest. It errs as
// Check does.
func (u Use) Likely() (Use, error) {
	if err := u.Check(); err != nil {
		return u, err
	}
	return u.likely(), nil
}

// likely is Likely of a use that Check accepts.
func (u Use) likely() Use {
	areas, volumes, _ := u.entries()
	if len(areas) == 0 {
		return u
	}
	var area, volume, least, most quoin.Factor
	for i := range areas {
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
	return u
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
