// Command fleet prices a catalogue that is too large for one machine: millions of products of one
// shop, on any runner of Apache Beam. README.md says how.
//
// It exits with 0 if every lot has prices, 1 if some are faulty or in conflict, and 2 if there are
// no results, because the run was refused, failed, or was interrupted.
package main

import (
	"cmp"
	"context"
	_ "embed"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"hash/crc32"
	"io"
	"math/rand/v2"
	"os"
	"os/signal"
	"path/filepath"
	"slices"
	"strings"
	"syscall"

	"github.com/apache/beam/sdks/v2/go/pkg/beam"
	_ "github.com/apache/beam/sdks/v2/go/pkg/beam/io/filesystem/local"
	"github.com/apache/beam/sdks/v2/go/pkg/beam/io/textio"
	"github.com/apache/beam/sdks/v2/go/pkg/beam/log"
	"github.com/apache/beam/sdks/v2/go/pkg/beam/register"
	"github.com/apache/beam/sdks/v2/go/pkg/beam/runners"
	//lint:ignore SA1019 without sockets and workers, it shows that a runner changes no answer
	_ "github.com/apache/beam/sdks/v2/go/pkg/beam/runners/direct"
	_ "github.com/apache/beam/sdks/v2/go/pkg/beam/runners/prism"
	_ "github.com/apache/beam/sdks/v2/go/pkg/beam/runners/universal"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
)

//go:embed shop.json
var sampleShop []byte

//go:embed designs.jsonl
var sampleDesigns string

type job struct {
	shop, products, out, runner string
	shards                      int
}

func main() {
	var j job
	flag.StringVar(&j.shop, "shop", "", "document of the shop, without products; the embedded one if not given")
	flag.StringVar(&j.products, "products", "", "files of products, as a pattern; an invented catalogue if not given")
	flag.StringVar(&j.out, "out", "prices", "folder for the results, which must not exist")
	flag.IntVar(&j.shards, "shards", 1, "how many files answers, and faults, are written to")
	flag.Parse()
	log.LogLevel = "warn"
	beam.Init() // a worker of a cluster does its part here, and exits
	j.runner = cmp.Or(*runners.Runner, "prism")
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	status, err := j.price(ctx, os.Stdout)
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		status = 2
	}
	os.Exit(status)
}

// price runs the job in a folder beside the results, which gets their name when all is done. So
// there are the results of a whole run or none.
func (j job) price(ctx context.Context, report io.Writer) (status int, err error) {
	shop, cautions, err := j.open()
	if err != nil {
		return 0, err
	}
	out, err := filepath.Abs(j.out)
	unfinished := fmt.Sprintf("%s.unfinished-%d", out, os.Getpid())
	results := filepath.Join(unfinished, "results")
	if err = errors.Join(err, os.MkdirAll(results, 0o777)); err != nil {
		return 0, err
	}
	defer os.RemoveAll(unfinished)
	fmt.Fprintf(report, "pricing on the runner %s\n", j.runner)
	counts, err := j.run(ctx, shop, results)
	if err != nil {
		return 0, fmt.Errorf("running the pipeline: %w", err)
	}
	if counts["lots"] == 0 {
		return 0, fmt.Errorf("no products in %s", j.products)
	}
	summary, err := json.MarshalIndent(map[string]any{"counts": counts, "cautions": cautions}, "", "  ")
	if err = errors.Join(err, writeLines(results, "summary.json", []string{string(summary)})); err != nil {
		return 0, err
	}
	fmt.Fprintf(report, "%d lots: %d answered, %d in conflict, %d faulty; see %s\n%s\n", counts["lots"],
		counts["answered"], counts["conflicts"], counts["faulty"], j.out, strings.Join(cautions, "\n"))
	if counts["answered"] < counts["lots"] {
		status = 1
	}
	return status, os.Rename(results, out)
}

// open checks all that was asked for, so that mistakes in the shop are told once, before the run.
func (j job) open() (shop string, cautions []string, err error) {
	if _, err := os.Lstat(j.out); err == nil {
		return "", nil, fmt.Errorf("%s exists: name another folder with -out", j.out)
	}
	if !strings.Contains(" prism direct universal ", " "+j.runner+" ") || j.shards < 1 {
		return "", nil, fmt.Errorf("found -runner %s -shards %d, wanted prism, direct or universal, and 1 or more", j.runner, j.shards)
	}
	data := sampleShop
	if j.shop != "" {
		if data, err = os.ReadFile(j.shop); err != nil {
			return "", nil, err
		}
	}
	opened, err := pricelist.DecodeShop(data)
	if ps, ok := errors.AsType[quoin.Problems](err); ok {
		return "", nil, errors.New(ps.InFile(cmp.Or(j.shop, "shop.json")))
	}
	return string(data), opened.Cautions(), err
}

func init() {
	register.Function2x0(keyOf)
	register.DoFn5x1[context.Context, string, func(*string) bool, string, func(string, string), error](&decideFn{})
	register.DoFn2x1[string, func(*string) bool, error](&writeFn{})
	register.Emitter2[string, string]()
	register.Iter1[string]()
}

