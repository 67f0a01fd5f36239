// Package photo squares up the photo of a block: what a camera saw from the side is shown as
// seen from above, at its true size.
package photo

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"

	"unthreaded/path/geom"
)

// Homography is a projective map of the plane, a 3 x 3 matrix by rows, of any scale:
// (x, y) goes to (h0 x + h1 y + h2, h3 x + h4 y + h5) / (h6 x + h7 y + h8). A camera
// without lens distortion sees a flat cloth through one.
type Homography [9]float64

// farAway bounds the coordinates in pixels or mm, so that sums and squares keep their digits.
const farAway = 1e6

// sameRank is the share of the largest singular value of the equations below which
// the eighth counts as zero. Normalised points in general position keep it above
// 1e-3; rounding leaves about 1e-15 of it where points are degenerate.
const sameRank = 1e-8

// FindHomography returns the map that takes the points from to the points to, at
// least four pairs, by least squares of the algebraic error: the normalised direct
// linear transformation (Hartley & Zisserman, Multiple View Geometry in Computer
// Vision, 2nd ed., algorithm 4.2). It fails where the pairs do not fix one map that
// can be undone, as when all points but one lie on a line. Cost O(pairs).
func FindHomography(from, to []geom.Point) (Homography, error) {
	if len(from) != len(to) || len(from) < 4 {
		return Homography{}, fmt.Errorf("a photo is squared by 4 or more pairs of points, there are %d and %d", len(from), len(to))
	}
	a, tFrom, err := normalise(from)
	if err != nil {
		return Homography{}, fmt.Errorf("points to start from: %w", err)
	}
	b, tTo, err := normalise(to)
	if err != nil {
		return Homography{}, fmt.Errorf("points to reach: %w", err)
	}
	rows := mat.NewDense(2*len(a), 9, nil)
	for i, p := range a {
		x, y, u, v := p.X, p.Y, b[i].X, b[i].Y
		rows.SetRow(2*i, []float64{0, 0, 0, -x, -y, -1, v * x, v * y, v})
		rows.SetRow(2*i+1, []float64{x, y, 1, 0, 0, 0, -u * x, -u * y, -u})
	}
	var svd mat.SVD
	if !svd.Factorize(rows, mat.SVDFullV) {
		return Homography{}, fmt.Errorf("the equations of %d pairs of points could not be solved", len(a))
	}
	if sv := svd.Values(nil); sv[7] <= sameRank*sv[0] {
		return Homography{}, fmt.Errorf("the points fix no single map: too many lie on one line or in one place")
	}
	var v mat.Dense
	svd.VTo(&v)
	var h Homography
	mat.Col(h[:], 8, &v)
	if math.Abs(h.det()) <= sameRank {
		return Homography{}, fmt.Errorf("the points ask for a map that cannot be undone: three lie on one line in one of the pictures only")
	}
	back, err := tTo.Inverse()
	if err != nil {
		return Homography{}, err
	}
	return back.times(h.times(tFrom)).scaled(), nil
}

// normalise moves the points so that their centroid is the origin and their mean
// distance from it the square root of 2, and returns the map that does it (Hartley
// & Zisserman, 4.4.4); without it the equations are ill-conditioned.
func normalise(pts []geom.Point) ([]geom.Point, Homography, error) {
	var middle geom.Point
	n := float64(len(pts))
	for i, p := range pts {
		if !geom.Finite(p) || math.Abs(p.X) > farAway || math.Abs(p.Y) > farAway {
			return nil, Homography{}, fmt.Errorf("point %d is out of reach: %v", i, p)
		}
		middle.X, middle.Y = middle.X+p.X/n, middle.Y+p.Y/n
	}
	mean := 0.0
	for _, p := range pts {
		mean += geom.Dist(p, middle) / n
	}
	if mean < 1e-9 {
		return nil, Homography{}, fmt.Errorf("all points lie in one place")
	}
	k := math.Sqrt2 / mean
	h := Homography{k, 0, -k * middle.X, 0, k, -k * middle.Y, 0, 0, 1}
	out := make([]geom.Point, len(pts))
	for i, p := range pts {
		out[i] = h.Apply(p)
	}
	return out, h, nil
}

// Apply returns the image of p. A point on the horizon, which is sent to infinity,
// gives coordinates that are not finite.
func (h Homography) Apply(p geom.Point) geom.Point {
	w := h[6]*p.X + h[7]*p.Y + h[8]
	return geom.Pt((h[0]*p.X+h[1]*p.Y+h[2])/w, (h[3]*p.X+h[4]*p.Y+h[5])/w)
}

// Inverse returns the map that undoes h: the adjugate matrix. It fails where h is
// singular.
func (h Homography) Inverse() (Homography, error) {
	d := h.det()
	if d == 0 || math.IsNaN(d) {
		return Homography{}, fmt.Errorf("a map that cannot be undone: %v", h)
	}
	return Homography{
		h[4]*h[8] - h[5]*h[7], h[2]*h[7] - h[1]*h[8], h[1]*h[5] - h[2]*h[4],
		h[5]*h[6] - h[3]*h[8], h[0]*h[8] - h[2]*h[6], h[2]*h[3] - h[0]*h[5],
		h[3]*h[7] - h[4]*h[6], h[1]*h[6] - h[0]*h[7], h[0]*h[4] - h[1]*h[3],
	}.scaled(), nil
}

func (h Homography) det() float64 {
	return h[0]*(h[4]*h[8]-h[5]*h[7]) - h[1]*(h[3]*h[8]-h[5]*h[6]) + h[2]*(h[3]*h[7]-h[4]*h[6])
}

// times returns the map that does g first and h after it.
func (h Homography) times(g Homography) Homography {
	var out Homography
	for r := range 3 {
		for c := range 3 {
			out[3*r+c] = h[3*r]*g[c] + h[3*r+1]*g[3+c] + h[3*r+2]*g[6+c]
		}
	}
	return out
}

// scaled returns the same map with last element 1, or with norm 1 where that element
// is as good as zero.
func (h Homography) scaled() Homography {
	norm := 0.0
	for _, x := range h {
		norm = math.Hypot(norm, x)
	}
	by := h[8]
	if math.Abs(by) < 1e-12*norm {
		by = norm
	}
	for i := range h {
		h[i] /= by
	}
	return h
}
