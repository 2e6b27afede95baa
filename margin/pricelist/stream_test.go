package pricelist_test

import (
	"context"
	"errors"
	"fmt"
	"io"
	"iter"
	"math"
	"strings"
	"sync/atomic"
	"testing"
	"testing/iotest"
	"testing/synctest"

	"github.com/google/go-cmp/cmp"
	"go.uber.org/goleak"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
)

const heronLine = `{"products": [{"id": "heron"}]}`

// pressHead is a document up to its products.
var pressHead = strings.TrimSuffix(press, "}") + `, "products": [`

// blocking is a reader that blocks behind a text until it is opened. Then it reads a byte, and
// has come to its end.
type blocking struct {
	io.Reader
	open  chan struct{}
	calls atomic.Int64 // behind the text
}

func newBlocking(text string) *blocking {
	return &blocking{Reader: strings.NewReader(text), open: make(chan struct{})}
}

func (b *blocking) Read(p []byte) (int, error) {
	if n, err := b.Reader.Read(p); err == nil {
		return n, nil
	}
	if b.calls.Add(1) > 1 {
		return 0, io.EOF
	}
	<-b.open
	return copy(p, "x"), nil
}

// lots is an iterator that blocks behind one lot until it is opened, and then has further
// ones. It says when it has ended.
func (b *blocking) lots(ended *bool) iter.Seq2[pricelist.Lot, error] {
	return func(yield func(pricelist.Lot, error) bool) {
		defer func() { *ended = true }()
		for {
			if !yield(heron("heron", "1"), nil) {
				return
			}
			b.calls.Add(1)
			<-b.open
		}
	}
}

// A stream ends at once when its context does, or its loop, though what it reads blocks; and
// what it left behind reads nothing more, and ends when the Read does. In a bubble of
// synctest no goroutine may be left, and each may be waited for until it blocks: no test
// waits for a time.
func TestStreamsEndThoughReadsBlock(t *testing.T) {
	defer goleak.VerifyNone(t)
	shop := marshShop(t)
	for _, c := range []struct {
		name string
		text string // what can be read before it blocks
		want int    // answers in it
		of   func(pricelist.Batch, context.Context, *blocking, *bool) iter.Seq2[pricelist.Answer, error]
	}{
		{"lines from the first byte", "", 0, linesOf(shop)},
		{"lines behind one", heronLine + "\n", 1, linesOf(shop)},
		{"lines in one", heronLine + "\n" + heronLine, 1, linesOf(shop)},
		{"a document from the first byte", "", 0, documentOf},
		{"a document in its head", press[:100], 0, documentOf},
		{"a document before its products", pressHead, 0, documentOf},
		{"a document between products", pressHead + `{"id": "heron"},`, 1, documentOf},
		{"a document in a product", pressHead + `{"id": "heron"}, {"id": "rail"`, 1, documentOf},
		{"lots behind one", "", 1, func(b pricelist.Batch, ctx context.Context, r *blocking, ended *bool) iter.Seq2[pricelist.Answer, error] {
			return b.Decide(ctx, shop, r.lots(ended))
		}},
	} {
		for _, workers := range []int{0, 1, 2, 8} {
			for _, breaks := range []bool{false, true} {
				if breaks && c.want == 0 {
					continue // there is nothing to break from
				}
				t.Run(fmt.Sprintf("%s/%d workers/break=%t", c.name, workers, breaks), func(t *testing.T) {
					synctest.Test(t, func(t *testing.T) {
						ctx, cancel := context.WithCancel(t.Context())
						defer cancel()
						if !breaks {
							go func() {
								synctest.Wait() // until all is blocked
								cancel()
							}()
						}
						r, ended, answers := newBlocking(c.text), false, 0
						var last error
						for _, err := range c.of(pricelist.Batch{Workers: workers, GoOn: true}, ctx, r, &ended) {
							if last = err; err != nil {
								continue
							}
							if answers++; breaks {
								synctest.Wait()
								break
							}
						}
						if answers != c.want || !breaks && !errors.Is(last, context.Canceled) || breaks && last != nil {
							t.Errorf("%d answers, then %v", answers, last)
						}
						blocked := r.calls.Load()
						close(r.open)
						synctest.Wait()
						if calls := r.calls.Load(); calls != blocked || calls > 1 {
							t.Errorf("%d reads after the end, %d before", calls-blocked, blocked)
						}
						if strings.HasPrefix(c.name, "lots") && !ended {
							t.Error("the iterator was not told")
						}
					})
				})
			}
		}
	}
}

