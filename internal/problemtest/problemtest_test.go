package problemtest_test

import (
	"errors"
	"fmt"
	"testing"

	"example.com/quoin"
	"example.com/quoin/internal/problemtest"
)

func TestTold(t *testing.T) {
	late := quoin.Problem{
		Code: "late", Severity: quoin.Warning, Path: "fairs[0]", Found: "a day too late", Remedy: "be early",
		Args: []quoin.Arg{{Name: "days", Value: "1"}, {Name: "fair", Value: "spring"}},
	}
	none := quoin.Problem{Code: "none", Severity: quoin.Fault, Found: "nothing", Wanted: "a price", Near: "prize"}
	const lateTold = "warning fairs[0]: a day too late; be early [late] {days 1, fair spring}"
	for _, c := range []struct {
		err  error
		want string
	}{
		{nil, ""},
		{errors.New("no problem"), "no problem"},
		{late, lateTold},
		{fmt.Errorf("read: %w", quoin.Problems{late, none}), lateTold + "\nfault found nothing, wanted a price; did you mean prize? [none]"},
	} {
		if got := problemtest.Told(c.err); got != c.want {
			t.Errorf("%v: %s, want %s", c.err, got, c.want)
		}
	}
}
