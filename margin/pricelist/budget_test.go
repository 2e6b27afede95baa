package pricelist_test

import (
	"encoding/json"
	"fmt"
	"runtime"
	"syscall"
	"testing"
	"time"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
)

// spent is what it takes to answer a document.
type spent struct {
	in, out, steps int           // bytes: of the document, of its answer without steps, of the steps
	decode         time.Duration // CPU, of the text by encoding/json
	answer         time.Duration // CPU, of deciding it and writing the answer without steps
	why            time.Duration // CPU, of writing it with them
	made, whyMade  uint64        // bytes allocated
	code           quoin.Code    // of what it was refused for
}

// answering answers a document, and counts.
func answering(t testing.TB, text string) (s spent) {
	t.Helper()
	data := []byte(text)
	s.in = len(data)
	s.decode = decoding(data)
	from, made := cpu(), allocated()
	a, err := pricelist.Price(data)
	s.code = code(err)
	s.out = len(quoin.Problems(nil).Error())
	if err != nil {
		s.out = len(err.Error())
	} else if s.out, err = writing(a.WithoutSteps()); err != nil {
		t.Fatal(err)
	}
	s.answer, s.made = cpu()-from, allocated()-made
	if s.code != "" {
		return s
	}
	from, made = cpu(), allocated()
	whole, err := writing(a)
	if err != nil {
		t.Fatal(err)
	}
	s.why, s.whyMade, s.steps = cpu()-from, allocated()-made, whole-s.out
	return s
}

func writing(a pricelist.Answer) (int, error) {
	text, err := json.Marshal(a)
	return len(text), err
}

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

func (s spent) String() string {
	return fmt.Sprintf("%7d in %8v (%5d x) %4d MB, out %8d (%4d x), steps %9d in %8v %4d MB %s", s.in, s.answer.Round(time.Millisecond), s.answer/s.decode, s.made>>20,
		s.out, s.out/s.in, s.steps, s.why.Round(time.Millisecond), s.whyMade>>20, s.code)
}
