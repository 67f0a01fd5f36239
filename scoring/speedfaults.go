package scoring

import "math"

// speedFaults finds knots, hesitations and uneven speed.
func (r *run) speedFaults(rep Report) []Fault {
	var out []Fault
	for _, s := range r.stops {
		if (s.Kind == Knot || s.Kind == AtCorner) && s.Seconds >= leastKnot {
			z := zone{i: s.i, end: s.end, at: (s.i + s.end) / 2, worst: s.Seconds}
			f := r.fault(KnotHere, z)
			f.Gravity = s.Seconds / leastKnot
			out = append(out, f)
		}
	}
	if rep.Slowing.clear() {
		out = append(out, r.curveFault(rep.Slowing))
	}
	if w := rep.Wobble; w.Hz.Defined && w.Share.Value >= r.leastSwing() && w.Fit.Value >= unsteadyFit {
		out = append(out, Fault{
			Kind: Unsteady, To: r.line.Length(), Size: w.Share.Value, Gravity: w.Share.Value / leastUnsteady,
		})
	}
	slow, fast := r.speedZones()
	out = append(out, r.zoneFaults(slow, fast)...)
	out = append(out, r.hesitationFaults(rep, slow)...)
	if p := rep.Pace.Ratio; p.Defined && (p.Value < paceSlow || p.Value > paceFast) {
		out = append(out, Fault{
			Kind: OffPace, To: r.line.Length(), Size: p.Value, Gravity: math.Abs(math.Log(p.Value)) / math.Log(paceFast),
		})
	}
	return out
}

// zoneFaults are the parts that were slower or faster than the rest, but for those
// that were on plan.
func (r *run) zoneFaults(slow, fast []zone) []Fault {
	var out []Fault
	for _, z := range slow {
		if r.onPlan(z) {
			continue
		}
		f := r.fault(TooSlow, z)
		f.At, f.Gravity = (f.From+f.To)/2, (1-z.worst)/(1-zoneSlow)
		out = append(out, f)
	}
	for _, z := range fast {
		if r.onPlan(z) {
			continue
		}
		f := r.fault(TooFast, z)
		f.At, f.Gravity = (f.From+f.To)/2, (z.worst-1)/(zoneFast-1)
		out = append(out, f)
	}
	return out
}

// onPlan tells whether a zone that differs from the rest was sewn as planned: then
// it is the rest that was not, of which the pace tells.
func (r *run) onPlan(z zone) bool {
	planned := r.set.TargetMM * r.set.SPM / 60
	return planned > 0 && math.Abs(z.worst*r.speed/planned-1) <= NearShare
}

// leastSwing is the least amplitude of an unsteady speed that is no noise: that
// of a sine with the standard deviation of the noise, sqrt 2 times as large.
func (r *run) leastSwing() float64 {
	if r.speed == 0 {
		return leastUnsteady
	}
	return max(leastUnsteady, math.Sqrt2*r.noise.speed/r.speed)
}

// curveFault places the fault at the tightest of the curves that the law was
// fitted to.
func (r *run) curveFault(s Slowing) Fault {
	at, most := 0, 0.0
	for i, ok := range r.cruise {
		if k := math.Abs(r.bends.at(r.m.Place[i])); ok && !r.round[i] && curved(k) && k > most {
			at, most = i, k
		}
	}
	from, to := at, at
	for from > 0 && math.Abs(r.bends.at(r.m.Place[from-1])) > most/2 {
		from--
	}
	for to < len(r.m.Place)-1 && math.Abs(r.bends.at(r.m.Place[to+1])) > most/2 {
		to++
	}
	f := r.fault(SlowCurves, zone{i: from, end: to + 1, at: at})
	f.Size, f.Gravity = s.Exponent.Value, s.Exponent.Value/leastExponent
	return f
}

// hesitationFaults are the deep ones away from corners, stops and slow parts.
func (r *run) hesitationFaults(rep Report, slow []zone) []Fault {
	var out []Fault
	for _, h := range rep.Hesitations {
		e := r.expected[h.i]
		if h.AtBreak || !r.steady(h.i) || !(e > 0) || h.Speed > deepHesitation*e || inZones(slow, h.i, int(zoneTime/2*r.p.Rate)) {
			continue
		}
		left := h.Speed / e
		out = append(out, Fault{
			Kind: Hesitated, From: h.At, To: h.At, At: h.At, Size: left, Gravity: (1 - left) / (1 - deepHesitation),
		})
	}
	return out
}

// inZones tells whether point i lies in one of the zones, give or take margin
// points.
func inZones(zs []zone, i, margin int) bool {
	for _, z := range zs {
		if i >= z.i-margin && i < z.end+margin {
			return true
		}
	}
	return false
}
