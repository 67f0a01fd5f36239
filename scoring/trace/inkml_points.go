package trace

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// pointReader reads the text of one InkML trace: points between commas, values
// between spaces or told apart by sign or qualifier. A qualifier holds for its
// channel until the next: "!" for plain values, "'" for differences from the value
// before, and a double quote for differences of these; "*" repeats the last
// number, "?" is a value not known.
type pointReader struct {
	text     string
	channels []inkChannel
	// regular is the number of channels, from the first, that every point has.
	regular int
	state   []channelState
}

// channelState is where one channel stands: how the next number is to be read,
// the last number, the value and its last change.
type channelState struct {
	mode                  byte
	number, value, change float64
}

func newPointReader(text string, f inkFormat) *pointReader {
	r := &pointReader{text: text, regular: len(f.Channels)}
	r.channels = append(append(r.channels, f.Channels...), f.Intermittent...)
	r.state = make([]channelState, len(r.channels))
	for i, c := range r.channels {
		r.state[i].mode = '!'
		if v, err := number(c.Default); err == nil {
			r.state[i].value = v
		}
	}
	return r
}

// next returns the values of the next point, NaN where not known, or nil at the
// end of the text.
func (r *pointReader) next() ([]float64, error) {
	r.text = strings.TrimLeft(r.text, " \t\r\n")
	if r.text == "" {
		return nil, nil
	}
	values := make([]float64, 0, len(r.channels))
	for r.text != "" && r.text[0] != ',' {
		if len(values) == len(r.channels) {
			return nil, fmt.Errorf("more than %d values", len(r.channels))
		}
		v, err := r.value(len(values))
		if err != nil {
			return nil, fmt.Errorf("channel %s: %w", r.channels[len(values)].Name, err)
		}
		values = append(values, v)
		r.text = strings.TrimLeft(r.text, " \t\r\n")
	}
	r.text = strings.TrimPrefix(r.text, ",")
	if len(values) < r.regular {
		return nil, fmt.Errorf("%d values, need %d", len(values), r.regular)
	}
	for k := len(values); k < len(r.channels); k++ {
		values = append(values, r.state[k].value)
	}
	return values, nil
}

// value reads the next value, that of channel k.
func (r *pointReader) value(k int) (float64, error) {
	s := &r.state[k]
	if strings.IndexByte("!'\"", r.text[0]) >= 0 {
		s.mode = r.text[0]
		r.text = strings.TrimLeft(r.text[1:], " \t\r\n")
		if r.text == "" {
			return 0, fmt.Errorf("the qualifier %q stands before no value", s.mode)
		}
	}
	switch {
	case strings.HasPrefix(r.text, "?"):
		r.text = r.text[1:]
		return math.NaN(), nil
	case strings.HasPrefix(r.text, "*"):
		r.text = r.text[1:]
	case strings.HasPrefix(r.text, "T"), strings.HasPrefix(r.text, "F"):
		s.mode, s.number = '!', 0
		if r.text[0] == 'T' {
			s.number = 1
		}
		r.text = r.text[1:]
	default:
		word := r.word()
		v, err := number(word)
		if err != nil {
			return 0, err
		}
		s.number = v
	}
	return s.step(), nil
}

// step applies the last number in the mode of the channel.
func (s *channelState) step() float64 {
	before := s.value
	switch s.mode {
	case '!':
		s.value = s.number
	case '\'':
		s.value += s.number
	default:
		s.value += s.change + s.number
	}
	s.change = s.value - before
	return s.value
}

// word takes the next number off the text: it ends where its characters end or
// another sign begins.
func (r *pointReader) word() string {
	i := 0
	for ; i < len(r.text); i++ {
		c := r.text[i]
		sign := c == '-' || c == '+'
		if sign && i > 0 && (r.text[0] == '#' || (r.text[i-1] != 'e' && r.text[i-1] != 'E')) {
			break
		}
		if !sign && strings.IndexByte("0123456789.#abcdefABCDEF", c) < 0 {
			break
		}
	}
	w := r.text[:i]
	r.text = r.text[i:]
	if w == "" {
		r.text, w = r.text[1:], r.text[:1]
	}
	return w
}

// number reads a decimal, or a hexadecimal after "#".
func number(word string) (float64, error) {
	if hex, ok := strings.CutPrefix(word, "#"); ok {
		v, err := strconv.ParseUint(hex, 16, 32)
		if err != nil {
			return 0, fmt.Errorf("%q is no number", short(word))
		}
		return float64(v), nil
	}
	v, err := strconv.ParseFloat(word, 64)
	if err != nil || math.IsInf(v, 0) || math.IsNaN(v) {
		return 0, fmt.Errorf("%q is no number", short(word))
	}
	return v, nil
}

// short keeps a hostile word out of a message.
func short(word string) string {
	if len(word) > 24 {
		return word[:24] + "..."
	}
	return word
}
