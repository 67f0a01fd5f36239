package motif

import (
	"math"
	"sort"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/path/geom"
)

// figure is one repeat of a row in its own coordinates: u from 0 to 1 along the row,
// v from -1 at its top to 1 at its foot. It begins and ends at one level, going on
// along the row there, so that repeats join without a bend.
type figure struct {
	curves []stretch
	// slim is the height of a repeat over its length.
	slim float64
	// pitch is how far apart rows lie, in heights, all in phase: chosen by eye, close
	// enough that the gap between rows is about that between repeats.
	pitch float64
	// level is v where it begins.
	level float64
	// fades tells that repeats do not begin along the row, so that the first and the
	// last of a row have to rise from it.
	fades bool
	// fills tells that rows are as high as leaves no band bare between them, and end where
	// what of a repeat reaches beyond it still has room.
	fills bool
}

// filling returns the figure as it fills its field.
func (g figure) filling() figure {
	g.fills = true
	return g
}

// over returns how far a repeat reaches beyond its ends, in repeats.
func (g figure) over() (before, after float64) {
	for _, s := range g.curves {
		for i := range 33 {
			u := s.f(s.t0 + (s.t1-s.t0)*float64(i)/32).X
			before, after = math.Max(before, -u), math.Max(after, u-1)
		}
	}
	return before, after
}

// flipped returns the figure top to bottom.
func (g figure) flipped() figure {
	g.curves, g.level = flip(g.curves), -g.level
	return g
}

// course is how a figure is laid in rows over a field: to and fro, each row turning
// into the next, their height giving way where a seam comes near.
type course struct {
	figure
	// half is half the height of a row in mm, alive how far repeats depart from one
	// another, 0 to 1; noise is that of its seed.
	half, alive float64
	noise       wander
	// before and after are how far the first and the last repeat of a row reach beyond it.
	before, after float64
}

// wander is a smooth random line between -1 and 1: a sum of waves that have no
// common measure.
type wander struct{ phase [4]float64 }

// wanders are the wave numbers of a wander, in waves a unit.
var wanders = [4]float64{0.37, 0.61, 1.13, 1.79}

func newWander(seed float64) wander {
	rnd := dice(Values{"variation": seed})
	var w wander
	for i := range w.phase {
		w.phase[i] = 2 * math.Pi * rnd.Float64()
	}
	return w
}

func (w wander) at(x float64) float64 {
	sum := 0.0
	for i, k := range wanders {
		sum += math.Sin(2*math.Pi*k*x+w.phase[i]) / 4
	}
	return sum
}

// The least share of its height to which a row is squeezed beside a slanting seam,
// and how much of the repeats' length gives way with it.
const (
	leastHeight = 0.5
	shrinkAlong = 0.6
)

// softRoom is the share of half a row's height over which its change beside a seam is
// rounded; where there is room it is lower by half of that.
const softRoom = 0.2

// room returns how far a row at level y may reach up and down at x: as far as the
// nearer seam.
func (f field) room(x, y float64) float64 {
	up, down := f.clip(geom.Pt(x, y), geom.Pt(0, 1))
	return math.Max(0, softMin(-up, down, 4))
}

// softMin returns the smaller of two numbers, rounded over where they differ by less than
// so much.
func softMin(a, b, over float64) float64 {
	h := math.Max(0, over-math.Abs(a-b)) / over
	return math.Min(a, b) - h*h*over/4
}

// reach returns half the height of a row at x that goes from x0 to x1: half where there is
// room, else what the nearer seam leaves, the change between the two rounded. Over the
// last half repeat it stays as it is at the end, so that the row ends level.
func (c course) reach(f field, x, y, x0, x1 float64) float64 {
	still := c.length() / 4
	out := func(d float64) float64 {
		switch {
		case d < 0:
			return 0
		case d < 2*still:
			return d * d / (4 * still)
		}
		return d - still
	}
	near := softMin(f.room(x1-out(x1-x), y), f.room(x0+out(x-x0), y), 0.1*c.half)
	k, short := softRoom*c.half, math.Max(0, c.half-near)
	if short > k {
		return near
	}
	return c.half - k/2 - short*short/(2*k)
}

// usable returns the stretch of the level y over which the field reaches so far up
// and down.
func (f field) usable(y, reach float64) (x0, x1 float64) {
	a0, a1 := f.level(y - reach)
	b0, b1 := f.level(y + reach)
	return math.Max(a0, b0), math.Min(a1, b1)
}

