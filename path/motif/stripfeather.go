package motif

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/path/geom"
)

// fitStripFeather lays a feather along a strip: its spine swings along the middle, its heads
// touch the edges and hardly taper, and each plume leans forward by as much as the next.
func fitStripFeather(f field, v Values, whole bool) ([]Piece, error) {
	lo, hi := f.bounds()
	wide := math.Min(hi.X-lo.X, hi.Y-lo.Y)
	if err := f.fine("width-of-a-plume", v["size"], 3000); err != nil {
		return nil, err
	}
	foot, tip, _ := f.spineEnds(v)
	swing := v["bend"] / 100 * 0.2 * wide
	spine, err := geom.NewLine(swinging(foot, tip, swing, math.Max(1, math.Round(geom.Dist(foot, tip)/(3*wide)))))
	if err != nil {
		return nil, err
	}
	// A head has room between the edge and the spine, also where that swings near.
	size := math.Min(v["size"], 0.92*(wide/2-math.Abs(swing)))
	q := quills{
		spine: spine, behind: 0.75 * size, lead: 0.35 * wide / spine.Length(),
		taper: math.Max(1-v["taper"]/100, math.Pow(0.8, size/spine.Length())),
	}
	var sides [2][]head
	for i, forward := range []bool{true, false} {
		heads, ok := q.heads(func(r float64) (geom.Line, bool) { return f.rimFrom(foot, tip, r, forward) }, size/2)
		if !ok {
			return nil, f.tooLarge("width-of-a-plume", v["size"], f.radius*0.8)
		}
		sides[i] = heads
	}
	q.from = math.Min(q.root(sides[0][0]), q.root(sides[1][0]))
	if whole {
		q.whole = true
		up, down := sides[0], sides[1]
		last := math.Min(nearestOn(spine, up[len(up)-1].at)-0.6*up[len(up)-1].r, nearestOn(spine, down[len(down)-1].at)-0.6*down[len(down)-1].r)
		q.lead = 1 - last/spine.Length()
	}
	return one("feather", f.kept(q.sew(sides[0], sides[1]))), nil
}

// swinging returns a spine that swings to both sides of the straight way, in so many waves.
func swinging(foot, tip geom.Point, by, waves float64) geom.Polyline {
	way := r2.Unit(r2.Sub(tip, foot))
	side := geom.Pt(-way.Y, way.X)
	return geom.Flatten(func(t float64) geom.Point {
		return r2.Add(geom.Lerp(foot, tip, t), r2.Scale(by*math.Sin(2*math.Pi*waves*t), side))
	}, 0, 1, int(8*waves))
}

// follow puts each inner knot behind the place where its heads touch; where many heads
// stand about the foot or the tip, a little apart.
func (q quills) follow(knots []float64, heads []head) {
	n := len(heads)
	for i := 1; i < n; i++ {
		a, b := heads[i-1], heads[i]
		knots[i] = nearestOn(q.spine, geom.Lerp(a.at, b.at, a.r/(a.r+b.r))) - q.behind
		knots[i] = math.Max(knots[i], knots[i-1]+0.3*a.r)
	}
	for i := n - 1; i > 0; i-- {
		knots[i] = math.Min(knots[i], knots[i+1]-math.Min(0.3*heads[i].r, (knots[i+1]-knots[0])/float64(i+1)))
	}
}
