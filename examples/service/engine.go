package main

import (
	"encoding/gob"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net/http"
	"syscall"
	"time"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
)

// job is what a worker is asked, and reply what is sent to the client.
type (
	job struct {
		Path     string
		Document []byte
	}
	reply struct {
		Status int
		Type   string
		Bytes  int    // of body, which follows
		body   []byte // not copied with the rest: it may have 50 MB
	}
)

// problem is a body as RFC 9457 describes it. Problems is its extension: everything that is wrong, at once.
type problem struct {
	Type     string         `json:"type"`
	Title    string         `json:"title"`
	Status   int            `json:"status"`
	Detail   string         `json:"detail"`
	Problems quoin.Problems `json:"problems,omitempty"`
}

// refusal is a reply that says why there is no answer. Its name is stable; its sentences are not.
func refusal(status int, name, title, detail string, all ...quoin.Problem) reply {
	body, err := json.Marshal(problem{"tag:example.com,2026:quoin/" + name, title, status, detail, all})
	if err != nil {
		panic(err) // of texts and numbers
	}
	return reply{status, "application/problem+json", len(body), body}
}

// mostAnswer is the most bytes that an answer may have: sending it takes time from others.
const mostAnswer = 16 << 20

// small is a document that is priced before any other.
const small = `{"version":1,"currency":"EUR","supplies":[{"id":"paper","quantity":"1 sheet","price":"1.00"}],
	"products":[{"id":"print","bill":[{"supply":"paper","quantity":"1 sheet"}]}],"channels":[{"id":"shop"}],
	"rules":[{"id":"left","rule":"contribution","at_least":"1.00"}]}`

// work answers jobs until there are no more. A job that has taken more than patience of CPU is told by a reply without a
// status, before its own, and this process goes on with the time that others leave.
func work(r io.Reader, w io.Writer, patience time.Duration) error {
	in, out := gob.NewDecoder(r), gob.NewEncoder(w)
	tick := time.NewTicker(min(patience, 10*time.Millisecond))
	job{"/price", []byte(small)}.answer() // what is made once in a process
	for {
		var j job
		if err := in.Decode(&j); err != nil {
			return err
		}
		done, from, long := make(chan reply, 1), cpu(), false
		go func() { done <- j.answer() }()
		for r := (reply{}); r.Status == 0; {
			select {
			case r = <-done:
			case <-tick.C:
				if long || cpu()-from < patience {
					continue
				}
				long = true
				giveWay()
			}
			if err := out.Encode(r); err != nil {
				return err
			}
			if _, err := w.Write(r.body); err != nil {
				return err
			}
		}
	}
}

// cpu is the time that this process has run.
func cpu() time.Duration {
	var u syscall.Rusage
	_ = syscall.Getrusage(syscall.RUSAGE_SELF, &u)
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}

func (j job) answer() reply {
	body, err := j.text()
	var all quoin.Problems
	switch {
	case errors.As(err, &all):
		return refusal(http.StatusUnprocessableEntity, "mistakes", "The document has mistakes.", fmt.Sprintf("%d, the first: %v", len(all), all[0]), all...)
	case err != nil:
		return refusal(http.StatusInternalServerError, "defect", "The service is at fault.", err.Error())
	case body == nil:
		return reply{Status: http.StatusNoContent}
	case len(body) > mostAnswer:
		return refusal(http.StatusUnprocessableEntity, "answer-too-large", "The answer is too large.",
			fmt.Sprintf("It has %d bytes, wanted at most %d. Send fewer products at once.", len(body), mostAnswer))
	}
	return reply{http.StatusOK, "application/json", len(body), body}
}

// text is the answer to a document; none where the document is only checked.
func (j job) text() ([]byte, error) {
	if j.Path == "/check" {
		_, err := pricelist.Decode(j.Document)
		return nil, err
	}
	answer, err := pricelist.Price(j.Document)
	if err != nil {
		return nil, err
	}
	if j.Path == "/curve" {
		answer = answer.WithCurves()
	}
	return answer.AppendJSON(nil)
}
