package main

import (
	"bufio"
	"bytes"
	"context"
	"encoding/json"
	"flag"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"syscall"
	"testing"

	"github.com/apache/beam/sdks/v2/go/pkg/beam"
	"github.com/apache/beam/sdks/v2/go/pkg/beam/log"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
)

func TestMain(m *testing.M) {
	if os.Getenv("FLEET_MAIN") != "" { // the program itself, to be stopped by a signal
		main()
	}
	flag.Parse()
	log.LogLevel = "warn"
	beam.Init()
	os.Exit(m.Run())
}

// planted is bad lots, one for each thousand, and what is to be said of them.
var planted = []struct{ key, lines, code, path string }{
	{"a line without a key: bad-supply", "bad-supply", "bad_json", ""},
	{"bad-supply", `{"key": "bad-supply", "products": [{"id": "a", "bill": [{"supply": "papre", "quantity": "1 sheet"}]}]}`, "unknown_id", "products[0].bill[0].supply"},
	{"bad-rules", `{"key": "bad-rules", "products": [{"id": "a", "packing": {"post": [], "hand": []}}], "rules": [{"id": "low", "rule": "price", "at_most": "3.00"}]}`, "", ""},
	{"bad-twice", `{"key": "bad-twice", "products": [{"id": "a", "packing": {"post": [], "hand": []}}]}
{"key": "bad-twice", "products": [{"id": "a", "packing": {"post": [], "hand": []}}]}`, "duplicate_id", "products[1].id"},
	{"bad-field", `{"key": "bad-field", "products": [{"id": "a", "packing": {"post": [], "hand": []}}]}
{"key": "bad-field", "products": [{"id": "b", "bil": []}]}`, "unknown_field", "products[0].bil"},
}

// catalogue is five thousand lots in 12,500 lines, and a bad one in each thousand.
func catalogue() (lines []string) {
	sample := sampleLines(2500)
	for i, part := range slices.Collect(slices.Chunk(sample, len(sample)/len(planted))) {
		lines = append(append(lines, part...), strings.Split(planted[i].lines, "\n")...)
	}
	return append(lines, "", " ")
}

