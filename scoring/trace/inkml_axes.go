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

// plainFormat is the format of traces that name none: X and Y (section 3.1.4).
var plainFormat = inkFormat{Channels: inkChannels{{Name: "X", Type: "decimal"}, {Name: "Y", Type: "decimal"}}}

// axes tells which value of a point is what.
type axes struct {
	format        inkFormat
	x, y, t, f, s int // -1 if absent
	mmX, mmY      float64
	second        float64
	rate          float64 // points a second where there is no channel T; 0 if that is not known either
	lo, hi        float64 // the range of F
	ranged        bool    // whether the file gives that range
	unsized       bool    // whether the file gives its places no length
	empty         Ink
}

// newAxes reads what holds for a trace. Places without a unit of length are taken in
// units of unit mm.
func newAxes(state inkState, unit float64) (axes, error) {
	a := axes{x: -1, y: -1, t: -1, f: -1, s: -1, hi: 1}
	a.empty = Ink{Trace: Trace{Ending: state.ending}, Started: state.began, Notes: state.notes}
	if a.empty.Ending == "" {
		a.empty.Ending = Lifted
	}
	a.format = plainFormat
	if state.format != nil {
		a.format = *state.format
	}
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
	a.size(unit)
	a.describe(src)
	return a, nil
}

// size gives a length to places that have none: that of the other axis, or the unit.
func (a *axes) size(unit float64) {
	if a.mmX == 0 && a.mmY == 0 {
		a.mmX, a.mmY, a.unsized = unit, unit, true
	}
	if a.mmX == 0 {
		a.mmX = math.Abs(a.mmY)
	}
	if a.mmY == 0 {
		a.mmY = math.Abs(a.mmX)
	}
	all := append(append([]inkChannel(nil), a.format.Channels...), a.format.Intermittent...)
	if all[a.x].Orientation == "-ve" {
		a.mmX = -a.mmX
	}
	if all[a.y].Orientation == "-ve" {
		a.mmY = -a.mmY
	}
}

// take takes up a channel. What is not needed, such as the azimuth and the elevation of
// the pen (OA, OE), is read and left out.
func (a *axes) take(k int, c inkChannel, src inkSource) (err error) {
	switch c.Name {
	case "X":
		a.x = k
		a.mmX, err = millimetres(c, src.Properties)
	case "Y":
		a.y = k
		a.mmY, err = millimetres(c, src.Properties)
	case "T":
		a.t = k
		a.second, err = seconds(c, src.Properties)
	case "F":
		a.f = k
		if lo, e := number(c.Min); e == nil {
			a.lo = lo
		}
		if hi, e := number(c.Max); e == nil {
			a.hi, a.ranged = hi, true
		}
	case "S":
		a.s = k
	}
	return err
}

// describe takes what the source says of the device and its clock.
func (a *axes) describe(src inkSource) {
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
		return
	}
	if src.Rate != nil {
		if v, err := number(src.Rate.Value); err == nil && v > 0 && src.Rate.Uniform != "false" {
			a.rate = v
		}
	}
	a.empty.Timeless = a.rate == 0
}

// sample makes the i-th sample of a trace from the values of a point.
func (a axes) sample(values []float64, i int) (s Sample, err error) {
	if s.P, err = place(a.mmX*values[a.x], a.mmY*values[a.y]); err != nil {
		return s, err
	}
	switch {
	case a.t >= 0:
		s.T = a.second * values[a.t]
	case a.rate > 0:
		s.T = float64(i) / a.rate
	}
	if math.IsNaN(s.T) || math.IsInf(s.T, 0) {
		return s, errors.New("the time is not known")
	}
	s.Pressure = 0.5
	if a.f >= 0 && a.hi > a.lo {
		if v := (values[a.f] - a.lo) / (a.hi - a.lo); !math.IsNaN(v) {
			s.Pressure = v
		}
	}
	return s, nil
}

// lifted tells whether the tip is off the paper at a point (channel S, section 3.1.2).
func (a axes) lifted(values []float64) bool { return a.s >= 0 && values[a.s] == 0 }

// press brings the pressures of a trace into 0 to 1: by the range of the file, or, where
// it gives none and they go beyond 1, by the strongest of them.
func (a axes) press(samples []Sample) {
	strongest := 1.0
	if !a.ranged {
		for _, s := range samples {
			strongest = max(strongest, s.Pressure)
		}
	}
	for i := range samples {
		samples[i].Pressure = max(0, min(1, samples[i].Pressure/strongest))
	}
}
