package order

import (
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"testing"

	"unthreaded/path/geom"
	"unthreaded/path/machine"
	"unthreaded/path/motif"
	"unthreaded/path/quilt"
)

const inch = 25.4

// jobFile is a job worked out by hand: a top whose blocks hold one straight line each
// from the middle of one side to the middle of the other.
type jobFile struct {
	Note     string  `json:"note"`
	Setting  string  `json:"setting"`
	Rows     int     `json:"rows"`
	Cols     int     `json:"cols"`
	BlockIn  float64 `json:"block_in"`
	SashIn   float64 `json:"sash_in"`
	BorderIn float64 `json:"border_in"`
	// Line says whether the lines of the blocks run "across" or "down".
	Line string `json:"line"`
	Want struct {
		SewnIn  map[string]float64 `json:"sewn_in"`  // by stage
		DitchIn map[string]float64 `json:"ditch_in"` // along the long seams alone
		Seams   map[string]int     `json:"seams"`    // long seams
		// Stitched is all that is stitched in a row, its way along seams included.
		Stitched map[string]float64 `json:"stitched_in"`
		TotalIn  float64            `json:"sewn_total_in"`
		ThreadMM float64            `json:"thread_per_mm"`
		// Worked is the whole of it with single values for what is assumed.
		Worked struct {
			LengthIn map[string]float64 `json:"length_in"` // by stage
			Starts   int                `json:"starts"`
			Halts    int                `json:"halts"`
			Turns    int                `json:"turns"`
			Bobbins  []struct {
				Stage  string  `json:"stage"`
				Leg    int     `json:"leg"`
				LeftMM float64 `json:"left_mm"`
			} `json:"bobbins"`
			TimeS    float64 `json:"time_s"`
			ThreadMM float64 `json:"thread_mm"`
		} `json:"worked"`
	} `json:"want"`
}

// straightLine is a design of one line from the middle of the left side to the middle
// of the right, or from top to bottom.
func straightLine(id string, s motif.Shape, down bool) quilt.Design {
	w, h := s.Box()
	path := geom.Polyline{geom.Pt(0, h/2), geom.Pt(w, h/2)}
	if down {
		path = geom.Polyline{geom.Pt(w/2, 0), geom.Pt(w/2, h)}
	}
	return quilt.Design{
		Schema: quilt.DesignSchema, ID: id, Name: id, Shape: s, Seams: motif.NoSeams,
		Lines: []quilt.Line{{Name: "line", Kind: "sewn", Path: geom.Straight(path)}},
	}
}

func (f jobFile) quilt() (quilt.Quilt, quilt.Designs) {
	q := quilt.Quilt{
		Schema: quilt.Schema, ID: "worked", Name: "worked", Setting: quilt.Setting(f.Setting), Rows: f.Rows, Cols: f.Cols,
		BlockMM: f.BlockIn * inch, Sashing: quilt.Sashing{WidthMM: f.SashIn * inch, Cornerstones: true},
		Borders: []quilt.Border{{WidthMM: f.BorderIn * inch}}, ByKind: map[quilt.Kind]quilt.Choice{}, ByCell: map[string]quilt.Choice{},
	}
	d := quilt.Designs{"block": straightLine("block", motif.Shape{Kind: motif.Square, W: f.BlockIn * inch}, f.Line == "down")}
	q.ByKind[quilt.Block] = quilt.Choice{Design: "block"}
	for _, c := range q.Cells() {
		if c.Kind == quilt.BorderKind(0) {
			d[c.ID] = straightLine(c.ID, c.Shape, false)
			q.ByCell[c.ID] = quilt.Choice{Design: c.ID}
		}
	}
	return q, d
}

// The figures of a job are those worked out by hand, stage by stage, and the sums are
// those of their parts.
func TestJobsWorkedByHand(t *testing.T) {
	files, err := filepath.Glob("../../../testdata/quilt/jobs/*.json")
	if err != nil || len(files) == 0 {
		t.Fatalf("no jobs (%v)", err)
	}
	for _, file := range files {
		t.Run(filepath.Base(file), func(t *testing.T) {
			text, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			var f jobFile
			if err := json.Unmarshal(text, &f); err != nil {
				t.Fatal(err)
			}
			q, d := f.quilt()
			o, err := Plan(q, d, Choices{})
			if err != nil {
				t.Fatal(err)
			}
			a := machine.UsualAssumptions()
			a.Stitch, a.Thickness = machine.Between{Low: 2.54, High: 2.54}, machine.Between{Low: 2.5, High: 2.5}
			job, err := o.Job(a)
			if err != nil {
				t.Fatal(err)
			}
			checkStages(t, f, o, job)
			checkSums(t, job)
			checkWorked(t, f, o)
		})
	}
}

