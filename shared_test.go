package quoin_test

import (
	"encoding/json"
	"fmt"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
)

// What explanations share is explained once, and stands in each of them.
func ExampleJournal_Explain() {
	var j quoin.Journal
	at := quoin.InList("supplies", 0)
	sheets := func(n int64) []int {
		return j.Explain(func(t *quoin.Trail) {
			each := t.Once(at, func() any {
				fmt.Println("the sheet is explained")
				price := quoin.Given("price", at.Field("price"), quoin.MustAmount("64.00").Figure())
				return t.Quotient("unit_cost", at, price, quoin.FactorOf(50).Named("quantity"))
			}).(quoin.Operand)
			t.Product("line_cost", quoin.InList("products", 0), each, quoin.FactorOf(n).Named("sheets"))
		})
	}
	fmt.Println(sheets(1), sheets(2), sheets(2), j.Len())
	// Output:
	// the sheet is explained
	// [1 2] [1 3] [1 3] 3
}

// part is a made-up figure that rests on others and on a number of its own.
type part struct {
	on   []int
	own  int64
	name string
}

// explain puts a part on a trail, and before it what it rests on, each once for the trail or,
// where nothing is shared, for the explanation.
func explain(t *quoin.Trail, parts []part, n int, known map[int]quoin.Operand) quoin.Operand {
	if o, ok := known[n]; ok {
		return o
	}
	at := quoin.InList("parts", n)
	o := t.Once(at, func() any {
		operands := []quoin.Operand{quoin.Given("own", at.Field("own"), quoin.FactorOf(parts[n].own).Figure())}
		for _, m := range parts[n].on {
			operands = append(operands, explain(t, parts, m, map[int]quoin.Operand{}))
		}
		return t.On(parts[n].name).Quotient("part", at, t.Sum("all", at, operands...), quoin.FactorOf(7).Named("seven"))
	}).(quoin.Operand)
	known[n] = o
	return o
}

// A journal that explains things on one trail is the journal to which the steps of each were added, and its numbers are
// those of the steps, in the order in which each step comes first.
func TestSharedStepsAreThoseOfEach(t *testing.T) { rapid.Check(t, sharedStepsAreThoseOfEach) }

func FuzzSharedSteps(f *testing.F) { f.Fuzz(rapid.MakeFuzz(sharedStepsAreThoseOfEach)) }

func sharedStepsAreThoseOfEach(t *rapid.T) {
	parts := make([]part, rapid.IntRange(1, 8).Draw(t, "parts"))
	for n := range parts {
		parts[n].own = rapid.Int64Range(0, 3).Draw(t, "own")
		parts[n].name = rapid.SampledFrom([]string{"", "a", `"b"`, "<\u2028>"}).Draw(t, "name")
		for m := range n {
			if rapid.Bool().Draw(t, "rests") {
				parts[n].on = append(parts[n].on, m)
			}
		}
	}
	var shared, each quoin.Journal
	for range rapid.IntRange(1, 6).Draw(t, "explanations") {
		wanted := rapid.SliceOfN(rapid.IntRange(0, len(parts)-1), 0, 3).Draw(t, "wanted")
		tell := func(trail *quoin.Trail) {
			known := make(map[int]quoin.Operand)
			for _, n := range wanted {
				explain(trail, parts, n, known)
			}
		}
		alone := quoin.NewTrail(0)
		tell(alone)
		got, want := firsts(shared.Explain(tell)), firsts(each.Add(alone.Steps()))
		if !slices.Equal(got, want) {
			t.Fatalf("%v are told as %v, alone as %v", wanted, got, want)
		}
	}
	got, err := json.Marshal(&shared)
	want, err2 := json.Marshal(&each)
	if err != nil || err2 != nil || string(got) != string(want) {
		t.Fatalf("%v %v: shared\n%s\nalone\n%s", err, err2, got, want)
	}
}

func firsts(numbers []int) []int {
	var out []int
	for _, n := range numbers {
		if !slices.Contains(out, n) {
			out = append(out, n)
		}
	}
	return out
}

// A trail that has grown long is given up, and what it explained is explained again.
func TestLongExplanationsAreNotKept(t *testing.T) {
	var j quoin.Journal
	asked := 0
	for range 3 {
		told := j.Explain(func(t *quoin.Trail) {
			t.Once(quoin.InField("once"), func() any {
				asked++
				for i := range 2_500 {
					o := quoin.FactorOf(int64(i)).Named("i")
					t.Sum("sum", quoin.InList("list", i), o, t.Product("product", quoin.InList("list", i), o, o))
				}
				return nil
			})
		})
		if len(told) != 5_000 || told[0] != 1 || told[4_999] != 5_000 {
			t.Fatalf("%d steps", len(told))
		}
	}
	if asked != 3 || j.Len() != 5_000 {
		t.Errorf("explained %d times, %d steps", asked, j.Len())
	}
	if j.Reset(); j.Len() != 0 || len(j.Explain(nil)) != 0 || j.Add(sheetCost(1))[1] != 2 {
		t.Errorf("after Reset: %s", j)
	}
}
