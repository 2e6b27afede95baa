package schematest_test

import (
	"os"
	"strings"
	"testing"

	"example.com/quoin/margin/history"
)

// Lines that are read are valid, and others are neither.
func TestLines(t *testing.T) {
	s := compiled(t, lineID, "")
	data, err := os.ReadFile(lineFiles)
	if err != nil {
		t.Fatal(err)
	}
	sound := append(strings.Split(strings.TrimSpace(string(data)), "\n"),
		`{"record":"sale","edition":"e","number":"7","date":"2026-01-01","price":0}`,
		`{"record":"trial","id":"t","product":"a","channel":"web","price":9.5,"from":"2026-01-01","until":"2026-02-01","exposure":2.5,"exposure_unit":"stand_days","sold":"0"}`,
	)
	for _, line := range sound {
		_, unread := history.ReadAll(strings.NewReader(line))
		if err := s.Validate(parsed(t, []byte(line))); err != nil || unread != nil {
			t.Errorf("%s: the schema says %v, the reader %v", line, err, unread)
		}
	}
	for _, line := range []string{
		`[]`, `7`, `{}`, `{"record":"prise"}`, `{"record":"price","product":"a","price":"9"}`,
		`{"record":"price","product":"a","price":"9","from":"2026-13-01"}`,
		`{"record":"price","product":"a","price":"0.00","from":"2026-01-01"}`,
		`{"record":"price","product":"a","price":"9,5","from":"2026-01-01"}`,
		`{"record":"price","product":"a","price":"9","from":"2026-01-01","edition":"e"}`,
		`{"record":"sale","edition":"e","date":"2026-01-01"}`,
		`{"record":"sale","edition":"e","number":1,"proof":1,"date":"2026-01-01"}`,
		`{"record":"sale","edition":"e","number":"0","date":"2026-01-01"}`,
		`{"record":"sale","edition":"e","number":1.5,"date":"2026-01-01"}`,
		`{"record":"sale","edition":"e\n","number":1,"date":"2026-01-01"}`,
	} {
		_, err := history.ReadAll(strings.NewReader(line))
		if s.Validate(parsed(t, []byte(line))) == nil || err == nil {
			t.Errorf("%s is valid, or is read: %v", line, err)
		}
	}
}
