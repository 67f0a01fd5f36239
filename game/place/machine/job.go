package machine

import (
	"slices"
	"strconv"
	"time"

	"unthreaded/game/place"
	"unthreaded/game/place/machine/bench"
	"unthreaded/game/plan"
	"unthreaded/game/sewing"
	"unthreaded/path/machine"
	"unthreaded/path/quilt/order"
)

// whole returns the job of the quilt on the table; false where there is none.
func (r Room) whole() (sewing.Whole, bool) {
	l, ok := r.bench.Laid()
	if !ok {
		return sewing.Whole{}, false
	}
	a := r.bench.Assumptions(r.Settings.HandSpeed(), r.Settings.StitchMM)
	sum, left, err := r.bench.Sum(a)
	if err != nil {
		return sewing.Whole{}, false
	}
	w := sewing.Whole{Quilt: l.Quilt, Order: l.Order, Sum: sum, Assumed: a, Sewn: l.Sewn}
	if left.Done > 0 || left.Bobbins > 0 {
		w.Left = &left
	}
	return w, true
}

// tableKey tells one state of the table from another, as far as the machine goes by it.
type tableKey struct {
	quilt, order string
	rev          int
}

// table takes the quilt on the table to the bench where it is another than before.
func (r Room) table() Room {
	if r.Top.Quilt.ID != "" && !r.Top.Plan.Current {
		return r // it is being planned
	}
	key := tableKey{r.Top.Quilt.ID, r.Top.Plan.Order.Fingerprint, r.Top.Rev}
	if key == r.onTable {
		return r
	}
	if key.quilt != r.onTable.quilt {
		r.stage = 0
	}
	r.onTable = key
	if l, ok := bench.LaidOn(r.Top); ok {
		r.bench = r.bench.OnTable(&l)
		r.stage = min(r.stage, len(l.Order.Stages)-1)
	} else {
		r.bench = r.bench.OnTable(nil)
	}
	return r
}

// lookAt looks at a stage of the quilt's order, or at the whole for one that it has not.
func (r Room) lookAt(id string) Room {
	i := r.stageOf(id)
	if r.proof.what = sewing.JobCard; i >= 0 {
		r.stage, r.proof.what = i, sewing.StageCard
	}
	return r
}

// stageOf returns the index of a stage, -1 for one that the order has not.
func (r Room) stageOf(id string) int {
	l, _ := r.bench.Laid()
	return slices.IndexFunc(l.Order.Stages, func(s order.Stage) bool { return s.ID == id })
}

// lookedAt tells whether a stage lies on the cloth.
func (r Room) lookedAt(stage int) bool { return stage == r.stage && r.proof.what == sewing.StageCard }

// today is the day of the visit's clock where she lives.
func (r Room) today() string { return time.UnixMilli(r.NowMS()).Format(time.DateOnly) }

// tick ticks something of the quilt off, or takes its tick away.
func (r Room) tick(t order.Tick, on bool) (Room, []place.Effect) {
	l, ok := r.bench.Laid()
	if !ok {
		return r, nil
	}
	if t.Day = r.today(); on {
		return r.decided(func(r Room) Room {
			r.Top = r.Top.Tick(l.Sewn.With(t))
			return r
		})
	}
	sewn := l.Sewn.Without(t)
	if t.Kind == order.StageTick { // its places too, or it would stay sewn
		for i, s := range l.Order.Stages {
			for k := range s.Legs {
				if s.ID == t.Stage {
					sewn = sewn.Without(l.Order.TickOf(i, k))
				}
			}
		}
	}
	return r.decided(func(r Room) Room {
		r.Top = r.Top.Tick(sewn)
		return r
	})
}

// sewRows has the rows of the quilt sewn in an order by name.
func (r Room) sewRows(k machine.OrderKind) (Room, []place.Effect) {
	l, ok := r.bench.Laid()
	if !ok {
		return r, nil
	}
	return r.decided(func(r Room) Room {
		c := l.Choices
		c.Rows, c.Stages, c.FarEnd = k, nil, nil
		r.Top = r.Top.Decide(c)
		return r
	})
}

// decided does what changes the plan of the quilt on the table, and has it kept.
func (r Room) decided(do func(Room) Room) (Room, []place.Effect) {
	r = r.apart()
	before := r.Top.Changes
	if r = do(r); r.Top.Changes == before {
		return r, nil
	}
	r.steps.done, r.steps.undone = r.steps.done.with(ofQuilt), nil
	return r.planKept()
}

func (r Room) planKept() (Room, []place.Effect) {
	var out []place.Effect
	r.steps.changes = r.Top.Changes
	r.Library, out = r.KeepPlan(r.Top.Quilt.ID, r.Top.Plan.Choices, r.Top.Plan.Sewn)
	return r.table(), out
}

// kind tells what a step for undo is of: what is set up here, or the quilt on the table.
type kind uint8

const (
	ofBench kind = iota
	ofQuilt
)

type kinds []kind

