package pricelist

import (
	"context"
	"errors"
	"iter"
	"sync"

	"example.com/quoin"
)

// Batch says how a stream of lots is decided.
//
// Lots are taken on a goroutine of their own. So the loop over the answers ends at once by
// break, or when the context is cancelled, even if the source of the lots blocks in a Read or
// an iterator. The loop then waits for lots that are being decided. Only that one blocked call
// remains. Its goroutine takes nothing more and ends when the call returns. To end it, close
// the reader, or whatever the iterator waits for. Do not use the reader for anything else
// before that. An iterator that stands at its yield when the loop ends, ends before the loop
// does. One that waits or works elsewhere is told at its next yield.
//
// A panic of the iterator or the reader becomes a panic of the loop over the answers, with the
// same value. A panic after the loop has ended is dropped.
type Batch struct {
	// Workers is how many lots are decided at the same time, up to 1000; with fewer than
	// two they are decided one after the other, where the answers are asked for, and lots
	// are taken only while the loop waits for an answer. As many as the machine has cores
	// is a good number.
	Workers int
	// Detail is how much the answers hold: Full, Brief or Figures.
	Detail Detail
	// GoOn has the lots behind one that is at fault decided too. Without it the first
	// fault is the last that is yielded.
	GoOn bool
}

const (
	mostWorkers = 1000
	// ahead is how many lots wait for each worker, so that none is woken for a single one.
	ahead = 16
)

// Decide decides lots as they come and yields an answer for each, in their order, or an error:
// quoin.Problems, or the error of the lots' iterator. Paths of problems are under lots[i],
// counted from 0, or under the key of the lot, as lots["A-17"]. Cancelling the context ends the
// stream, and its error is yielded last. At most about twenty lots for each worker are kept in
// memory.
func (b Batch) Decide(ctx context.Context, s *Shop, lots iter.Seq2[Lot, error]) iter.Seq2[Answer, error] {
	fault := s.unopened()
	if lots == nil {
		fault = absent("no iterator", "lots to be decided")
	}
	return b.run(ctx, fault, func(_ context.Context, yield func(work) bool) {
		i := 0
		for lot, err := range lots {
			n := i
			if !yield(single(func() (Answer, error) {
				if err != nil {
					return Answer{}, err
				}
				a, err := s.Decide(lot, b.Detail)
				return a, inLot(err, n, lot.Key)
			})) {
				return
			}
			i++
		}
	})
}

// inLot has problems stand in a lot: under its key, or else under its number.
func inLot(err error, i int, key string) error {
	ps, ok := err.(quoin.Problems)
	if !ok {
		return err
	}
	at := (*path)(nil).Field("lots")
	if key != "" {
		at = at.Field(key)
	} else {
		at = at.At(i)
	}
	lot, out := at.String(), make(quoin.Problems, len(ps))
	for n, p := range ps {
		if p.Path != "" && p.Path[0] != '[' {
			p.Path = "." + p.Path
		}
		p.Path = lot + p.Path
		out[n] = p
	}
	return out
}

// absent is the problem that Go code did not hand in what it has to.
func absent(found, wanted string) error {
	return quoin.Problems{{Code: quoin.MissingField, Severity: quoin.Fault, Found: found, Wanted: wanted}}
}

// work is some lots, which are decided one after the other.
type work struct {
	lots   int
	decide func(i int) (Answer, error)
}

func single(decide func() (Answer, error)) work {
	return work{1, func(int) (Answer, error) { return decide() }}
}

func failing(err error) work {
	return single(func() (Answer, error) { return Answer{}, err })
}

// result is what a lot came to.
type result struct {
	answer Answer
	err    error
	broke  any // what it panicked with
}

// result decides a lot; what it panics with is left to who asked for it.
func (w work) result(i int) (r result) {
	defer func() { r.broke = recover() }()
	r.answer, r.err = w.decide(i)
	return r
}

// task is work and where its results go, which has room for them.
type task struct {
	work
	done chan []result
}

// do decides all lots, unless the loop ends before.
func (t task) do(ctx context.Context) {
	results := make([]result, t.lots)
	defer func() { t.done <- results }()
	for i := range results {
		if ctx.Err() != nil {
			return
		}
		results[i] = t.result(i)
	}
}

// run yields what the lots come to, in their order. The fault is one of what was handed in.
func (b Batch) run(ctx context.Context, fault error, works works) iter.Seq2[Answer, error] {
	if ctx == nil {
		fault = absent("no context", "one: context.Background(), where nothing is to end the stream")
	}
	return func(yield func(Answer, error) bool) {
		if fault != nil {
			yield(Answer{}, fault)
			return
		}
		if err := ctx.Err(); err != nil {
			yield(Answer{}, err)
			return
		}
		p := start(ctx, works, b.Workers)
		defer p.end()
		for {
			r, more := p.next()
			if err := ctx.Err(); err != nil {
				yield(Answer{}, err)
				return
			}
			if !more || !yield(r.answer, r.err) || r.err != nil && !b.GoOn {
				return
			}
		}
	}
}

// pipe hands work from the feed to workers, and their results on in the order of the lots.
type pipe struct {
	ctx     context.Context
	stop    context.CancelFunc
	feed    *feed
	workers sync.WaitGroup

	task    // that the loop is at
	at      int
	results []result // of the task; none where there are no workers
}

