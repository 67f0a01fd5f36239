package machine

import (
	"fmt"
	"math"
)

// Between is a figure of which only its ends are known.
type Between struct {
	Low  float64 `json:"low"`
	High float64 `json:"high"`
}

// Plus returns the sum of both, Times the span n times over.
func (s Between) Plus(t Between) Between  { return Between{s.Low + t.Low, s.High + t.High} }
func (s Between) Times(n float64) Between { return Between{s.Low * n, s.High * n} }
func (s Between) Middle() float64         { return (s.Low + s.High) / 2 }
func (s Between) over(t Between) Between  { return Between{s.Low / t.High, s.High / t.Low} }
func exactly(v float64) Between           { return Between{v, v} }
func (s Between) within(r Range) error {
	if err := checkAll(entry{s.Low, r}, entry{s.High, r}); err != nil {
		return err
	}
	if s.Low > s.High {
		return fmt.Errorf("%s: %s to %s runs downwards", r.Name, number(s.Low), number(s.High))
	}
	return nil
}

// Assumptions are what the figures of a job rest on beside the lines themselves. Each
// can be changed.
type Assumptions struct {
	// Stitch and Thickness are in mm, Hand in mm/s.
	Stitch    Between `json:"stitch_mm"`
	Thickness Between `json:"thickness_mm"`
	Hand      Between `json:"hand_mm_s"`
	// Stop, Halt, Bobbin, Turn and Mark are seconds: for a stop, for a halt, to change a
	// bobbin, to turn the quilt half way round and to come back to the line, and to
	// mark 100 mm of a line.
	Stop   Between `json:"stop_s"`
	Halt   Between `json:"halt_s"`
	Bobbin Between `json:"bobbin_s"`
	Turn   Between `json:"turn_s"`
	Mark   Between `json:"mark_s_per_100_mm"`
	// Marked is the share of the lines sewn by hand that is marked.
	Marked Between `json:"marked"`
	// Waste is the thread in mm for a start and its end on each side, Full that on a
	// full bobbin, Reserve the share of it that is not counted on and of all thread
	// that is added.
	Waste   Between `json:"waste_mm"`
	Full    Between `json:"bobbin_mm"`
	Reserve float64 `json:"reserve"`
	// First is how full the bobbin in the machine is, a share of a full one.
	First float64 `json:"first_bobbin"`
	// Evening is what is sewn at a stretch, in s.
	Evening Between `json:"evening_s"`
}

// Ranges of what only a job asks for. The usual values are ours.
var (
	BobbinTime  = Range{"time-to-change-a-bobbin", "s", 0, 1800, 90}
	TurnTime    = Range{"time-to-turn-the-quilt", "s", 0, 3600, 180}
	MarkTime    = Range{"time-to-mark-100-mm", "s", 0, 120, 5}
	Share       = Range{"share", "", 0, 1, 0.5}
	EveningTime = Range{"an-evening", "s", 600, 43200, 5400}
)

// UsualAssumptions returns spans about the usual values: common practice for stitch,
// thickness, waste and bobbin, ours for the times, which differ from hand to hand by
// a factor of two; an evening is one hour or two.
func UsualAssumptions() Assumptions {
	about := func(r Range, low, high float64) Between { return Between{r.Usual * low, r.Usual * high} }
	return Assumptions{
		Stitch: about(StitchLength, 0.9, 1.1), Thickness: about(Thickness, 0.8, 1.2), Hand: about(HandSpeed, 0.7, 1.3),
		Stop: about(StopTime, 0.75, 1.5), Halt: about(HaltTime, 0.5, 2), Bobbin: about(BobbinTime, 0.5, 2),
		Turn: about(TurnTime, 0.5, 2), Mark: about(MarkTime, 0.5, 2), Marked: Between{0, 1},
		Waste: about(Waste, 0.75, 1.25), Full: about(BobbinLength, 0.8, 1.2), Reserve: Reserve.Usual, First: 1, Evening: Between{3600, 7200},
	}
}

