package main

import (
	"bufio"
	"context"
	"encoding/gob"
	"errors"
	"io"
	"log/slog"
	"os"
	"os/exec"
	"syscall"
	"time"
)

// Why a document gets no answer though it may have no mistake.
var (
	errBusy = errors.New("all workers are busy")
	errLong = errors.New("the document takes too long")
	errDied = errors.New("the worker ended")
)

// pool are processes of this program that price documents. A goroutine cannot be ended from outside and has no priority; a
// process has both. A document that takes more than patience goes on with the time that others leave, and a spare process
// takes the place of its own, so that it delays nobody. After limit its process is ended.
type pool struct {
	program         string
	patience, limit time.Duration
	free            chan *worker
	spare           chan *worker  // one that is ready to take another's place
	large           chan struct{} // the one place for a document that takes long to be read
	long            chan struct{} // a place for each document that takes longer
}

const large = 64 << 10 // bytes

type worker struct {
	*exec.Cmd
	in   *gob.Encoder
	out  *bufio.Reader
	head *gob.Decoder // of out
}

func newPool(program string, quick, long int, patience, limit time.Duration) (*pool, error) {
	p := &pool{program, patience, limit, make(chan *worker, quick), make(chan *worker, 1), make(chan struct{}, 1), make(chan struct{}, long)}
	for range quick {
		if err := p.hire(p.free); err != nil {
			return nil, err
		}
	}
	return p, p.hire(p.spare)
}

// hire starts a process that is to wait among others.
func (p *pool) hire(to chan<- *worker) error {
	c := exec.Command(p.program, "-worker", "-patience", p.patience.String())
	c.Env = append(os.Environ(), "GOMAXPROCS=1", "GOMEMLIMIT=400MiB")
	c.Stderr = os.Stderr
	c.SysProcAttr = &syscall.SysProcAttr{Setpgid: true} // no signal of a terminal; a priority for all its threads
	in, err1 := c.StdinPipe()
	out, err2 := c.StdoutPipe()
	if err := errors.Join(err1, err2, c.Start()); err != nil {
		return err
	}
	b := bufio.NewReader(out)
	to <- &worker{c, gob.NewEncoder(in), b, gob.NewDecoder(b)}
	return nil
}

// end ends a worker whatever it does, and replace hires another one in its place.
func (w *worker) end() {
	_ = w.Process.Kill()
	_ = w.Wait()
}

func (p *pool) replace() {
	p.free <- <-p.spare
	if err := p.hire(p.spare); err != nil {
		slog.Error("a worker is missing from now on", "error", err)
	}
}

// ask sends a job to a worker, which replies once, or twice where the job takes long. It ends where the worker does.
func (w *worker) ask(j job) <-chan reply {
	replies := make(chan reply, 2)
	go func() {
		defer close(replies)
		for err, status := w.in.Encode(j), 0; err == nil && status == 0; {
			var r reply
			if err = w.head.Decode(&r); err == nil {
				r.body = make([]byte, r.Bytes)
				_, err = io.ReadFull(w.out, r.body)
			}
			if status = r.Status; err == nil {
				replies <- r
			}
		}
	}()
	return replies
}

// begin gives a job to a worker, when its turn has come. A large one leaves its place when it is answered or takes long.
func (p *pool) begin(ctx context.Context, j job) (*worker, <-chan reply, error) {
	if len(j.Document) > large {
		select {
		case p.large <- struct{}{}:
		case <-ctx.Done():
			return nil, nil, errBusy
		}
	}
	select {
	case w := <-p.free:
		return w, w.ask(j), nil
	case <-ctx.Done():
		if len(j.Document) > large {
			<-p.large
		}
		return nil, nil, errBusy
	}
}

// do has a worker answer a job.
func (p *pool) do(ctx context.Context, j job) (reply, error) {
	w, replies, err := p.begin(ctx, j)
	if err != nil {
		return reply{}, err
	}
	r, ok := <-replies
	if len(j.Document) > large {
		<-p.large
	}
	if ok && r.Status != 0 {
		p.free <- w
		return r, nil
	}
	defer w.end() // it ended, or was made slow and cannot be made quick again
	p.replace()
	if !ok {
		return r, errDied
	}
	select {
	case p.long <- struct{}{}:
		defer func() { <-p.long }()
	default:
		return r, errBusy
	}
	ctx, cancel := context.WithTimeout(ctx, p.limit)
	defer cancel()
	select {
	case r, ok = <-replies:
	case <-ctx.Done():
		return r, errLong
	}
	if !ok {
		return r, errDied
	}
	return r, nil
}

// close ends the workers when no job is under way.
func (p *pool) close() {
	(<-p.spare).end()
	for range cap(p.free) {
		(<-p.free).end()
	}
}
