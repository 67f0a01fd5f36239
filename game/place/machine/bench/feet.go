package bench

import (
	"math"
	"slices"

	"unthreaded/path/geom"
	"unthreaded/path/machine"
	"unthreaded/path/quilt/order"
	"unthreaded/path/route/steps"
)

// Foot is a foot that a quilt asks for: how much is sewn with it, and in which stages.
type Foot struct {
	Method machine.Method
	MM     float64
	Stages []int
}

// feetOf returns the feet that are advised for the different blocks of an order, the one that
// sews most first. Cost O(points) of the different blocks.
func feetOf(o order.Order) []Foot {
	advised := make([]machine.Method, len(o.Programs))
	for i, p := range o.Programs {
		if f, err := programWork(p).Figures(); err == nil {
			advised[i] = machine.Advise(f).Method
		}
	}
	var out []Foot
	for i, s := range o.Stages {
		for _, l := range s.Legs {
			m := advised[l.Program]
			if m == "" {
				continue
			}
			k := slices.IndexFunc(out, func(f Foot) bool { return f.Method == m })
			if k < 0 {
				k, out = len(out), append(out, Foot{Method: m})
			}
			out[k].MM += o.Programs[l.Program].Work.Length() * l.Where.Scale
			if n := len(out[k].Stages); n == 0 || out[k].Stages[n-1] != i {
				out[k].Stages = append(out[k].Stages, i)
			}
		}
	}
	slices.SortStableFunc(out, func(a, b Foot) int { return int(math.Copysign(1, b.MM-a.MM)) })
	return out
}

// programWork is a program as the machine's figures want it. Where nothing but seams is sewn,
// these are its lines.
func programWork(p order.Program) machine.Work {
	var w machine.Work
	var path, all geom.Polyline
	var spans []machine.Span
	end := func() {
		if l, err := geom.NewLine(path); err == nil {
			w.Pieces = append(w.Pieces, machine.Piece{Line: l, Spans: spans})
		}
		path, spans = nil, nil
	}
	at := 0.0
	for i, m := range p.Moves {
		if m.Kind == steps.StopMove {
			end()
			at = 0
			continue
		}
		long := p.Paths[i].Length()
		spans = append(spans, machine.Span{From: at, To: at + long, Ruler: m.Ruler, Travel: m.Kind != steps.SewMove && p.Work.SewnMM > 0})
		path, all, at = append(path, p.Paths[i]...), append(all, p.Paths[i]...), at+long
	}
	end()
	for i := range w.Pieces { // sums of lengths differ by rounding
		for k := range w.Pieces[i].Spans {
			s := &w.Pieces[i].Spans[k]
			s.From, s.To = math.Min(s.From, w.Pieces[i].Line.Length()), math.Min(s.To, w.Pieces[i].Line.Length())
		}
	}
	lo, hi := all.Bounds()
	w.BlockW, w.BlockH = math.Max(hi.X-lo.X, machine.QuiltSide.Min), math.Max(hi.Y-lo.Y, machine.QuiltSide.Min)
	return w
}

// Seam is a stage that is no row, as it goes through the throat at its worst place.
type Seam struct {
	Stage int
	Fit   machine.Fit
}

// Seams returns how the stages in the ditch and the borders of the quilt on the table go
// through the throat: of each seam the side that is less lies right of the needle, since
// the quilt can be turned; of a border what lies outside its inner edge.
func (b Bench) Seams() []Seam {
	q, ok := b.Quilt()
	if !ok {
		return nil
	}
	top, throat := b.Top(), b.Mine.Throat()
	var out []Seam
	for i, s := range q.Order.Stages {
		right := 0.0
		switch s.Kind {
		case order.Ditch:
			right = q.deepest(s)
		case order.Border:
			for _, border := range q.Quilt.Borders[s.Number-1:] {
				right += border.WidthMM
			}
		default:
			continue
		}
		if f, err := machine.FitRight(top, throat, right); err == nil {
			out = append(out, Seam{i, f})
		}
	}
	return out
}

// deepest returns how much of the quilt lies right of the needle at the worst seam of a
// stage in the ditch.
func (l Laid) deepest(s order.Stage) float64 {
	size := l.Quilt.Size()
	corners := geom.Polyline{{}, {X: size.W}, {X: size.W, Y: size.H}, {Y: size.H}}
	worst := 0.0
	for _, leg := range s.Legs {
		p := l.Order.Programs[leg.Program]
		a, z := leg.Where.Apply(p.Start), leg.Where.Apply(p.End)
		long := geom.Dist(a, z)
		lo, hi := math.Inf(1), math.Inf(-1)
		for _, c := range corners {
			d := ((a.Y-z.Y)*(c.X-a.X) + (z.X-a.X)*(c.Y-a.Y)) / long
			lo, hi = math.Min(lo, d), math.Max(hi, d)
		}
		worst = math.Max(worst, math.Min(-lo, hi))
	}
	return worst
}
