package motif

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/path/geom"
)

// Border is the frame that a border motif goes round: its outer size and its width in mm.
// It begins at (0, 0).
type Border struct{ W, H, Width float64 }

// Laid is a motif laid where its repeats have to come out whole.
type Laid struct {
	Pieces []Piece
	// Repeats are those along a level and an upright side, Stretch by how much each
	// is longer (above 1) or shorter than it would be, whichever is farther from 1.
	Repeats [2]int
	Stretch float64
}

// GoesRound tells that the motif can be laid round a border.
func (m Motif) GoesRound() bool { return m.around != nil }

// Borders returns the motifs that can go round a border.
func Borders() []Motif {
	var out []Motif
	for _, m := range Ready() {
		if m.GoesRound() {
			out = append(out, m)
		}
	}
	return out
}

// Around lays the motif round a border, margin mm within its edges, so that its corners
// turn: whole repeats lie between the mitres, and each corner is the same. It fails where
// the motif has no border, or the border no room for it; the message says what to change.
// Cost that of Fit.
func (m Motif) Around(b Border, margin float64, v Values) (Laid, error) {
	if !m.GoesRound() {
		return Laid{}, fmt.Errorf("%s: it has no border: take another motif", m.ID)
	}
	inner := Border{b.W - 2*margin, b.H - 2*margin, b.Width - 2*margin}
	if !(inner.Width >= minBorder) || !(math.Min(b.W, b.H) >= 3*b.Width) || !(margin >= 0) {
		return Laid{}, fmt.Errorf("%s: a border %g mm wide with a margin of %g mm has no room in %g x %g mm: take at least %g mm of it, and a third of the shorter side at most",
			m.ID, b.Width, margin, b.W, b.H, minBorder)
	}
	all, err := m.complete(Shape{Kind: Rectangle, W: b.W, H: b.Width}, v)
	if err != nil {
		return Laid{}, fmt.Errorf("%s: %w", m.ID, err)
	}
	if _, set := v["size"]; !set && m.strips != nil { // one row, however many a strip would hold
		p := sizeParam(0)
		all["size"] = math.Max(p.Min, math.Min(p.Max, inner.Width))
	}
	out, err := m.around(inner, all)
	if err != nil {
		return Laid{}, fmt.Errorf("%s: %w", m.ID, err)
	}
	for i, p := range out.Pieces {
		out.Pieces[i].Path = p.Path.Map(func(q geom.Point) geom.Point { return geom.Pt(q.X+margin, q.Y+margin) }).Compact()
	}
	return out, nil
}

// minBorder is the least width in mm of a border within its margins.
const minBorder = 10.0

// frame is the middle line of a border with round corners, clockwise to the eye from the
// mitre of the upper left corner: quarters of circles of radius q about the corners of the
// box from lo to hi, and the sides between them.
type frame struct {
	lo, hi geom.Point
	q      float64
	// width is that of the border.
	width float64
	// mitres are the arc lengths of the four mitres and that of the first again.
	mitres [5]float64
}

// middle returns the line midway between the edges, its corners rounded with radius q.
func (b Border) middle(q float64) frame {
	r := b.Width/2 + q
	f := frame{lo: geom.Pt(r, r), hi: geom.Pt(b.W-r, b.H-r), q: q, width: b.Width}
	for k := range 4 {
		f.mitres[k+1] = f.mitres[k] + f.side(k) + q*math.Pi/2
	}
	return f
}

// side returns the length of a side between its round corners.
func (f frame) side(k int) float64 {
	if k%2 == 0 {
		return f.hi.X - f.lo.X
	}
	return f.hi.Y - f.lo.Y
}

// find returns the side from whose beginning an arc length lies so far on: below zero in
// the corner before it, beyond its length in the corner after.
func (f frame) find(s float64) (k int, along float64) {
	s = math.Mod(s+2*f.mitres[4], f.mitres[4])
	for k < 3 && s >= f.mitres[k+1] {
		k++
	}
	return k, s - f.mitres[k] - f.q*math.Pi/4
}

// at returns the place at arc length s, off mm outwards.
func (f frame) at(s, off float64) geom.Point {
	k, along := f.find(s)
	corners := [4]geom.Point{f.lo, {X: f.hi.X, Y: f.lo.Y}, f.hi, {X: f.lo.X, Y: f.hi.Y}}
	// On the side itself the way outwards is up, to the right, down, to the left.
	turn := (float64(k) - 1) * math.Pi / 2
	from := corners[k]
	if long := f.side(k); along > long {
		from = corners[(k+1)%4]
		turn += (along - long) / f.q
	} else if along < 0 {
		turn += along / f.q
	} else {
		from = r2.Add(from, r2.Scale(along, geom.Pt(math.Cos(turn+math.Pi/2), math.Sin(turn+math.Pi/2))))
	}
	return r2.Add(from, r2.Scale(f.q+off, geom.Pt(math.Cos(turn), math.Sin(turn))))
}

