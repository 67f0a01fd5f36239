package svg

import (
	"errors"
	"fmt"
	"math"
	"strconv"
)

// errEnd stands in errors for what follows the text.
var errEnd = errors.New("the end")

// scanner reads the microsyntax of attributes: numbers, flags and separators
// (SVG 2, 9.3.9 and 8.5; SVG 1.1, 8.3.9 and 7.6.1). Reading stands at pos.
type scanner struct {
	text string
	pos  int
}

// blank skips white space.
func (s *scanner) blank() {
	for s.pos < len(s.text) && isBlank(s.text[s.pos]) {
		s.pos++
	}
}

func isBlank(c byte) bool { return c == ' ' || c == '\t' || c == '\n' || c == '\r' || c == '\f' }

// separator skips white space with at most one comma in it, and tells whether
// there was one, after which another value has to follow.
func (s *scanner) separator() (comma bool) {
	s.blank()
	if s.pos < len(s.text) && s.text[s.pos] == ',' {
		s.pos++
		s.blank()
		return true
	}
	return false
}

// peek returns the next character, 0 at the end.
func (s *scanner) peek() byte {
	if s.pos < len(s.text) {
		return s.text[s.pos]
	}
	return 0
}

// atNumber tells whether a number begins here.
func (s *scanner) atNumber() bool {
	c := s.peek()
	return c >= '0' && c <= '9' || c == '+' || c == '-' || c == '.'
}

// digits skips digits and returns how many there were.
func (s *scanner) digits() int {
	from := s.pos
	for s.pos < len(s.text) && s.text[s.pos] >= '0' && s.text[s.pos] <= '9' {
		s.pos++
	}
	return s.pos - from
}

// number reads the longest number that begins here: "-.5", "1e3", "3." (which SVG
// 1.1 has and SVG 2 has not). An "e" without an exponent is not part of it.
func (s *scanner) number() (float64, error) {
	from := s.pos
	if c := s.peek(); c == '+' || c == '-' {
		s.pos++
	}
	n := s.digits()
	if s.peek() == '.' {
		s.pos++
		n += s.digits()
	}
	if n == 0 {
		s.pos = from
		return 0, fmt.Errorf("%s where a number is due", s.here())
	}
	if c := s.peek(); c == 'e' || c == 'E' {
		mantissa := s.pos
		s.pos++
		if c := s.peek(); c == '+' || c == '-' {
			s.pos++
		}
		if s.digits() == 0 {
			s.pos = mantissa
		}
	}
	v, err := strconv.ParseFloat(s.text[from:s.pos], 64)
	if err != nil || math.Abs(v) > MaxNumber {
		return 0, fmt.Errorf("the number %q is larger than %g", clip(s.text[from:s.pos], 30), MaxNumber)
	}
	return v, nil
}

// flag reads one of the digits 0 and 1, which need nothing after them.
func (s *scanner) flag() (float64, error) {
	switch s.peek() {
	case '0':
		s.pos++
		return 0, nil
	case '1':
		s.pos++
		return 1, nil
	}
	return 0, fmt.Errorf("%s where an arc's flag, 0 or 1, is due", s.here())
}

// here describes the next character for an error.
func (s *scanner) here() string {
	if s.pos >= len(s.text) {
		return errEnd.Error()
	}
	return strconv.Quote(clip(s.text[s.pos:min(len(s.text), s.pos+12)]+" ", 8))
}

// word reads letters.
func (s *scanner) word() string {
	from := s.pos
	for c := s.peek() | 0x20; c >= 'a' && c <= 'z'; c = s.peek() | 0x20 {
		s.pos++
	}
	return s.text[from:s.pos]
}

// numbers reads a whole text as a list of at most limit numbers.
func numbers(text string, limit int) ([]float64, error) {
	s := scanner{text: text}
	var out []float64
	s.blank()
	for comma := false; s.pos < len(s.text) || comma; comma = s.separator() {
		v, err := s.number()
		if err != nil {
			return out, fmt.Errorf("value %d: %w", len(out)+1, err)
		}
		if len(out) == limit {
			return out, fmt.Errorf("there are more than %d values", limit)
		}
		out = append(out, v)
	}
	return out, nil
}