func linesOf(shop *pricelist.Shop) func(pricelist.Batch, context.Context, *blocking, *bool) iter.Seq2[pricelist.Answer, error] {
	return func(b pricelist.Batch, ctx context.Context, r *blocking, _ *bool) iter.Seq2[pricelist.Answer, error] {
		return b.Lines(ctx, shop, r)
	}
}

func documentOf(b pricelist.Batch, ctx context.Context, r *blocking, _ *bool) iter.Seq2[pricelist.Answer, error] {
	return b.Document(ctx, r)
}

// With fewer than two workers lots are taken only while the loop waits, and an iterator that
// stands at its yield has ended when the loop has: what it has need not be guarded.
func TestIteratorsEndBeforeTheLoop(t *testing.T) {
	defer goleak.VerifyNone(t)
	shop := marshShop(t)
	for _, workers := range []int{0, 1} {
		taken, ended := 0, false
		lots := func(yield func(pricelist.Lot, error) bool) {
			defer func() { ended = true }()
			for lot, err := range forever(&taken) {
				if !yield(lot, err) {
					return
				}
			}
		}
		answered := 0
		for range (pricelist.Batch{Workers: workers}).Decide(t.Context(), shop, lots) {
			if answered++; answered != taken {
				t.Errorf("%d workers: %d lots taken for %d answers", workers, taken, answered)
			}
			if answered == 5 {
				break
			}
		}
		if !ended || taken != 5 {
			t.Errorf("%d workers: %d lots taken, ended %t", workers, taken, ended)
		}
	}
}

// An iterator gets no further turn when the context has ended.
func TestIteratorsAreToldOfTheEnd(t *testing.T) {
	defer goleak.VerifyNone(t)
	shop := marshShop(t)
	for _, workers := range []int{0, 2, 8} {
		for range 20 {
			ctx, cancel := context.WithCancel(t.Context())
			told := make(chan bool, 1) // the loop does not wait for an iterator that is at work
			lots := func(yield func(pricelist.Lot, error) bool) {
				_ = yield(heron("heron", "1"), nil) && yield(heron("rail", "1"), nil)
				cancel()
				told <- !yield(heron("snipe", "1"), nil)
			}
			for range (pricelist.Batch{Workers: workers}).Decide(ctx, shop, lots) {
			}
			if !<-told {
				t.Fatalf("%d workers: a lot is asked for behind the end", workers)
			}
		}
	}
}

// When the loop has ended no lot is being decided: what lots hold can be changed. It takes
// the race detector to see.
func TestNothingIsDecidedBehindTheLoop(t *testing.T) {
	defer goleak.VerifyNone(t)
	shop := marshShop(t)
	for range 10 {
		lot := heron("heron", "1")
		bill := lot.Products[0].Bill
		for range (pricelist.Batch{Workers: 8}).Decide(t.Context(), shop, func(yield func(pricelist.Lot, error) bool) {
			for yield(lot, nil) {
			}
		}) {
			break
		}
		bill[0].Supply = "none"
	}
}

// A reader's error is what is yielded, whatever it is and wherever it comes, behind the
// answers to all that was whole before it; what it cut short is no fault of the text.
func TestReadersErrors(t *testing.T) {
	shop := marshShop(t)
	lines := severed{text: "\n" + heronLine + "\n \n" + heronLine + "\r\n" + heronLine}
	for i, c := range lines.text {
		if c == '\n' && strings.HasSuffix(strings.TrimRight(lines.text[:i], "\r"), "}") {
			lines.whole = append(lines.whole, i+1)
		}
	}
	document := severed{text: "{" + press[1:len(press)-2] + `,
		"products": [ {"id": "heron"},
		{"id": "rail"},{"id": "small", "design": "snipe"} ,
		{"id": "large", "design": "snipe"}, {"id": "teal", "design": "teal"}
		] } `}
	for _, end := range []string{`"heron"}`, `"rail"}`, `"teal", "design": "teal"}`, `]`} {
		// Of a design all is known when something else stands behind it.
		document.whole = append(document.whole, strings.LastIndex(document.text, end)+len(end))
	}
	for _, batch := range []pricelist.Batch{{}, {GoOn: true}, {Workers: 2, GoOn: true}} {
		lines.errs(t, func(r io.Reader) iter.Seq2[pricelist.Answer, error] { return batch.Lines(t.Context(), shop, r) })
		document.errs(t, func(r io.Reader) iter.Seq2[pricelist.Answer, error] { return batch.Document(t.Context(), r) })
	}
}

// severed is a text that is cut at every byte, and how much of it each answer takes.
type severed struct {
	text  string
	whole []int
}