// run leaves answers and faults in a folder, and returns how many lots came to what. It does not
// wait for a runner that ignores the context.
func (j job) run(ctx context.Context, shop, dir string) (map[string]int64, error) {
	p, s := beam.NewPipelineWithRoot()
	lines := beam.CreateList(s, sampleLines(500))
	if j.products != "" {
		lines = textio.Read(s, j.products)
	}
	lots := beam.GroupByKey(s, beam.ParDo(s, keyOf, lines))
	results := beam.ParDo(s, &decideFn{Shards: j.shards}, lots, beam.SideInput{Input: beam.Create(s, shop)})
	beam.ParDo0(s, &writeFn{dir}, beam.GroupByKey(s, results))
	var result beam.PipelineResult
	done := make(chan error, 2)
	context.AfterFunc(ctx, func() { done <- ctx.Err() })
	go func() {
		var err error
		result, err = beam.Run(ctx, j.runner, p)
		done <- err
	}()
	if err := <-done; err != nil {
		return nil, err
	}
	counts := map[string]int64{"lots": 0, "answered": 0, "conflicts": 0, "faulty": 0}
	for _, c := range result.Metrics().AllMetrics().Counters() {
		counts[c.Name()] += c.Result()
	}
	return counts, nil
}

// keyOf puts its key before each line. Whatever else is wrong with a line is found with its lot.
// A line without a key, which may be no JSON, is a lot of its own.
func keyOf(line string, emit func(key, line string)) {
	var lot struct{ Key string }
	_ = json.Unmarshal([]byte(line), &lot)
	if strings.TrimSpace(line) != "" {
		emit(cmp.Or(lot.Key, "a line without a key: "+line), line)
	}
}

type decideFn struct {
	Shards int
	shop   *pricelist.Shop // decoded at the first lot; the text is the same for all
}

func (fn *decideFn) ProcessElement(ctx context.Context, key string, lines func(*string) bool, shop string, emit func(file, line string)) (err error) {
	if fn.shop == nil {
		if fn.shop, err = pricelist.DecodeShop([]byte(shop)); err != nil {
			return err
		}
	}
	kind, outcome := "answers", "answered"
	answer, err := fn.decide(sorted(lines))
	line, fault := answer.AppendJSON(nil)
	if ps, ok := errors.AsType[quoin.Problems](err); ok {
		kind, outcome = "faults", "faulty"
		line, fault = json.Marshal(map[string]any{"key": key, "problems": ps})
	} else if len(answer.Conflict) > 0 {
		outcome = "conflicts"
	}
	beam.NewCounter("fleet", "lots").Inc(ctx, 1)
	beam.NewCounter("fleet", outcome).Inc(ctx, 1)
	shard := crc32.ChecksumIEEE([]byte(key)) % uint32(fn.Shards) // the same in each run
	emit(fmt.Sprintf("%s-%05d-of-%05d.jsonl", kind, shard, fn.Shards), string(line))
	return fault
}

// decide puts the lines of a lot together, which Beam brings in any order.
func (fn *decideFn) decide(lines []string) (pricelist.Answer, error) {
	lot, faults := pricelist.Lot{}, quoin.Problems{}
	for _, line := range lines {
		l, err := pricelist.DecodeLot([]byte(line))
		ps, _ := errors.AsType[quoin.Problems](err)
		faults = append(faults, ps...)
		lot.Key = l.Key
		lot.Products = append(lot.Products, l.Products...)
		lot.Comparables = append(lot.Comparables, l.Comparables...)
		lot.Rules = append(lot.Rules, l.Rules...)
	}
	if err := faults.Err(); err != nil {
		return pricelist.Answer{}, err
	}
	return fn.shop.Decide(lot, pricelist.Brief)
}

type writeFn struct{ Dir string }

func (fn *writeFn) ProcessElement(name string, lines func(*string) bool) error {
	return writeLines(fn.Dir, name, sorted(lines))
}

func sorted(next func(*string) bool) (lines []string) {
	for line := ""; next(&line); {
		lines = append(lines, line)
	}
	slices.Sort(lines)
	return lines
}

// writeLines writes beside the folder first. If a runner has two workers write the same file, both
// write the same text, and the file is always a whole one.
func writeLines(dir, name string, lines []string) error {
	part := filepath.Join(filepath.Dir(dir), fmt.Sprintf("%s-%d", name, rand.Uint64()))
	if err := os.WriteFile(part, []byte(strings.Join(append(lines, ""), "\n")), 0o644); err != nil {
		return err
	}
	return os.Rename(part, filepath.Join(dir, name))
}

// sampleLines repeats the embedded lines for many designs, each with an extra time of its own.
func sampleLines(designs int) (lines []string) {
	for i := range designs {
		r := strings.NewReplacer("0001", fmt.Sprintf("%04d", i+1), `"0 min"`, fmt.Sprintf(`"%d min"`, i%7))
		lines = append(lines, strings.Split(strings.TrimSpace(r.Replace(sampleDesigns)), "\n")...)
	}
	return lines
}
