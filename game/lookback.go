package game

import (
	"slices"
	"strconv"
	"strings"

	"unthreaded/game/keep"
	"unthreaded/game/replay"
	"unthreaded/game/weeks"
	"unthreaded/scoring/progress"
)

// BackView is what is on the cloth where traces are looked back on.
type BackView string

// The views.
const (
	OverWeeks BackView = "weeks"
	TwoTraces BackView = "pair"
	Calendar  BackView = "days"
	AtMachine BackView = "sewn"
)

// Back is the place where traces are looked back on.
type Back struct {
	Book weeks.Book
	View BackView
	// Session is the session picked, by its place in the book's scores from the newest
	// on: 0 is the newest.
	Session int
	// Told tells that she picked it herself, and hears of it.
	Told bool
	// First and Second are the two traces laid over each other; Clock plays both.
	First, Second *Sheet
	Clock         replay.Clock
	pairRev       int
	// Month is how many months before this one the calendar ends.
	Month int
	Sewn  Sewing

	measuring measuring
	// past holds what can be taken back, the last one last.
	past []backChange
	// again holds notes that were taken back, to bring them back after all.
	again []weeks.Sewn
	// seen tells that the place was entered in this visit and had traces to show.
	seen bool
}

// NewBack returns the place before anything was looked at.
func NewBack() Back {
	return Back{Book: weeks.New(), View: OverWeeks, Clock: replay.Clock{Rate: 1}}
}

// Zone tells how far the person's clock is ahead of UTC.
type Zone struct{ Zone weeks.Zone }

func (Zone) IsMsg() {}

// in returns the place with her clock.
func (b Back) in(z Zone) Back {
	b.Book = b.Book.In(z.Zone)
	return b
}

// tracedHere tells whether there are kept traces of the line that is rehearsed.
func (m Model) tracedHere() bool {
	return slices.ContainsFunc(m.Records, func(s keep.Summary) bool { return s.Motif == m.OnCloth })
}

// backFirst has the place show the motif that was rehearsed last, with the filters that
// she left, once traces are known.
func (m Model) backFirst() Model {
	b := &m.Back
	if b.seen || len(m.Records) == 0 {
		return m
	}
	b.seen = true
	ask := b.Book.Asked()
	ask.By = alikeBy(m.Settings.Alike)
	ask.Motif = m.Records[0].Motif
	if m.tracedHere() {
		ask.Motif = m.OnCloth
	}
	b.Book = b.Book.Look(ask)
	return m
}

// backEntered prepares the place on entering.
func (m Model) backEntered() (Model, []Effect) {
	m = m.backFirst()
	b := &m.Back
	if b.First != nil {
		b.First = b.First.Stitched(m.Settings.SPM, m.Settings.StitchMM).Unadvised()
	}
	if b.Second != nil {
		b.Second = b.Second.Stitched(m.Settings.SPM, m.Settings.StitchMM).Unadvised()
	}
	m = m.sewingReady()
	return m, nil
}

// backControl does what a control of the place asks for.
func (m Model) backControl(c Control) (Model, []Effect) {
	b := &m.Back
	switch {
	case c.Name == "view":
		b.View = BackView(c.Value)
		b.Clock.Playing = false
		m.Notice = Notice{}
		return m.relaid(), nil
	case c.Name == "motif", c.Name == "measure", c.Name == "filter", c.Name == "better":
		return m.backAsk(c)
	case c.Name == "session":
		if n, err := strconv.Atoi(c.Value); err == nil {
			m = m.pickSession(n)
		}
	case c.Name == "session-before":
		m = m.pickSession(b.Session + 1)
	case c.Name == "session-next":
		m = m.pickSession(b.Session - 1)
	case c.Name == "months-before":
		b.Month++
	case c.Name == "months-next":
		b.Month = max(0, b.Month-1)
	case c.Name == "choose":
		return m.choosePair(c.Item)
	case c.Name == "delete":
		return m.removeHere(c.Item)
	case strings.HasPrefix(c.Name, "csv-"):
		return m.backTable(c.Name)
	default:
		return m.sewnControl(c)
	}
	return m, nil
}

// backAsk looks at something else. What is asked of the traces stays for other motifs and
// later visits.
func (m Model) backAsk(c Control) (Model, []Effect) {
	b, before := &m.Back, m.Settings
	ask, found := b.Book.Asked(), b.Book.Found()
	switch c.Name {
	case "motif":
		ask.Motif = c.Value
		if c.Value == "all" {
			ask.Motif = ""
		}
	case "measure":
		ask.Measure = progress.Measure(c.Value)
	case "filter":
		m.Settings.Alike = alikeWith(m.Settings.Alike, weeks.Filter(c.Item), c.Value, found)
	case "better":
		m.Settings.Alike = Alike{}
	}
	ask.By = alikeBy(m.Settings.Alike)
	b.Book = b.Book.Look(ask)
	b.Session, b.Told = 0, false
	return m.settled(before)
}

// backPoint takes one report of a pointer: on the chart it picks the nearest session.
func (m Model) backPoint(p Pointer) (Model, []Effect) {
	if p.Kind != Down || m.Back.View != OverWeeks {
		return m, nil
	}
	scores := m.Back.Book.Found().Scores
	if i := m.Chart().Nearest(scores, p.X, p.Y); i >= 0 {
		m = m.pickSession(len(scores) - 1 - i)
	}
	return m, nil
}

// backKey takes a key that was pressed on the cloth.
func (m Model) backKey(c Control) (Model, []Effect) {
	by := map[string]int{"ArrowLeft": 1, "ArrowRight": -1}[c.Value]
	switch {
	case by == 0:
	case m.Back.View == OverWeeks:
		m = m.pickSession(m.Back.Session + by)
	case m.Back.View == Calendar:
		m.Back.Month = max(0, m.Back.Month+by)
	}
	return m, nil
}

// backLaid fits the place to the screen.
func (m Model) backLaid() Model {
	if m.Back.View == TwoTraces {
		return m.pairLaid()
	}
	return m
}

// backFrame works the next piece out and, once all summaries are read, has the older
// traces measured.
func (m Model) backFrame(dt float64) (Model, []Effect) {
	if m.Place != LookBack {
		return m, nil
	}
	m.Back.Clock = m.Back.Clock.Advance(dt)
	m.Back.Book = m.Back.Book.Step()
	return m.measureNext()
}

// lookingBack tells whether something moves by itself in the place.
func (m Model) lookingBack() bool {
	b := m.Back
	return m.Place == LookBack && (b.Clock.Playing || b.Book.Busy() || b.measuring.asked != "")
}
