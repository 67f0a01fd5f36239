package place

import (
	"math"
	"slices"

	"unthreaded/game/words"
	"unthreaded/path/geom"
	"unthreaded/path/machine"
	"unthreaded/path/motif"
	"unthreaded/path/quilt/order"
	"unthreaded/path/route/steps"
)

// Assumptions are what the figures of a job rest on: those that are set at the machine, or
// the usual ones before that is known.
func (l Library) Assumptions() machine.Assumptions {
	if l.Assumed.Validate() != nil {
		return machine.UsualAssumptions()
	}
	return l.Assumed
}

// ProgramName names what is sewn in a visit to a different block: its design, or the seam.
func (l Library) ProgramName(p order.Program) words.Msg {
	if names := l.NamesOf([]string{p.Design}); len(names) > 0 {
		return words.Of("order.program", names[0])
	}
	if p.Pattern != "" {
		return words.Of("motif.name." + p.Pattern)
	}
	if p.Design == "" && onlyDitch(p) {
		return words.Of("order.seam")
	}
	return words.Of("order.across")
}

func onlyDitch(p order.Program) bool {
	for _, m := range p.Moves {
		if m.Kind != steps.DitchMove {
			return false
		}
	}
	return true
}

// Rehearsals returns the lines of a program of the order of the quilt on the table, in the
// order in which they are sewn: one, or where thread is begun anew on the way, several.
func (s Shared) Rehearsals(program int) []motif.Rehearsal {
	o := s.Top.Plan.Order
	if program < 0 || program >= len(o.Programs) {
		return nil
	}
	p := o.Programs[program]
	lines := programLines(p)
	if p.Pattern != "" && len(lines) > 0 {
		lines = []geom.Line{aPartOf(lines[0])}
	}
	b := s.Book()
	name := b.Write(s.ProgramName(p))
	id := p.Design
	if id == "" {
		id = s.Top.Quilt.ID
	}
	out := make([]motif.Rehearsal, len(lines))
	for i, l := range lines {
		called := name
		if len(lines) > 1 {
			called = b.Say("order.part", name, i+1, len(lines))
		}
		out[i] = motif.Of(LineID(RoutePrefix, id, l), called, b.Say("order.program-note", p.Times), l)
	}
	return out
}

// partMM is how large in mm the part of a long line is that is rehearsed: some repeats, about
// as much as a block.
const partMM = 300.0

// aPartOf returns the part of a line over the top that is rehearsed: the beginning of a row,
// and of a line all round as much on either side of its beginning, which is a corner.
func aPartOf(l geom.Line) geom.Line {
	path := l.Path()
	if first, last := path[0], path[len(path)-1]; geom.Dist(first, last) < sameDotMM {
		half := len(path) / 2
		path = slices.Concat(path[half:], path[1:half+1])
		middle := len(path) - half - 1
		from, to := middle, middle
		for from > 0 && to < len(path)-1 && within(path[from:to+1], partMM) {
			from, to = from-1, to+1
		}
		path = path[from : to+1]
	} else {
		to := 1
		for to < len(path)-1 && within(path[:to+1], partMM) {
			to++
		}
		path = path[:to+1]
	}
	part, err := geom.NewLine(path)
	if err != nil {
		return l
	}
	var dots []float64
	for _, d := range l.Dots {
		if d <= part.Length()+sameDotMM {
			dots = append(dots, math.Min(d, part.Length()))
		}
	}
	if dotted, err := part.WithDots(dots); err == nil && len(dots) > 1 {
		return dotted
	}
	return part
}

// within tells whether a path keeps within so many mm each way.
func within(path geom.Polyline, mm float64) bool {
	lo, hi := path.Bounds()
	return hi.X-lo.X <= mm && hi.Y-lo.Y <= mm
}

// programLines returns the paths of a program between its stops. The ends of ruler work are
// dots, as it is sewn from dot to dot.
func programLines(p order.Program) []geom.Line {
	var out []geom.Line
	var path geom.Polyline
	var dots []float64
	end := func() {
		if l, err := geom.NewLine(path.Compact()); err == nil && l.Length() > 0 {
			if dotted, err := l.WithDots(dots); err == nil && len(dots) > 1 {
				l = dotted
			}
			out = append(out, l)
		}
		path, dots = nil, nil
	}
	for i, m := range p.Moves {
		if m.Kind == steps.StopMove {
			end()
			continue
		}
		from := path.Length()
		path = append(path, p.Paths[i]...)
		if m.Ruler {
			for _, d := range []float64{from, path.Length()} {
				if n := len(dots); n == 0 || d > dots[n-1]+sameDotMM {
					dots = append(dots, d)
				}
			}
		}
	}
	end()
	return out
}

// sameDotMM is the distance in mm at which two dots of a line are one.
const sameDotMM = 0.5
