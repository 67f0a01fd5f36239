package motif

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/path/geom"
)

// Survey is what an eye and a hand find in a drawing, in numbers. Lengths are in mm
// where the unit stands; the rest is in Spacings, so that a drawing twice as large
// measures the same.
type Survey struct {
	// Pieces are the lines, Points the places at which they turn like a corner.
	Pieces, Points int
	// Length in mm of all lines.
	Length float64
	// Spacing in mm is the area of the shape over the length: how far apart
	// parallel lines of that length lie.
	Spacing float64
	// Ratio is the largest gap over the median along the ridges between lines, a gap
	// being twice the distance to the nearest line; Spread is the standard deviation
	// of the gaps along the ridges over their mean. Open is the share of the shape
	// where the gap is above two spacings.
	Ratio, Spread, Open float64
	// Radius is exceeded by 99 % of the line, Tightest by all of it; corners are
	// left out. Both in spacings.
	Radius, Tightest float64
	// Jump is the largest change of curvature over a third of a spacing, times the
	// spacing: from a straight into an arc of radius r it is 1/r.
	Jump float64
	// Doubled is the share of the line beside which, within 0.15 spacings and at
	// under 25 degrees, lies another strand, one over 0.6 spacings away along it.
	Doubled float64
}

// The sizes at which a survey looks, in spacings.
const (
	surveyGrid   = 1.0 / 6  // between places at which the gap is measured
	surveyStep   = 1.0 / 12 // along the line
	surveyTurn   = 0.3      // over which the turning is averaged
	surveyBeside = 0.15
	surveyAway   = 0.6
	surveyRidge  = 0.2 // the gap from which on a place counts as on a ridge
)

// Survey measures lines in a shape; its outline is no line. Zero for no line. Cost
// about O(area/spacing^2 + length/spacing) times some hundred.
func (s Shape) Survey(pieces []Piece) Survey {
	out := Survey{Pieces: len(pieces)}
	for _, p := range pieces {
		out.Length += p.Path.Length()
	}
	if out.Length == 0 {
		return out
	}
	out.Spacing = s.Area() / out.Length
	strands := make([]strand, len(pieces))
	for i, p := range pieces {
		strands[i] = newStrand(p.Path, surveyStep*out.Spacing)
	}
	at := newDots(s, strands, out.Spacing)
	out.gaps(s, at)
	out.bending(pieces)
	out.Doubled = at.doubled(strands, out.Spacing)
	return out
}

// strand is a line resampled: its places, unit directions and arc lengths.
type strand struct {
	at, way []geom.Point
	s       []float64
}

func newStrand(pl geom.Polyline, step float64) strand {
	l, err := geom.NewLine(pl.Compact())
	if err != nil {
		return strand{}
	}
	n := max(2, int(math.Ceil(l.Length()/step)))
	var out strand
	for i := range n + 1 {
		s := l.Length() * float64(i) / float64(n)
		out.at, out.way, out.s = append(out.at, l.At(s)), append(out.way, l.Tangent(s)), append(out.s, s)
	}
	return out
}

// away returns how far apart two of its places are along the strand, the shorter way
// round where it is closed.
func (t strand) away(i, j int) float64 {
	d := math.Abs(t.s[i] - t.s[j])
	if last := len(t.at) - 1; geom.Dist(t.at[0], t.at[last]) < 1e-6 {
		d = math.Min(d, t.s[last]-d)
	}
	return d
}

// dots finds what lies near a place. Each is the strand and the number in it.
type dots struct {
	b       *buckets
	strand  []int
	number  []int
	strands []strand
}

func newDots(s Shape, strands []strand, spacing float64) dots {
	w, h := s.Box()
	d := dots{b: newBuckets(geom.Pt(0, 0), geom.Pt(w, h), spacing), strands: strands}
	for i, st := range strands {
		for k, p := range st.at {
			d.b.add(len(d.strand), p)
			d.strand, d.number = append(d.strand, i), append(d.number, k)
		}
	}
	return d
}

