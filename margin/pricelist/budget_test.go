//go:build unix && !race

package pricelist_test

import (
	"encoding/json"
	"flag"
	"fmt"
	"math"
	"os"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
)

// Documents that were made to hurt stay within the table of budgets, which -budgets writes anew.
var writeBudgets = flag.Bool("budgets", false, "measure the documents that were made to hurt, and write the table of budgets")

const (
	budgetFile = "../../DEVELOPERS.md"
	budgetHead = "| document | bytes in | CPU | MB | bytes out | growth | with steps: CPU | bytes out |\n|---|---|---|---|---|---|---|---|\n"
	// How many times what stands in the table is too much: of CPU, which hangs on the machine and on what else runs,
	// so that it is the least of some tries, and of bytes, which hardly do.
	looseCPU, looseBytes, tries = 6, 1.5, 5
	// What no document may come near, whatever the table says.
	mostTimes, anyOut, mostMade = 25, 10_000_000, 2 << 30
)

// spent is what it takes to answer a document.
type spent struct {
	in, out, whole int // bytes: of the document, of its answer without steps, and with them
	decode         time.Duration
	answer, why    time.Duration // CPU, of deciding and writing without steps; of writing with them
	made           uint64        // bytes allocated, without steps
	code           quoin.Code    // of what it was refused for
}

func everyHostile() []hostile {
	return slices.Concat(hostileAnswers(), hostileCosts(), hostileRules())
}

// TestBudgets holds what documents at their limits take to the table: CPU as a multiple of what encoding/json takes to
// decode the same text in the same run, bytes allocated, and bytes of the answer without steps. Where nobody asks to be
// thorough, documents that are answered are a quarter as long.
func TestBudgets(t *testing.T) {
	if testing.Short() {
		t.Skip("of what runs at full speed")
	}
	if *writeBudgets {
		writeTable(t)
	}
	table := budgets(t)
	for _, h := range everyHostile() {
		t.Run(h.name, func(t *testing.T) {
			b, ok := table[h.name]
			if !ok {
				t.Fatalf("it has no row in %s", budgetFile)
			}
			if b.refused && b.in > quickIn && !thorough {
				t.Skip("refused only at its full length")
			}
			most, size := looseCPU*b.cpu+100, 1
			if thorough || b.refused || uneven[h.name] {
				size = 4
			}
			got := answering(t, h.doc(size), false)
			ratio := got.ratio()
			for n := 1; n < tries && ratio > most; n++ {
				ratio = min(ratio, answering(t, h.doc(size), false).ratio())
			}
			if ratio > most {
				t.Errorf("%d times the CPU of decoding it, at most %d × %d", ratio, looseCPU, b.cpu)
			}
			if made := int(got.made >> 20); float64(made) > looseBytes*float64(b.made)+10 || got.made > mostMade {
				t.Errorf("%d MB allocated, at most %v × %d", made, looseBytes, b.made)
			}
			if float64(got.out) > looseBytes*float64(b.out)+1000 || got.out > max(anyOut, mostTimes*got.in) {
				t.Errorf("an answer of %d bytes to %d, at most %v × %d", got.out, got.in, looseBytes, b.out)
			}
		})
		delete(table, h.name)
	}
	for name := range table {
		t.Errorf("%s has a row %q of no document", budgetFile, name)
	}
}

// uneven documents are cheaper at their full length, where something is bounded.
var uneven = map[string]bool{"ranges": true, "endings that give way": true, "price points": true, "preferences on a ladder that give way": true}

// budget is a row of the table.
type budget struct {
	in, cpu, made, out int
	refused            bool
}

// quickIn is how long a document may be that a quick look waits for to be refused.
const quickIn = 250_000

func budgets(t testing.TB) map[string]budget {
	t.Helper()
	text, err := os.ReadFile(budgetFile)
	if err != nil {
		t.Fatal(err)
	}
	_, rows, ok := strings.Cut(string(text), budgetHead)
	if !ok {
		t.Fatalf("no table of budgets in %s", budgetFile)
	}
	out := make(map[string]budget)
	for row := range strings.Lines(rows) {
		cells := strings.Split(strings.Trim(row, "| \n"), " | ")
		if len(cells) < 5 {
			break
		}
		name, _, refused := strings.Cut(cells[0], ": `")
		out[name] = budget{number(t, cells[1]), number(t, cells[2]), number(t, cells[3]), number(t, cells[4]), refused}
	}
	return out
}

