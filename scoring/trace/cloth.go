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
		out.Samples[i].P = UnderNeedle(start, pointer.Samples[0].P, s.P)
	}
	return out
}

// UnderNeedle is OnCloth for one sample: the place on the cloth that is under the
// needle when the pointer is at p, having taken hold of the cloth at first while
// the needle was at start. All in mm.
func UnderNeedle(start, first, p geom.Point) geom.Point {
	return r2.Sub(start, r2.Sub(p, first))
}
