package run

import (
	"fmt"
	"math"
	"math/rand/v2"
	"time"

	"unthreaded/game/keep"
	"unthreaded/game/synth"
	"unthreaded/game/work"
	"unthreaded/path/motif"
	"unthreaded/scoring/trace"
)

// The example's practice: so many evenings, two days apart, with so many traces of one motif
// in each, two minutes apart.
const (
	exampleMotif   = "linked-swirls"
	exampleDays    = 9
	exampleTraces  = 6
	exampleSPM     = 600.0
	exampleStitch  = 2.54
	examplePxPerMM = 96 / 25.4
)

// practised makes an example of weeks of practice: a synthetic hand that gets more even from
// evening to evening, down to a plateau, with good and bad days. It is the same each time.
func practised(in work.ExampleIn, tell Tell) (out work.ExampleOut) {
	m, ok := motif.Find(exampleMotif)
	if !ok {
		return work.ExampleOut{}
	}
	line, err := m.Rehearsal().Line(1)
	if err != nil {
		return work.ExampleOut{}
	}
	chance := rand.New(rand.NewPCG(5, 7))
	evening := time.UnixMilli(in.Now).Add(-24 * time.Hour)
	for day := range exampleDays {
		wobble := (0.14 + 0.5*math.Exp(-float64(day)/3)) * math.Exp(0.08*chance.NormFloat64())
		from := evening.AddDate(0, 0, -2*(exampleDays-1-day))
		for i := range exampleTraces {
			tell(float64(day*exampleTraces+i) / (exampleDays * exampleTraces))
			w := wobble * math.Exp(0.05*chance.NormFloat64())
			hand := synth.Hand{
				Hz:     60,
				Speed:  func(s float64) float64 { return exampleSPM / 60 * exampleStitch * (1 + w*math.Sin(s/13+float64(i))) },
				Beside: func(s float64) float64 { return 2 * w * math.Sin(s/11+float64(i)) },
			}
			rec := keep.Record{
				Schema: keep.Schema, ID: fmt.Sprintf("example-%02d-%d", day, i), Started: from.Add(time.Duration(i) * 2 * time.Minute).UnixMilli(),
				Motif: m.ID, Name: in.Name, Repeats: 1, Way: keep.Pencil, Guide: &keep.Guide{Marks: keep.WholeLine},
				SPM: exampleSPM, StitchMM: exampleStitch, Zoom: 1, PxPerMM: examplePxPerMM,
			}
			rec.SetLine(line)
			rec.SetTrace(trace.Trace{Device: trace.Pen, Ending: trace.Lifted, Samples: hand.Samples(line)})
			if rec.Measure() != nil {
				return work.ExampleOut{}
			}
			doc, err := keep.Encode(rec)
			if err != nil {
				return work.ExampleOut{}
			}
			out.Docs = append(out.Docs, doc)
			out.Records = append(out.Records, keep.Summarise(rec))
		}
	}
	return out
}
