package game

import (
	"errors"
	"slices"
	"strconv"
	"time"

	"unthreaded/game/control"
	"unthreaded/game/lesson"
	"unthreaded/game/place"
	"unthreaded/game/replay"
	"unthreaded/game/words"
	"unthreaded/scoring/trace"
)

// lineChanging are the controls that change the line under a hand that traces:
// what it has drawn is kept first.
var lineChanging = []string{
	"motif", "repeats", "again", "open", "rehearse-route", "import", "backup", "backup-add", "backup-replace", "backup-undo",
	"rehearse.freely", "rehearse.learn", "rehearse.warm-up", "rehearse.skip", "rehearse.same", "rehearse.anew",
	"rehearse.learn-on", "rehearse.warm-on", "rehearse.way",
}

// control does what a control of the page asks for. A value that the page's own
// controls cannot send is passed over.
func (m Model) control(c Control) (Model, []Effect) {
	if m.fixed(c.Name) {
		return m, nil
	}
	if m.Live != nil && slices.Contains(lineChanging, c.Name) {
		next, kept := m.finish(trace.Interrupted)
		next, effects := next.control(c)
		return next, append(kept, effects...)
	}
	if next, effects, done := m.placeControl(c); done {
		return next, effects
	}
	return m.common(c)
}

// common does what a control asks for that belongs to no place alone.
func (m Model) common(c Control) (Model, []Effect) {
	switch c.Name {
	case "key":
		return m.key(c)
	case "wheel":
		return m.wheel(c), nil
	case "past-more":
		m.Shown = min(m.Shown, len(m.Past)) + pageful
		return m, nil
	case "place":
		return m.goTo(Place(c.Value))
	case "play", "scrub", "rate", "step-on", "step-back":
		if r := m.room(m.Place); r != nil {
			return m.toRoom(r, c)
		}
		return m.playControl(c), nil
	case "again":
		return m.clear(), nil
	case "cancel":
		if r := m.room(m.Place); r != nil {
			r, effects := r.Key(place.Key{Name: "Escape"})
			return m.after(m.Place, r, effects)
		}
		if m.Card == 0 && m.Live.Rests() {
			return m.finishHere()
		}
		return m.cancel(), nil
	case "undo":
		return m.undo()
	case "redo":
		return m.redo()
	case "dismiss":
		m.Notice = Notice{}
		return m, nil
	}
	return m.otherControl(c)
}

// otherControl takes the controls of the desk, of kept traces and of the settings.
func (m Model) otherControl(c Control) (Model, []Effect) {
	switch c.Name {
	case "open", "over", "delete", "download", "download-measures", "import", "table-all", "film", "film-stop":
		return m.recordControl(c)
	case "backup", "backup-check", "backup-later", "backup-add", "backup-replace", "backup-leave", "backup-undo":
		return m.backupControl(c)
	case "stuck-save":
		return m, []Effect{SaveStuck{Name: "unthreaded-traces-" + time.UnixMilli(m.NowMS()).UTC().Format("2006-01-02") + ".json"}}
	case "stuck-room":
		return m, []Effect{MakeRoom{}}
	}
	if r := m.room(m.Place); r != nil && declares(r, c.Name) {
		return m.toRoom(r, c)
	}
	return m.set(c)
}

// declares tells whether a room has a control of this name.
func declares(r place.Room, name string) bool {
	return slices.ContainsFunc(r.Controls(), func(d control.Decl) bool { return d.Name == name })
}

// toRoom gives a control to the room in front.
func (m Model) toRoom(r place.Room, c Control) (Model, []Effect) {
	r, effects, err := r.Control(control.Sent{Name: c.Name, Value: c.Value, Item: c.Item})
	m, effects = m.after(m.Place, r, effects)
	return m.refused(err), effects
}

// recordControl does what is asked for with kept traces and files.
func (m Model) recordControl(c Control) (Model, []Effect) {
	switch c.Name {
	case "delete":
		return m.remove(c.Item)
	case "download":
		return m.download()
	case "download-measures":
		return m.downloadMeasures()
	case "import":
		return m.importInk(c.Value)
	case "table-all":
		return m.tabulate()
	case "film", "film-stop":
		return m.filmControl(c)
	}
	return m.ask(c)
}

// playControl plays, stops and sets the replay of the place on the screen.
func (m Model) playControl(c Control) Model {
	if m.Place == LookBack {
		return m.backPlay(c)
	}
	v, err := strconv.ParseFloat(c.Value, 64)
	number := err == nil
	switch {
	case c.Name == "play" && m.Unveiled() != nil && m.Live == nil:
		m.Replay = m.Replay.Toggle()
	case c.Name == "play" && m.Place == Rehearse && m.Open == nil && m.Live == nil:
		m.Notice = Notice{Text: "Trace with mouse, pen or finger. Then Space plays it and the arrows step."}
	case c.Name == "scrub" && number:
		m.Replay = m.Replay.Scrub(m.Open, v)
	case c.Name == "rate" && slices.Contains(replay.Rates, v):
		m.Replay.Rate = v
	}
	return m
}

