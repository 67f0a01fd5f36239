package place

import (
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