// Validate reports the first value out of its range.
func (a Assumptions) Validate() error {
	for _, e := range []struct {
		s Between
		r Range
	}{
		{a.Stitch, StitchLength}, {a.Thickness, Thickness}, {a.Hand, HandSpeed}, {a.Stop, StopTime}, {a.Halt, HaltTime},
		{a.Bobbin, BobbinTime}, {a.Turn, TurnTime}, {a.Mark, MarkTime}, {a.Marked, Share.Called("share-that-is-marked")},
		{a.Waste, Waste}, {a.Full, BobbinLength}, {a.Evening, EveningTime},
	} {
		if err := e.s.within(e.r); err != nil {
			return err
		}
	}
	return checkAll(entry{a.Reserve, Reserve}, entry{a.First, Share.Called("fullness-of-the-first-bobbin")})
}

// LegLoad is what one stay in one place takes.
type LegLoad struct {
	// Length is all that is stitched in mm, Ditch and Ruler the parts of it in the
	// ditch and along a ruler.
	Length, Ditch, Ruler float64
	// Starts counts where thread is begun, Halts where the needle stands while the
	// cloth is turned or the ruler moved, RulerLines the lines along a ruler.
	Starts, Halts, RulerLines int
}

// StageLoad is what one stage of a job takes.
type StageLoad struct {
	ID    string
	Legs  []LegLoad
	Turns int // half turns of the quilt before it
}

// JobPart is what a stage, or all of them, adds up to. Sums are those of the parts,
// unrounded; stitches are whole in each stage.
type JobPart struct {
	ID       string  `json:"id,omitempty"`
	LengthMM float64 `json:"length_mm"`
	DitchMM  float64 `json:"ditch_mm"`
	RulerMM  float64 `json:"ruler_mm"`
	Starts   int     `json:"starts"`
	Halts    int     `json:"halts"`
	Turns    int     `json:"turns"`
	Stitches Between `json:"stitches"`
	// Sewing, Stopping, Halting, Bobbins, Turning are the parts of Machine, the time
	// at the machine in s; Marking comes before it.
	Sewing   Between `json:"sewing_s"`
	Stopping Between `json:"stopping_s"`
	Halting  Between `json:"halting_s"`
	Bobbins  Between `json:"bobbins_s"`
	Turning  Between `json:"turning_s"`
	Machine  Between `json:"machine_s"`
	Marking  Between `json:"marking_s"`
	// Evenings are Machine over an evening.
	Evenings Between `json:"evenings"`
	// Top and Bobbin are mm of thread, reserve included.
	Top    Between `json:"top_mm"`
	Bobbin Between `json:"bobbin_mm"`
	// Changes counts the changes of the bobbin in it; MarkMM and Dots what is to be
	// marked: lines sewn by hand, and the two ends of each ruler line.
	Changes Between `json:"changes"`
	MarkMM  Between `json:"mark_mm"`
	Dots    int     `json:"dots"`
}

// JobChange is a change of the bobbin: before a leg, or where Within is set on it, so
// many mm after its beginning, because one bobbin does not hold all of it.
type JobChange struct {
	Stage  int     `json:"stage"`
	Leg    int     `json:"leg"`
	Within float64 `json:"within_mm,omitempty"`
	// Left is the thread in mm on the bobbin taken out.
	Left float64 `json:"left_mm"`
}

// NeedCode names something that has to be at hand.
type NeedCode string

// What has to be at hand: thread above, in mm; bobbins wound, the first among them;
// fresh needles; lines to be marked, in mm; a ruler and its foot.
const (
	NeedTop     NeedCode = "top-thread"
	NeedBobbins NeedCode = "bobbins"
	NeedNeedles NeedCode = "needles"
	NeedMarker  NeedCode = "marker"
	NeedRuler   NeedCode = "ruler"
)

