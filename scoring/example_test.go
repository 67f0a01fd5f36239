package scoring_test

import (
	"fmt"
	"math"

	"unthreaded/path/geom"
	"unthreaded/scoring"
	"unthreaded/scoring/trace"
)

// A hand goes along 250 mm of line at 25 mm/s while the needle makes 600 stitches a minute:
// 2.5 mm each. Half way along it slows to half its speed for a moment.
func ExampleScore() {
	line, err := geom.NewLine(geom.Polyline{geom.Pt(0, 0), geom.Pt(250, 0)})
	if err != nil {
		fmt.Println(err)
		return
	}
	tr := trace.Trace{Device: trace.Pen, Ending: trace.Lifted}
	for x, t := 0.0, 0.0; x < 250; t += 1.0 / 120 {
		tr.Samples = append(tr.Samples, trace.Sample{T: t, P: geom.Pt(x, 0.3), Pressure: 0.5})
		x += (25 - 12.5*math.Exp(-math.Pow((x-125)/5, 2))) / 120
	}
	rep, err := scoring.Score(line, tr, scoring.Settings{SPM: 600, TargetMM: 2.5})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("stitches of %.1f mm, %.1f mm beside the line, %.0f %% of it sewn\n",
		rep.Evenness.StitchMM.Value, rep.Lateral.MeanError.Value, 100*rep.Sewn.Value)
	fmt.Printf("first: %s, at %.0f mm: stitches of %.1f mm instead of %.1f\n",
		rep.First.Word, rep.First.Fault.At, rep.First.ThereMM, rep.First.UsualMM)
	// Output:
	// stitches of 2.4 mm, 0.3 mm beside the line, 100 % of it sewn
	// first: uneven, at 125 mm: stitches of 1.5 mm instead of 2.5
}
