package svg

import (
	"fmt"
	"math"

	"unthreaded/path/geom"
)

// matrix is the affine map x' = a x + c y + e, y' = b x + d y + f, in the order in
// which SVG's matrix() lists its numbers (SVG 1.1, 7.4).
type matrix struct{ a, b, c, d, e, f float64 }

var identity = matrix{a: 1, d: 1}

// times returns the map that does n first and m after it.
func (m matrix) times(n matrix) matrix {
	return matrix{
		m.a*n.a + m.c*n.b, m.b*n.a + m.d*n.b,
		m.a*n.c + m.c*n.d, m.b*n.c + m.d*n.d,
		m.a*n.e + m.c*n.f + m.e, m.b*n.e + m.d*n.f + m.f,
	}
}

// apply returns the image of p.
func (m matrix) apply(p geom.Point) geom.Point {
	return geom.Pt(m.a*p.X+m.c*p.Y+m.e, m.b*p.X+m.d*p.Y+m.f)
}

// stretch returns the factor by which the map lengthens the direction that it
// lengthens most: the larger singular value.
func (m matrix) stretch() float64 {
	return (math.Hypot(m.a+m.d, m.b-m.c) + math.Hypot(m.a-m.d, m.b+m.c)) / 2
}

func translation(x, y float64) matrix { return matrix{1, 0, 0, 1, x, y} }

func scaling(x, y float64) matrix { return matrix{x, 0, 0, y, 0, 0} }

// maxTransforms bounds the functions of one transform attribute.
const maxTransforms = 1000

// transform reads a list of transform functions (SVG 1.1, 7.6; SVG 2, 8.5); angles
// are degrees.
func transform(text string) (matrix, error) {
	m := identity
	s := scanner{text: text}
	s.blank()
	for n := 0; s.pos < len(s.text); n++ {
		if n == maxTransforms {
			return m, fmt.Errorf("there are more than %d functions", maxTransforms)
		}
		at := s.pos
		name, args, err := s.call()
		if err != nil {
			return m, fmt.Errorf("at character %d: %w", s.pos+1, err)
		}
		one, err := function(name, args)
		if err != nil {
			return m, fmt.Errorf("at character %d: %w", at+1, err)
		}
		m = m.times(one)
		if s.separator() && s.pos == len(s.text) {
			return m, fmt.Errorf("at character %d: the end where a function is due", s.pos+1)
		}
	}
	return m, nil
}

// call reads a name and up to six numbers in brackets.
func (s *scanner) call() (name string, args []float64, err error) {
	name = s.word()
	s.blank()
	if name == "" || s.peek() != '(' {
		return name, nil, fmt.Errorf("%s where a function with its numbers in brackets is due", s.here())
	}
	s.pos++
	s.blank()
	for comma := false; s.peek() != ')' || comma; comma = s.separator() {
		v, err := s.number()
		if err != nil {
			return name, nil, err
		}
		if args = append(args, v); len(args) > 6 {
			return name, nil, fmt.Errorf("%s has more than 6 numbers", clip(name, 20))
		}
	}
	s.pos++
	return name, args, nil
}

// function returns the matrix of one transform function (SVG 1.1, 7.6).
func function(name string, v []float64) (matrix, error) {
	switch n := len(v); {
	case name == "matrix" && n == 6:
		return matrix{v[0], v[1], v[2], v[3], v[4], v[5]}, nil
	case name == "translate" && n == 1:
		return translation(v[0], 0), nil
	case name == "translate" && n == 2:
		return translation(v[0], v[1]), nil
	case name == "scale" && n == 1:
		return scaling(v[0], v[0]), nil
	case name == "scale" && n == 2:
		return scaling(v[0], v[1]), nil
	case name == "rotate" && n == 1:
		return rotation(v[0]), nil
	case name == "rotate" && n == 3:
		return translation(v[1], v[2]).times(rotation(v[0])).times(translation(-v[1], -v[2])), nil
	case name == "skewX" && n == 1:
		return matrix{1, 0, math.Tan(radians(v[0])), 1, 0, 0}, nil
	case name == "skewY" && n == 1:
		return matrix{1, math.Tan(radians(v[0])), 0, 1, 0, 0}, nil
	default:
		return identity, fmt.Errorf("%s with %d numbers is no transform function", clip(name, 20), n)
	}
}

func radians(degrees float64) float64 { return degrees * math.Pi / 180 }

// rotation turns clockwise to the eye; quarter turns are exact.
func rotation(degrees float64) matrix {
	if q := degrees / 90; q == math.Trunc(q) {
		return [4]matrix{identity, {0, 1, -1, 0, 0, 0}, {-1, 0, 0, -1, 0, 0}, {0, -1, 1, 0, 0, 0}}[int(math.Mod(math.Mod(q, 4)+4, 4))]
	}
	sin, cos := math.Sincos(radians(degrees))
	return matrix{cos, sin, -sin, cos, 0, 0}
}
