package house_test

import (
	"bufio"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"
)

// The pages that people read whole wrap their prose at 100 characters. Tables and code do not wrap.
func TestPagesAreWrapped(t *testing.T) {
	for _, name := range []string{"DEVELOPERS.md", "margin/pricelist/document.md", "margin/pricelist/codes.md"} {
		f, err := os.Open(filepath.Join(top, name))
		if err != nil {
			t.Fatal(err)
		}
		defer f.Close()
		code := false
		for n, s := 1, bufio.NewScanner(f); s.Scan(); n++ {
			line := s.Text()
			if strings.HasPrefix(strings.TrimSpace(line), "```") {
				code = !code
			}
			if width := utf8.RuneCountInString(line); width > 100 && !code && !strings.HasPrefix(line, "|") {
				t.Errorf("%s:%d has %d characters, at most 100", name, n, width)
			}
		}
	}
}
