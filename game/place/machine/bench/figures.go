package bench

import (
	"math"

	"unthreaded/path/geom"
	"unthreaded/path/machine"
)

// Against returns the reasons that speak against the method in force.
func (b Bench) Against() []machine.Reason { return b.Plan.Advice.Against(b.Method()) }

// Needle returns the range of the needle speed of her machine.
func (m Mine) Needle() machine.NeedleRange { return machine.NeedleRange{Min: m.MinSPM, Max: m.MaxSPM} }

// Full returns what a full bobbin of hers holds in mm.
func (m Mine) Full() float64 {
	if m.FullMM > 0 {
		return m.FullMM
	}
	class, err := machine.FindBobbin(m.Bobbin)
	if err != nil {
		return machine.BobbinLength.Usual
	}
	full, err := class.Of(m.Weight)
	if err != nil {
		return class.Length
	}
	return math.Min(full, machine.BobbinLength.Max)
}

// Speeds returns the table of needle and hand speeds for her machine, with a row for
// each 100 spm or, for a wide range, each 200.
func (m Mine) Speeds(stitches []float64) ([]machine.SpeedRow, error) {
	step := 100.0
	if m.MaxSPM-m.MinSPM > 1000 {
		step = 200
	}
	return machine.SpeedTable(m.Needle(), step, stitches)
}

// Part is how long something takes to sew, and the thread that it takes.
type Part struct {
	// Times is how often the plan is sewn in it.
	Times  int
	Load   machine.Load
	Time   machine.Duration
	Thread machine.Thread
}

// Parts returns the plan by itself, a row of it, and the top as she typed them, at a hand
// speed in mm/s and a stitch length in mm.
func (b Bench) Parts(hand, stitch float64) ([]Part, error) {
	load, err := b.Plan.Work.Load()
	if err != nil {
		return nil, err
	}
	layout := typed(b.Job, b.Plan)
	counts := []int{1, layout.Rows[0].Times, layout.Times()}
	var out []Part
	for _, n := range counts {
		p := Part{Times: n, Load: load.Times(n)}
		if p.Time, err = p.Load.Time(machine.UsualPace(hand)); err != nil {
			return nil, err
		}
		if p.Thread, err = b.seam(stitch, n).Thread(); err != nil {
			return nil, err
		}
		out = append(out, p)
	}
	return out, nil
}

// seam is the plan sewn n times.
func (b Bench) seam(stitch float64, n int) machine.Seam {
	s := machine.UsualSeam(b.Plan.Work.Length() * float64(n))
	s.Stitch, s.Thickness, s.Starts = stitch, b.Job.Thickness, len(b.Plan.Work.Pieces)*n
	return s
}

// Top returns the quilt as it goes through the throat. A top that does not fill its
// box weighs what it weighs: its weight is spread over the box.
func (b Bench) Top() machine.Top {
	l := b.Layout()
	return machine.Top{
		Along: l.Along, Across: l.Across, Rows: l.Bands(), Thickness: b.Job.Thickness,
		Core: machine.Core.Usual, Packing: machine.Packing.Usual,
		Density: math.Max(machine.ArealDensity.Min, machine.ArealDensity.Usual*l.share()), Loose: b.Mine.Assumed.Loose,
	}
}

// Throat returns the room right of the needle.
func (m Mine) Throat() machine.Throat {
	return machine.Throat{Width: m.ThroatW, Height: m.ThroatH, Hand: m.Hand}
}

// Table returns the reach of the table.
func (m Mine) Table() machine.Table {
	return machine.Table{Left: m.Left, Behind: m.Behind, Front: m.Front}
}

// Orders returns the order in which the rows of the quilt are sewn, and after it the
// others by name, the best first; where rows are typed all by name. The kind of an order
// of her own is "".
func (b Bench) Orders() ([]machine.RowOrder, error) {
	l := b.Layout()
	return machine.Orders(b.Top(), b.Mine.Throat(), l.Sewn, l.Turned)
}

// Marks returns the dots and the places of the ruler's edge.
func (b Bench) Marks() ([]machine.RulerMarks, error) {
	side := machine.RightSide
	if b.Job.OnLeft {
		side = machine.LeftSide
	}
	return b.Plan.Work.MarkRuler(b.Mine.Offset, b.Job.Spacing, side)
}

// Dots returns the dots of the marks, each once: lines share them.
func Dots(marks []machine.RulerMarks) []geom.Point {
	type cell struct{ x, y int }
	seen := map[cell]bool{}
	var out []geom.Point
	for _, l := range marks {
		for _, k := range l.Marks {
			c := cell{int(math.Round(k.Dot.X / dotMM)), int(math.Round(k.Dot.Y / dotMM))}
			if !seen[c] {
				seen[c] = true
				out = append(out, k.Dot)
			}
		}
	}
	return out
}

// dotMM is the size of a dot in mm: dots nearer to each other are one.
const dotMM = 0.5

// Items returns the list to go through before the first stitch.
func (b Bench) Items() []machine.Item {
	if b.Trouble != nil || b.Plan.ID == "" {
		return nil
	}
	items, err := machine.Checklist(machine.Plan{Method: b.Method(), Ruler: b.Plan.Ruled() || b.quiltRuled(), Template: b.Job.Template})
	if err != nil {
		return nil
	}
	return items
}

// quiltRuled tells that the quilt she takes the rows from has lines for a ruler.
func (b Bench) quiltRuled() bool {
	q, ok := b.Quilt()
	return ok && q.Order.Work().RulerLines > 0
}

// Cautions returns the items among them that are about hurting someone, by their
// IDs, as far as they are on the list.
func (b Bench) Cautions(ids ...string) []machine.Item {
	var out []machine.Item
	for _, id := range ids {
		for _, i := range b.Items() {
			if i.ID == id && i.Caution {
				out = append(out, i)
			}
		}
	}
	return out
}
