package game

import (
	"math"

	"unthreaded/scoring/trace"
)

// Update takes one message and returns the model after it and what is to be done
// outside. The model before must not be used again.
func Update(m Model, msg Msg) (Model, []Effect) {
	next, effects := update(m, msg)
	next, effects = next.placeKept(effects)
	next, effects = next.attended(m.LastFrame, effects)
	next, effects = next.jotted(m, msg, effects)
	return next.foreseen(), effects
}

func update(m Model, msg Msg) (Model, []Effect) {
	m, effects := m.happened(msg)
	switch msg.(type) {
	case Pointer, Frame, Control, Interrupt:
		return m, effects
	}
	return m.heard(msg, effects)
}

// happened takes a message where it belongs; those for all rooms are told to them
// after it.
func (m Model) happened(msg Msg) (Model, []Effect) {
	switch msg := msg.(type) {
	case Resized:
		return m.resized(msg), nil
	case SystemDark:
		m.Dark = msg.Dark
	case Reads:
		m.Shared = m.WithReads(msg)
	case Pointer:
		return m.pointAt(msg)
	case Frame:
		return m.frame(msg.Now)
	case Control:
		return m.control(msg)
	case Interrupt:
		return m.interrupted()
	case Listed:
		return m.arrived(msg), nil
	case Fetched:
		return m.fetched(msg)
	case Saved:
		return m.saved(msg), nil
	case Shelf:
		return m.shelf(msg)
	case Shelved:
		return m.shelved(msg), nil
	case BackupProgress, BackupMade, BackupChecked, Restored, TableNews, FilmNews:
		return m.jobNews(msg)
	case Photo:
		return m.photo(msg)
	case Zone:
		m.Back = m.Back.in(msg)
	case Clashed:
		return m.clashed(msg)
	case Recovered:
		return m.recovered(msg), nil
	case Unrestored:
		m.Notice = Notice{Text: "This trace could not be brought back: it is in the storage no more. A backup that holds it can bring it back: Settings, Open a backup."}
	case Stuck:
		m.Stuck = msg
	case StorageOff:
		m.StorageWhy = msg.Why
		return m.resume()
	case Persistence:
		m.Persisted = msg.Granted
	}
	return m, nil
}

// resized takes the new size of the cloth's place. Under a hand that traces the
// cloth stays as it is: a change that she will notice is explained afterwards, not
// that of a bar of the browser which slides away.
func (m Model) resized(r Resized) Model {
	before := m.Screen
	m.Screen = m.Settings.Screens.Sized(r)
	if l := m.Live; l != nil && (r.W != before.W || r.DPR != before.DPR || math.Abs(r.H-before.H) > before.H/4) {
		next := *l
		next.Resized = true
		if l.Rests() {
			next.needle = m.Screen.Middle()
		}
		m.Live = &next
	}
	return m.relaid()
}

// interrupted keeps what is in hand: the page is going out of sight.
func (m Model) interrupted() (Model, []Effect) {
	if r := m.room(m.Place); r != nil {
		r, effects := r.Leave()
		return m.after(m.Place, r, effects)
	}
	m, effects := m.keepQuilt()
	m, paused := m.lessonPaused()
	effects = append(effects, paused...)
	if m.Live == nil {
		return m, effects
	}
	m, more := m.finish(trace.Interrupted)
	return m, append(effects, more...)
}

// frame moves on what goes by itself, and keeps a drawing that has rested for a
// while.
func (m Model) frame(now float64) (Model, []Effect) {
	dt := now - m.LastFrame
	m.LastFrame = now
	if m.FirstFrame == 0 {
		m.FirstFrame = now
	}
	if r := m.room(m.Place); r != nil {
		r, effects := r.Frame(dt)
		return m.after(m.Place, r, effects)
	}
	m.Replay = m.Replay.Advance(dt)
	if m.lively() {
		return m.guided(now, dt)
	}
	m = m.quiltFrame(now)
	if since := m.Quilting.unkept; since > 0 && now-since > keepAfter {
		return m.keepQuilt()
	}
	return m.backFrame(dt)
}

// Playing tells whether something moves, or is being made, by itself.
func (m Model) Playing() bool {
	if r := m.room(m.Place); r != nil {
		return r.Playing() || m.working()
	}
	return m.Replay.Playing || m.lively() || m.Learning.ticked || m.lookingBack() || m.working()
}

// toStitch sets the replay to where the needle goes down next, or went down before.
func (m Model) toStitch(on bool) Model {
	sh := m.Unveiled()
	if sh == nil || m.Live != nil || len(sh.Falls) == 0 {
		return m
	}
	// Times are sums of fractions: within a microsecond they are the same.
	const same = 1e-6
	now, to := m.Replay.T+sh.Prep.T0, 0.0
	if on {
		to = m.Replay.Length
	}
	for _, f := range sh.Falls {
		if on && f.T > now+same {
			to = f.T - sh.Prep.T0
			break
		}
		if !on && f.T < now-same {
			to = f.T - sh.Prep.T0
		}
	}
	m.Replay.Playing = false
	m.Replay = m.Replay.At(to)
	return m
}

// PlaceNow returns the place on the line in mm that the replay has reached.
func (m Model) PlaceNow() float64 {
	if m.Open == nil {
		return 0
	}
	return m.Open.PlaceAt(m.Replay.T)
}
