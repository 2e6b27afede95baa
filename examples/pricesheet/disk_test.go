package main

import (
	"bytes"
	"errors"
	"strings"
	"testing"
)

// full is a disk with some bytes left.
type full struct{ left int }

var errFull = errors.New("no space left on device")

func (d *full) Write(p []byte) (int, error) {
	if len(p) > d.left {
		n := d.left
		d.left = 0
		return n, errFull
	}
	d.left -= len(p)
	return len(p), nil
}

// A list that was cut short by a full disk is no list: the program says so, wherever it is cut.
func TestFullDisk(t *testing.T) {
	for _, args := range [][]string{nil, {"-full"}, {"-markdown"}, {"-html"}, {"-json"}, {"-labels", "3x8"}, {"-why", "bittern-a3"}} {
		var whole, errs bytes.Buffer
		if status := run(args, strings.NewReader(""), &whole, &errs); status != decided {
			t.Fatalf("%q: status %d, %s", args, status, errs.String())
		}
		for _, left := range []int{0, 1, whole.Len() / 2, whole.Len() - 1} {
			errs.Reset()
			if status := run(args, strings.NewReader(""), &full{left}, &errs); status != faulty || !strings.Contains(errs.String(), errFull.Error()) {
				t.Errorf("%q with %d bytes left of %d: status %d, %q", args, left, whole.Len(), status, errs.String())
			}
		}
	}
}
