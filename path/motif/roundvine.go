package motif

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/path/geom"
)

// aroundVine returns a vine all round: its stem swings along the middle, an outward crest on
// each mitre, a leaf each quarter wave to either side in turn. Leaves keep their form; those
// that would point into the inner corner are left out.
func aroundVine(b Border, v Values) (Laid, error) {
	const swing, ahead, wide, first = 0.055, 0.235, 0.26, 0.12
	half := math.Min(v["size"], b.Width) / 2
	repeat := 2 * half / vine().slim * 100 / v["density"]
	f := b.middle(cornerRound * half)
	corner := f.q * math.Pi / 4
	out := Laid{Stretch: 1}
	var path geom.Polyline
	for side := range 4 {
		s0, s1 := f.mitres[side], f.mitres[side+1]
		n := max(1, int(math.Round((f.side(side)+2*corner)/repeat)))
		long := (f.side(side) + 2*corner) / float64(n)
		out.Repeats[side%2], out.Stretch = n, farther(out.Stretch, long/repeat)
		stem := func(s float64) geom.Point { return f.at(s, swing*repeat*math.Cos(2*math.Pi*(s-s0)/long)) }
		from := s0
		for k := range 4 * n {
			at, lean, reach := s0+(float64(k)+first)/4*long, ahead*long, 0.98
			if k == 0 { // the leaf on the mitre points into the corner
				at, lean, reach = s0, 0, 1.3
			}
			outer := k%2 == 0
			// Worked out so that opposite sides, equally long, have the same leaves.
			on := (float64(k) + first) / 4 * long
			if !outer && (on < corner+0.1*long || on+ahead*long > f.side(side)+corner) {
				continue
			}
			path = append(path, geom.Flatten(stem, from, at, 2)...)
			from = at
			base := stem(at)
			way := r2.Unit(r2.Sub(f.at(at+0.01, 0), f.at(at-0.01, 0)))
			bow := -1.0
			up := geom.Pt(way.Y, -way.X) // outwards
			room := half - swing*repeat*math.Cos(2*math.Pi*(at-s0)/long)
			if !outer {
				bow, up, room = 1, r2.Scale(-1, up), 2*half-room
			}
			tip := r2.Add(base, r2.Add(r2.Scale(lean, way), r2.Scale(reach*room, up)))
			for _, c := range leafAbout(base, tip, wide, bow) {
				path = append(path, geom.Flatten(c.f, c.t0, c.t1, 2*c.pieces)...)
			}
		}
		path = append(path, geom.Flatten(stem, from, s1, 3)...)
	}
	path = path.Compact()
	path[len(path)-1] = path[0]
	out.Pieces = one("border", path)
	return out, nil
}

// aroundCable returns the strands of a cable all round, each closed: a crest of the first lies
// outwards on each mitre, so that a lens of the cable turns the corner.
func aroundCable(b Border, v Values) (Laid, error) {
	half := math.Min(v["size"], b.Width) / 2
	repeat := cableRepeat(2*half, v)
	f := b.middle(1.35 * half)
	strands := int(v["strands"])
	out := Laid{Stretch: 1}
	far := (math.Sqrt2 - 1) * 2.35 * cornerReach
	for j := range strands {
		var path geom.Polyline
		for side := range 4 {
			s0, s1 := f.mitres[side], f.mitres[side+1]
			n := max(1, int(math.Round((s1-s0)/repeat)))
			long := (s1 - s0) / float64(n)
			out.Repeats[side%2], out.Stretch = n, farther(out.Stretch, long/repeat)
			path = append(path, geom.Flatten(func(s float64) geom.Point {
				off := half * math.Cos(2*math.Pi*((s-s0)/long+float64(j)/float64(strands)))
				if away := math.Min(s-s0, s1-s) / (long / 2); away < 1 {
					c := math.Cos(math.Pi / 2 * away)
					if off > 0 {
						off *= 1 + far*c*c
					} else { // short of the inner corner, so that it rounds it
						off *= 1 - 0.3*c*c
					}
				}
				return f.at(s, off)
			}, s0, s1, 16*n)...)
		}
		path = path.Compact()
		path[len(path)-1] = path[0]
		out.Pieces = append(out.Pieces, Piece{Name: fmt.Sprintf("cable 1, strand %d", j+1), Path: path})
	}
	return out, nil
}
