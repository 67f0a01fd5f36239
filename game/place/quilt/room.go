// Package quilt is the place where the top is laid out: rows of blocks with a design in
// each, its gaps and evenness, the order of its rows, and the whole seen from some way off.
package quilt

import (
	"fmt"
	"maps"
	"slices"

	"unthreaded/game/control"
	"unthreaded/game/place"
	"unthreaded/game/screen"
	"unthreaded/game/top"
	"unthreaded/game/words"
	"unthreaded/game/work"
	"unthreaded/path/geom"
	"unthreaded/path/quilt"
)

// Room is the place. Make one with New. The quilt on the table is Library.Top.
type Room struct {
	place.Shared
	// tops holds the other quilts of this visit, with their steps for undo, by ID. No map
	// here is ever written into.
	tops map[string]top.Top
	// View is how the top is shown, as pane asks for; hold is what pointers do with it.
	View screen.View
	pane screen.Pane
	hold place.Hold

	pictures pictures
	Away     Away
	// Gap is the gap in the list that was asked for last, -1 for none.
	Gap    int
	Stages Stages
	// rested is when in s the top changed last.
	rested float64
	Wrong  Wrong
	saving saving
	// front tells that the place is on the screen.
	front bool
}

// pictures are small pictures of the designs by their ID, as path data, made of them as
// documents.
type pictures struct {
	paths map[string]string
	docs  []string
}

// Away is how the whole is seen.
type Away struct {
	// Back tells that she steps back to see the whole, Own that it is drawn with her own
	// traces, Threads, by the ID of the design; Best that these are the most even, not the
	// newest.
	Back, Own, Best bool
	Threads         map[string]OwnThread
}

// Wrong is what is wrong with what was typed into a field.
type Wrong struct {
	Field string
	Said  words.Msg
}

// saving tells which state of the quilt was noted last, and since when in s a change waits
// to be kept, 0 for none.
type saving struct {
	changes int
	since   float64
}

const (
	// keepAfter is how long in s a changed quilt waits to be kept, so that what is typed in
	// several fields is kept once; measureAfter how long it rests before its gaps are
	// measured.
	keepAfter    = 0.4
	measureAfter = 0.6
)

// New returns the place before it is entered.
func New() Room { return Room{pane: screen.Pane{Zoom: 1, Most: 1}, Gap: -1} }

// With returns the room with what is shared.
func (r Room) With(s place.Shared) place.Room {
	r.Shared = s
	return r
}

// Enter lays a quilt on the table.
func (r Room) Enter() (place.Room, []place.Effect) { return r.entered() }

func (r Room) entered() (Room, []place.Effect) {
	r.front, r.hold = true, place.Hold{} // fingers that went down before are lifted elsewhere
	switch next := r.repictured(); {
	case r.Top.Quilt.ID == "" && len(r.Quilts) > 0:
		r = r.onTable(r.lastOnTable())
	case r.Top.Quilt.ID != "" && !slices.Equal(next.pictures.docs, r.pictures.docs):
		r = next
		r.Top = r.Top.WithDesigns(r.DesignsByID())
	default:
		r = next
	}
	r.rested = r.Now()
	return r.laid().ownThreads()
}

// lastOnTable returns the quilt that lay on the table last, or the first.
func (r Room) lastOnTable() quilt.Quilt {
	i := slices.IndexFunc(r.Quilts, func(q quilt.Quilt) bool { return q.ID == r.Settings.Quilt })
	return r.Quilts[max(i, 0)]
}

// Leave keeps the quilt.
func (r Room) Leave() (place.Room, []place.Effect) {
	r.front = false
	return r.keep()
}

// Hear takes what is kept, a trace that was asked for, and what another tab has made.
func (r Room) Hear(msg place.Msg) (place.Room, []place.Effect) {
	switch msg := msg.(type) {
	case place.Shelf:
		return r.shelfRead()
	case place.Fetched:
		if msg.Top {
			return r.threadFetched(msg), nil
		}
	case place.Worked:
		return r.worked(msg), nil
	case place.CompareStage:
		if r.stage(msg.Stage) < 0 {
			return r, nil
		}
		r.Stages.Open = msg.Stage
		return r.waysCompared()
	case place.Clashed:
		switch msg.Kind {
		case place.QuiltThing:
			return r.clashed(msg)
		case place.ChoicesThing, place.SewnThing:
			return r.planClashed(msg)
		}
	}
	return r, nil
}