// clear takes the trace off the cloth, ready for the next.
func (m Model) clear() Model {
	m.Open, m.Over = nil, nil
	m.Replay = replay.Clock{Rate: m.Replay.Rate}
	return m.relaid()
}

// cancel puts the card aside, gives up the trace in hand or the order on the desk, or takes the trace
// off the cloth.
func (m Model) cancel() Model {
	if m.Card > 0 {
		m.Card = 0
		return m
	}
	switch m.Place {
	case QuiltPlan:
		return m.quiltCancel()
	}
	if m.Place == LookBack {
		m.Notice = Notice{}
		return m
	}
	if m.Live == nil {
		return m.clear()
	}
	m.Live = nil
	m.Notice = Notice{Text: "This trace was dropped."}
	return m.relaid()
}

// ask fetches a kept trace; asking again for the one laid over takes it away.
func (m Model) ask(c Control) (Model, []Effect) {
	over := c.Name == "over"
	if over && m.Over != nil && m.Over.Rec.ID == c.Item {
		m.Over = nil
		return m.timed(), nil
	}
	if !over && m.Open != nil && m.Open.Rec.ID == c.Item {
		return m, nil
	}
	return m, []Effect{Fetch{ID: c.Item, Over: over}}
}

// set changes a setting and has the settings kept.
func (m Model) set(c Control) (Model, []Effect) {
	before := m.Settings
	v, err := strconv.ParseFloat(c.Value, 64)
	number := err == nil
	switch {
	case c.Name == "motif":
		found, ok := lesson.Ready(c.Value)
		if !ok {
			return m, m.newestOf(c.Value)
		}
		m.Settings.Motif, m.Motif, m.Settings.Repeats, m.Repeats = found.ID, found, 0, 0
		m.Shown = pageful
		m = m.listed(m.Records).clear()
	case c.Name == "repeats" && number:
		m.Settings.Repeats = max(0, min(m.Motif.Max, int(v)))
		m = m.clear()
	case c.Name == "spm" && number:
		m.Settings = m.Settings.WithSPM(v)
	case c.Name == "stitch" && number:
		m.Settings = m.Settings.WithStitch(v)
	case c.Name == "units" && (c.Value == string(Inches) || c.Value == string(Millimetres)):
		m.Settings.Units = Units(c.Value)
	case c.Name == "hand" && (c.Value == string(RightHand) || c.Value == string(LeftHand)):
		m.Settings.Hand = Hand(c.Value)
	case c.Name == "lang" && (c.Value == "" || slices.Contains(words.Languages(), words.Lang(c.Value))):
		m.Settings.Lang = words.Lang(c.Value)
	case c.Name == "theme":
		m.Settings.Theme = c.Value
	}
	m, effects := m.settled(before)
	if m.Settings == before {
		return m, effects
	}
	return m.heard(place.Changed{Before: before}, effects)
}

// newestOf fetches the newest kept trace of a line that is no ready motif, which
// brings the line along.
func (m Model) newestOf(id string) []Effect {
	for _, s := range m.Records {
		if s.Motif == id {
			return []Effect{Fetch{ID: s.ID}}
		}
	}
	return nil
}

// remeasured lays the traces on the cloth out anew if the stitches have changed.
func (m Model) remeasured(before Settings) Model {
	s := m.Settings
	if s.SPM == before.SPM && s.StitchMM == before.StitchMM {
		return m
	}
	if m.Open != nil {
		m.Open = m.Open.Stitched(s.SPM, s.StitchMM)
	}
	if m.Over != nil {
		m.Over = m.Over.Stitched(s.SPM, s.StitchMM)
	}
	return m
}

// refused says what a control did not take. What the page's own controls cannot send is a
// mistake of the program, which is said too.
func (m Model) refused(err error) Model {
	var wrong *control.Error
	if !errors.As(err, &wrong) {
		return m
	}
	m.Notice = place.Say("page.misfit", wrong.Decl.Name, wrong.Value)
	switch wrong.Reason {
	case control.NotANumber:
		m.Notice = place.Say("page.no-number", wrong.Value)
	case control.OutOfRange:
		m.Notice = place.Say("page.out-of-range", wrong.Value)
	case control.TooLong:
		m.Notice = place.Say("page.too-long")
	}
	return m
}
