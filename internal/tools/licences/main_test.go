package main

import (
	"strings"
	"testing"
)

func TestCheck(t *testing.T) {
	const (
		sbom = `{"components": [
			{"name": "example.com/b", "scope": "optional", "evidence": {"licenses": [{"license": {"id": "MPL-2.0"}}]}},
			{"name": "example.com/a", "scope": "required", "licenses": [{"license": {"id": "MIT"}}]}]}`
		record = "example.com/a linked MIT\nexample.com/b tests MPL-2.0\n"
	)
	for _, c := range []struct{ from, to, record, want string }{
		{"", "", record, ""},
		{"", "", "example.com/a linked MIT\n", "the record says otherwise"},
		{"MPL-2.0", "MIT", record, "the record says otherwise"},
		{`"MIT"`, `"GPL-3.0"`, record, `example.com/a has the licence "GPL-3.0"`},
		{`{"license": {"id": "MIT"}}`, "", record, "no licence of example.com/a"},
		{`{"components"`, `"components"`, record, "invalid"},
	} {
		err := check([]byte(strings.Replace(sbom, c.from, c.to, 1)), c.record)
		if err == nil && c.want != "" || err != nil && (c.want == "" || !strings.Contains(err.Error(), c.want)) {
			t.Errorf("%s for %s: %v, want %q", c.to, c.from, err, c.want)
		}
	}
}