// sew lays the rows and returns the line; false where not even half a repeat has room.
func (c course) sew(f field) (geom.Polyline, bool) {
	lo, hi := f.bounds()
	c.half = math.Min(c.half, (hi.Y-lo.Y)/2)
	if c.fills {
		high := (hi.Y - lo.Y) / 2
		rows := math.Round((high/c.half - 1) / c.pitch)
		c.half = high / (1 + rows*c.pitch)
		c.before, c.after = c.over()
	}
	levels := c.levels(f)
	if c.fills {
		c.half /= 1 - softRoom/2 // which reach takes
	}
	short := func(i int) bool {
		x0, x1 := c.ends(f, levels, i)
		return x1-x0 < c.length()/2
	}
	for len(levels) > 1 && short(0) {
		levels = levels[1:]
	}
	for len(levels) > 1 && short(len(levels)-1) {
		levels = levels[:len(levels)-1]
	}
	if len(levels) == 0 || short(0) {
		return nil, false
	}
	var out geom.Polyline
	var last rowLine
	for i, y := range levels {
		x0, x1 := c.ends(f, levels, i)
		row := c.row(f, y, x0, x1)
		if i%2 == 1 {
			row = row.reversed()
		}
		if i > 0 {
			out = append(out, roundTurn(last, row, c.turnRadius(levels))...)
		}
		out = append(out, row.path...)
		last = row
	}
	return out.Compact(), true
}

// turnRadius is that of the turns between rows: a quarter of a repeat, so that the turn
// lies beside the last repeat as another would.
func (c course) turnRadius(levels []float64) float64 {
	return math.Min(c.length()/4, (levels[1]-levels[0])/2.2)
}

// length is that of a repeat in mm.
func (c course) length() float64 { return 2 * c.half / c.slim }

// levels returns the levels of the rows: the outer ones as near to the upper and the
// lower end as has room for half a repeat, the others evenly between.
func (c course) levels(f field) []float64 {
	lo, hi := f.bounds()
	fits := func(y float64) bool {
		x0, x1 := f.usable(y, 0.999*c.half)
		return x1-x0 >= c.length()/2
	}
	_, mid := f.widestLevel()
	mid = math.Max(lo.Y+c.half, math.Min(hi.Y-c.half, mid))
	for k := 0; !fits(mid); k++ {
		if k == 40 {
			return nil
		}
		mid += (f.middle.Y - mid) / 8
	}
	find := func(out float64) float64 {
		in := mid
		if fits(out) {
			return out
		}
		for range 40 {
			if m := (out + in) / 2; fits(m) {
				in = m
			} else {
				out = m
			}
		}
		return in
	}
	top, foot := find(lo.Y+0.9999*c.half), find(hi.Y-0.9999*c.half)
	n := int(math.Round((foot - top) / (2 * c.half * c.pitch)))
	if n == 0 {
		return []float64{(top + foot) / 2}
	}
	var out []float64
	for i := range n + 1 {
		out = append(out, top+(foot-top)*float64(i)/float64(n))
	}
	return out
}

// ends returns from where to where a row goes: as far as leastHeight has room, where it
// turns into another as far as the turn has, and so that the turn stays clear of the
// repeats beside it.
func (c course) ends(f field, levels []float64, i int) (x0, x1 float64) {
	// Even rows go right, so that row 0 turns into row 1 on the right.
	right, left := i+1, i-1
	if i%2 == 1 {
		right, left = i-1, i+1
	}
	return c.end(f, levels, i, left, -1), c.end(f, levels, i, right, 1)
}

// end returns where row i ends on one side, 1 for the right, where it turns into row j.
func (c course) end(f field, levels []float64, i, j int, side float64) float64 {
	x := c.own(f, levels, i, j, side)
	if j < 0 || j >= len(levels) {
		return x
	}
	// The turn runs beside the row whose height lies between the two levels.
	if beside := min(i, j); c.level < 0 && i == beside || c.level > 0 && i != beside {
		clear := 0.3 * c.length() * c.pitch
		return side * math.Min(side*x, side*c.own(f, levels, j, i, side)+clear)
	}
	return x
}

// own is as end, of the row alone.
func (c course) own(f field, levels []float64, i, j int, side float64) float64 {
	x0, x1 := f.usable(levels[i], leastHeight*c.half)
	x := x1 - c.after*c.length()
	if side < 0 {
		x = x0 + c.before*c.length()
	}
	if j < 0 || j >= len(levels) {
		return x
	}
	r := c.turnRadius(levels)
	off := math.Copysign(r, float64(j-i))
	turn := f.turnPlace(geom.Pt(1, 0), geom.Pt(0, 1), levels[i]+c.level*c.half+off, r, side)
	return side * math.Min(side*x, side*turn)
}