func start(ctx context.Context, works works, workers int) *pipe {
	ctx, stop := context.WithCancel(ctx)
	p := &pipe{ctx: ctx, stop: stop}
	if workers < 2 {
		p.feed = newFeed(1, false)
	} else {
		workers = min(workers, mostWorkers)
		p.feed = newFeed(ahead*workers, true)
		for range workers {
			p.workers.Go(p.decideAll)
		}
	}
	go p.feed.run(ctx, works)
	return p
}

// decideAll does what is there to be done, until there is nothing more or the loop ends.
func (p *pipe) decideAll() {
	for {
		select {
		case <-p.ctx.Done():
			return
		case t, more := <-p.feed.tasks:
			if !more {
				return
			}
			t.do(p.ctx)
		}
	}
}

// next waits for the next result; false where there is none, or the context has ended. What
// the feed or a worker panicked with, it panics with.
func (p *pipe) next() (r result, more bool) {
	if p.at == p.lots && !p.advance() || p.ctx.Err() != nil {
		return r, false
	}
	if p.feed.tasks == nil {
		r = p.result(p.at)
	} else {
		r = p.results[p.at]
	}
	if p.at++; r.broke != nil {
		panic(r.broke)
	}
	return r, true
}

// advance waits for the next task, and has the feed take a further one for the one before.
func (p *pipe) advance() bool {
	if p.lots > 0 {
		p.feed.turns <- struct{}{}
	}
	p.task, p.at, p.results = task{}, 0, nil
	select {
	case <-p.ctx.Done():
		return false
	case t, more := <-p.feed.queue:
		if !more {
			p.feed.rethrow()
			return false
		}
		return p.await(t)
	}
}

func (p *pipe) await(t task) bool {
	p.task = t
	if p.feed.tasks == nil {
		return true
	}
	select {
	case <-p.ctx.Done():
		return false
	case p.results = <-t.done:
		return true
	}
}

// end ends all work, and waits for it, but not for what the feed may be waiting for.
func (p *pipe) end() {
	p.stop()
	p.workers.Wait()
	if p.feed.ends() {
		p.feed.rethrow()
	}
}

// works yields work until there is none or yield returns false, in which the context ends
// too. It may block.
type works func(ctx context.Context, yield func(work) bool)

// feed takes work on a goroutine of its own, as much ahead as there are turns.
type feed struct {
	turns chan struct{} // one for each work that may be taken; so nothing below is ever full
	queue chan task     // in order, closed behind the last
	tasks chan task     // the same, for workers; nil without any
	ended chan struct{} // closed last
	broke any           // what the works panicked with; known when the queue is closed

	mutex  sync.Mutex
	inside bool // in the works' own code, and not at its yield
}

func newFeed(room int, workers bool) *feed {
	f := &feed{turns: make(chan struct{}, room), queue: make(chan task, room), ended: make(chan struct{})}
	if workers {
		f.tasks = make(chan task, room)
	}
	for range room {
		f.turns <- struct{}{}
	}
	return f
}

func (f *feed) run(ctx context.Context, works works) {
	returned := false
	defer func() {
		// A goroutine that is ended, as by a failing test, must not pass for the end of the lots.
		if f.broke = recover(); f.broke == nil && !returned && ctx.Err() == nil {
			f.put(failing(errors.New("what the lots are taken from ended its goroutine (runtime.Goexit) before it returned")))
		}
		f.outside()
		close(f.queue)
		if f.tasks != nil {
			close(f.tasks)
		}
		close(f.ended)
	}()
	if f.turn(ctx) {
		works(ctx, func(w work) bool { return f.hand(ctx, w) })
	}
	returned = true
}

// hand hands work on, and waits until there may be more; false where there may not.
func (f *feed) hand(ctx context.Context, w work) bool {
	f.outside() // before the loop can know of the work
	f.put(w)
	return f.turn(ctx)
}

// put has room for work that had its turn.
func (f *feed) put(w work) {
	t := task{work: w}
	if f.tasks != nil {
		t.done = make(chan []result, 1)
	}
	f.queue <- t
	if f.tasks != nil {
		f.tasks <- t
	}
}

// turn waits for the turn to take work; false where the loop has ended.
func (f *feed) turn(ctx context.Context) bool {
	select {
	case <-ctx.Done():
		return false
	case <-f.turns:
	}
	f.mutex.Lock()
	defer f.mutex.Unlock()
	f.inside = ctx.Err() == nil
	return f.inside
}

func (f *feed) outside() {
	f.mutex.Lock()
	f.inside = false
	f.mutex.Unlock()
}

// ends waits for the feed, whose context has ended, to end, unless it is in the works' own
// code, which may block: then it returns false, and the feed ends by itself.
func (f *feed) ends() bool {
	f.mutex.Lock()
	inside := f.inside
	f.mutex.Unlock()
	if !inside {
		<-f.ended
	}
	return !inside
}

// rethrow panics with what the works panicked with, once.
func (f *feed) rethrow() {
	if broke := f.broke; broke != nil {
		f.broke = nil
		panic(broke)
	}
}
