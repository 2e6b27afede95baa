// Package handtest tests pages that work out printed figures by hand: whether each sum on them
// is right, and whether what they say is printed is printed.
package handtest

import (
	"errors"
	"fmt"
	"math/big"
	"regexp"
	"strings"
	"testing"
)

var (
	fence = regexp.MustCompile("(?s)```text\n(.*?)```\n")
	bold  = regexp.MustCompile(`\*\*([^*]+)\*\*`)
	// sum is what is worked out, and the result.
	sum    = regexp.MustCompile(`([−(]*\d[\d.%+−×÷() ]*) = (−?\d+(?:\.\d+)?%?)`)
	number = regexp.MustCompile(`^\d+(?:\.\d+)?%?`)
)

// Page checks a page in Markdown that works out figures of an output. It reports each sum that
// is wrong, such as 68.00 ÷ 50 = 1.37: the left side is worked out exactly, and rounded to as
// many places as the result has, halves away from zero. Each section of the page quotes the
// lines of the output that it works out, in a block of text; Page reports quoted lines that do
// not stand in the output in that order, one after the other, and results in bold that do not
// stand in the lines that their own section quotes. A page has at least so many sums and so
// many results in bold.
func Page(t testing.TB, page, output string, sums, results int) {
	t.Helper()
	var worked, printed int
	for section := range strings.SplitSeq(page, "\n## ") {
		title, _, _ := strings.Cut(section, "\n")
		var quoted strings.Builder
		for _, block := range fence.FindAllStringSubmatch(section, -1) {
			if !strings.Contains("\n"+output, "\n"+block[1]) {
				t.Errorf("%s: the output has no lines\n%s", title, block[1])
			}
			quoted.WriteString(block[1])
		}
		prose := strings.Join(strings.Fields(fence.ReplaceAllString(section, "\n")), " ")
		for _, result := range bold.FindAllStringSubmatch(prose, -1) {
			if printed++; !stands(result[1], quoted.String()) {
				t.Errorf("%s: the lines that it quotes do not have %s", title, result[1])
			}
		}
		prose = strings.ReplaceAll(prose, "**", "")
		found := sum.FindAllStringSubmatch(prose, -1)
		worked += len(found)
		if signs := strings.Count(prose, "="); signs != len(found) {
			t.Errorf("%s: %d of its %d sums can be read", title, len(found), signs)
		}
		for _, f := range found {
			if err := right(f[1], f[2]); err != nil {
				t.Errorf("%s: %s: %v", title, f[0], err)
			}
		}
	}
	if worked < sums || printed < results {
		t.Errorf("the page has %d sums and %d results in bold, wanted %d and %d", worked, printed, sums, results)
	}
}

// stands reports whether a figure stands in a text, and not as a part of a longer one.
func stands(figure, text string) bool {
	return regexp.MustCompile(`(^|[^\d.−-])` + regexp.QuoteMeta(figure) + `($|[^\d.]|\.($|\D))`).MatchString(text)
}

// right is nil where a sum comes to the result that is written.
func right(left, result string) error {
	if !strings.ContainsAny(strings.TrimLeft(left, "−"), "+−×÷") {
		return errors.New("found no sum")
	}
	r := &reader{rest: left}
	got, err := r.terms()
	if err != nil {
		return err
	}
	if r.rest != "" {
		return fmt.Errorf("found %q, wanted a sign or the end", r.rest)
	}
	digits, percent := strings.CutSuffix(result, "%")
	if percent {
		got.Mul(got, big.NewRat(100, 1))
	}
	_, places, _ := strings.Cut(digits, ".")
	if is := strings.Replace(got.FloatString(len(places)), "-", "−", 1); is != digits {
		return fmt.Errorf("it comes to %s", is)
	}
	return nil
}

// reader reads a sum from its beginning.
type reader struct{ rest string }

func (r *reader) take(sign string) bool {
	rest, ok := strings.CutPrefix(strings.TrimLeft(r.rest, " "), sign)
	r.rest = rest
	return ok
}

func (r *reader) terms() (*big.Rat, error) {
	out, err := r.product()
	for err == nil {
		var next *big.Rat
		switch {
		case r.take("+"):
			if next, err = r.product(); err == nil {
				out.Add(out, next)
			}
		case r.take("−"):
			if next, err = r.product(); err == nil {
				out.Sub(out, next)
			}
		default:
			return out, nil
		}
	}
	return nil, err
}

func (r *reader) product() (*big.Rat, error) {
	out, err := r.value()
	for err == nil {
		var next *big.Rat
		switch {
		case r.take("×"):
			if next, err = r.value(); err == nil {
				out.Mul(out, next)
			}
		case r.take("÷"):
			if next, err = r.value(); err == nil && next.Sign() == 0 {
				err = errors.New("found a division by 0")
			}
			if err == nil {
				out.Quo(out, next)
			}
		default:
			return out, nil
		}
	}
	return nil, err
}

func (r *reader) value() (*big.Rat, error) {
	if r.take("−") {
		out, err := r.value()
		if err == nil {
			out.Neg(out)
		}
		return out, err
	}
	if r.take("(") {
		out, err := r.terms()
		if err == nil && !r.take(")") {
			err = fmt.Errorf("found %q, wanted a bracket that closes", r.rest)
		}
		return out, err
	}
	r.rest = strings.TrimLeft(r.rest, " ")
	text := number.FindString(r.rest)
	r.rest = r.rest[len(text):]
	digits, percent := strings.CutSuffix(text, "%")
	out, ok := new(big.Rat).SetString(digits)
	if !ok {
		return nil, fmt.Errorf("found %q, wanted a number", text+r.rest)
	}
	if percent {
		out.Quo(out, big.NewRat(100, 1))
	}
	return out, nil
}
