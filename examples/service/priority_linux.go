package main

import (
	"os"
	"strconv"

	"golang.org/x/sys/unix"
)

// giveWay lets this process run only when a core has nothing else to do. Threads that come later are like those that start
// them; one that was started while the first ones were told is told in the second round.
func giveWay() {
	for range 2 {
		threads, _ := os.ReadDir("/proc/self/task")
		for _, t := range threads {
			if id, err := strconv.Atoi(t.Name()); err == nil {
				_ = unix.SchedSetAttr(id, &unix.SchedAttr{Size: unix.SizeofSchedAttr, Policy: unix.SCHED_IDLE}, 0)
			}
		}
	}
}
