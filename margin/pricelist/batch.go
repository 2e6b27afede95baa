package pricelist

import (
	"context"
	"iter"
	"sync"

	"example.com/quoin"
)

// Batch says how a stream of lots is decided.
type Batch struct {
	// Workers is how many lots are decided at the same time; with fewer than two
	// they are decided one after the other, where the answers are asked for. As
	// many as the machine has cores is a good number.
	Workers int
	// Bare drops the reasons: answers have prices, what is allowed, statements, and
	// conflicts, and neither steps nor warnings.
	Bare bool
	// GoOn has the lots behind one that is at fault decided too. Without it the first
	// fault is the last that is yielded.
	GoOn bool
}

// Decide decides lots as they come and yields an answer for each, in their order,
// or what is wrong with it: quoin.Problems with paths under lots[i], counted from 0,
// or what the lots' own iterator yields. Cancelling the context ends it, and its
// error is yielded last. However many lots there are, some twenty for each worker are
// kept at most; when the loop over the answers ends, so has all work.
func (b Batch) Decide(ctx context.Context, s *Shop, lots iter.Seq2[Lot, error]) iter.Seq2[Answer, error] {
	return b.run(ctx, s, func(yield func(job) bool) {
		i := 0
		for lot, err := range lots {
			at := quoin.InList("lots", i)
			if !yield(func(d *desk) (Answer, error) {
				if err != nil {
					return Answer{}, err
				}
				a, err := d.decide(lot, b.Bare)
				return a, under(at, err)
			}) {
				return
			}
			i++
		}
	})
}

// job decides one lot at a desk.
type job func(*desk) (Answer, error)

// result is what a job came to, when it is there.
type result struct {
	answer Answer
	err    error
}

// task is a job and where its result goes.
type task struct {
	job  job
	done chan result
}

// ahead is how many lots wait for each worker, so that none is woken for a single one.
const ahead = 16

func (b Batch) run(ctx context.Context, s *Shop, jobs iter.Seq[job]) iter.Seq2[Answer, error] {
	return func(yield func(Answer, error) bool) {
		results := b.parallel
		if b.Workers < 2 {
			results = inline
		}
		for r := range results(ctx, s, jobs) {
			if err := ctx.Err(); err != nil {
				yield(Answer{}, err)
				return
			}
			if !yield(r.answer, r.err) || r.err != nil && !b.GoOn {
				return
			}
		}
		if err := ctx.Err(); err != nil {
			yield(Answer{}, err)
		}
	}
}

func inline(ctx context.Context, s *Shop, jobs iter.Seq[job]) iter.Seq[result] {
	return func(yield func(result) bool) {
		d := s.desk()
		for j := range jobs {
			if ctx.Err() != nil {
				return
			}
			a, err := j(d)
			if !yield(result{a, err}) {
				return
			}
		}
	}
}

// parallel hands jobs to workers, and their results on in the order of the jobs. The
// queue of results that are awaited holds the jobs back.
func (b Batch) parallel(ctx context.Context, s *Shop, jobs iter.Seq[job]) iter.Seq[result] {
	return func(yield func(result) bool) {
		ctx, stop := context.WithCancel(ctx)
		var all sync.WaitGroup
		defer all.Wait()
		defer stop()
		tasks, awaited := make(chan task, ahead*b.Workers), make(chan chan result, ahead*b.Workers)
		all.Go(func() { feed(ctx, jobs, tasks, awaited) })
		for range b.Workers {
			all.Go(func() {
				d := s.desk()
				for t := range tasks {
					a, err := t.job(d)
					t.done <- result{a, err}
				}
			})
		}
		for done := range awaited {
			if !yield(<-done) {
				return
			}
		}
	}
}

// feed puts every job into the queue of what is awaited and then gives it to a
// worker, until the context ends. What is awaited is always given, so nobody waits
// in vain.
func feed(ctx context.Context, jobs iter.Seq[job], tasks chan<- task, awaited chan<- chan result) {
	defer close(tasks)
	defer close(awaited)
	for j := range jobs {
		t := task{j, make(chan result, 1)}
		select {
		case <-ctx.Done():
			return
		case awaited <- t.done:
			tasks <- t
		}
	}
}
