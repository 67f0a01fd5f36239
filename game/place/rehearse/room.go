// Package rehearse is the place where a line is traced before it is sewn: the trace is
// laid out as stitches, measured and kept, played again and compared with others; a
// course or a warm-up may lead from trace to trace.
package rehearse

import (
	"slices"
	"strings"

	"unthreaded/game/control"
	"unthreaded/game/keep"
	"unthreaded/game/place"
	"unthreaded/game/place/rehearse/lesson"
	"unthreaded/game/replay"
	"unthreaded/game/screen"
	"unthreaded/game/work"
	"unthreaded/path/geom"
	"unthreaded/path/motif"
	"unthreaded/scoring/trace"
)

// Room is the place as it stands.
type Room struct {
	place.Shared
	Cloth
	Kept

	View screen.View
	// Card is the long side in CSS pixels of the outline that is being fitted to a
	// payment card, 0 while none is.
	Card float64
	// Learning is what leads from trace to trace, if anything does.
	Learning Learning
	// Live is the trace in hand, journal names what is written down of it.
	Live    *Live
	journal string
	// more tells that all about the trace on the cloth is shown; sewing runs along the
	// stitches after the lift.
	more   bool
	sewing sewing
	// offered are the lines of the quilt on the table.
	offered offered
	// sizeLater tells that she does not want to measure the screen now.
	sizeLater bool
	// inking is a file of ink that is read or about which something is asked; incoming are
	// the traces of files that are still to be kept.
	inking   inking
	incoming []work.InkKept
}

// Cloth is what lies on the cloth.
type Cloth struct {
	// Motif, Repeats and Line are what is rehearsed. LineRev grows with each change of
	// the line.
	Motif   motif.Rehearsal
	Repeats int
	Line    geom.Line
	LineRev int
	// Open is the trace on the cloth, Over one laid over it to compare.
	Open, Over *replay.Sheet
	Replay     replay.Clock
	// Stretch is what of the line the movement goes round, and whose movement.
	Stretch Stretch
	// ends are where the repeats of the line end, in mm along it; none where it has none.
	ends []float64
}

// Kept is what is known of the kept traces of the line.
type Kept struct {
	// Past lists them, newest first; Shown is how many of them the page lists.
	Past  []keep.Summary
	Shown int
	// deleted holds what was deleted in this visit, for undo, the last one last.
	deleted []deletion
	// of and among are the line and the records that Past was picked for.
	of    string
	among []keep.Summary
}

// deletion is a trace that was deleted, and its sheet if it lay on the cloth.
type deletion struct {
	id    string
	sheet *replay.Sheet
}

// pageful is how many past traces are listed at first, and with each wish for more.
const pageful = 50

// New returns the room of a visit that begins with these settings.
func New(s place.Shared) Room {
	r := Room{Shared: s}
	r.Motif = r.usual()
	r.Replay.Rate = 1
	r.Shown = pageful
	r.Learning = Learning{Mode: Freely, courseID: place.CourseThing, warmUpID: place.WarmUpThing}
	return r
}

// usual returns the ready motif that was chosen last.
func (r Room) usual() motif.Rehearsal {
	if ready, ok := lesson.Ready(r.Settings.Motif); ok {
		return ready
	}
	first, _ := lesson.Ready(motif.ToRehearse()[0].ID)
	return first
}

// With returns the room with what is shared as it is now.
func (r Room) With(s place.Shared) place.Room {
	r.Shared = s
	return r
}

// Enter opens the place.
func (r Room) Enter() (place.Room, []place.Effect) { return r.attended(nil) }

// Leave keeps the trace in hand as far as it went, and the warm-up with its clock.
func (r Room) Leave() (place.Room, []place.Effect) {
	r, effects := r.lessonPaused()
	r, more := r.lost()
	r = r.settled()
	r.Replay.Playing = false
	r, effects = r.listed().unjotted(append(effects, more...))
	r, saves := r.takeInk(len(r.incoming))
	return r, append(effects, saves...)
}

// lost ends the trace in hand where something else takes the hand away.
func (r Room) lost() (Room, []place.Effect) {
	if r.Live == nil {
		return r, nil
	}
	return r.finish(trace.Interrupted)
}

// Point takes a report of the pointer.
func (r Room) Point(p place.Pointer) (place.Room, []place.Effect) {
	if p.Kind == place.Down {
		r = r.settled()
	}
	r, effects := r.point(p)
	return r.attended(effects)
}

