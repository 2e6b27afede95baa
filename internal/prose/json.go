package prose

import (
	"bytes"
	"unicode/utf8"
)

// AppendJSON writes a text as a string of JSON, as encoding/json does that leaves <, > and & to
// whoever writes HTML.
func AppendJSON(b []byte, text string) []byte {
	b = append(b, '"')
	return CloseJSON(append(b, text...), len(b))
}

// CloseJSON makes a string of JSON of what stands in b from an index on, behind the quotation
// mark that opens it.
func CloseJSON(b []byte, from int) []byte {
	if !plainJSON(b[from:]) {
		b = appendEscaped(b[:from], bytes.Clone(b[from:]))
	}
	return append(b, '"')
}

// plainJSON reports whether a text stands in a string of JSON as it is.
func plainJSON(text []byte) bool {
	ascii := true
	for _, c := range text {
		if c < ' ' || c == '"' || c == '\\' {
			return false
		}
		ascii = ascii && c < utf8.RuneSelf
	}
	return ascii || utf8.Valid(text) && !bytes.ContainsAny(text, lineEnds)
}

// lineEnds are those that JSON may have in a string, and JavaScript long had not.
const lineEnds = "\u2028\u2029"

func appendEscaped(b, text []byte) []byte {
	for len(text) > 0 {
		r, n := utf8.DecodeRune(text)
		switch {
		case r == utf8.RuneError && n == 1:
			b = append(b, `\ufffd`...)
		case r == '"' || r == '\\':
			b = append(b, '\\', byte(r))
		case r < ' ':
			b = appendControl(b, byte(r))
		case r == '\u2028' || r == '\u2029':
			b = append(append(b, `\u202`...), '8'+byte(r-'\u2028'))
		default:
			b = append(b, text[:n]...)
		}
		text = text[n:]
	}
	return b
}

func appendControl(b []byte, c byte) []byte {
	const letters, digits = "btn\x00fr", "0123456789abcdef"
	if i := int(c) - '\b'; i >= 0 && i < len(letters) && letters[i] != 0 {
		return append(b, '\\', letters[i])
	}
	return append(append(b, `\u00`...), digits[c>>4], digits[c&15])
}
