package pricelist

import (
	"context"
	"errors"
	"sync"
)

// jobs yields jobs until there are none or yield returns false, in which the context ends
// too. It may block.
type jobs func(ctx context.Context, yield func(job) bool)

// feed takes jobs on a goroutine of its own, as many ahead as there are turns.
type feed struct {
	turns chan struct{} // one for each job that may be taken; so nothing below is ever full
	queue chan task     // in order, closed behind the last
	tasks chan task     // the same, for workers; nil without any
	ended chan struct{} // closed last
	broke any           // what the jobs panicked with; known when the queue is closed

	mutex  sync.Mutex
	inside bool // in the jobs' own code, and not at its yield
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

func (f *feed) run(ctx context.Context, jobs jobs) {
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
		jobs(ctx, func(j job) bool { return f.hand(ctx, j) })
	}
	returned = true
}

// hand hands a job on, and waits until there may be a further one; false where there may
// not.
func (f *feed) hand(ctx context.Context, j job) bool {
	f.outside() // before the loop can know of the job
	f.put(j)
	return f.turn(ctx)
}

// put has room for a job that had its turn.
func (f *feed) put(j job) {
	t := task{j, make(chan result, 1)}
	f.queue <- t
	if f.tasks != nil {
		f.tasks <- t
	}
}

// turn waits for the turn to take a job; false where the loop has ended.
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

// ends waits for the feed, whose context has ended, to end, unless it is in the jobs' own
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

// rethrow panics with what the jobs panicked with, once.
func (f *feed) rethrow() {
	if broke := f.broke; broke != nil {
		f.broke = nil
		panic(broke)
	}
}
