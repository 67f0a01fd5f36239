package trace

import "fmt"

// The parts that a trace element may be of a trace with continuations.
const (
	inkBegin, inkMiddle, inkEnd = "begin", "middle", "end"
)

// piecesOf returns the elements of a trace: one, or one for each hold. A hold begins
// with the place where the needle stood, at the time when the hand came back.
func piecesOf(tr Trace, id string) []inkTrace {
	cuts := tr.pieces()
	if len(cuts) == 0 {
		return []inkTrace{{Type: "penDown", Points: writePoints(tr.Samples)}}
	}
	var out []inkTrace
	from, away := 0, 0.0
	for k := 0; k <= len(cuts); k++ {
		to := len(tr.Samples)
		if k < len(cuts) {
			to = cuts[k].last + 1
		}
		part := append([]Sample(nil), tr.Samples[from:to]...)
		for i := range part {
			part[i].T += away
		}
		piece := inkTrace{ID: fmt.Sprintf("%s-hold%d", id, k), Type: "penDown", Continuation: inkMiddle, Points: writePoints(part)}
		switch k {
		case 0:
			piece.Continuation = inkBegin
		case len(cuts):
			piece.Continuation = inkEnd
		}
		if k > 0 {
			piece.PriorRef = "#" + out[k-1].ID
		}
		out = append(out, piece)
		if k < len(cuts) {
			from, away = cuts[k].last, away+cuts[k].Pause
		}
	}
	return out
}

// cut is a hold and the index of the last sample before it.
type cut struct {
	Hold
	last int
}

// pieces returns where the samples are parted by the holds, in order; a hold that no
// sample stands at parts nothing.
func (tr Trace) pieces() []cut {
	var out []cut
	for _, h := range tr.Holds {
		from := 0
		if n := len(out); n > 0 {
			from = out[n-1].last + 1
		}
		for i := from; i < len(tr.Samples)-1; i++ {
			if tr.Samples[i].T == h.T && tr.Samples[i+1].T > h.T {
				out = append(out, cut{h, i})
				break
			}
		}
	}
	return out
}

// add takes up a trace, or joins it to the one that it continues. That must have been
// read before.
func (d *inkReader) add(t inkTrace, tr Ink) error {
	at, n := len(d.traces), len(d.traces)
	if t.Continuation == inkMiddle || t.Continuation == inkEnd {
		at = n - 1
		if t.PriorRef != "" {
			var ok bool
			if at, ok = d.known[bare(t.PriorRef)]; !ok {
				return fmt.Errorf("trace %d: it continues %q, which does not stand before it", n, short(t.PriorRef))
			}
		}
		if at < 0 {
			return fmt.Errorf("trace %d: it continues another, but none stands before it", n)
		}
		d.traces[at].Trace = joined(d.traces[at].Trace, tr.Trace)
	} else {
		d.traces = append(d.traces, tr)
	}
	if t.ID != "" {
		d.known[t.ID] = at
	}
	return nil
}

// joined returns a trace with its continuation. One that goes on later from the very
// place where the trace stood is a new hold: the pause between is cut out.
func joined(tr, next Trace) Trace {
	last, away := tr.Samples[len(tr.Samples)-1], 0.0
	for _, h := range tr.Holds {
		away += h.Pause
	}
	first := next.Samples[0]
	if pause := first.T - away - last.T; first.P == last.P && pause > 0 {
		tr.Holds = append(tr.Holds, Hold{T: last.T, Pause: pause})
		away, next.Samples = away+pause, next.Samples[1:]
	}
	for _, s := range next.Samples {
		s.T -= away
		tr.Samples = append(tr.Samples, s)
	}
	return tr
}
