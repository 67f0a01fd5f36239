package scoring

import (
	"fmt"
	"math"
	"testing"

	"unthreaded/path/geom"
)

// geometry.json: straightness by total least squares and a corner worked by hand.
// Tolerance 1e-9.
func TestStraightnessAndCorner(t *testing.T) {
	var f struct {
		Fits struct {
			Line struct {
				Points    [][2]float64
				Direction float64 `json:"tls_direction_deg"`
				STRt      float64 `json:"STRt_lsq_peak_to_valley"`
				STRq      float64 `json:"STRq_rms"`
			}
		}
		Corner struct {
			Trace     [][2]float64
			Overshoot float64 `json:"overshoot_beyond_vertex"`
			Deviation float64 `json:"corner_deviation_vertex_to_trace"`
		}
	}
	vectors(t, "geometry.json", &f)
	var leg Leg
	leg.judge(points(f.Fits.Line.Points), geom.Pt(1, 0))
	near(t, "bow", leg.Bow.Value, f.Fits.Line.STRt, 1e-9)
	near(t, "wave", leg.Wave.Value, f.Fits.Line.STRq, 1e-9)
	near(t, "tilt", leg.Tilt.Value, f.Fits.Line.Direction*math.Pi/180, 1e-9)
	c := points(f.Corner.Trace)
	near(t, "overshoot", overshoot(c, geom.Pt(10, 0), geom.Pt(1, 0), geom.Pt(0, 1)), f.Corner.Overshoot, 1e-9)
	d, _ := deviation(c, geom.Pt(10, 0))
	near(t, "corner deviation", d, f.Corner.Deviation, 1e-9)
}

// geometry.json: lateral errors after MacKenzie, Kauppinen and Silfverberg (CHI
// 2001), worked examples. Tolerance 1e-9.
func TestLateralErrorAsPublished(t *testing.T) {
	var f struct {
		MacKenzie struct {
			Cases []struct {
				ID     string
				Trace  [][2]float64
				MO     float64 `json:"movement_offset_MO"`
				ME     float64 `json:"movement_error_ME"`
				MV     float64 `json:"movement_variability_MV"`
				Number float64 `json:"n"`
			}
		} `json:"mackenzie2001"`
	}
	vectors(t, "geometry.json", &f)
	if len(f.MacKenzie.Cases) == 0 {
		t.Fatal("geometry.json lacks lateral errors")
	}
	for _, c := range f.MacKenzie.Cases {
		var e, w []float64
		for _, p := range c.Trace {
			e, w = append(e, p[1]), append(w, 1)
		}
		l := lateralOf(e, w)
		near(t, c.ID+": MO", l.Offset.Value, c.MO, 1e-9)
		near(t, c.ID+": ME", l.MeanError.Value, c.ME, 1e-9)
		// MV is published with n-1, ours counts by length, with n.
		near(t, c.ID+": MV", l.Spread.Value*math.Sqrt(c.Number/(c.Number-1)), c.MV, 1e-9)
	}
}

// geometry.json: the overshoot of a second-order system in percent of its step,
// here of natural frequency 1 and on the way to a vertex 100 mm away. Finely
// sampled, to 0.01 mm.
func TestOvershootOfASecondOrderSystem(t *testing.T) {
	var f struct {
		Percent []struct {
			Zeta      float64
			Overshoot float64 `json:"percent_overshoot"`
		} `json:"percent_overshoot_second_order"`
	}
	vectors(t, "geometry.json", &f)
	if len(f.Percent) == 0 {
		t.Fatal("geometry.json lacks overshoots")
	}
	for _, c := range f.Percent {
		var pts geom.Polyline
		w := math.Sqrt(1 - c.Zeta*c.Zeta)
		for t := 0.0; t < 40; t += 0.005 {
			y := 1 - math.Exp(-c.Zeta*t)*(math.Cos(w*t)+c.Zeta/w*math.Sin(w*t))
			pts = append(pts, geom.Pt(100*y, 0))
		}
		got := overshoot(pts, geom.Pt(100, 0), geom.Pt(1, 0), geom.Pt(0, 1))
		near(t, fmt.Sprintf("overshoot at damping %v", c.Zeta), got, c.Overshoot, 0.01)
	}
}

func points(xy [][2]float64) geom.Polyline {
	pl := make(geom.Polyline, len(xy))
	for i, c := range xy {
		pl[i] = geom.Pt(c[0], c[1])
	}
	return pl
}
