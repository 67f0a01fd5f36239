package motif

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/path/geom"
)

var cornersParam = Param{ID: "corners", Max: 2, Step: 1, Usual: 1, Choices: []string{"very-round", "round", "tight"}}

// cornerPower is the power of the rounded outline for each choice of corners.
var cornerPower = [3]float64{6, 10, 20}

// The spirals as they were first drawn: the whole outline shrinks evenly, which tilts every
// side of a square.
var spiral1 = Motif{
	ID: "spiral", Continuous: true, Smooth: true, Params: spiralParams,
	fit: fitSpiral,
}

var doubleSpiral1 = Motif{
	ID: "double-spiral", Continuous: true, Smooth: true, Params: spiralParams,
	fit: fitDoubleSpiral,
}

var spiralParams = []Param{
	spacingParam(3, 10), cornersParam,
	{ID: "start", Unit: "degrees", Min: 0, Max: 345, Step: 15},
	{ID: "mirror", Max: 1, Step: 1, Choices: []string{"clockwise", "anticlockwise"}},
}

// whorl is the family of outlines, one within the other, along which a spiral
// winds: those of a rounded field and, in a rectangle, of a square drawn apart
// along the middle.
type whorl struct {
	out roundOut
	// core is half the stretch in mm by which a rectangle is longer than wide;
	// upright tells that it is higher than wide.
	core    float64
	upright bool
	// straight is the share of each half turn spent along the core.
	straight float64
	start    float64
	mirrored bool
}

func newWhorl(f field, v Values) whorl {
	w := whorl{start: v["start"] * math.Pi / 180, mirrored: v["mirror"] == 1}
	body := f
	if f.shape.Kind == Rectangle {
		lo, hi := f.bounds()
		wide, high := hi.X-lo.X, hi.Y-lo.Y
		w.core, w.upright = math.Abs(wide-high)/2, high > wide
		r := Rect{f.middle.X - f.radius, f.middle.Y - f.radius, 2 * f.radius, 2 * f.radius}
		body = f.with(r.corners())
		w.straight = w.core / (w.core + 2*f.radius)
	}
	w.out = body.rounded(cornerPower[int(v["corners"])])
	return w
}

// wound returns how far the spiral has come inwards, in turns, after so many
// turns: evenly, but along the core of a rectangle not at all, so that the line
// runs into the straight without a corner.
func (w whorl) wound(turns float64) float64 {
	if w.core == 0 {
		return turns
	}
	half, t := math.Modf(turns * 2)
	t = math.Min(1, t/(1-w.straight))
	return (half + t*t*(3-2*t)) / 2
}

// at returns the place after so many turns on the outline that lies depth mm
// within the field.
func (w whorl) at(turns, depth float64) geom.Point {
	half, t := math.Modf(turns * 2)
	angle, along := math.Pi*(half+t), 0.0
	if w.core > 0 {
		// Even half turns go round the near end, odd ones round the far end.
		side := 1 - 2*math.Mod(half, 2)
		arc, run := math.Min(1, t/(1-w.straight)), math.Max(0, (t-1+w.straight)/w.straight)
		angle, along = math.Pi*(half+arc)-math.Pi/2, side*w.core*(1-2*run)
		if w.upright {
			angle += math.Pi / 2
		}
	} else {
		angle += w.start
	}
	if w.mirrored {
		angle = -angle
	}
	p := w.out.point(angle, 1-depth/w.out.f.radius)
	switch {
	case w.core == 0:
	case w.upright && w.mirrored:
		p.Y -= along
	case w.upright:
		p.Y += along
	default:
		p.X += along
	}
	return p
}

// arm returns a spiral from the outline inwards for so many turns, pitch mm a
// turn, from half a turn further on if opposite.
func (w whorl) arm(turns, pitch float64, opposite bool) geom.Polyline {
	from := 0.0
	if opposite {
		from = 0.5
	}
	return geom.Flatten(func(t float64) geom.Point {
		return w.at(t+from, pitch*w.wound(t))
	}, 0, turns, max(8, int(turns*32)))
}

func fitSpiral(f field, v Values) ([]Piece, error) {
	spacing := v["spacing"]
	if err := f.fine("spacing", spacing, 20000); err != nil {
		return nil, err
	}
	if f.radius < 1.25*spacing {
		return nil, f.tooLarge("spacing", spacing, f.radius/1.25)
	}
	w := newWhorl(f, v)
	return one("spiral", w.arm(f.radius/spacing-0.35, spacing, false)), nil
}

// fitDoubleSpiral winds two arms, each with twice the spacing, half a turn apart,
// and joins them by an S in the middle.
func fitDoubleSpiral(f field, v Values) ([]Piece, error) {
	spacing := v["spacing"]
	if err := f.fine("spacing", spacing, 20000); err != nil {
		return nil, err
	}
	if f.radius < 2.4*spacing {
		return nil, f.tooLarge("spacing", spacing, f.radius/2.4)
	}
	w := newWhorl(f, v)
	turns := (f.radius - 1.2*spacing) / (2 * spacing)
	if w.core > 0 {
		// End round the ends of the core, where the arms run across it.
		turns = math.Floor(2*turns)/2 + (1-w.straight)/4
		if 2*spacing*w.wound(turns) > f.radius-0.8*spacing {
			turns -= 0.5
		}
	}
	if w.core == 0 {
		turns = w.square(turns, 2*spacing)
	}
	in := w.arm(turns, 2*spacing, false)
	out := w.arm(turns, 2*spacing, true).Reversed()
	path := append(in, esse(in, out, 2*f.radius-4*spacing*w.wound(turns))...)
	return one("spiral", append(path, out...)), nil
}

// square returns so many turns or up to half a turn less, where the way of the arms
// is most nearly square to the way across from one to the other, so that an S joins
// them without a tight bend.
func (w whorl) square(turns, pitch float64) float64 {
	const looks, step = 32, 1e-6
	best, least := turns, math.Inf(1)
	for k := range looks + 1 {
		t := turns - float64(k)/(2*looks)
		a, b := w.at(t, pitch*t), w.at(t+0.5, pitch*t)
		across := r2.Unit(r2.Sub(b, a))
		da := r2.Unit(r2.Sub(a, w.at(t-step, pitch*(t-step))))
		db := r2.Unit(r2.Sub(b, w.at(t+0.5-step, pitch*(t-step))))
		slant := math.Max(math.Abs(r2.Dot(across, da)), math.Abs(r2.Dot(across, db)))
		if slant < least-0.1 { // no shorter for next to nothing
			best, least = t, slant
		}
	}
	return best
}

// esse returns the S from the end of one arm of a spiral to the beginning of the
// other; wide is the width in mm that it may take across.
func esse(in, out geom.Polyline, wide float64) geom.Polyline {
	return essWith(in, out, math.Min(0.7*geom.Dist(in[len(in)-1], out[0]), 1.1*wide))
}

// essWith returns the S with handles of so many mm.
func essWith(in, out geom.Polyline, handle float64) geom.Polyline {
	p, q := in[len(in)-1], out[0]
	d0 := r2.Unit(r2.Sub(p, in[len(in)-2]))
	d1 := r2.Unit(r2.Sub(out[1], q))
	return geom.Bezier(p, r2.Add(p, r2.Scale(handle, d0)), r2.Sub(q, r2.Scale(handle, d1)), q)
}
