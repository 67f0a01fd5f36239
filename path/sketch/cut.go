package sketch

import (
	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/path/geom"
)

// fitted is a cubic that stands for the points lo to hi of a section.
type fitted struct {
	lo, hi int
	c      [4]geom.Point
}

func (s section) fit(lo, hi int, tol float64) (c [4]geom.Point, worst float64, at int) {
	c, worst, at = fitCubic(s.pts[lo:hi+1], s.along[lo], r2.Scale(-1, s.along[hi]), tol)
	return c, worst, lo + at
}

// cut adds to out the cubics for the points lo to hi, cutting in two at the worst
// point, but not within an eighth of the ends, until all lie within tol mm. Each
// level of cutting costs O(points), and there are at most some log(points)/log(8/7)
// of them.
func cut(s section, lo, hi int, tol float64, out []fitted) []fitted {
	c, worst, at := s.fit(lo, hi, tol)
	if worst <= tol || hi-lo < 2 {
		return append(out, fitted{lo, hi, c})
	}
	margin := max(1, (hi-lo)/8)
	at = max(lo+margin, min(hi-margin, at))
	return cut(s, at, hi, tol, cut(s, lo, at, tol, out))
}

// merge replaces neighbouring cubics by one where that lies within tol mm of their
// points too, from the start on; cutting in two leaves more pieces than are needed.
func merge(s section, parts []fitted, tol float64) []fitted {
	out := parts[:1:1]
	for _, p := range parts[1:] {
		last := &out[len(out)-1]
		if c, worst, _ := s.fit(last.lo, p.hi, tol); worst <= tol {
			*last = fitted{last.lo, p.hi, c}
			continue
		}
		out = append(out, p)
	}
	return out
}