// Keys are the arrows, which step from stitch to stitch.
func (r Room) Keys() []string { return []string{"ArrowLeft", "ArrowRight", "Enter"} }

// Key steps to the next or the last stitch; Escape puts aside what is in hand.
func (r Room) Key(k place.Key) (place.Room, []place.Effect) {
	var effects []place.Effect
	r = r.settled()
	switch {
	case k.Name == "Enter", k.Name == "Escape" && r.Card == 0 && r.Live.Rests():
		r, effects = r.finishHere()
	case k.Name == "Escape":
		r = r.cancelled()
	case k.Name == "ArrowLeft" || k.Name == "ArrowRight":
		r = r.toStitch(k.Name == "ArrowRight")
	}
	return r.attended(effects)
}

// Frame moves on what goes by itself.
func (r Room) Frame(dt float64) (place.Room, []place.Effect) {
	r = r.advanced(dt)
	var effects []place.Effect
	if r.lively() {
		r, effects = r.guided(r.LastFrame, dt)
	}
	r, more := r.warmed(dt)
	r, jots := r.jotted()
	r, saves := r.takeInk(atOnce)
	return r.attended(slices.Concat(effects, more, jots, saves))
}

// Hear takes news.
func (r Room) Hear(msg place.Msg) (place.Room, []place.Effect) {
	var effects []place.Effect
	switch msg := msg.(type) {
	case place.Resized:
		r = r.resized()
	case place.Shelf:
		r, effects = r.shelf(msg)
	case place.Fetched:
		r, effects = r.fetched(msg)
	case place.Trace:
		r = r.withMotif(msg.Line).cleared()
	case place.Changed:
		r = r.stitchedAnew(msg.Before)
	case place.Gone:
		r = r.gone(msg)
	case place.Worked:
		if msg.Kind == work.Ink {
			r, effects = r.inked(msg)
		}
	}
	return r.attended(effects)
}

// Undo takes the last step in a lesson back or brings the trace deleted last back.
func (r Room) Undo() (place.Room, []place.Effect) {
	if len(r.Learning.past) > 0 && r.Leading() && (r.Notice.Action != "undo" || r.Notice.Is(begunAnew)) {
		r, effects := r.lessonBack()
		return r.attended(effects)
	}
	r, effects := r.restored()
	return r.attended(effects)
}

// Redo has nothing to do again.
func (r Room) Redo() (place.Room, []place.Effect) { return r, nil }

// Playing tells whether something moves by itself.
func (r Room) Playing() bool {
	return r.Replay.Playing || r.sewing.on || r.lively() || r.Learning.ticked || len(r.incoming) > 0
}

// Tracing tells whether a pointer is drawing.
func (r Room) Tracing() bool { return r.Live != nil && !r.Live.Rests() }

// Awaits tells that a line or trace which the lesson needs is on its way.
func (r Room) Awaits() bool { return r.Learning.wants != "" }

// Sight returns how the cloth lies on the screen.
func (r Room) Sight() screen.View { return r.View }

// attended does what is left to do after anything that happened.
func (r Room) attended(effects []place.Effect) (place.Room, []place.Effect) {
	r, more := r.lessonLaid()
	r = r.offering().foreseen().listed().paced()
	r.OnCloth = r.Motif.ID
	r, asks := r.readsInk()
	r, effects = r.unjotted(slices.Concat(effects, more, asks))
	return r, effects
}

// listed picks the kept traces of the line out, once for as long as neither changes.
func (r Room) listed() Room {
	same := r.of == r.Motif.ID && len(r.among) == len(r.Records) && (len(r.among) == 0 || &r.among[0] == &r.Records[0])
	if same {
		return r
	}
	r.of, r.among, r.Past = r.Motif.ID, r.Records, nil
	for _, s := range r.Records {
		if s.Motif == r.Motif.ID {
			r.Past = append(r.Past, s)
		}
	}
	return r
}

// Fit fits line and view to the screen, unless a trace is on the cloth whose line has to
// stay. Under a hand that traces the cloth stays as it is.
func (r Room) Fit() place.Room { return r.fitted() }

