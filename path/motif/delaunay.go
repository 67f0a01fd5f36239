package motif

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/path/geom"
)

// triangle is a triangle of a triangulation: its corners, so that each turn is
// positive, and the triangles beyond the sides facing them (-1: none).
type triangle struct {
	corner [3]int
	beyond [3]int
	gone   bool
}

// mesh is a Delaunay triangulation under construction (Bowyer 1981, Watson 1981:
// the triangles whose circle holds a new point make way for those from it to the
// rim of the hole).
type mesh struct {
	pts  []geom.Point
	tris []triangle
	last int
}

// neighbours returns for each point the points that it shares a side of a Delaunay
// triangle with, in order of their angle. Points should not coincide. Cost about
// O(n^1.5), for points that come row by row nearly O(n).
func neighbours(pts []geom.Point) [][]int {
	n := len(pts)
	lo, hi := geom.Polyline(pts).Bounds()
	m, far := geom.Lerp(lo, hi, 0.5), 50*(geom.Dist(lo, hi)+1)
	t := mesh{pts: append(append([]geom.Point{}, pts...),
		geom.Pt(m.X-far, m.Y-far), geom.Pt(m.X+far, m.Y-far), geom.Pt(m.X, m.Y+far))}
	t.tris = []triangle{{corner: [3]int{n, n + 1, n + 2}, beyond: [3]int{-1, -1, -1}}}
	for i := range n {
		t.insert(i)
	}
	near := make([][]int, n)
	for _, tri := range t.tris {
		for k := range 3 {
			a, b := tri.corner[k], tri.corner[(k+1)%3]
			if !tri.gone && a < n && b < n {
				near[a] = append(near[a], b)
				near[b] = append(near[b], a)
			}
		}
	}
	for i := range near {
		angle := func(j int) float64 { d := r2.Sub(pts[j], pts[i]); return math.Atan2(d.Y, d.X) }
		slices.Sort(near[i])
		near[i] = slices.Compact(near[i])
		slices.SortFunc(near[i], func(a, b int) int { return cmp.Compare(angle(a), angle(b)) })
	}
	return near
}

// turnOf returns twice the area of the triangle a b c, positive when it turns from
// x to y.
func turnOf(a, b, c geom.Point) float64 { return r2.Cross(r2.Sub(b, a), r2.Sub(c, a)) }

// holds tells whether the circle through a triangle's corners holds p.
func (t *mesh) holds(i int, p geom.Point) bool {
	c := t.tris[i].corner
	a, b, d := r2.Sub(t.pts[c[0]], p), r2.Sub(t.pts[c[1]], p), r2.Sub(t.pts[c[2]], p)
	return r2.Norm2(a)*r2.Cross(b, d)-r2.Norm2(b)*r2.Cross(a, d)+r2.Norm2(d)*r2.Cross(a, b) > 0
}

// locate walks to the triangle in which p lies.
func (t *mesh) locate(p geom.Point) int {
	at := t.last
	for range len(t.tris) {
		moved := false
		for k := range 3 {
			c := t.tris[at].corner
			if next := t.tris[at].beyond[k]; next >= 0 && turnOf(t.pts[c[(k+1)%3]], t.pts[c[(k+2)%3]], p) < 0 {
				at, moved = next, true
				break
			}
		}
		if !moved {
			break
		}
	}
	return at
}

// hole marks the triangles round p whose circles hold it and returns their rim:
// sides a-b with the triangle beyond.
func (t *mesh) hole(start int, p geom.Point) (rim [][3]int) {
	t.tris[start].gone = true
	stack := []int{start}
	for len(stack) > 0 {
		i := stack[len(stack)-1]
		stack = stack[:len(stack)-1]
		for k := range 3 {
			next, c := t.tris[i].beyond[k], t.tris[i].corner
			switch {
			case next >= 0 && t.tris[next].gone:
			case next >= 0 && t.holds(next, p):
				t.tris[next].gone = true
				stack = append(stack, next)
			default:
				rim = append(rim, [3]int{c[(k+1)%3], c[(k+2)%3], next})
			}
		}
	}
	return rim
}

// insert adds point i.
func (t *mesh) insert(i int) {
	rim := t.hole(t.locate(t.pts[i]), t.pts[i])
	from, to := map[int]int{}, map[int]int{}
	first := len(t.tris)
	for k, side := range rim {
		a, b, next := side[0], side[1], side[2]
		at := first + k
		t.tris = append(t.tris, triangle{corner: [3]int{i, a, b}, beyond: [3]int{next, -1, -1}})
		from[a], to[b] = at, at
		if next >= 0 {
			for j := range 3 {
				c := t.tris[next].corner
				if c[(j+1)%3] == b && c[(j+2)%3] == a {
					t.tris[next].beyond[j] = at
				}
			}
		}
	}
	for k, side := range rim {
		// Facing a lies the side from b back to i, facing b that from i to a.
		t.tris[first+k].beyond[1], t.tris[first+k].beyond[2] = from[side[1]], to[side[0]]
	}
	t.last = first
}
