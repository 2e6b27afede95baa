package form

// Scan reads a JSON text piece by piece where it stands, as long as it is as plain as most are:
// objects, lists, whole numbers, and texts in printable ASCII with nothing escaped. Whatever else
// comes, malformed text too, makes it Odd, and then what it returned is of no use: a Collector
// reads any text, and says what is wrong with it.
type Scan struct {
	text []byte
	at   int
	odd  bool
}

// NewScan returns a scan of a text.
func NewScan(text []byte) Scan { return Scan{text: text} }

// Odd reports whether something came that a Scan does not read.
func (s *Scan) Odd() bool { return s.odd }

// peek passes over white space and returns what comes; 0 at the end.
func (s *Scan) peek() byte {
	for s.at < len(s.text) {
		switch c := s.text[s.at]; c {
		case ' ', '\t', '\n', '\r':
			s.at++
		default:
			return c
		}
	}
	return 0
}

func (s *Scan) take(c byte) bool {
	if s.odd || s.peek() != c {
		s.odd = true
		return false
	}
	s.at++
	return true
}

// Open reads the beginning of an object or a list: { or [.
func (s *Scan) Open(c byte) { s.take(c) }

// More reports whether a further entry comes, of which n were read, up to the end of the object
// or the list: } or ], which it reads.
func (s *Scan) More(n int, end byte) bool {
	c := s.peek()
	switch {
	case s.odd:
		return false
	case c == end:
		s.at++
		return false
	case n == 0:
		return true
	}
	return s.take(',')
}

// Name reads the name of a field.
func (s *Scan) Name() []byte {
	name := s.Text()
	s.take(':')
	return name
}

// Text reads a text, which stays where it is.
func (s *Scan) Text() []byte {
	if !s.take('"') {
		return nil
	}
	from := s.at
	for s.at < len(s.text) {
		c := s.text[s.at]
		if c == '"' {
			s.at++
			return s.text[from : s.at-1]
		}
		if c < ' ' || c > '~' || c == '\\' {
			break
		}
		s.at++
	}
	s.odd = true
	return nil
}

// Whole reads a whole number that is not below zero and has at most 18 digits.
func (s *Scan) Whole() int64 {
	s.peek()
	from := s.at
	for s.at < len(s.text) && isDigit(s.text[s.at]) {
		s.at++
	}
	digits := s.text[from:s.at]
	if len(digits) == 0 || len(digits) > 18 || digits[0] == '0' && len(digits) > 1 || s.at < len(s.text) && continues(s.text[s.at]) {
		s.odd = true
		return 0
	}
	var n int64
	for _, c := range digits {
		n = 10*n + int64(c-'0')
	}
	return n
}

func isDigit(c byte) bool { return '0' <= c && c <= '9' }

// continues reports whether a number goes on behind its digits.
func continues(c byte) bool { return c == '.' || c == 'e' || c == 'E' }

// End reports whether the text was plain and nothing follows.
func (s *Scan) End() bool { return s.peek() == 0 && s.at == len(s.text) && !s.odd }

// Digits reads a number without a sign, such as 17.50, in units of its last place: 1750 and 2. It
// has at most so many digits before the point and after it, 18 in all, and no 0 before others.
func Digits(text []byte, whole, places int) (n int64, after int, ok bool) {
	before := 0
	for before < len(text) && isDigit(text[before]) {
		n = 10*n + int64(text[before]-'0')
		if before++; before > whole {
			return 0, 0, false
		}
	}
	if before == 0 || before > 1 && text[0] == '0' {
		return 0, 0, false
	}
	if before == len(text) {
		return n, 0, true
	}
	if after = len(text) - before - 1; text[before] != '.' || after == 0 || after > places || before+after > 18 {
		return 0, 0, false
	}
	for _, c := range text[before+1:] {
		if !isDigit(c) {
			return 0, 0, false
		}
		n = 10*n + int64(c-'0')
	}
	return n, after, true
}
