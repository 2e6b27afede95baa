package pricelist

import (
	"bytes"
	"encoding/json"
	"io"
	"unicode/utf8"
)

// tokens reads a text token by token, as a json.Decoder does. Of a text that
// encoding/json has found to be JSON it only cuts the tokens out, which takes a
// fraction of the time; any other it leaves to the Decoder, whose errors say where it
// ends to be JSON.
type tokens struct {
	data []byte
	at   int
	slow *json.Decoder // nil for a text that is JSON
}

func newTokens(data []byte) *tokens {
	t := &tokens{data: data}
	if !json.Valid(data) {
		t.slow = json.NewDecoder(bytes.NewReader(data))
		t.slow.UseNumber()
	}
	return t
}

// Token returns the next token: a json.Delim, a string, a json.Number, a bool or nil;
// io.EOF after the last.
func (t *tokens) Token() (json.Token, error) {
	if t.slow != nil {
		return t.slow.Token()
	}
	t.pass()
	if t.at == len(t.data) {
		return nil, io.EOF
	}
	switch c := t.data[t.at]; c {
	case '{', '}', '[', ']':
		t.at++
		return json.Delim(c), nil
	case '"':
		return t.text()
	case 't':
		t.at += len("true")
		return true, nil
	case 'f':
		t.at += len("false")
		return false, nil
	case 'n':
		t.at += len("null")
		return nil, nil
	}
	start := t.at
	for t.at < len(t.data) && bytes.IndexByte([]byte("+-.0123456789eE"), t.data[t.at]) >= 0 {
		t.at++
	}
	return json.Number(t.data[start:t.at]), nil
}

// pass goes over what stands between tokens.
func (t *tokens) pass() {
	for t.at < len(t.data) {
		switch t.data[t.at] {
		case ' ', '\t', '\r', '\n', ',', ':':
			t.at++
		default:
			return
		}
	}
}

// text reads a string. What has to be decoded is left to encoding/json.
func (t *tokens) text() (json.Token, error) {
	start := t.at
	plain := t.passText()
	if inside := t.data[start+1 : t.at-1]; plain && utf8.Valid(inside) {
		return string(inside), nil
	}
	var s string
	err := json.Unmarshal(t.data[start:t.at], &s)
	return s, err
}

// passText goes over a string and reports whether nothing in it is escaped.
func (t *tokens) passText() (plain bool) {
	plain = true
	for t.at++; t.data[t.at] != '"'; t.at++ {
		if t.data[t.at] == '\\' {
			plain = false
			t.at++
		}
	}
	t.at++
	return plain
}

// More reports whether the list or object that is being read goes on.
func (t *tokens) More() bool {
	if t.slow != nil {
		return t.slow.More()
	}
	t.pass()
	return t.at < len(t.data) && t.data[t.at] != ']' && t.data[t.at] != '}'
}

// Value returns the next value as it is written.
func (t *tokens) Value() (json.RawMessage, error) {
	if t.slow != nil {
		var raw json.RawMessage
		err := t.slow.Decode(&raw)
		return raw, err
	}
	t.pass()
	start := t.at
	next, err := t.Token()
	if err == nil {
		err = skip(t, next)
	}
	return t.data[start:t.at], err
}

// InputOffset returns where the last token ended.
func (t *tokens) InputOffset() int64 {
	if t.slow != nil {
		return t.slow.InputOffset()
	}
	return int64(t.at)
}