// shelfRead lays out anew what was shown before the kept things were read, unless she has
// changed it already. In every place the quilt of the last visit lies on the table from then
// on.
func (r Room) shelfRead() (Room, []place.Effect) {
	if r.Top.CanUndo() {
		return r, nil
	}
	r.Top = top.Top{Rev: r.Top.Rev, Chosen: top.None}
	if r.front {
		return r.entered()
	}
	// The quilt that came with the program lies there only once she has opened it.
	demo, _ := quilt.Demo()
	if len(r.Quilts) > 0 && (r.Settings.Quilt != "" || r.Quilts[0].ID != demo.ID) {
		r = r.onTable(r.lastOnTable())
	}
	return r, nil
}

// changed notes a change of the quilt, to be kept and measured soon.
func (r Room) changed() Room {
	if r.Top.Changes == r.saving.changes {
		return r
	}
	r.saving.changes, r.Gap, r.rested = r.Top.Changes, -1, r.Now()
	r.Library = r.WithQuilt(r.Top.Quilt)
	r.saving.since = max(r.Now(), 1e-9)
	return r
}

// keep keeps the quilt on the table if it has changed.
func (r Room) keep() (Room, []place.Effect) {
	if r.saving.since == 0 {
		return r, nil
	}
	r.saving.since = 0
	effects := place.KeepQuilt(r.Top.Quilt)
	r, more := r.keepPlan()
	return r, append(effects, more...)
}

// keepPlan keeps choices and ticks of the quilt on the table as far as they have changed.
func (r Room) keepPlan() (Room, []place.Effect) {
	var out []place.Effect
	r.Library, out = r.KeepPlan(r.Top.Quilt.ID, r.Top.Plan.Choices, r.Top.Plan.Sewn)
	return r, out
}

// Frame has measured what has rested long enough, and keeps a quilt that has rested.
func (r Room) Frame(float64) (place.Room, []place.Effect) {
	r.front = true
	var effects []place.Effect
	if r.Top.Quilt.ID != "" && !r.Top.Measures.Done && r.Now()-r.rested > measureAfter && r.Working.Open(work.Gaps, r.gapsOf()) {
		r.Shared, effects = r.Asks(work.Gaps, r.gapsOf(), work.GapsIn{Quilt: r.Top.Quilt, Designs: r.Top.Sources(), Ditch: r.Settings.Ditch})
	}
	if since := r.saving.since; since > 0 && r.Now()-since > keepAfter {
		r, more := r.keep()
		return r, append(effects, more...)
	}
	return r, effects
}

// gapsOf tells what gaps are measured of: the top as it was laid last.
func (r Room) gapsOf() string {
	return fmt.Sprintf("%s %d %t", r.Top.Quilt.ID, r.Top.Laid, r.Settings.Ditch)
}

// worked takes what was worked out of the top as it lies.
func (r Room) worked(w place.Worked) Room {
	switch out := w.Out.(type) {
	case work.GapsOut:
		if w.Of == r.gapsOf() {
			r.Top = r.Top.Measured(out.Measures)
		}
	case work.WaysOut:
		if len(out.Options) == 0 {
			r.Notice = place.Say("order.not-compared")
		}
		if w.Of == r.waysOf() {
			r.Stages.compared = compared{r.Top.Laid, r.Stages.Open, out.Options}
			r.Top.Rev++
		}
	}
	return r
}

// Playing is as place.Room has it: nothing moves by itself.
func (r Room) Playing() bool { return false }

// Undo takes the last change back: a deleted quilt, or a change of the quilt.
func (r Room) Undo() (place.Room, []place.Effect) {
	if n := len(r.BinnedQuilts); n > 0 && r.Notice.Action == "undo" {
		q := r.BinnedQuilts[n-1]
		r.BinnedQuilts = r.BinnedQuilts[:n-1]
		r.Quilts = append([]quilt.Quilt{q}, r.Quilts...)
		r.Notice = place.Notice{}
		r, effects := r.open(q.ID)
		r, more := r.keepPlan()
		return r, slices.Concat(effects, place.KeepQuilt(q), more)
	}
	r.Top = r.Top.Undo()
	return r.laid().changed(), nil
}

