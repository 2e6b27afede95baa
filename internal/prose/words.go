package prose

import (
	"fmt"
	"strconv"
	"strings"
)

// Words writes a code, such as not_sold, as words.
func Words[T ~string](code T) string { return strings.ReplaceAll(string(code), "_", " ") }

// Count writes a number with the name of what is counted: 1 sale, 2 sales.
func Count[N ~int | ~int64](n N, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

// Behind puts s behind other text: Behind(" in ", "web") is " in web". It is "" where s is.
func Behind(text, s string) string {
	if s == "" {
		return ""
	}
	return text + s
}

// Place says in words where a path of a document leads. name returns the name of what
// stands at a part of the path, or "". What has none is called by its key, or else by its
// number, counted from 1:
//
//	machines[0].prints_per_month                  Pigment printer, prints per month
//	channels["own-shop"].orders[1].shipping       channel own-shop, order 2, shipping
//
// What is not written as a path stays as it is.
func Place(path string, name func(at string) string) string {
	var parts, fields []string
	for rest := path; rest != ""; {
		field, after := rest, ""
		if i := strings.IndexAny(rest, ".["); i >= 0 {
			field, after = rest[:i], rest[i:]
		}
		fields = append(fields, Words(field))
		if strings.HasPrefix(after, "[") {
			key, behind, ok := keyOf(after[1:])
			if !ok {
				return path
			}
			called := name(path[:len(path)-len(behind)])
			if called == "" {
				called = strings.TrimSpace(one(field) + " " + key)
			}
			parts, fields, after = append(parts, called), nil, behind
		}
		rest = strings.TrimPrefix(after, ".")
	}
	if len(fields) > 0 {
		parts = append(parts, strings.Join(fields, " "))
	}
	return strings.Join(parts, ", ")
}

// keyOf reads what stands between brackets, a quoted key or an index, and returns what
// stands behind them.
func keyOf(s string) (key, rest string, ok bool) {
	if quoted, err := strconv.QuotedPrefix(s); err == nil {
		key, err = strconv.Unquote(quoted)
		rest, ok = strings.CutPrefix(s[len(quoted):], "]")
		return key, rest, ok && err == nil
	}
	index, rest, ok := strings.Cut(s, "]")
	n, err := strconv.Atoi(index)
	return strconv.Itoa(n + 1), rest, ok && err == nil
}

// one is the name of an entry of a list.
func one(list string) string {
	if s, ok := strings.CutSuffix(list, "ies"); ok {
		return s + "y"
	}
	return Words(strings.TrimSuffix(list, "s"))
}
