package cut

import (
	"fmt"
	"slices"

	"example.com/quoin"
)

// Stick is a length of moulding, tube or batten as it is bought.
type Stick struct {
	Length quoin.Quantity `json:"length" need:"yes" range:"(0," dim:"length"`
	// Kerf is what the saw takes between two pieces.
	Kerf quoin.Quantity `json:"kerf,omitzero" range:"[0," dim:"length"`
	// Trim is lost at each end.
	Trim quoin.Quantity `json:"trim,omitzero" range:"[0," dim:"length"`
}

// Rail is a number of pieces of one length.
type Rail struct {
	Length quoin.Quantity `json:"length"`
	Count  int64          `json:"count"`
}

// Saw is a way to cut a stick, and how many sticks are cut that way.
type Saw struct {
	Times int64          `json:"times"`
	Rails []Rail         `json:"rails"` // out of one stick
	Left  quoin.Quantity `json:"left"`  // of each, behind the last cut
}

// Sticks is the lowest number of sticks that give some rails, and how they are cut. Bound is a
// number that cannot be improved on. Proven says that fewer sticks do not suffice: the bound is
// reached, or all ways to cut were tried.
type Sticks struct {
	Sticks int64 `json:"sticks"`
	Bound  int64 `json:"bound"`
	Proven bool  `json:"proven"`
	Saws   []Saw `json:"saws"`
}

// mostRails bounds the pieces that are cut out of sticks in one go.
const mostRails = 100_000

// Out returns how rails are best cut out of sticks. After the trims, a stick gives n = ⌊(length
// + kerf) ÷ (rail + kerf)⌋ rails of one length. Rails of several lengths are laid out longest
// first. If that takes more sticks than the bound, all ways are tried, as long as there are
// few. No rails take no stick. The error is Problems: a rail is longer than a stick, there are
// more than 100,000 rails, or lengths are too fine.
func (s Stick) Out(rails ...Rail) (Sticks, error) {
	lengths := []quoin.Quantity{s.Length, s.Kerf, s.Trim}
	var all int64
	for _, r := range rails {
		lengths = append(lengths, r.Length)
		if r.Count < 0 {
			return Sticks{}, fault(quoin.OutOfRange, "count", fmt.Sprint(r.Count), "a value of at least 0", "")
		}
		if all += min(r.Count, mostRails+1); all > mostRails {
			return Sticks{}, fault(quoin.TooMany, "count", fmt.Sprintf("more than %d rails", mostRails), fmt.Sprintf("at most %d", mostRails), "lay out a smaller batch")
		}
	}
	u, n, err := newRuler(lengths...)
	if err != nil {
		return Sticks{}, err
	}
	j := job{ruler: u, stick: n[0] - 2*n[2] + n[1], kerf: n[1]}
	for i, r := range rails {
		if n[3+i] <= 0 || n[3+i]+j.kerf > j.stick {
			return Sticks{}, fault(NothingFits, "length", "a rail of "+r.Length.String()+" out of "+s.Length.String(), "a rail that fits", "take longer sticks")
		}
		if r.Count > 0 {
			j.add(n[3+i]+j.kerf, r)
		}
	}
	return j.layOut(), nil
}

// job is rails, each with the kerf behind it, the longest first, and a stick
// that is a kerf longer.
type job struct {
	ruler
	stick, kerf int64
	rails       []Rail
	lengths     []int64
	counts      []int64
}

func (j *job) add(length int64, r Rail) {
	i := 0
	for i < len(j.lengths) && j.lengths[i] > length {
		i++
	}
	if i < len(j.lengths) && j.lengths[i] == length {
		j.counts[i] += r.Count
		return
	}
	j.rails, j.lengths, j.counts = slices.Insert(j.rails, i, r), slices.Insert(j.lengths, i, length), slices.Insert(j.counts, i, r.Count)
}

func (j *job) layOut() Sticks {
	if len(j.lengths) == 0 {
		return Sticks{Proven: true}
	}
	var needed int64
	for i, l := range j.lengths {
		needed += l * j.counts[i]
	}
	bound := (needed + j.stick - 1) / j.stick
	saws := j.longestFirst()
	proven := total(saws) == bound || len(j.lengths) <= 1
	if !proven {
		if better, tried := j.tryAll(); tried {
			saws, proven = better, true
		}
	}
	out := Sticks{Sticks: total(saws), Bound: bound, Proven: proven}
	if proven {
		out.Bound = out.Sticks
	}
	for _, s := range saws {
		out.Saws = append(out.Saws, j.drawn(s))
	}
	return out
}

// saw is one way to cut a stick: how many of each length, and how often.
type saw struct {
	of    []int64
	times int64
}

func total(saws []saw) int64 {
	var n int64
	for _, s := range saws {
		n += s.times
	}
	return n
}

func (j *job) drawn(s saw) Saw {
	out := Saw{Times: s.times}
	left := j.stick
	for i, n := range s.of {
		left -= n * j.lengths[i]
		if n > 0 {
			out.Rails = append(out.Rails, Rail{j.rails[i].Length, n})
		}
	}
	out.Left = j.mm(max(left-j.kerf, 0))
	return out
}