// room returns how far from arc length s a line may go inwards within the border: in a
// corner less far than on a side.
func (f frame) room(s float64) float64 {
	k, along := f.find(s)
	angle := math.Max(-along, along-f.side(k)) / f.q
	if angle <= 0 || f.q <= f.width/2 {
		return f.width / 2
	}
	return f.q - (f.q-f.width/2)/math.Cos(angle)
}

// aroundRows returns the border of a row figure: a crest points outwards on each mitre, and
// is longer there, since the corner is farther away.
func aroundRows(b Border, v Values, fig figure) (Laid, error) {
	if fig.level > 0 {
		fig = fig.flipped()
	}
	half := math.Min(v["size"], b.Width) / 2
	q := 1.15 * half
	if fig.fills {
		q = cornerRound * half
	}
	r := roundRows{figure: fig, half: half, middle: b.middle(q), repeat: 2 * half / fig.slim}
	out := Laid{Stretch: 1}
	for side := range 4 {
		n, long := r.repeats(side)
		out.Repeats[side%2] = n
		out.Stretch = farther(out.Stretch, long/r.repeat)
	}
	in := func(pl geom.Polyline) bool {
		lo, hi := pl.Bounds()
		return lo.X >= 0 && lo.Y >= 0 && hi.X <= b.W && hi.Y <= b.H
	}
	// Beyond the middle line the corner lies farther than the edge: a crest takes as much
	// of that as keeps its sides within the edge.
	far := (math.Sqrt2 - 1) * 2.15
	for reach := cornerReach; ; reach -= 0.1 {
		if path := r.line(math.Max(0, reach*far)); in(path) || reach < 0 {
			out.Pieces = one("border", path)
			return out, nil
		}
	}
}

// cornerRound is the radius of the middle line in a corner over half the height of a row.
const cornerRound = 0.6

// farther returns that of two stretches which is farther from none.
func farther(a, b float64) float64 {
	if math.Abs(math.Log(b)) > math.Abs(math.Log(a)) {
		return b
	}
	return a
}

// roundRows is a row figure that goes round a border.
type roundRows struct {
	figure
	half, repeat float64
	middle       frame
}

// repeats returns how many lie along a side, and how long each is in mm.
func (r roundRows) repeats(side int) (n int, long float64) {
	length := r.middle.mitres[side+1] - r.middle.mitres[side] - 2*r.wider()
	n = max(1, int(math.Round(length/r.repeat)))
	return n, length / float64(n)
}

// wider is by how many mm the half repeats beside a mitre are longer: so that what points
// inwards lies on the side, clear of the corner, where it would be pinched.
func (r roundRows) wider() float64 {
	if !r.fills {
		return 0
	}
	return r.middle.q * math.Pi / 4
}

// along returns the place along a side, of n repeats long mm each, that is so many repeats
// on.
func (r roundRows) along(u float64, n int, long float64) float64 {
	const crest = 0.38 // of a repeat, on either side of a mitre
	return u*long + r.wider()*(smoothstep(u/crest)+1-smoothstep((float64(n)-u)/crest))
}

// line returns the closed line, the crests on the mitres longer by a share.
func (r roundRows) line(extra float64) geom.Polyline {
	var path geom.Polyline
	for side := range 4 {
		s0, s1 := r.middle.mitres[side], r.middle.mitres[side+1]
		n, long := r.repeats(side)
		put := func(p geom.Point, k int) geom.Point {
			u, off := r.along(p.X+float64(k), n, long), -p.Y*r.half
			if away := math.Min(u, s1-s0-u) / (long/2 + r.wider()); off > 0 && away < 1 {
				c := math.Cos(math.Pi / 2 * math.Max(0, away))
				off *= 1 + extra*c*c
			}
			if off < 0 {
				off *= math.Min(1, r.middle.room(s0+u)/r.half)
			}
			return r.middle.at(s0+u, off)
		}
		for k := range n {
			for _, c := range r.curves {
				path = append(path, geom.Flatten(func(t float64) geom.Point { return put(c.f(t), k) }, c.t0, c.t1, 2*c.pieces)...)
			}
		}
	}
	path = path.Compact()
	path[len(path)-1] = path[0]
	return path
}

// cornerReach is the share of the way to the corner that a crest on the mitre takes; it looks
// best short of the whole (a rounded crest seems nearer to a corner than to a side).
const cornerReach = 0.5

