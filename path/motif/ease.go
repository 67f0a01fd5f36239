package motif

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/path/geom"
)

// leastKink is the turn in radians at one vertex from which on a line is eased there, where
// its neighbours turn by less than kinkOver times as little.
const (
	leastKink = 0.12
	kinkOver  = 1.8
)

// kinks returns the arc lengths of the inner vertices at which a flattened curve turns much
// more than beside them: where curves were joined at an angle.
func kinks(l geom.Line) []float64 {
	path, cum := l.Path(), l.Cumulative()
	var out []float64
	turn := func(i int) float64 {
		if i < 1 || i > len(path)-2 {
			return 0
		}
		return math.Abs(geom.TurnAngle(path[i-1], path[i], path[i+1]))
	}
	for i := 1; i < len(path)-1; i++ {
		if a := turn(i); a > leastKink && a > kinkOver*math.Max(turn(i-1), turn(i+1)) {
			out = append(out, cum[i])
		}
	}
	return out
}

// eased returns a line whose kinks are rounded over reach mm either way: there each place is
// the mean of those about it, over a stretch that narrows to nothing, so that it leaves the
// line without a bend and stays within any convex shape that holds it. Its ends stay.
func eased(pl geom.Polyline, reach float64) geom.Polyline {
	l, err := geom.NewLine(pl)
	if err != nil {
		return pl
	}
	at := kinks(l)
	if len(at) == 0 {
		return pl
	}
	over := func(s float64) float64 {
		most := 0.0
		for _, k := range at {
			most = math.Max(most, reach*smoothstep(1-math.Abs(s-k)/(2*reach)))
		}
		return math.Min(most, math.Min(s, l.Length()-s))
	}
	var out geom.Polyline
	from := 0.0
	for i := 0; i < len(at); {
		a, b := math.Max(0, at[i]-2*reach), at[i]+2*reach
		for i++; i < len(at) && at[i]-2*reach <= b; i++ {
			b = at[i] + 2*reach
		}
		b = math.Min(b, l.Length())
		if a > from {
			out = append(out, l.Section(from, a)...)
		}
		n := max(1, int(math.Ceil((b-a)/(reach/8))))
		for k := range n + 1 {
			s := a + (b-a)*float64(k)/float64(n)
			out = append(out, mean(l, s, over(s)))
		}
		from = b
	}
	if from < l.Length() {
		out = append(out, l.Section(from, l.Length())...)
	}
	return out.Compact()
}

// mean returns the mean of a line over so many mm either way, what is nearer counting more.
func mean(l geom.Line, s, over float64) geom.Point {
	const n = 6
	var sum geom.Point
	for j := -n + 1; j < n; j++ {
		weight := float64(n-max(j, -j)) / (n * n)
		sum = r2.Add(sum, r2.Scale(weight, l.At(s+over*float64(j)/n)))
	}
	return sum
}

// easing is the share of its size over which the kinks of a row are rounded.
const easing = 0.08

// redrawn returns the motif with another line; what was kept keeps its own.
func (m Motif) redrawn(fit func(f field, v Values) ([]Piece, error)) Motif {
	before := m
	m.before, m.fit = &before, fit
	return m
}

// withoutKinks returns a motif of rows whose lines are eased from now on.
func (m Motif) withoutKinks() Motif {
	before := m
	m = m.easedRows()
	m.before = &before
	return m
}

// easedRows returns a motif of rows whose lines are eased, in blocks and round borders.
func (m Motif) easedRows() Motif {
	fit, around := m.fit, m.around
	ease := func(pieces []Piece, v Values) {
		for i := range pieces {
			pieces[i].Path = eased(pieces[i].Path, easing*v["size"])
		}
	}
	m.fit = func(f field, v Values) ([]Piece, error) {
		pieces, err := fit(f, v)
		ease(pieces, v)
		return pieces, err
	}
	if around != nil {
		m.around = func(b Border, v Values) (Laid, error) {
			out, err := around(b, v)
			ease(out.Pieces, v)
			return out, err
		}
	}
	return m
}
