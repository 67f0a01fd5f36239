package trace

import (
	"errors"
	"math"

	"unthreaded/path/geom"
)

// place is that of a sample, in mm.
func place(x, y float64) (geom.Point, error) {
	if p := geom.Pt(x, y); geom.Finite(p) {
		return p, nil
	}
	return geom.Point{}, errors.New("the place is not known")
}

// axes tells which value of a point is what.
type axes struct {
	format     inkFormat
	x, y, t, f int // -1 if absent
	mmX, mmY   float64
	second     float64
	rate       float64
	lo, hi     float64 // the range of F
	empty      Trace
}

func newAxes(state inkState) (axes, error) {
	a := axes{x: -1, y: -1, t: -1, f: -1, hi: 1, empty: Trace{Ending: state.ending}}
	if a.empty.Ending == "" {
		a.empty.Ending = Lifted
	}
	if state.format == nil {
		return a, errors.New("no trace format tells the unit of its places")
	}
	a.format = *state.format
	all := append(append([]inkChannel(nil), a.format.Channels...), a.format.Intermittent...)
	var src inkSource
	if state.source != nil {
		src = *state.source
	}
	for k, c := range all {
		if err := a.take(k, c, src); err != nil {
			return a, err
		}
	}
	if a.x < 0 || a.y < 0 {
		return a, errors.New("channels X and Y are not both there")
	}
	return a, a.describe(src)
}

func (a *axes) take(k int, c inkChannel, src inkSource) (err error) {
	sign := 1.0
	if c.Orientation == "-ve" {
		sign = -1
	}
	switch c.Name {
	case "X":
		a.x = k
		a.mmX, err = millimetres(c, src.Properties)
		a.mmX *= sign
	case "Y":
		a.y = k
		a.mmY, err = millimetres(c, src.Properties)
		a.mmY *= sign
	case "T":
		a.t = k
		a.second, err = seconds(c)
	case "F":
		a.f = k
		if lo, e := number(c.Min); e == nil {
			a.lo = lo
		}
		if hi, e := number(c.Max); e == nil {
			a.hi = hi
		}
	}
	return err
}

// describe takes what the source says of the device and its clock.
func (a *axes) describe(src inkSource) error {
	switch dev := Device(src.Description); dev {
	case Mouse, Pen, Touch:
		a.empty.Device = dev
	}
	for _, p := range src.Properties {
		v, err := number(p.Value)
		if p.Name != "quantization" || err != nil || !(v > 0) {
			continue
		}
		if unit, ok := lengths[p.Units]; ok && p.Channel == "X" {
			a.empty.PixelMM = v * unit
		}
		if unit, ok := times[p.Units]; ok && p.Channel == "T" {
			a.empty.ClockStep = v * unit
		}
	}
	if a.t >= 0 {
		return nil
	}
	if src.Rate != nil {
		if v, err := number(src.Rate.Value); err == nil && v > 0 && src.Rate.Uniform != "false" {
			a.rate = v
			return nil
		}
	}
	return errors.New("its points have no times: neither a channel T nor an even sample rate")
}

// sample makes the i-th sample of a trace from the values of a point.
func (a axes) sample(values []float64, i int) (s Sample, err error) {
	if s.P, err = place(a.mmX*values[a.x], a.mmY*values[a.y]); err != nil {
		return s, err
	}
	s.T = float64(i) / a.rate
	if a.t >= 0 {
		s.T = a.second * values[a.t]
	}
	if math.IsNaN(s.T) || math.IsInf(s.T, 0) {
		return s, errors.New("the time is not known")
	}
	s.Pressure = 0.5
	if a.f >= 0 && a.hi > a.lo {
		if v := (values[a.f] - a.lo) / (a.hi - a.lo); !math.IsNaN(v) {
			s.Pressure = max(0, min(1, v))
		}
	}
	return s, nil
}