// longestFirst fills one stick after the other with the longest rails that
// still fit, cutting as many sticks the same way as rails last.
func (j *job) longestFirst() []saw {
	var out []saw
	left := slices.Clone(j.counts)
	for slices.ContainsFunc(left, func(n int64) bool { return n > 0 }) {
		s := saw{make([]int64, len(left)), mostRails}
		room := j.stick
		for i, l := range j.lengths {
			s.of[i] = min(room/l, left[i])
			room -= s.of[i] * l
		}
		for i, n := range s.of {
			if n > 0 {
				s.times = min(s.times, left[i]/n)
			}
		}
		for i, n := range s.of {
			left[i] -= n * s.times
		}
		out = append(out, s)
	}
	return out
}

const (
	mostStates = 100_000 // of rails still wanted
	mostTrials = 4_000_000
)

// tryAll returns the fewest sticks by trying every full way to cut one, from
// nothing wanted up to all; false where that would take too long.
func (j *job) tryAll() ([]saw, bool) {
	states := int64(1)
	for _, n := range j.counts {
		if states *= n + 1; states > mostStates {
			return nil, false
		}
	}
	ways := j.ways(nil, j.stick, mostTrials/states)
	if ways == nil {
		return nil, false
	}
	off := make([]int64, len(ways)) // what the number of a state falls by, where all of a way is wanted
	for k, way := range ways {
		off[k] = j.index(way, make([]int64, len(way)))
	}
	fewest := make([]int64, states)
	by := make([]int, states)
	want := make([]int64, len(j.counts))
	for at := int64(1); at < states; at++ {
		j.next(want)
		fewest[at] = mostRails + 1
		for k, way := range ways {
			rest := at - off[k]
			if !within(way, want) {
				rest = j.index(want, way)
			}
			if rest != at && fewest[rest]+1 < fewest[at] {
				fewest[at], by[at] = fewest[rest]+1, k
			}
		}
	}
	return j.trace(states-1, ways, by), true
}

// next goes on to the rails of the next state.
func (j *job) next(want []int64) {
	for i := range want {
		if want[i]++; want[i] <= j.counts[i] {
			return
		}
		want[i] = 0
	}
}

func within(way, want []int64) bool {
	for i, n := range way {
		if n > want[i] {
			return false
		}
	}
	return true
}

// ways lists every way to cut a stick that leaves no room for another rail;
// nil where there are more than most.
func (j *job) ways(of []int64, room, most int64) [][]int64 {
	i := len(of)
	if i == len(j.lengths) {
		if room >= j.lengths[i-1] && of[i-1] < j.counts[i-1] {
			return [][]int64{}
		}
		return [][]int64{slices.Clone(of)}
	}
	out := [][]int64{}
	for n := min(room/j.lengths[i], j.counts[i]); n >= 0; n-- {
		more := j.ways(append(slices.Clone(of), n), room-n*j.lengths[i], most)
		if more == nil || int64(len(out)+len(more)) > most {
			return nil
		}
		out = append(out, more...)
	}
	return out
}

// state is the rails wanted that a number stands for, and index the number of
// what is still wanted after one stick.
func (j *job) state(at int64) []int64 {
	want := make([]int64, len(j.counts))
	for i, n := range j.counts {
		want[i], at = at%(n+1), at/(n+1)
	}
	return want
}

func (j *job) index(want, way []int64) int64 {
	var at int64
	for i := len(want) - 1; i >= 0; i-- {
		at = at*(j.counts[i]+1) + max(want[i]-way[i], 0)
	}
	return at
}

// trace walks back from all that is wanted to nothing.
func (j *job) trace(at int64, ways [][]int64, by []int) []saw {
	var out []saw
	for at > 0 {
		want, way := j.state(at), ways[by[at]]
		of := make([]int64, len(want))
		for i := range of {
			of[i] = min(want[i], way[i])
		}
		at = j.index(want, way)
		if k := slices.IndexFunc(out, func(s saw) bool { return slices.Equal(s.of, of) }); k >= 0 {
			out[k].times++
			continue
		}
		out = append(out, saw{of, 1})
	}
	return out
}

// Searched returns the most trials that the search may have taken: all ways to cut a stick, for
// all rails that may be left.
func (s Sticks) Searched() int64 {
	rails := make(map[string]int64)
	states, trials := int64(1), int64(1)
	for _, saw := range s.Saws {
		pieces := int64(1)
		for _, r := range saw.Rails {
			rails[r.Length.String()] += r.Count * saw.Times
			pieces += r.Count
		}
		trials = max(trials, pieces)
	}
	ways := int64(1)
	for i := 1; i < len(rails) && ways < mostTrials; i++ {
		ways *= trials
	}
	for _, n := range rails {
		if states *= n + 1; states > mostStates {
			return 1 // so many were not tried
		}
	}
	return min(states*ways, mostTrials)
}