// AtHand is how much of something has to be at hand.
type AtHand struct {
	Code   NeedCode `json:"code"`
	Amount Between  `json:"amount"`
}

// Job is a whole top added up.
type Job struct {
	Stages []JobPart `json:"stages"`
	All    JobPart   `json:"all"`
	// Bobbins are the changes where thread and bobbin are the middle of what is
	// assumed: before the leg that the bobbin would not finish.
	Bobbins  []JobChange `json:"bobbins"`
	Supplies []AtHand    `json:"supplies"`
}

// needleHours is how long a needle stays sharp: about eight hours of sewing (common
// practice, from memory).
const needleHours = 8.0

// AddUp adds a job up. It fails on assumptions out of their range and on loads that
// are not finite and positive. Cost O(legs).
func AddUp(stages []StageLoad, a Assumptions) (Job, error) {
	if err := a.Validate(); err != nil {
		return Job{}, fmt.Errorf("assumptions: %w", err)
	}
	var j Job
	for i, s := range stages {
		for k, l := range s.Legs {
			if err := l.validate(); err != nil {
				return Job{}, fmt.Errorf("stage %d, leg %d: %w", i, k, err)
			}
		}
		j.Stages = append(j.Stages, s.part(a))
	}
	mid := func(s Between) float64 { return s.Middle() }
	j.Bobbins = a.changes(stages, 1+mid(a.Thickness)/mid(a.Stitch), mid(a.Waste), mid(a.Full))
	few := countByStage(stages, a.changes(stages, 1+a.Thickness.Low/a.Stitch.High, a.Waste.Low, a.Full.High))
	many := countByStage(stages, a.changes(stages, 1+a.Thickness.High/a.Stitch.Low, a.Waste.High, a.Full.Low))
	for i := range j.Stages {
		p := &j.Stages[i]
		p.Changes = Between{math.Min(few[i], many[i]), math.Max(few[i], many[i])}
		p.Bobbins = Between{p.Changes.Low * a.Bobbin.Low, p.Changes.High * a.Bobbin.High}
		p.Machine = p.Sewing.Plus(p.Stopping).Plus(p.Halting).Plus(p.Bobbins).Plus(p.Turning)
		p.Evenings = p.Machine.over(a.Evening)
		j.All = j.All.plus(*p)
	}
	j.Supplies = j.supplies()
	return j, nil
}

func (l LegLoad) validate() error {
	length := Range{"length", "mm", 0, LineLength.Max, 0}
	return checkAll(entry{l.Length, length}, entry{l.Ditch, length.Called("length-in-the-ditch")}, entry{l.Ruler, length.Called("length-along-a-ruler")},
		entry{float64(l.Starts), Count.Called("number-of-starts")}, entry{float64(l.Halts), Count.Called("number-of-halts")},
		entry{float64(l.RulerLines), Count.Called("number-of-ruler-lines")})
}

// part adds a stage up, its bobbins left out.
func (s StageLoad) part(a Assumptions) JobPart {
	p := JobPart{ID: s.ID, Turns: s.Turns}
	lines := 0
	for _, l := range s.Legs {
		p.LengthMM, p.DitchMM, p.RulerMM = p.LengthMM+l.Length, p.DitchMM+l.Ditch, p.RulerMM+l.Ruler
		p.Starts, p.Halts, lines = p.Starts+l.Starts, p.Halts+l.Halts, lines+l.RulerLines
	}
	stitches := exactly(p.LengthMM).over(a.Stitch)
	p.Stitches = Between{math.Ceil(stitches.Low - 1e-9), math.Ceil(stitches.High - 1e-9)}
	p.Sewing = exactly(p.LengthMM).over(a.Hand)
	p.Stopping, p.Halting, p.Turning = a.Stop.Times(float64(p.Starts)), a.Halt.Times(float64(p.Halts)), a.Turn.Times(float64(p.Turns))
	// Longer stitches take less thread: each takes its length and the thickness once.
	perMM := Between{1 + a.Thickness.Low/a.Stitch.High, 1 + a.Thickness.High/a.Stitch.Low}
	p.Top = perMM.Times(p.LengthMM).Plus(a.Waste.Times(float64(p.Starts))).Times(1 + a.Reserve)
	p.Bobbin = p.Top
	byHand := math.Max(0, p.LengthMM-p.DitchMM-p.RulerMM)
	p.MarkMM, p.Dots = a.Marked.Times(byHand), 2*lines
	p.Marking = Between{p.MarkMM.Low * a.Mark.Low / 100, p.MarkMM.High * a.Mark.High / 100}
	return p
}

