package scene

import (
	"math"

	"unthreaded/path/geom"
)

// Field knows where on the screen lines run and labels stand, and finds room for more.
// Make one with NewField.
type Field struct {
	room   Box
	w, h   int
	lines  []int32 // until Sum: lines per square; after it: those above and left of its corner
	summed bool
	taken  []Box
	thin   [][2]geom.Point // thin lines drawn to labels
}

// square is the side in CSS pixels of the squares in which lines are looked up.
const square = 2.0

// NewField returns the field of a part of the screen. Memory a word for each square.
func NewField(room Box) *Field {
	f := &Field{room: room, w: int((room.Hi.X-room.Lo.X)/square) + 2, h: int((room.Hi.Y-room.Lo.Y)/square) + 2}
	f.w, f.h = max(2, f.w), max(2, f.h)
	f.lines = make([]int32, f.w*f.h)
	return f
}

// Run marks a line on the screen. All lines have to be marked before room is looked for.
func (f *Field) Run(pts []geom.Point) {
	for i := 1; i < len(pts); i++ {
		a, b := pts[i-1], pts[i]
		n := int(geom.Dist(a, b)/(square/2)) + 1
		if far := f.room; math.Max(a.X, b.X) < far.Lo.X || math.Min(a.X, b.X) > far.Hi.X || math.Max(a.Y, b.Y) < far.Lo.Y || math.Min(a.Y, b.Y) > far.Hi.Y {
			continue
		}
		for k := 0; k <= n; k++ {
			p := geom.Lerp(a, b, float64(k)/float64(n))
			if x, y := f.column(p.X), f.row(p.Y); x > 0 && y > 0 && x < f.w && y < f.h {
				f.lines[y*f.w+x] = 1
			}
		}
	}
}

func (f *Field) column(x float64) int { return int(math.Floor((x-f.room.Lo.X)/square)) + 1 }
func (f *Field) row(y float64) int    { return int(math.Floor((y-f.room.Lo.Y)/square)) + 1 }

// sum makes sums over all squares above and to the left (Crow, SIGGRAPH 1984, from memory),
// so that a box is looked up in four steps.
func (f *Field) sum() {
	if f.summed {
		return
	}
	f.summed = true
	for y := range f.h {
		for x := range f.w {
			i := y*f.w + x
			if x > 0 {
				f.lines[i] += f.lines[i-1]
			}
			if y > 0 {
				f.lines[i] += f.lines[i-f.w]
			}
			if x > 0 && y > 0 {
				f.lines[i] -= f.lines[i-f.w-1]
			}
		}
	}
}

// Take keeps a box free of labels from now on.
func (f *Field) Take(b Box) { f.taken = append(f.taken, b) }

// clearOf is how far in CSS pixels labels keep from lines and from each other.
const clearOf = 2.0

// Free tells whether a label may stand in a box: in sight, on no line, clear of others.
func (f *Field) Free(b Box) bool {
	if b.Lo.X < f.room.Lo.X || b.Lo.Y < f.room.Lo.Y || b.Hi.X > f.room.Hi.X || b.Hi.Y > f.room.Hi.Y {
		return false
	}
	f.sum()
	x0, y0 := max(0, f.column(b.Lo.X-clearOf)-1), max(0, f.row(b.Lo.Y-clearOf)-1)
	x1, y1 := min(f.w-1, f.column(b.Hi.X+clearOf)), min(f.h-1, f.row(b.Hi.Y+clearOf))
	if f.lines[y1*f.w+x1]-f.lines[y0*f.w+x1]-f.lines[y1*f.w+x0]+f.lines[y0*f.w+x0] > 0 {
		return false
	}
	for _, o := range f.taken {
		if b.Lo.X < o.Hi.X+clearOf && o.Lo.X < b.Hi.X+clearOf && b.Lo.Y < o.Hi.Y+clearOf && o.Lo.Y < b.Hi.Y+clearOf {
			return false
		}
	}
	for _, l := range f.thin {
		if b.meets(l[0], l[1]) {
			return false
		}
	}
	return true
}

// meets tells whether the stretch from p to q runs through the box (Liang & Barsky, ACM
// Trans. Graphics 3, 1984, from memory).
func (b Box) meets(p, q geom.Point) bool {
	from, to := 0.0, 1.0
	cut := func(d, lo, hi float64) bool {
		if d == 0 {
			return lo <= 0 && hi >= 0
		}
		a, z := lo/d, hi/d
		from, to = math.Max(from, math.Min(a, z)), math.Min(to, math.Max(a, z))
		return from <= to
	}
	return cut(q.X-p.X, b.Lo.X-p.X, b.Hi.X-p.X) && cut(q.Y-p.Y, b.Lo.Y-p.Y, b.Hi.Y-p.Y)
}

// Place finds room for a label of a size, near its mark, in one of the places wanted, else
// where it is nearest to the mark and at most so far; from farther than near pixels a thin
// line leads to it. It takes the room. False where there is none.
func (f *Field) Place(w, h float64, mark geom.Point, wanted []geom.Point, most float64) (at geom.Point, thin []geom.Point, found bool) {
	for _, p := range wanted {
		if b := Around(p, w, h); f.Free(b) {
			f.Take(b)
			return p, nil, true
		}
	}
	const ringStep, turnStep, near = 5.0, 7.0, 9.0
	for r := h; r <= most; r += ringStep {
		n := max(8, int(2*math.Pi*r/turnStep))
		for k := range n {
			s, c := math.Sincos(2 * math.Pi * float64(k) / float64(n))
			p := geom.Pt(mark.X+(r+w/2-h/2)*c, mark.Y+r*s)
			b := Around(p, w, h)
			if !f.Free(b) {
				continue
			}
			foot := b.nearest(mark)
			if geom.Dist(foot, mark) <= near {
				f.Take(b)
				return p, nil, true
			}
			if f.through(foot, mark) {
				continue
			}
			f.Take(b)
			f.thin = append(f.thin, [2]geom.Point{foot, mark})
			return p, []geom.Point{foot, mark}, true
		}
	}
	return at, nil, false
}

// through tells whether a thin line to a mark would run through a label.
func (f *Field) through(p, mark geom.Point) bool {
	for _, o := range f.taken {
		if o.meets(p, mark) && !o.holds(mark) {
			return true
		}
	}
	return false
}

// nearest returns the place of the box nearest to p.
func (b Box) nearest(p geom.Point) geom.Point {
	return geom.Pt(within(p.X, b.Lo.X, b.Hi.X), within(p.Y, b.Lo.Y, b.Hi.Y))
}