func (r Room) fitted() Room {
	if r.Live != nil {
		return r
	}
	if r.Open == nil {
		n := r.repeatsAsked()
		if n == 0 {
			w, h := r.Screen.RoomMM()
			n = r.Motif.Fit(w, h)
		}
		n = max(1, min(r.Motif.Max, n))
		if n != r.Repeats || r.Line.Length() == 0 {
			r = r.withLine(n)
		}
	}
	lo, hi := r.Line.Path().Bounds()
	r.View = screen.Fit(lo, hi, r.Screen)
	return r
}

// withMotif takes another line, to be laid when the cloth is cleared.
func (r Room) withMotif(line motif.Rehearsal) Room {
	r.Motif, r.Repeats = line, 0
	return r
}

// withLine puts a row of n repeats of the motif on the cloth.
func (r Room) withLine(n int) Room {
	l, err := r.Motif.Line(n)
	if err != nil {
		// n was kept within the motif's range by the callers.
		panic(err)
	}
	r.Line, r.Repeats, r.ends = l, n, r.Motif.Ends(n)
	r.LineRev++
	r.Stretch = Stretch{}
	return r
}

// cleared takes the trace off the cloth, ready for the next.
func (r Room) cleared() Room {
	r.Open, r.Over = nil, nil
	r.Replay = replay.Clock{Rate: r.Replay.Rate}
	r.Stretch.Ideal = false
	return r.fitted()
}

// cancelled puts the card aside, gives up the trace in hand, or takes the trace off the
// cloth.
func (r Room) cancelled() Room {
	switch {
	case r.Card > 0:
		r.Card = 0
		return r
	case r.Live == nil:
		return r.cleared()
	}
	r.Live = nil
	r.Notice = place.Say("rehearse.dropped")
	return r.fitted()
}

// resized notes a change of the cloth's place that a hand which traces will notice and
// that is explained afterwards: not that of a bar of the browser which slides away.
func (r Room) resized() Room {
	if r.Live == nil {
		return r
	}
	r.Live = r.Live.on(r.Screen)
	return r
}

// stitchedAnew lays the traces on the cloth out anew if the stitches have changed.
func (r Room) stitchedAnew(before place.Settings) Room {
	s := r.Settings
	if s.SPM == before.SPM && s.StitchMM == before.StitchMM {
		return r
	}
	if r.Open != nil {
		r.Open = r.Open.Stitched(s.SPM, s.StitchMM)
	}
	if r.Over != nil {
		r.Over = r.Over.Stitched(s.SPM, s.StitchMM)
	}
	return r
}

// toStitch sets the replay to where the needle goes down next, or went down before.
func (r Room) toStitch(on bool) Room {
	sh := r.Unveiled()
	if r.ideals() && r.Live == nil {
		step := r.Settings.StitchMM
		if !on {
			step = -step
		}
		r.Replay.Playing = false
		r.Replay = r.Replay.At(r.timeAt(r.PlaceNow() + step))
		return r
	}
	if sh == nil || r.Live != nil || len(sh.Falls) == 0 {
		return r
	}
	// Times are sums of fractions: within a microsecond they are the same.
	const same = 1e-6
	now, to := r.Replay.T+sh.Prep.T0, 0.0
	if on {
		to = r.Replay.Length
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
	r.Replay.Playing = false
	r.Replay = r.Replay.At(to)
	return r
}

// PlaceNow returns the place on the line in mm that the replay has reached.
func (r Room) PlaceNow() float64 {
	if r.ideals() {
		return min(r.Line.Length(), r.HandSpeed()*r.Replay.T)
	}
	return r.Open.PlaceAt(r.Replay.T)
}

// Winding tells whether the line on the cloth is a planned route, which may run over its
// own junctions.
func (r Room) Winding() bool { return strings.HasPrefix(r.Motif.ID, place.RoutePrefix) }

// Controls are what the place's controls are and take.
func (r Room) Controls() []control.Decl { return controls.Decls() }

// Control does what a control asks for; what the lesson chooses is passed over, and what
// would change the line under a hand that traces comes after what it has drawn.
func (r Room) Control(sent control.Sent) (place.Room, []place.Effect, error) {
	if r.fixed(sent.Name) {
		return r, nil, nil
	}
	r = r.settled()
	var kept []place.Effect
	if slices.Contains(lineChanging, sent.Name) {
		r, kept = r.lost()
	}
	next, effects, err := place.Do(controls, r, sent)
	after, more := next.(Room).attended(append(kept, effects...))
	return after, more, err
}
