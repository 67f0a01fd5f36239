package trace

import (
	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/path/geom"
)

// OnCloth returns the trace that the needle leaves on the cloth when the hand
// moves the cloth under a needle that stands still, from the trace of the
// pointer: pushing the cloth right makes the line grow to the left. start is the
// place of the needle on the cloth in mm at the first sample. Both ways of
// moving are scored alike from there on.
func OnCloth(pointer Trace, start geom.Point) Trace {
	out := pointer
	out.Samples = append([]Sample(nil), pointer.Samples...)
	for i, s := range pointer.Samples {
		out.Samples[i].P = r2.Sub(start, r2.Sub(s.P, pointer.Samples[0].P))
	}
	return out
}
