package route

import (
	"math"
	"strconv"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/game/place"
	"unthreaded/game/words"
	"unthreaded/path/geom"
)

// part is a piece of the route and how many pieces are like it.
type part struct{ piece, alike int }

// parts are the different pieces of the route in the order sewn, equal blocks once.
func (r Room) parts() []part {
	pieces := r.Desk.Pieces()
	var out []part
next:
	for i, p := range pieces {
		for k := range out {
			if sameShape(pieces[out[k].piece].Line, p.Line) {
				out[k].alike++
				continue next
			}
		}
		out = append(out, part{i, 1})
	}
	return out
}

// sameShape tells whether two lines are the same but for where they lie.
func sameShape(a, b geom.Line) bool {
	const same = 0.05 // mm, far less than a thread
	p, q := a.Path(), b.Path()
	if math.Abs(a.Length()-b.Length()) > same || len(p) != len(q) {
		return false
	}
	shift := r2.Sub(q[0], p[0])
	for i := range p {
		if geom.Dist(r2.Add(p[i], shift), q[i]) > same {
			return false
		}
	}
	return true
}

// toRehearse offers the different parts of the route to be traced.
func (r Room) toRehearse(b words.Book) []place.Option {
	var out []place.Option
	n := len(r.Desk.Pieces())
	for _, p := range r.parts() {
		out = append(out, place.Option{ID: strconv.Itoa(p.piece), Name: b.Say("route.rehearse", p.piece+1, n, p.alike)})
	}
	return out
}