func (c severed) errs(t *testing.T, stream func(io.Reader) iter.Seq2[pricelist.Answer, error]) {
	t.Helper()
	errs := []error{errSource, io.ErrUnexpectedEOF, context.DeadlineExceeded, fmt.Errorf("the line broke: %w", io.EOF), quoin.Problems{}}
	for n := range len(c.text) + 1 {
		of := errs[n%len(errs)]
		r := io.MultiReader(strings.NewReader(c.text[:n]), iotest.ErrReader(of))
		switch n / len(errs) % 3 {
		case 1:
			r = iotest.OneByteReader(r)
		case 2:
			r = iotest.DataErrReader(r)
		}
		want, got := 0, 0
		for _, at := range c.whole {
			if at <= n {
				want++
			}
		}
		var last []error
		for _, err := range stream(r) {
			if err != nil {
				last = append(last, err)
			} else {
				got++
			}
		}
		line := fmt.Sprintf("line %d: ", 1+strings.Count(c.text[:n], "\n"))
		if got != want || len(last) != 1 || !strings.HasPrefix(last[0].Error(), line) || !wraps(last[0], of) {
			t.Errorf("cut behind %q by %v: %d answers, want %d, then %v at %s", c.text[:n], of, got, want, last, line)
		}
	}
}

// wraps is errors.Is, also of an error that cannot be compared.
func wraps(err, of error) bool {
	if ps, ok := of.(quoin.Problems); ok {
		return errors.As(err, &ps)
	}
	return errors.Is(err, of)
}

// A text that ends too soon is a fault of the text, and its reader had none.
func TestTextsThatEndTooSoon(t *testing.T) {
	for _, c := range []struct {
		text string
		want []string
	}{
		{press[:40], []string{"bad_json "}},
		{pressHead, []string{"bad_json "}},
		{pressHead + `{"id": "heron"}`, []string{"heron", "bad_json "}},
		// More of the design may have been to come.
		{pressHead + `{"id": "heron"}, {"id": "small", "design": "snipe"}`, []string{"heron", "bad_json "}},
	} {
		var got []string
		for a, err := range (pricelist.Batch{GoOn: true}).Document(t.Context(), strings.NewReader(c.text)) {
			got = append(got, told(a, err)...)
		}
		if diff := cmp.Diff(c.want, got); diff != "" {
			t.Errorf("%q:\n%s", c.text, diff)
		}
	}
}

// readerFunc is a reader that does what it likes.
type readerFunc func(p []byte) (int, error)

func (f readerFunc) Read(p []byte) (int, error) { return f(p) }

func TestReadersThatMisbehave(t *testing.T) {
	shop := marshShop(t)
	for _, c := range []struct {
		name string
		read readerFunc
		want string
	}{
		{"reads nothing, for ever", func([]byte) (int, error) { return 0, nil }, "line 1: " + io.ErrNoProgress.Error()},
		{"read less than nothing", func([]byte) (int, error) { return -1, nil }, "line 1: the reader says"},
		{"read more than there was room for", func(p []byte) (int, error) { return len(p) + 1, nil }, "line 1: the reader says"},
	} {
		for name, stream := range map[string]iter.Seq2[pricelist.Answer, error]{
			"lines":    (pricelist.Batch{GoOn: true}).Lines(t.Context(), shop, c.read),
			"document": (pricelist.Batch{GoOn: true}).Document(t.Context(), c.read),
		} {
			var got []string
			for a, err := range stream {
				got = append(got, told(a, err)...)
			}
			if len(got) != 1 || !strings.HasPrefix(got[0], c.want) {
				t.Errorf("%s, %s: %q, want %q", name, c.name, got, c.want)
			}
		}
	}
}

