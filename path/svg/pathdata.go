package svg

import (
	"errors"
	"fmt"

	"unthreaded/path/geom"
)

// operands is how many values each command of path data takes at a time.
var operands = map[byte]int{'M': 2, 'L': 2, 'H': 1, 'V': 1, 'C': 6, 'S': 4, 'Q': 4, 'T': 2, 'A': 7, 'Z': 0}

// pathReader reads path data (SVG 1.1, 8.3; SVG 2, 9.3) and draws it with a pen.
type pathReader struct {
	scanner
	*pen
	// handle is the last control point of the command before, the present point if
	// that was none of the kind that S or T mirrors; last is that command.
	handle geom.Point
	last   byte
}

// drawPath draws path data. Up to a fault, which the error places by its character
// counted from 1, all is drawn, as SVG asks (SVG 1.1, F.2).
func (p *pen) drawPath(data string) {
	r := pathReader{scanner: scanner{text: data}, pen: p}
	for r.blank(); r.scanner.pos < len(data) && p.err == nil; r.blank() {
		at := r.scanner.pos
		if err := r.command(); err != nil {
			p.err = fmt.Errorf("path data, character %d: %w", r.scanner.pos+1, err)
		} else if p.err != nil && !errors.Is(p.err, errFull) {
			p.err = fmt.Errorf("path data, command at character %d: %w", at+1, p.err)
		}
	}
}

// command reads a letter and all its values.
func (r *pathReader) command() error {
	letter := r.peek()
	op := letter &^ 0x20 // upper case
	n, ok := operands[op]
	switch {
	case !ok:
		return fmt.Errorf("%s where a command is due", r.here())
	case r.last == 0 && op != 'M':
		return fmt.Errorf("%s before the first M", r.here())
	}
	r.scanner.pos++
	if n == 0 {
		r.closePath()
		r.last = op
		return nil
	}
	r.blank()
	for again := true; again; again = again && r.err == nil {
		v, err := r.values(op, n)
		if err != nil {
			return err
		}
		r.draw(op, v, letter&0x20 != 0)
		if op == 'M' {
			op = 'L' // further pairs are lines
		}
		if again = r.separator(); !again {
			again = r.atNumber()
		}
	}
	return nil
}

// values reads the n values of one command.
func (r *pathReader) values(op byte, n int) (v [7]float64, err error) {
	for i := range n {
		if i > 0 {
			r.separator()
		}
		if op == 'A' && (i == 3 || i == 4) {
			v[i], err = r.flag()
		} else {
			v[i], err = r.number()
		}
		if err != nil {
			return v, err
		}
	}
	return v, nil
}

// draw carries out one command; from is the point that its places count from.
func (r *pathReader) draw(op byte, v [7]float64, relative bool) {
	var from geom.Point
	if relative {
		from = r.cur
	}
	at := func(i int) geom.Point { return geom.Pt(from.X+v[i], from.Y+v[i+1]) }
	before := r.cur
	mirror := before
	if r.last == op || r.last == 'C' && op == 'S' || r.last == 'Q' && op == 'T' {
		mirror = geom.Pt(2*before.X-r.handle.X, 2*before.Y-r.handle.Y)
	}
	r.last = op
	switch op {
	case 'M':
		r.moveTo(at(0))
	case 'L':
		r.lineTo(at(0))
	case 'H':
		r.lineTo(geom.Pt(from.X+v[0], before.Y))
	case 'V':
		r.lineTo(geom.Pt(before.X, from.Y+v[0]))
	case 'C':
		r.handle = at(2)
		r.add(at(0), at(2), at(4))
	case 'S':
		r.handle = at(0)
		r.add(mirror, at(0), at(2))
	case 'Q':
		r.handle = at(0)
		r.quadTo(at(0), at(2))
	case 'T':
		r.handle = mirror
		r.quadTo(mirror, at(0))
	case 'A':
		r.arcTo(v[0], v[1], v[2], v[3] == 1, v[4] == 1, at(5))
	}
}