func writeCatalogue(t testing.TB, lines []string) string {
	t.Helper()
	name := filepath.Join(t.TempDir(), "products.jsonl")
	if err := os.WriteFile(name, []byte(strings.Join(lines, "\n")+"\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	return name
}

// lotLines is what Batch takes: each lot is one line, with its products in the order of their ids.
func lotLines(t testing.TB, lines []string) string {
	t.Helper()
	lots := make(map[string]map[string]json.RawMessage)
	products := make(map[string][]json.RawMessage)
	var keys []string
	for _, line := range lines {
		var lot map[string]json.RawMessage
		if err := json.Unmarshal([]byte(line), &lot); err != nil {
			if strings.TrimSpace(line) != "" {
				keys, lots[line] = append(keys, line), nil
			}
			continue
		}
		key := string(lot["key"])
		if lots[key] == nil {
			keys, lots[key] = append(keys, key), lot
		}
		var ps []json.RawMessage
		if err := json.Unmarshal(lot["products"], &ps); err != nil {
			t.Fatal(err)
		}
		products[key] = append(products[key], ps...)
	}
	var out strings.Builder
	for _, key := range keys {
		if lots[key] == nil {
			fmt.Fprintln(&out, key)
			continue
		}
		slices.SortStableFunc(products[key], func(a, b json.RawMessage) int { return strings.Compare(idOf(a), idOf(b)) })
		lots[key]["products"], _ = json.Marshal(products[key])
		line, err := json.Marshal(lots[key])
		if err != nil {
			t.Fatal(err)
		}
		fmt.Fprintf(&out, "%s\n", line)
	}
	return out.String()
}

func idOf(product json.RawMessage) string {
	var p struct{ ID string }
	_ = json.Unmarshal(product, &p)
	return p.ID
}

// batch is the answers of one machine, sorted, and how many lots are faulty.
func batch(t testing.TB, workers int, lots string) (answers []string, faulty int) {
	t.Helper()
	shop, err := pricelist.DecodeShop(sampleShop)
	if err != nil {
		t.Fatal(err)
	}
	b := pricelist.Batch{Workers: workers, Detail: pricelist.Brief, GoOn: true}
	for a, err := range b.Lines(context.Background(), shop, strings.NewReader(lots)) {
		if err != nil {
			faulty++
			continue
		}
		line, err := a.AppendJSON(nil)
		if err != nil {
			t.Fatal(err)
		}
		answers = append(answers, string(line))
	}
	slices.Sort(answers)
	return answers, faulty
}

// priced runs a job and returns its folder.
func priced(t testing.TB, runner string, products string, shards, want int) string {
	t.Helper()
	t.Setenv("TMPDIR", t.TempDir()) // Beam leaves an empty file there
	j := job{products: products, out: filepath.Join(t.TempDir(), "prices"), runner: runner, shards: shards}
	status, err := j.price(context.Background(), io.Discard)
	if err != nil || status != want {
		t.Fatalf("status %d, %v; wanted %d", status, err, want)
	}
	return j.out
}

// shardsOf is the lines of all files of a kind together, sorted; each file must be sorted already.
func shardsOf(t testing.TB, dir, kind string) (lines []string) {
	t.Helper()
	files, err := filepath.Glob(filepath.Join(dir, kind+"-*.jsonl"))
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range files {
		data, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		part := strings.Split(strings.TrimSuffix(string(data), "\n"), "\n")
		if !slices.IsSorted(part) {
			t.Errorf("%s is not sorted", f)
		}
		lines = append(lines, part...)
	}
	slices.Sort(lines)
	return lines
}

func filesOf(t testing.TB, dir string) map[string]string {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	files := make(map[string]string)
	for _, e := range entries {
		data, err := os.ReadFile(filepath.Join(dir, e.Name()))
		if err != nil {
			t.Fatal(err)
		}
		files[e.Name()] = string(data)
	}
	return files
}

// A cluster answers what one machine does, byte for byte, whatever the runner, the order of lines
// and the number of shards. Of each thousand lots a bad one is apart, and nothing else.
func TestSameAsBatch(t *testing.T) {
	lines := catalogue()
	want, faulty := batch(t, 2, lotLines(t, lines))
	if faulty != 4 || len(want) != 5001 {
		t.Fatalf("%d lots, %d faulty; wanted 5001 and 4", len(want), faulty)
	}
	var first map[string]string
	for _, c := range []struct {
		runner string
		shards int
	}{{"direct", 7}, {"prism", 7}, {"direct", 1}} {
		dir := priced(t, c.runner, writeCatalogue(t, lines), c.shards, 1)
		if got := shardsOf(t, dir, "answers"); !slices.Equal(got, want) {
			t.Errorf("%s: %d answers are not the %d of Batch", c.runner, len(got), len(want))
		}
		checkFaults(t, shardsOf(t, dir, "faults"))
		checkSummary(t, filepath.Join(dir, "summary.json"))
		files := filesOf(t, dir)
		switch {
		case first == nil:
			first = files
		case c.shards == 7 && !mapsEqual(first, files):
			t.Errorf("%s writes other files for the same lines in another order", c.runner)
		case c.shards == 1 && len(files) != 3:
			t.Errorf("%d files, wanted answers, faults and the summary", len(files))
		}
		r := rand.New(rand.NewPCG(1, 2))
		r.Shuffle(len(lines), func(a, b int) { lines[a], lines[b] = lines[b], lines[a] })
	}
	if len(first) < 7 {
		t.Errorf("%d files of 7 shards", len(first))
	}
}

func mapsEqual(a, b map[string]string) bool {
	for name := range a {
		if a[name] != b[name] {
			return false
		}
	}
	return len(a) == len(b)
}

func checkFaults(t *testing.T, lines []string) {
	t.Helper()
	got := make(map[string]quoin.Problems)
	for _, line := range lines {
		var f struct {
			Key      string
			Problems quoin.Problems
			Products any
		}
		if err := json.Unmarshal([]byte(line), &f); err != nil || f.Products != nil {
			t.Errorf("%v in the fault %s", err, line)
		}
		got[f.Key] = f.Problems
	}
	if len(lines) != 4 {
		t.Errorf("%d faults, wanted 4", len(lines))
	}
	for _, p := range planted {
		if p.code == "" {
			continue // a conflict is an answer
		}
		ps := got[p.key]
		if len(ps) == 0 || string(ps[0].Code) != p.code || ps[0].Path != p.path || ps[0].Found == "" {
			t.Errorf("%s: %+v, wanted %s at %s", p.key, ps, p.code, p.path)
		}
	}
}

func checkSummary(t *testing.T, name string) {
	t.Helper()
	data, err := os.ReadFile(name)
	var s struct {
		Counts   map[string]int
		Cautions []string
	}
	if err == nil {
		err = json.Unmarshal(data, &s)
	}
	want := map[string]int{"lots": 5005, "answered": 5000, "conflicts": 1, "faulty": 4}
	if err != nil || fmt.Sprint(s.Counts) != fmt.Sprint(want) || !slices.Equal(s.Cautions, pricelist.Cautions()) {
		t.Errorf("%v, %s; wanted %v and the cautions", err, data, want)
	}
}

// The embedded catalogue has prices throughout, and says so.
func TestEmbedded(t *testing.T) {
	for _, runner := range []string{"direct", "prism"} {
		dir := priced(t, runner, "", 1, 0)
		if got := shardsOf(t, dir, "answers"); len(got) != 1000 {
			t.Errorf("%s: %d answers, wanted 500 designs and 500 single prints", runner, len(got))
		}
	}
}

// What cannot be run is refused before the pipeline starts, and leaves nothing.
func TestRefused(t *testing.T) {
	dir := t.TempDir()
	bad := filepath.Join(dir, "bad.json")
	text := strings.NewReplacer(`"EUR"`, `"ERU"`, `"91%"`, `"191%"`).Replace(string(sampleShop))
	if err := os.WriteFile(bad, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	empty := writeCatalogue(t, []string{""})
	out := filepath.Join(dir, "prices")
	for _, c := range []struct {
		j    job
		says []string
		runs bool
	}{
		{job{shop: bad, out: out, runner: "direct", shards: 1}, []string{bad + ":3:", "ERU", "191%"}, false},
		{job{out: dir, runner: "direct", shards: 1}, []string{dir + " exists"}, false},
		{job{out: out, runner: "drect", shards: 1}, []string{"drect", "universal"}, false},
		{job{out: out, runner: "direct"}, []string{"-shards 0"}, false},
		{job{shop: filepath.Join(dir, "none"), out: out, runner: "direct", shards: 1}, []string{"none"}, false},
		{job{products: empty, out: out, runner: "direct", shards: 1}, []string{"no products in " + empty}, true},
		{job{products: filepath.Join(dir, "*.jsonl"), out: out, runner: "direct", shards: 1}, []string{"no products in"}, true},
	} {
		var report bytes.Buffer
		_, err := c.j.price(context.Background(), &report)
		for _, s := range c.says {
			if err == nil || !strings.Contains(err.Error(), s) {
				t.Errorf("%v does not say %q", err, s)
			}
		}
		if (report.Len() > 0) != c.runs {
			t.Errorf("%v comes after %q", err, report.String())
		}
	}
	left, err := os.ReadDir(dir)
	if err != nil || len(left) != 1 {
		t.Errorf("left behind: %v, %v", left, err)
	}
}

// A signal in the middle of a run leaves neither results nor a part of them.
func TestSignal(t *testing.T) {
	products := writeCatalogue(t, sampleLines(8000))
	for _, runner := range []string{"direct", "prism"} {
		dir := t.TempDir()
		cmd := exec.Command(os.Args[0], "-products", products, "-out", filepath.Join(dir, "prices"), "-runner", runner)
		cmd.Env = append(os.Environ(), "FLEET_MAIN=1", "TMPDIR="+t.TempDir())
		var errs bytes.Buffer
		cmd.Stderr = &errs
		out, err := cmd.StdoutPipe()
		if err != nil {
			t.Fatal(err)
		}
		if err := cmd.Start(); err != nil {
			t.Fatal(err)
		}
		line, err := bufio.NewReader(out).ReadString('\n')
		if err != nil || line != "pricing on the runner "+runner+"\n" {
			t.Fatalf("%q, %v, %s", line, err, errs.String())
		}
		if err := cmd.Process.Signal(syscall.SIGTERM); err != nil {
			t.Fatal(err)
		}
		if err := cmd.Wait(); cmd.ProcessState.ExitCode() != 2 || !strings.Contains(errs.String(), "canceled") {
			t.Errorf("%s: %v, %s; wanted status 2", runner, err, errs.String())
		}
		if left, err := os.ReadDir(dir); err != nil || len(left) > 0 {
			t.Errorf("%s leaves %v, %v", runner, left, err)
		}
	}
}

// The three ways side by side. A core-second is a second of work of one core, so it hardly depends
// on what else the machine does.
func BenchmarkProducts(b *testing.B) {
	lines := sampleLines(4000)
	file, lots := writeCatalogue(b, lines), lotLines(b, lines)
	measured := func(b *testing.B, price func()) {
		before := coreSeconds(b)
		for b.Loop() {
			price()
		}
		n := float64(len(lines) * b.N)
		b.ReportMetric(n/b.Elapsed().Seconds(), "products/s")
		b.ReportMetric(n/(coreSeconds(b)-before), "products/core-s")
	}
	b.Run("batch", func(b *testing.B) {
		measured(b, func() { batch(b, runtime.GOMAXPROCS(0), lots) })
	})
	for _, runner := range []string{"direct", "prism"} {
		b.Run(runner, func(b *testing.B) {
			measured(b, func() { priced(b, runner, file, 4, 0) })
		})
	}
}

func coreSeconds(b *testing.B) float64 {
	var u syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
		b.Fatal(err)
	}
	return float64(u.Utime.Nano()+u.Stime.Nano()) / 1e9
}