// with returns the steps with one more, last and rest the last and those before it.
func (k kinds) with(s kind) kinds { return append(k[:len(k):len(k)], s) }
func (k kinds) last() kind        { return k[len(k)-1] }
func (k kinds) rest() kinds       { return k[: len(k)-1 : len(k)-1] }

// steps are those for undo and redo, the last last; changes is the number of the quilt's
// changes after its last step here.
type steps struct {
	done, undone kinds
	changes      int
}

// apart forgets the steps of the quilt if it has changed since elsewhere: they are taken
// back there.
func (r Room) apart() Room {
	if r.Top.Changes == r.steps.changes {
		return r
	}
	gone := func(k kind) bool { return k == ofQuilt }
	r.steps.done = slices.DeleteFunc(slices.Clone(r.steps.done), gone)
	r.steps.undone = slices.DeleteFunc(slices.Clone(r.steps.undone), gone)
	return r
}

// Undo is as place.Room has it.
func (r Room) Undo() (place.Room, []place.Effect) {
	r = r.apart()
	if len(r.steps.done) == 0 {
		return r, nil
	}
	was := r.steps.done.last()
	r.steps.done, r.steps.undone = r.steps.done.rest(), r.steps.undone.with(was)
	if was == ofBench {
		return r.docs(r.bench.Back())
	}
	r.Top = r.Top.Undo()
	return r.planKept()
}

// Redo is as place.Room has it.
func (r Room) Redo() (place.Room, []place.Effect) {
	r = r.apart()
	if len(r.steps.undone) == 0 {
		return r, nil
	}
	was := r.steps.undone.last()
	r.steps.undone, r.steps.done = r.steps.undone.rest(), r.steps.done.with(was)
	if was == ofBench {
		return r.docs(r.bench.Again())
	}
	r.Top = r.Top.Redo()
	return r.planKept()
}

// job fills in the job of the quilt, and returns the sentence.
func (w writer) job() string {
	o := w.out
	o.On.Job = true
	all, ok := w.r.whole()
	if !ok {
		o.Job.None = w.book.Say("machine.job-none")
		return w.book.Say("machine.job-none")
	}
	o.Job.Any = true
	for i, s := range all.Order.Stages {
		p := all.Sum.Stages[i]
		day := all.Done(i)
		row := StageRow{ID: s.ID, Name: w.book.Say("machine.numbered", i+1, sewing.StageName(w.book, s)), Done: day != "", Looked: w.r.lookedAt(i)}
		row.Time, row.Note = w.figures(p)
		if row.Done {
			row.Note = w.book.Say("machine.sewn-on", sewing.DayText(w.book, day))
		}
		o.Job.Stages = append(o.Job.Stages, row)
	}
	for i := range all.Sum.Bobbins {
		row := BobbinRow{ID: strconv.Itoa(i + 1), Name: all.BobbinText(w.book, i)}
		if day := all.Sewn.Ticked(sewing.BobbinTick(i)); day != "" {
			row.Done, row.Note = true, w.book.Say("machine.changed-on", sewing.DayText(w.book, day))
		}
		o.Job.Bobbins = append(o.Job.Bobbins, row)
	}
	o.Job.Sums = w.figureRows(append(sewing.Figures(all.Sum.All), sewing.Evenings(all.Sum.All)))
	o.Job.Hand = w.figureRows(sewing.AtHand(all.Sum))
	if o.Job.HasLeft = all.Left != nil; o.Job.HasLeft {
		o.Job.Left = w.figureRows(sewing.Remaining(*all.Left))
	}
	o.Job.Rests = w.book.Say("machine.rests", sewing.RestsOn(w.book, all.Assumed))
	o.More, o.MoreName = w.fields("stop", "halt", "bobbin-time", "turn-time", "evening", "marked", "mark-time", "waste", "full", "first", "reserve", "thickness"), w.book.Say("machine.assumed")
	return w.jobSentence(all)
}

func (w writer) figureRows(facts []plan.Fact) []FigureRow {
	var out []FigureRow
	for _, f := range facts {
		out = append(out, FigureRow{w.book.Write(f.Name), w.book.Amount(f.Value)})
	}
	return out
}

// figures are those of a part of the job in two lines.
func (w writer) figures(p machine.JobPart) (time, note string) {
	f := sewing.Figures(p)
	return w.book.Amount(f[2].Value), w.book.Say("machine.stage-note", f[0].Value, f[3].Value, f[4].Value, p.Starts)
}

func (w writer) jobSentence(all sewing.Whole) string {
	sum := all.Sum.All
	time := sewing.Figures(sum)[2].Value
	if all.Left == nil {
		return w.book.Say("machine.job", time, sewing.Evenings(sum).Value)
	}
	next := all.Left.Next
	if next.Stage < 0 {
		return w.book.Say("machine.job-done")
	}
	return w.book.Say("machine.job-left", sewing.Figures(all.Left.Job.All)[2].Value, sewing.StageName(w.book, all.Order.Stages[next.Stage]), next.Leg+1)
}