func checkStages(t *testing.T, f jobFile, o Order, job machine.Job) {
	t.Helper()
	seen, total := map[string]bool{}, 0.0
	for i, s := range o.Stages {
		seen[s.ID] = true
		total += s.Work.SewnMM
		part := job.Stages[i]
		if n := math.Ceil(10*part.LengthMM/inch - 1e-6); part.Stitches.Low != n || part.Stitches.High != n {
			t.Errorf("%s: %v stitches, want %v", s.ID, part.Stitches, n)
		}
		if s.Kind == Ditch {
			seam := 0.0
			for _, l := range s.Legs {
				seam += o.Programs[l.Program].Work.DitchMM
			}
			if math.Abs(seam/inch-f.Want.DitchIn[s.ID]) > 0.01 || len(s.Legs) != f.Want.Seams[s.ID] {
				t.Errorf("%s: %d seams of %.3f in, want %d of %.3f", s.ID, len(s.Legs), seam/inch, f.Want.Seams[s.ID], f.Want.DitchIn[s.ID])
			}
			continue
		}
		want, known := f.Want.SewnIn[s.ID]
		if !known || math.Abs(s.Work.SewnMM/inch-want) > 0.01 {
			t.Errorf("%s: %.3f in are sewn, want %.3f", s.ID, s.Work.SewnMM/inch, want)
		}
		if want := f.Want.Stitched[s.ID]; want > 0 {
			if got := (s.Work.Length() - s.Legs[0].Come.DitchMM) / inch; math.Abs(got-want) > 0.01 {
				t.Errorf("%s: %.3f in are stitched from its beginning, want %.3f", s.ID, got, want)
			}
		}
	}
	for id := range f.Want.SewnIn {
		if !seen[id] {
			t.Errorf("%s is missing", id)
		}
	}
	if math.Abs(total/inch-f.Want.TotalIn) > 0.05 {
		t.Errorf("%.3f in are sewn in all, want %.3f", total/inch, f.Want.TotalIn)
	}
	a := machine.UsualAssumptions()
	used := job.All.LengthMM*f.Want.ThreadMM + float64(job.All.Starts)*a.Waste.Low
	if got := job.All.Top.Low / (1 + a.Reserve); math.Abs(got-used) > 1e-6*used {
		t.Errorf("%.0f mm of thread at least, want %.0f", got, used)
	}
}

// checkWorked: with a single value for each assumption, length of every stage, stitches,
// time, thread and bobbins are those worked out by hand.
func checkWorked(t *testing.T, f jobFile, o Order) {
	t.Helper()
	one := func(v float64) machine.Between { return machine.Between{Low: v, High: v} }
	a := machine.UsualAssumptions()
	a.Stitch, a.Thickness, a.Hand, a.Waste, a.Full = one(2.54), one(2.5), one(inch), one(200), one(60000)
	a.Stop, a.Halt, a.Bobbin, a.Turn = one(40), one(3), one(90), one(180)
	job, err := o.Job(a)
	if err != nil {
		t.Fatal(err)
	}
	w := f.Want.Worked
	for i, s := range o.Stages {
		want, known := w.LengthIn[s.ID]
		if got := job.Stages[i].LengthMM / inch; !known || math.Abs(got-want) > 0.001 {
			t.Errorf("%s: %.4f in are stitched in all, want %.4f", s.ID, got, want)
		}
		// On point lengths are known to the micrometre: a last stitch may hang on that.
		if n := math.Ceil(10*want - 1e-3); math.Abs(job.Stages[i].Stitches.Low-n) > 1 || f.Setting == "straight" && job.Stages[i].Stitches.Low != n {
			t.Errorf("%s: %v stitches, want %v", s.ID, job.Stages[i].Stitches, n)
		}
	}
	all := job.All
	if len(o.Stages) != len(w.LengthIn) || all.Starts != w.Starts || all.Halts != w.Halts || all.Turns != w.Turns {
		t.Errorf("%d stages, %d starts, %d halts, %d turns, want %d, %d, %d, %d", len(o.Stages), all.Starts, all.Halts, all.Turns, len(w.LengthIn), w.Starts, w.Halts, w.Turns)
	}
	if math.Abs(all.Machine.Low-w.TimeS) > 0.01 || all.Machine != one(all.Machine.Low) {
		t.Errorf("%v s at the machine, want %.2f", all.Machine, w.TimeS)
	}
	if math.Abs(all.Top.Low-w.ThreadMM) > 0.5 || math.Abs(all.Bobbin.High-w.ThreadMM) > 0.5 {
		t.Errorf("%v mm of thread above, %v below, want %.1f", all.Top, all.Bobbin, w.ThreadMM)
	}
	if len(job.Bobbins) != len(w.Bobbins) || all.Changes != one(float64(len(w.Bobbins))) {
		t.Fatalf("the bobbin is changed %d times, %v, want %d", len(job.Bobbins), all.Changes, len(w.Bobbins))
	}
	for i, want := range w.Bobbins {
		if got := job.Bobbins[i]; o.Stages[got.Stage].ID != want.Stage || got.Leg != want.Leg || math.Abs(got.Left-want.LeftMM) > 0.1 {
			t.Errorf("change %d: %+v of %s, want %+v", i, got, o.Stages[got.Stage].ID, want)
		}
	}
}

// checkSums: the whole is the sum of its stages, each time the sum of its parts.
func checkSums(t *testing.T, job machine.Job) {
	t.Helper()
	var length, low, high float64
	starts, changes := 0, machine.Between{}
	for _, p := range job.Stages {
		length, low, high, starts = length+p.LengthMM, low+p.Machine.Low, high+p.Machine.High, starts+p.Starts
		changes = changes.Plus(p.Changes)
		if sum := p.Sewing.Plus(p.Stopping).Plus(p.Halting).Plus(p.Bobbins).Plus(p.Turning); sum != p.Machine {
			t.Errorf("%s: its times add up to %v, not %v", p.ID, sum, p.Machine)
		}
	}
	if length != job.All.LengthMM || low != job.All.Machine.Low || high != job.All.Machine.High || starts != job.All.Starts || changes != job.All.Changes {
		t.Errorf("the sums are not those of the parts: %+v", job.All)
	}
	for k := 1; k < len(job.Bobbins); k++ {
		a, b := job.Bobbins[k-1], job.Bobbins[k]
		if b.Stage < a.Stage || b.Stage == a.Stage && b.Leg < a.Leg {
			t.Errorf("change %d comes before the one before", k)
		}
	}
}