func (p JobPart) plus(q JobPart) JobPart {
	return JobPart{
		LengthMM: p.LengthMM + q.LengthMM, DitchMM: p.DitchMM + q.DitchMM, RulerMM: p.RulerMM + q.RulerMM,
		Starts: p.Starts + q.Starts, Halts: p.Halts + q.Halts, Turns: p.Turns + q.Turns, Dots: p.Dots + q.Dots,
		Stitches: p.Stitches.Plus(q.Stitches), Sewing: p.Sewing.Plus(q.Sewing), Stopping: p.Stopping.Plus(q.Stopping),
		Halting: p.Halting.Plus(q.Halting), Bobbins: p.Bobbins.Plus(q.Bobbins), Turning: p.Turning.Plus(q.Turning),
		Machine: p.Machine.Plus(q.Machine), Marking: p.Marking.Plus(q.Marking), Evenings: p.Evenings.Plus(q.Evenings),
		Top: p.Top.Plus(q.Top), Bobbin: p.Bobbin.Plus(q.Bobbin), Changes: p.Changes.Plus(q.Changes), MarkMM: p.MarkMM.Plus(q.MarkMM),
	}
}

// changes returns where bobbins are changed: before the first leg that the thread left
// does not finish, as few as can be where legs are not broken off; on a leg that takes
// more than a bobbin, wherever it runs out. Full is the thread on a full bobbin.
func (a Assumptions) changes(stages []StageLoad, perMM, waste, full float64) []JobChange {
	var out []JobChange
	reserve := full * a.Reserve
	spare := min(reserve, full*a.First)
	have := full*a.First - spare
	full -= reserve
	for i, s := range stages {
		for k, l := range s.Legs {
			need := perMM*l.Length + waste*float64(l.Starts)
			if need > have+1e-9 && have < full {
				out = append(out, JobChange{Stage: i, Leg: k, Left: have + spare})
				have, spare = full, reserve
			}
			for done := 0.0; need > have+1e-9; {
				done += have
				need -= have
				at := l.Length * done / (done + need)
				out = append(out, JobChange{Stage: i, Leg: k, Within: at, Left: spare})
				have = full
			}
			have -= need
		}
	}
	return out
}

func countByStage(stages []StageLoad, list []JobChange) []float64 {
	out := make([]float64, len(stages))
	for _, c := range list {
		out[c.Stage]++
	}
	return out
}

// supplies lists what has to be at hand.
func (j Job) supplies() []AtHand {
	hours := j.All.Sewing.Times(1 / 3600.0)
	out := []AtHand{
		{NeedTop, j.All.Top},
		{NeedBobbins, j.All.Changes.Plus(exactly(1))},
		{NeedNeedles, Between{math.Ceil(hours.Low / needleHours), math.Ceil(hours.High / needleHours)}},
	}
	if j.All.MarkMM.High > 0 || j.All.Dots > 0 {
		out = append(out, AtHand{NeedMarker, j.All.MarkMM})
	}
	if j.All.RulerMM > 0 {
		out = append(out, AtHand{NeedRuler, exactly(1)})
	}
	return out
}