// gaps fills in what is said of the distances between lines.
func (v *Survey) gaps(s Shape, at dots) {
	step := surveyGrid * v.Spacing
	w, h := s.Box()
	cols, rows := int(w/step)+1, int(h/step)+1
	f := newField(s, 0)
	grid := make([]float64, cols*rows)
	for j := range rows {
		for i := range cols {
			p := geom.Pt((float64(i)+0.5)*step, (float64(j)+0.5)*step)
			grid[j*cols+i] = -1
			if f.depth(p) >= 0 {
				grid[j*cols+i] = 2 * at.nearest(p) / v.Spacing
			}
		}
	}
	var ridge []float64
	largest, inside, open := 0.0, 0, 0
	for j := range rows {
		for i := range cols {
			g := grid[j*cols+i]
			if g < 0 {
				continue
			}
			inside++
			largest = math.Max(largest, g)
			if g > 2 {
				open++
			}
			if g > surveyRidge && onRidge(grid, cols, rows, i, j) {
				ridge = append(ridge, g)
			}
		}
	}
	if len(ridge) == 0 || inside == 0 {
		return
	}
	slices.Sort(ridge)
	v.Open = float64(open) / float64(inside)
	v.Ratio = largest / ridge[len(ridge)/2]
	mean, square := 0.0, 0.0
	for _, g := range ridge {
		mean += g / float64(len(ridge))
	}
	for _, g := range ridge {
		square += (g - mean) * (g - mean) / float64(len(ridge))
	}
	v.Spread = math.Sqrt(square) / mean
}

// onRidge tells whether the gap is largest along at least one of four directions;
// beyond the shape it counts as nothing.
func onRidge(grid []float64, cols, rows, i, j int) bool {
	get := func(i, j int) float64 {
		if i < 0 || j < 0 || i >= cols || j >= rows {
			return -1
		}
		return grid[j*cols+i]
	}
	g := get(i, j)
	for _, d := range [4][2]int{{1, 0}, {0, 1}, {1, 1}, {1, -1}} {
		if a, b := get(i+d[0], j+d[1]), get(i-d[0], j-d[1]); g >= a && g > b {
			return true
		}
	}
	return false
}

// nearest returns the distance from p to the nearest dot.
func (d dots) nearest(p geom.Point) float64 {
	best := math.Inf(1)
	for k := 0; float64(k-1)*d.b.size < best && k <= max(d.b.cols, d.b.rows); k++ {
		d.b.ring(p, k, func(i int) {
			best = math.Min(best, geom.Dist(p, d.strands[d.strand[i]].at[d.number[i]]))
		})
	}
	return best
}

// bending fills in what is said of curvature, of the parts between corners.
func (v *Survey) bending(pieces []Piece) {
	e := v.Spacing
	var radii []float64
	v.Tightest, v.Radius = math.Inf(1), math.Inf(1)
	for _, p := range pieces {
		for _, part := range smoothParts(p.Path.Compact()) {
			st := newStrand(part, surveyStep*e)
			window := int(math.Round(surveyTurn / surveyStep))
			third := int(math.Round(1 / (3 * surveyStep)))
			var bends []float64
			for k := window; k < len(st.way); k++ {
				turn := 0.0
				for i := k - window; i < k; i++ {
					turn += math.Atan2(r2.Cross(st.way[i], st.way[i+1]), r2.Dot(st.way[i], st.way[i+1]))
				}
				bends = append(bends, turn/(st.s[k]-st.s[k-window])*e)
			}
			for k, b := range bends {
				radii = append(radii, 1/math.Max(math.Abs(b), 1e-3))
				if k >= third {
					v.Jump = math.Max(v.Jump, math.Abs(b-bends[k-third]))
				}
			}
			v.Points++ // where the next part begins
		}
		v.Points--
	}
	if len(radii) > 0 {
		slices.Sort(radii)
		v.Tightest, v.Radius = radii[0], radii[len(radii)/100]
	}
}

// smoothParts returns a line cut at its corners.
func smoothParts(pl geom.Polyline) []geom.Polyline {
	var out []geom.Polyline
	from := 0
	for k := 1; k < len(pl)-1; k++ {
		if math.Abs(geom.TurnAngle(pl[k-1], pl[k], pl[k+1])) >= geom.CornerTurn {
			out = append(out, pl[from:k+1])
			from = k
		}
	}
	return append(out, pl[from:])
}

// doubled returns the share of the line that runs beside another strand.
func (d dots) doubled(strands []strand, spacing float64) float64 {
	all, beside := 0, 0
	least := math.Cos(25 * math.Pi / 180)
	for i, st := range strands {
		for k, p := range st.at {
			all++
			found := false
			d.b.near(p, func(o int) {
				if found {
					return
				}
				j, n := d.strand[o], d.number[o]
				q := strands[j]
				if geom.Dist(p, q.at[n]) > surveyBeside*spacing || math.Abs(r2.Dot(st.way[k], q.way[n])) < least {
					return
				}
				found = j != i || st.away(k, n) > surveyAway*spacing
			})
			if found {
				beside++
			}
		}
	}
	return float64(beside) / float64(max(1, all))
}