// Redo does again what was taken back last.
func (r Room) Redo() (place.Room, []place.Effect) {
	r.Top = r.Top.Redo()
	return r.laid().changed(), nil
}

// Controls are what the controls of the place take.
func (r Room) Controls() []control.Decl { return controls.Decls() }

// Control does what a control of the place asks for.
func (r Room) Control(sent control.Sent) (place.Room, []place.Effect, error) {
	r.Wrong = Wrong{}
	return place.Do(controls, r, sent)
}

var arrows = map[string]geom.Point{
	"ArrowLeft": {X: -1}, "ArrowRight": {X: 1}, "ArrowUp": {Y: -1}, "ArrowDown": {Y: 1},
}

// Keys are the keys that the table takes.
func (r Room) Keys() []string {
	return []string{"ArrowLeft", "ArrowRight", "ArrowUp", "ArrowDown", "Enter", "Delete", "Backspace", "+", "-", "0"}
}

// Key takes a key pressed on the cloth.
func (r Room) Key(k place.Key) (place.Room, []place.Effect) {
	way, arrow := arrows[k.Name]
	switch {
	case k.Name == "Escape":
		return r.cancelled(), nil
	case r.Top.Quilt.ID == "":
		return r, nil
	case arrow && k.Shift:
		r.Top = r.Top.Next(int(way.X + way.Y))
	case arrow:
		r.Top = r.Top.Toward(way)
	case k.Name == "Enter":
		return r.chooseDesign(), nil
	case k.Name == "Delete" || k.Name == "Backspace":
		r.Top = r.Top.Give("")
	case k.Name == "+" || k.Name == "-" || k.Name == "0":
		return r.zoomed(k.Name).laid(), nil
	}
	if arrow && r.Top.Chosen != top.None && r.pane.Larger() {
		r.pane.Around = r.Top.Middle(r.Top.Chosen)
	}
	return r.laid().changed(), nil
}

// Where the keyboard is led to.
const (
	DesignsFocus control.Focus = "quilt-designs"
	LayoutFocus  control.Focus = "quilt-size"
)

// cancelled leads back to the cloth from the designs, or chooses no place.
func (r Room) cancelled() Room {
	switch {
	case r.Top.Chosen == top.None:
	case r.Focus.To == string(DesignsFocus):
		r.Shared = r.Lead(place.ClothFocus)
	default:
		r.Top = r.Top.Choose(top.None)
	}
	r.hold = place.Hold{}
	return r
}

// repictured returns the room with pictures of the designs as they are now.
func (r Room) repictured() Room {
	docs := make([]string, len(r.Designs))
	for i, x := range r.Designs {
		if doc, err := quilt.EncodeDesign(x); err == nil {
			docs[i] = string(doc)
		}
	}
	if slices.Equal(docs, r.pictures.docs) {
		return r
	}
	old := r.pictures
	r.pictures = pictures{map[string]string{}, docs}
	for i, x := range r.Designs {
		path, known := old.paths[x.ID]
		if !known || !slices.Contains(old.docs, docs[i]) {
			path = place.DesignPicture(x)
		}
		r.pictures.paths[x.ID] = path
	}
	return r
}

// onTable lays a quilt on the table, with its steps of this visit.
func (r Room) onTable(q quilt.Quilt) Room {
	tops := maps.Clone(r.tops)
	if tops == nil {
		tops = map[string]top.Top{}
	}
	if id := r.Top.Quilt.ID; id != "" {
		tops[id] = r.Top
	}
	r.tops = tops
	rev := r.Top.Rev
	r = r.repictured()
	if t, known := tops[q.ID]; known {
		r.Top = t.WithDesigns(r.DesignsByID())
	} else {
		k := r.Plans[q.ID]
		r.Top = top.Open(q, r.DesignsByID()).WithPlan(k.Choices, k.Sewn)
	}
	r.Settings.Quilt = q.ID
	r.Top.Rev = max(r.Top.Rev, rev+1)
	r.saving.changes, r.Gap, r.pane.Zoom, r.rested = r.Top.Changes, -1, 1, r.Now()
	r.Stages = Stages{}
	return r.laid()
}