// row lays one row from left to right.
func (c course) row(f field, y, x0, x1 float64) rowLine {
	at := c.spread(f, y, x0, x1)
	n := at.n
	put := func(p geom.Point, k int, t float64) geom.Point {
		x := at.place(p.X + float64(k))
		high := c.reach(f, x, y, x0, x1) * c.lively(x, y)
		if c.fades {
			g := float64(k) + t
			high *= smoothstep(math.Min(g, float64(n)-g) / 0.2)
		}
		return geom.Pt(x, y+p.Y*high)
	}
	var r rowLine
	for k := range n {
		for _, s := range c.curves {
			r.path = append(r.path, geom.Flatten(func(t float64) geom.Point {
				return put(s.f(t), k, (t-s.t0)/(s.t1-s.t0))
			}, s.t0, s.t1, s.pieces)...)
		}
	}
	r.path = r.path.Compact()
	r.from, r.to = geom.Pt(1, 0), geom.Pt(1, 0)
	if m := len(r.path); m > 2 {
		r.from = r2.Unit(r2.Sub(r.path[1], r.path[0]))
		r.to = r2.Unit(r2.Sub(r.path[m-1], r.path[m-2]))
	}
	return r
}

// lively is the share of its height that a row takes at a place.
func (c course) lively(x, y float64) float64 {
	return 1 - 0.3*c.alive*(1+c.noise.at(x/c.length()+y/c.half))/2
}

// spreadSteps is at how many places of a row the length of repeats is worked out.
const spreadSteps = 400

// spread is where the repeats of a row lie: shorter where the row is lower.
type spread struct {
	n      int
	x0, dx float64
	sum    []float64 // repeats up to each place, the last one n
}

func (c course) spread(f field, y, x0, x1 float64) spread {
	s := spread{x0: x0, dx: (x1 - x0) / spreadSteps, sum: make([]float64, spreadSteps+1)}
	for i := range spreadSteps {
		x := x0 + (float64(i)+0.5)*s.dx
		share := math.Max(0.2, c.reach(f, x, y, x0, x1)/c.half/(1-softRoom/2))
		dense := math.Pow(share, -shrinkAlong) * (1 + 0.35*c.alive*c.noise.at(x/c.length()-y/c.half+7))
		s.sum[i+1] = s.sum[i] + dense*s.dx/c.length()
	}
	total := s.sum[spreadSteps]
	s.n = max(1, int(math.Round(total)))
	for i := range s.sum {
		s.sum[i] *= float64(s.n) / total
	}
	return s
}

// place returns x of a place so many repeats from the beginning.
func (s spread) place(u float64) float64 {
	last := len(s.sum) - 1
	i := max(0, min(last-1, sort.SearchFloat64s(s.sum, u)-1))
	return s.x0 + s.dx*(float64(i)+(u-s.sum[i])/(s.sum[i+1]-s.sum[i]))
}

// reversed returns the row sewn the other way.
func (r rowLine) reversed() rowLine {
	return rowLine{r.path.Reversed(), r2.Scale(-1, r.to), r2.Scale(-1, r.from)}
}

// roundTurn returns the way from the end of one row to the beginning of the next below
// it: round, straight along the seam and round again, with a radius of at most r mm.
func roundTurn(a, b rowLine, r float64) geom.Polyline {
	p, q := a.path[len(a.path)-1], b.path[0]
	r = math.Min(r, math.Abs(q.Y-p.Y)/2)
	side := math.Copysign(1, a.to.X) // 1 where it turns on the right
	h0 := math.Atan2(a.to.Y, side*a.to.X)
	h1 := math.Pi - math.Atan2(b.from.Y, -side*b.from.X)
	middle := func(at geom.Point, h float64) geom.Point {
		s, c := math.Sincos(h)
		return geom.Pt(at.X-side*r*s, at.Y+r*c)
	}
	c0, c1 := middle(p, h0), middle(q, h1)
	heading := math.Atan2(c1.Y-c0.Y, side*(c1.X-c0.X))
	var out geom.Polyline
	arc := func(c geom.Point, from, to float64) {
		for _, d := range geom.Arc(geom.Point{}, r, from-math.Pi/2, to-math.Pi/2) {
			out = append(out, geom.Pt(c.X+side*d.X, c.Y+d.Y))
		}
	}
	arc(c0, h0, heading)
	arc(c1, heading, h1)
	return out
}