// What the lots' iterator or the reader panics with, the loop panics with; and an iterator
// that ends its goroutine is not taken for one that has no more lots.
func TestPanicsReachTheLoop(t *testing.T) {
	defer goleak.VerifyNone(t)
	shop := marshShop(t)
	panics := func(yield func(pricelist.Lot, error) bool) {
		_ = yield(heron("heron", "1"), nil) && yield(heron("rail", "1"), nil)
		panic("no more")
	}
	deaf := func(yield func(pricelist.Lot, error) bool) {
		for yield(heron("heron", "1"), nil) || true {
		}
	}
	for _, workers := range []int{0, 1, 2, 8} {
		batch := pricelist.Batch{Workers: workers}
		for _, c := range []struct {
			name   string
			stream iter.Seq2[pricelist.Answer, error]
			most   int // answers that are asked for
			want   int
			panics any
		}{
			{"an iterator", batch.Decide(t.Context(), shop, panics), 9, 2, "no more"},
			{"a reader", batch.Lines(t.Context(), shop, io.MultiReader(strings.NewReader(heronLine+"\n"), readerFunc(func([]byte) (int, error) { panic("gone") }))), 9, 1, "gone"},
			{"a reader of a document", batch.Document(t.Context(), readerFunc(func([]byte) (int, error) { panic("gone") })), 9, 0, "gone"},
			{"a worker", batch.Do(t.Context(), func() (pricelist.Answer, error) { return pricelist.Answer{}, nil }, func() (pricelist.Answer, error) { panic("out of work") }), 9, 1, "out of work"},
			{"the loop", batch.Decide(t.Context(), shop, forever(new(int))), 0, 1, "the loop"},
		} {
			got := 0
			with := func() (with any) {
				defer func() { with = recover() }()
				for range c.stream {
					if got++; c.most == 0 {
						panic("the loop")
					}
				}
				return nil
			}()
			if got != c.want || with != c.panics {
				t.Errorf("%d workers, %s: %d answers, then %v", workers, c.name, got, with)
			}
		}
	}
	// With one worker the iterator that goes on behind the end is waited for, and Go's own
	// panic is passed on.
	func() {
		defer func() {
			if fmt.Sprint(recover()) == "<nil>" {
				t.Error("an iterator went on behind the end of its loop")
			}
		}()
		for range (pricelist.Batch{}).Decide(t.Context(), shop, deaf) {
			break
		}
	}()
}

func TestIteratorsThatLeave(t *testing.T) {
	defer goleak.VerifyNone(t)
	shop := marshShop(t)
	for _, workers := range []int{0, 2} {
		var got []string
		for a, err := range (pricelist.Batch{Workers: workers}).Decide(t.Context(), shop, func(yield func(pricelist.Lot, error) bool) {
			yield(heron("heron", "1"), nil)
			new(testing.T).SkipNow() // by runtime.Goexit
		}) {
			got = append(got, told(a, err)...)
		}
		if len(got) != 2 || got[0] != "heron" || !strings.Contains(got[1], "Goexit") {
			t.Errorf("%d workers: %q", workers, got)
		}
	}
}

// What Go code leaves out is a problem, and no panic.
func TestStreamsOfNothing(t *testing.T) {
	shop, ctx := marshShop(t), t.Context()
	var none context.Context
	lots := forever(new(int))
	batch := pricelist.Batch{Workers: -1, GoOn: true}
	for name, stream := range map[string]iter.Seq2[pricelist.Answer, error]{
		"no context, lots":     batch.Decide(none, shop, lots),
		"no context, lines":    batch.Lines(none, shop, strings.NewReader("")),
		"no context, document": batch.Document(none, strings.NewReader(press)),
		"no lots":              batch.Decide(ctx, shop, nil),
		"no lines":             batch.Lines(ctx, shop, nil),
		"no document":          batch.Document(ctx, nil),
		"no shop, lots":        batch.Decide(ctx, nil, lots),
		"no shop, lines":       batch.Lines(ctx, nil, strings.NewReader(heronLine)),
		"an empty shop, lots":  batch.Decide(ctx, new(pricelist.Shop), lots),
		"an empty shop, lines": batch.Lines(ctx, new(pricelist.Shop), strings.NewReader(heronLine)),
	} {
		var got []string
		for a, err := range stream {
			got = append(got, told(a, err)...)
		}
		if diff := cmp.Diff([]string{"missing_field "}, got); diff != "" {
			t.Errorf("%s:\n%s", name, diff)
		}
	}
	for name, shop := range map[string]*pricelist.Shop{"no shop": nil, "an empty shop": new(pricelist.Shop)} {
		a, err := shop.Decide(heron("heron", "1"), pricelist.Full)
		if diff := cmp.Diff([]string{"missing_field "}, told(a, err)); diff != "" || len(shop.Warnings()) > 0 {
			t.Errorf("%s:\n%s", name, diff)
		}
	}
}

// More workers than there are lots, or than can be told apart, are no more than are needed.
func TestVeryManyWorkers(t *testing.T) {
	shop, n := marshShop(t), 0
	for _, err := range (pricelist.Batch{Workers: math.MaxInt}).Lines(t.Context(), shop, strings.NewReader(strings.Repeat(heronLine+"\n", 50))) {
		if err != nil {
			t.Fatal(err)
		}
		n++
	}
	if n != 50 {
		t.Errorf("%d answers", n)
	}
}