// aroundKeys returns ruler lines square to the border, one pitch apart on all sides, which
// meet on the mitres; the mitres are sewn. They come in the order and the direction in which
// they are sewn, clockwise from the upper left corner: to and fro from edge to edge; round a
// corner the keys of both sides that meet are sewn as one, so that no mitre is sewn twice.
func aroundKeys(b Border, v Values) (Laid, error) {
	pitch := v["spacing"]
	in := [2]float64{b.W - 2*b.Width, b.H - 2*b.Width}
	k := keys{width: b.Width, corner: max(1, int(math.Round(b.Width/pitch))), outer: true}
	out := Laid{Stretch: 1}
	for side := range 4 {
		n := max(1, int(math.Round(in[side%2]/pitch)))
		out.Repeats[side%2] = n
		out.Stretch = farther(out.Stretch, in[side%2]/float64(n)/pitch)
		turn := float64(side) * math.Pi / 2
		k.from = [4]geom.Point{{}, {X: b.W}, {X: b.W, Y: b.H}, {Y: b.H}}[side]
		k.along, k.inward = geom.Pt(math.Round(math.Cos(turn)), math.Round(math.Sin(turn))), geom.Pt(-math.Round(math.Sin(turn)), math.Round(math.Cos(turn)))
		k.turnCorner()
		for i := range n + 1 {
			k.key(b.Width+in[side%2]*float64(i)/float64(n), 0, b.Width)
		}
	}
	out.Pieces = k.pieces
	return out, nil
}

// keys are ruler lines as they are sewn round a border: from is the outer corner at which a
// side begins, along and inward its directions; outer tells that the needle is at the outer
// edge, not at the inner one.
type keys struct {
	pieces              []Piece
	from, along, inward geom.Point
	width               float64
	corner              int // keys on either side of a mitre, and one
	outer               bool
}

// at returns a place so far along the side, and so far inwards.
func (k *keys) at(along, inward float64) geom.Point {
	return r2.Add(k.from, r2.Add(r2.Scale(along, k.along), r2.Scale(inward, k.inward)))
}

func (k *keys) line(p, q geom.Point) {
	k.pieces = append(k.pieces, Piece{Name: fmt.Sprintf("key %d", len(k.pieces)+1), Path: geom.Polyline{p, q}, Ruler: true})
}

// key sews a key from the edge at which the needle is to the other.
func (k *keys) key(along, outer, inner float64) {
	if k.outer {
		k.line(k.at(along, outer), k.at(along, inner))
	} else {
		k.line(k.at(along, inner), k.at(along, outer))
	}
	k.outer = !k.outer
}

// turnCorner sews the corner at which a side begins: its mitre, and the keys of both sides
// that meet on it.
func (k *keys) turnCorner() {
	// bent sews the keys that meet so far from the corner, from the side before or to it.
	bent := func(i int, onward bool) {
		d := k.width * float64(i) / float64(k.corner)
		ends := [2]geom.Point{k.at(0, d), k.at(d, 0)}
		if !onward {
			ends[0], ends[1] = ends[1], ends[0]
		}
		k.line(ends[0], k.at(d, d))
		k.line(k.at(d, d), ends[1])
	}
	if k.outer {
		for i := k.corner - 1; i > 0; i-- {
			bent(i, (k.corner-1-i)%2 == 0)
		}
		k.line(k.at(0, 0), k.at(k.width, k.width))
	} else {
		k.line(k.at(k.width, k.width), k.at(0, 0))
		for i := 1; i < k.corner; i++ {
			bent(i, (k.corner-1-i)%2 == 0)
		}
	}
	k.outer = !k.outer
}

// aroundFeather returns a feather all round: its spine swings along the middle, its heads
// touch the edges and go on round the corners.
func aroundFeather(b Border, v Values) (Laid, error) {
	f := b.middle(0.35 * b.Width)
	waves := func(s0, s1 float64) int { return max(1, int(math.Round((s1-s0)/(3*b.Width)))) }
	var path geom.Polyline
	for side := range 4 {
		s0, s1 := f.mitres[side], f.mitres[side+1]
		n := float64(waves(s0, s1))
		path = append(path, geom.Flatten(func(t float64) geom.Point {
			return f.at(s0+(s1-s0)*t, 0.12*b.Width*math.Sin(2*math.Pi*n*t))
		}, 0, 1, int(8*n))...)
	}
	path = path.Compact()
	path[len(path)-1] = path[0]
	spine, err := geom.NewLine(path)
	if err != nil {
		return Laid{}, err
	}
	q := quills{spine: spine, taper: 1}
	ring := func(d float64) (geom.Line, bool) {
		r := Rect{d, d, b.W - 2*d, b.H - 2*d}
		l, err := geom.NewLine(closed(r.corners()))
		return l, err == nil && r.W > 1 && r.H > 1
	}
	size := math.Min(v["size"], b.Width/2.4)
	outer, ok1 := q.garland(ring, size/2)
	inner, ok2 := q.garland(func(r float64) (geom.Line, bool) { return ring(b.Width - r) }, size/2)
	if !ok1 || !ok2 {
		return Laid{}, fmt.Errorf("the plumes of %g mm do not go round: take smaller ones", size)
	}
	out := Laid{Pieces: one("feather", q.wreath(outer, inner, 0.75*size)), Repeats: [2]int{len(outer), len(inner)}}
	out.Stretch = outer[0].r / (size / 2)
	return out, nil
}