func number(t testing.TB, text string) int {
	t.Helper()
	n, err := strconv.Atoi(strings.ReplaceAll(text, ",", ""))
	if err != nil {
		t.Fatal(err)
	}
	return n
}

// writeTable measures all documents at 1, 2 and 4 times their size.
func writeTable(t *testing.T) {
	text, err := os.ReadFile(budgetFile)
	if err != nil {
		t.Fatal(err)
	}
	before, rest, ok := strings.Cut(string(text), budgetHead)
	if !ok {
		t.Fatalf("no table of budgets in %s", budgetFile)
	}
	_, after, _ := strings.Cut(rest, "\n\n")
	var b strings.Builder
	for _, h := range everyHostile() {
		one, two, four := answering(t, h.doc(1), false), answering(t, h.doc(2), false), answering(t, h.doc(4), true)
		name := h.name
		if four.code != "" {
			name += ": `" + string(four.code) + "`"
		}
		row := fmt.Sprintf("| %s | %s | %s | %d | %s | %s | %s | %s |\n", name, thousands(four.in), thousands(four.ratio()), four.made>>20, thousands(four.out),
			exponent(one, two, four), thousands(int((four.answer+four.why)/four.decode)), thousands(four.whole))
		t.Logf("%v %s", four.answer.Round(time.Millisecond), row)
		b.WriteString(row)
	}
	if err := os.WriteFile(budgetFile, []byte(before+budgetHead+b.String()+"\n"+after), 0o644); err != nil {
		t.Fatal(err)
	}
}

// exponent is by which power of its size a kind of document takes more CPU, from the smallest to the largest that is
// answered.
func exponent(one, two, four spent) string {
	large, times := four, 4.0
	if two.code == "" && four.code != "" {
		large, times = two, 2
	}
	if one.code != large.code || one.answer < 2*time.Millisecond {
		return "–"
	}
	return fmt.Sprintf("%.1f", math.Log(float64(large.answer)/float64(one.answer))/math.Log(times))
}

func thousands(n int) string {
	s := strconv.Itoa(n)
	for i := len(s) - 3; i > 0; i -= 3 {
		s = s[:i] + "," + s[i:]
	}
	return s
}

// answering answers a document, and counts.
func answering(t testing.TB, text string, steps bool) (s spent) {
	t.Helper()
	data := []byte(text)
	s.in, s.decode = len(data), decoding(data)
	runtime.GC()
	from, made := cpu(), allocated()
	a, err := pricelist.Price(data)
	if s.code = code(err); err != nil {
		s.out = len(err.Error())
	} else {
		s.out = writing(t, a.WithoutSteps())
	}
	s.answer, s.made, s.whole = cpu()-from, allocated()-made, s.out
	if steps && err == nil {
		from = cpu()
		s.whole = writing(t, a)
		s.why = cpu() - from
	}
	return s
}

func writing(t testing.TB, a pricelist.Answer) int {
	text, err := json.Marshal(a)
	if err != nil {
		t.Fatal(err)
	}
	return len(text)
}

// ratio is how many times what decoding takes.
func (s spent) ratio() int { return int(s.answer / s.decode) }

// decoding is what encoding/json takes to decode a text, the mean of as many times as last a while.
func decoding(data []byte) time.Duration {
	from, n := cpu(), 0
	for ; n == 0 || cpu()-from < 3*time.Millisecond; n++ {
		var v any
		_ = json.Unmarshal(data, &v)
	}
	return max((cpu()-from)/time.Duration(n), time.Nanosecond)
}

// cpu is the time that this process has run, on all cores.
func cpu() time.Duration {
	var u syscall.Rusage
	_ = syscall.Getrusage(syscall.RUSAGE_SELF, &u)
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}

func allocated() uint64 {
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	return m.TotalAlloc
}
