package waste

import "example.com/quoin"

// Starts is how many pieces to start so that enough come out good.
type Starts struct {
	Start  int64      // the fewest that are enough as surely as was asked
	Chance quoin.Rate // that at least as many come out good as are wanted
	// Average is wanted ÷ yield, rounded up: enough on average, and AverageChance
	// is how often it is.
	Average       int64
	AverageChance quoin.Rate
	// Good is how many come out good on average of Start.
	Good quoin.Factor
}

// TooManyStarts is the code of starts that cannot be found: for more than 10,000 good pieces,
// or of more than 100,000.
const TooManyStarts quoin.Code = "too_many_starts"

const (
	mostWanted = 10_000
	mostStarts = 100_000
)

// StartsFor returns how many pieces to start so that at least good of them come out good with a
// probability of at least sure. Each piece succeeds by itself with the probability yield
// (binomial distribution). 25 good pieces at a yield of 90% take 30 starts to be 90% sure. The
// chance is summed as that of the last wanted piece being the first, second, third after as
// many as are wanted (negative binomial), to 34 digits, and compared to 12 places.
//
// The error is Problems: good is not 1 to 10,000, yield is not above 0 and at most 1, sure is
// not above 0 and below 1, or more than 100,000 starts would be needed.
func StartsFor(good int64, yield, sure quoin.Rate) (Starts, error) {
	found := startable(good, yield)
	if sure.Sign() <= 0 || sure.Complement().Sign() <= 0 {
		found = append(found, outOf("sure", sure.String(), "a value above 0% and below 100%"))
	}
	if err := found.Err(); err != nil {
		return Starts{}, err
	}
	average := quoin.FactorOf(good).Over(yield.Factor())
	if average.Cmp(quoin.FactorOf(mostStarts)) > 0 {
		return Starts{}, tooManyStarts()
	}
	whole := ceil(average)
	if whole-good <= fewSpoiled {
		if out, found := stepwise(good, whole, good+2*fewSpoiled, yield, sure); found {
			return out, nil
		}
	}
	if out, certain, err := fast(good, whole, yield, sure); certain {
		return out, err
	}
	if out, found := stepwise(good, whole, mostStarts, yield, sure); found {
		return out, nil
	}
	return Starts{}, tooManyStarts()
}

func tooManyStarts() error {
	return quoin.Problems{{
		Code: TooManyStarts, Severity: quoin.Fault, Found: "more than 100000 starts", Wanted: "a yield, or a chance, that fewer do for",
	}}
}

// stepwise is the definition of StartsFor: one start after the other, up to so many;
// false where more are needed.
func stepwise(good, average, most int64, yield, sure quoin.Rate) (Starts, bool) {
	out := Starts{Average: average}
	for c := newChances(good, yield); c.started <= most; c.next() {
		chance := c.sum.Rate()
		if c.started == out.Average {
			out.AverageChance = chance
		}
		if out.Start == 0 && chance.Cmp(sure) >= 0 {
			out.Start, out.Chance = c.started, chance
			out.Good = quoin.FactorOf(c.started).Times(yield.Factor())
		}
		if out.Start > 0 && c.started >= out.Average {
			return out, true
		}
	}
	return Starts{}, false
}

// fewSpoiled is up to how many spoiled pieces chances may be exact, with few
// digits, and are compared and written as they are.
const fewSpoiled = 96

