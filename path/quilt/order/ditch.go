package order

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/path/geom"
	"unthreaded/path/machine"
	"unthreaded/path/quilt"
	"unthreaded/path/route/steps"
)

// longSeam is a straight run of seams from edge to edge of the inner part.
type longSeam struct {
	a, b geom.Point
	off  float64 // across it, in mm from the upper left corner
}

// ditch returns the stages in the ditch along the long seams: for each direction one,
// from the middle out; seams that cornerstones or strips interrupt are none.
func (p *planner) ditch() []waiting {
	dirs := []geom.Point{geom.Pt(1, 0), geom.Pt(0, 1)}
	ids := []string{"ditch-across", "ditch-down"}
	if p.q.Setting == quilt.OnPoint {
		d := math.Sqrt2 / 2
		dirs = []geom.Point{geom.Pt(d, -d), geom.Pt(d, d)}
		ids = []string{"ditch-rising", "ditch-falling"}
	}
	var out []waiting
	for k, dir := range dirs {
		list := p.longSeams(dir)
		if len(list) == 0 {
			continue
		}
		middles := make([]float64, len(list))
		for i, s := range list {
			middles[i] = s.off
		}
		size := p.q.Size()
		across := math.Abs(dir.Y)*size.W + math.Abs(dir.X)*size.H
		if dir.X*dir.Y < 0 || dir.X*dir.Y > 0 {
			across = list[0].off + list[len(list)-1].off
		}
		order, _ := machine.Sequence(machine.MiddleOut, middles, across)
		w := waiting{stage: Stage{ID: ids[k], Kind: Ditch, Number: k + 1, Row: -1, Way: BlockByBlock, Passes: OnePass}}
		for _, i := range order {
			w.seams = append(w.seams, geom.Polyline{list[i].a, list[i].b})
		}
		out = append(out, w)
	}
	return out
}

// longSeams returns the long seams in a direction, by their place across it.
func (p *planner) longSeams(dir geom.Point) []longSeam {
	type span struct{ from, to, off float64 }
	normal := geom.Pt(-dir.Y, dir.X)
	var all []span
	for n, l := range p.places {
		if p.kindOf([]int{n}) == Border {
			continue
		}
		for i := 1; i < len(l.outline); i++ {
			a, b := l.outline[i-1], l.outline[i]
			if math.Abs(r2.Dot(normal, r2.Sub(b, a))) > onRim {
				continue
			}
			from, to := r2.Dot(dir, a), r2.Dot(dir, b)
			all = append(all, span{math.Min(from, to), math.Max(from, to), r2.Dot(normal, a)})
		}
	}
	slices.SortFunc(all, func(a, b span) int {
		if math.Abs(a.off-b.off) > onRim {
			return cmp.Compare(a.off, b.off)
		}
		return cmp.Compare(a.from, b.from)
	})
	var runs []span
	for _, s := range all {
		n := len(runs) - 1
		if n >= 0 && math.Abs(runs[n].off-s.off) <= onRim && s.from <= runs[n].to+onRim {
			runs[n].to = math.Max(runs[n].to, s.to)
			continue
		}
		runs = append(runs, s)
	}
	lo, hi := p.inner()
	var out []longSeam
	for _, s := range runs {
		at := func(along float64) geom.Point { return r2.Add(r2.Scale(along, dir), r2.Scale(s.off, normal)) }
		a, b := at(s.from), at(s.to)
		mid := geom.Lerp(a, b, 0.5)
		if onBox(a, lo, hi) && onBox(b, lo, hi) && !onBox(mid, lo, hi) {
			out = append(out, longSeam{a, b, s.off})
		}
	}
	if len(out) > 0 && out[0].off < 0 {
		// Seams that rise: their places run from the upper left all the same.
		for i := range out {
			out[i].off = -out[i].off
		}
		slices.Reverse(out)
	}
	return out
}

// inner returns the corners of the part within the borders.
func (p *planner) inner() (lo, hi geom.Point) {
	in, size := p.q.Inner(), p.q.Size()
	lo = geom.Pt((size.W-in.W)/2, (size.H-in.H)/2)
	return lo, geom.Pt(lo.X+in.W, lo.Y+in.H)
}

func onBox(p, lo, hi geom.Point) bool {
	const slack = 2 * onRim
	on := func(a, b float64) bool { return math.Abs(a-b) <= slack }
	return on(p.X, lo.X) || on(p.X, hi.X) || on(p.Y, lo.Y) || on(p.Y, hi.Y)
}

// sewSeams sews long seams in the order given, each begun at the end that is nearer.
func (p *planner) sewSeams(s *Stage, seams []geom.Polyline) {
	for _, seam := range seams {
		a, b := seam[0], seam[1]
		if p.begun && geom.Dist(p.at, b) < geom.Dist(p.at, a) {
			a, b = b, a
		}
		n := p.seamProgram(r2.Sub(b, a))
		l := Leg{Program: n, Where: quilt.Transform{Scale: 1, Move: a}, Come: p.come(a, nil)}
		p.at = b
		s.Legs = append(s.Legs, l)
	}
	s.Best = true
}

// seamProgram returns the program of a straight seam that leads so far, which it adds
// once.
func (p *planner) seamProgram(to geom.Point) int {
	key := fmt.Sprintf("%.2f %.2f", to.X, to.Y)
	if n, known := p.whole[key]; known {
		return n
	}
	path := geom.Polyline{geom.Pt(0, 0), to}
	m := steps.Seen(steps.Move{Kind: steps.DitchMove, Path: path})
	p.out.Programs = append(p.out.Programs, Program{
		Moves: []steps.Move{m}, Paths: []geom.Polyline{path}, End: to, Exact: true,
		Work: Work{DitchMM: m.Length, Moves: 1},
	})
	p.whole[key] = len(p.out.Programs) - 1
	return p.whole[key]
}
