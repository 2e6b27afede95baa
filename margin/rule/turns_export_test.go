package rule

// Rounds are turns, by themselves.
type Rounds struct{ turns }

// NewRounds returns turns of so many pairs.
func NewRounds(pairs int, forthAndBack bool) *Rounds { return &Rounds{newTurns(pairs, forthAndBack)} }

// Mark, Next, Clear, Left and Sum are those of turns.
func (r *Rounds) Mark(pair int)     { r.mark(pair) }
func (r *Rounds) Next() (int, bool) { return r.next() }
func (r *Rounds) Clear()            { r.clear() }
func (r *Rounds) Left() int         { return r.left }
func (r *Rounds) Sum() uint64       { return r.sum }