// fast is stepwise by the binomial distribution, where that is certain of what
// stepwise would say.
func fast(good, average int64, yield, sure quoin.Rate) (out Starts, certain bool, err error) {
	b := newBinomial(good, yield)
	usual := b.of(average)
	out = Starts{Average: average, AverageChance: rate(usual.chance)}
	if average-good <= fewSpoiled {
		out.AverageChance, _ = Chance(average, good, yield)
	}
	if sure.Cmp(nextToNothing) > 0 {
		enough := certaintyBits(sure)
		found, ok := b.reaching(enough, usual)
		if doubtful(found.chance, enough) || found.started > good && doubtful(b.fewer(found).chance, enough) {
			return Starts{}, false, nil
		}
		if !ok {
			return Starts{}, true, tooManyStarts()
		}
		out.Start, out.Chance = found.started, rate(found.chance)
	}
	if out.Start-good <= fewSpoiled {
		c := newChances(good, yield)
		for c.sum.Rate().Cmp(sure) < 0 {
			c.next()
		}
		out.Start, out.Chance = c.started, c.sum.Rate()
	}
	out.Good = quoin.FactorOf(out.Start).Times(yield.Factor())
	return out, true, nil
}

// nextToNothing is what every chance comes up to on 12 places, once it is not exact.
var nextToNothing = quoin.MustRate("0.0000000000005")

// Chance returns the probability that at least good of the started pieces come out good. It
// errs as StartsFor does.
func Chance(started, good int64, yield quoin.Rate) (quoin.Rate, error) {
	if err := startable(good, yield).Err(); err != nil {
		return quoin.Rate{}, err
	}
	if started < good || started > mostStarts {
		return quoin.Rate{}, nil
	}
	if started-good > fewSpoiled && yield.Complement().Sign() > 0 {
		return rate(newBinomial(good, yield).of(started).chance), nil
	}
	c := newChances(good, yield)
	for c.started < started {
		c.next()
	}
	return c.sum.Rate(), nil
}

// startable is what is wrong with good pieces and a yield.
func startable(good int64, yield quoin.Rate) quoin.Problems {
	var found quoin.Problems
	n := quoin.FactorOf(good).String()
	switch {
	case good < 1:
		found = append(found, outOf("good", n, "a value of at least 1"))
	case good > mostWanted:
		found = append(found, quoin.Problem{Code: TooManyStarts, Severity: quoin.Fault, Found: n + " good ones", Wanted: "1 to 10000"})
	}
	if yield.Sign() <= 0 || yield.Complement().Sign() < 0 {
		found = append(found, outOf("yield", yield.String(), "a value above 0% and at most 100%"))
	}
	return found
}

func outOf(name, found, wanted string) quoin.Problem {
	return quoin.Problem{Code: quoin.OutOfRange, Severity: quoin.Fault, Path: name, Found: found, Wanted: wanted}
}

// chances goes through the numbers of pieces started, from as many as are
// wanted: term is the chance that the last one wanted is the piece started
// last, and sum that it is one of those so far.
type chances struct {
	started, good int64
	spoiled       quoin.Factor // the chance that a piece is
	term, sum     quoin.Factor
}

func newChances(good int64, yield quoin.Rate) chances {
	c := chances{started: good, good: good, spoiled: yield.Complement(), term: power(yield.Factor(), good)}
	c.sum = c.term
	return c
}

// next starts one more: C(n, m+1) ÷ C(n−1, m) is n ÷ (m + 1), where m pieces
// were spoiled before.
func (c *chances) next() {
	spoiled := c.started - c.good
	c.term = c.term.Times(c.spoiled).Times(quoin.FactorOf(c.started)).Over(quoin.FactorOf(spoiled + 1))
	c.sum = cutTo34(c.sum.Add(c.term))
	c.started++
}

// power returns xⁿ by squaring, each product cut to 34 digits.
func power(x quoin.Factor, n int64) quoin.Factor {
	out := quoin.FactorOf(1)
	for ; n > 0; n /= 2 {
		if n%2 == 1 {
			out = cutTo34(out.Times(x))
		}
		x = cutTo34(x.Times(x))
	}
	return out
}

// cutTo34 keeps the 34 digits of a quotient: sums and products keep them all.
func cutTo34(x quoin.Factor) quoin.Factor {
	three := quoin.FactorOf(3)
	return x.Times(three).Over(three)
}

func ceil(x quoin.Factor) int64 { return x.Round(0, quoin.Up).Rat().Num().Int64() }
