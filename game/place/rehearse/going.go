package rehearse

import (
	"strconv"

	"unthreaded/game/control"
	"unthreaded/game/place"
	"unthreaded/game/scene"
)

// Stretch is the part of the line round which the movement goes, hers or the ideal one, as
// often as she likes.
type Stretch struct {
	// From and To are its places in mm along the line, To 0 where it is all of the line;
	// By tells how it was chosen: by the number of a repeat, or by two places.
	From, To float64
	By       string
	// Ideal tells that the ideal movement is shown, at the planned speed of the hand; before
	// there is a trace it always is.
	Ideal bool
}

// The choices of a stretch beside the numbers of the repeats.
const (
	wholeLine = "line"
	twoPlaces = "places"
)

// mostRepeats is how many repeats a row has at most.
const mostRepeats = 12

// shortest is the length in mm of the shortest stretch: a few stitches.
const shortest = 8.0

func stretches() []string {
	out := []string{wholeLine, twoPlaces}
	for k := range mostRepeats {
		out = append(out, strconv.Itoa(k+1))
	}
	return out
}

// The movements to watch.
const (
	hers  = "hers"
	ideal = "ideal"
)

// ideals tells whether the replay shows the ideal movement alone.
func (r Room) ideals() bool { return r.Open == nil || r.Stretch.Ideal }

// slowly is the rate at which a stretch is shown at first.
const slowly = 0.5

// stretched takes a stretch of the line: a repeat, or the two places chosen last.
func (r Room) stretched(e control.Event) (Room, []place.Effect) {
	s := Stretch{By: e.Text, Ideal: r.Stretch.Ideal}
	switch k, err := strconv.Atoi(e.Text); {
	case err == nil && k <= len(r.ends):
		s.To = r.ends[k-1]
		if k > 1 {
			s.From = r.ends[k-2]
		}
	case e.Text == twoPlaces:
		at := r.PlaceNow()
		s.From, s.To = at, r.Line.Length()
		if at > s.To-shortest {
			s.From = 0
		}
	default:
		s.By = wholeLine
	}
	switch round := s.To > 0; {
	case round && r.Stretch.To == 0 && r.Replay.Rate == 1:
		r.Replay.Rate = slowly
	case !round && r.Replay.Rate == slowly:
		r.Replay.Rate = 1
	}
	r.Stretch = s
	return r.atStretch(), nil
}

// atStretch goes to the beginning of the stretch.
func (r Room) atStretch() Room {
	r.Replay.Playing = false
	if r = r.paced(); r.Stretch.To > 0 {
		r.Replay = r.Replay.At(r.Replay.From)
	}
	return r
}

// begunHere and endedHere set the ends of the stretch to where the needle is.
func (r Room) begunHere() (Room, []place.Effect) {
	at := min(r.PlaceNow(), r.Line.Length()-shortest)
	r.Stretch = Stretch{From: max(0, at), To: max(r.Stretch.To, at+shortest), By: twoPlaces, Ideal: r.Stretch.Ideal}
	return r.paced(), nil
}

func (r Room) endedHere() (Room, []place.Effect) {
	at := max(r.PlaceNow(), shortest)
	r.Stretch = Stretch{From: min(r.Stretch.From, at-shortest), To: min(at, r.Line.Length()), By: twoPlaces, Ideal: r.Stretch.Ideal}
	return r.paced(), nil
}

// watched chooses whose movement is shown.
func (r Room) watched(e control.Event) (Room, []place.Effect) {
	at := r.PlaceNow()
	r.Stretch.Ideal = e.Text == ideal
	r = r.paced()
	r.Replay.Playing = false
	r.Replay = r.Replay.At(r.timeAt(at))
	return r, nil
}

// paced gives the replay the length of the movement shown, and the times between which it
// goes round a stretch. What stands at its end stays there.
func (r Room) paced() Room {
	if r.Live != nil {
		return r
	}
	atEnd := r.Replay.AtEnd() && r.Replay.Length > 0 && !r.ideals()
	r.Replay.Length = r.lasts()
	r.Replay.From, r.Replay.To = 0, 0
	if r.Stretch.To > 0 {
		a, b := r.timeAt(r.Stretch.From), r.timeAt(r.Stretch.To)
		r.Replay.From, r.Replay.To = min(a, b), max(a, b)
	}
	if atEnd && !r.Replay.Playing {
		r.Replay.T = r.Replay.Length
	}
	r.Replay = r.Replay.At(r.Replay.T)
	return r
}

// lasts returns how long the movement shown takes in s.
func (r Room) lasts() float64 {
	if r.ideals() {
		if v := r.HandSpeed(); v > 0 {
			return r.Line.Length() / v
		}
		return 0
	}
	length := r.Open.Duration()
	if r.Over != nil {
		length = max(length, r.Over.Duration())
	}
	return length
}

// timeAt returns when the movement shown passes a place in mm along the line, in s.
func (r Room) timeAt(place float64) float64 {
	if r.ideals() {
		if v := r.HandSpeed(); v > 0 {
			return place / v
		}
		return 0
	}
	return r.Open.TimeAt(place)
}

// The choices as the page offers them.
// Watch are the choices of what is watched.
type Watch struct {
	Movements []place.Option `json:"movements"`
	Movement  string         `json:"movement"`
	// Both tells that there is a movement of hers to choose too.
	Both      bool           `json:"both"`
	Stretches []place.Option `json:"stretches"`
	Stretch   string         `json:"stretch"`
	// Can tells that there is something to watch.
	Can bool `json:"can"`
	// Two tells that the stretch lies between two places, which are set where the needle is.
	Two bool `json:"two"`
}

func (r Room) watch() Watch {
	w := Watch{Movements: r.whoseNames(), Movement: hers, Both: r.Open != nil, Can: r.watchable(), Stretches: r.stretchNames(), Stretch: r.Stretch.By, Two: r.Stretch.By == twoPlaces}
	if r.ideals() {
		w.Movement = ideal
	}
	if w.Stretch == "" {
		w.Stretch = wholeLine
	}
	return w
}

// watchable tells that the movement chosen can be watched.
func (r Room) watchable() bool {
	return r.Live == nil && !r.Guessing() && r.Replay.Length > 0 && (r.ideals() || len(r.Open.Place) > 0)
}

func (r Room) whoseNames() []place.Option {
	b := r.Book()
	return []place.Option{{ID: hers, Name: b.Say("rehearse.whose.hers")}, {ID: ideal, Name: b.Say("rehearse.whose.ideal")}}
}

func (r Room) stretchNames() []place.Option {
	b := r.Book()
	out := []place.Option{{ID: wholeLine, Name: b.Say("rehearse.stretch.line")}}
	for k := range r.ends {
		out = append(out, place.Option{ID: strconv.Itoa(k + 1), Name: b.Say("rehearse.stretch-of", b.MotifNth(r.Motif.ID, k+1))})
	}
	return append(out, place.Option{ID: twoPlaces, Name: b.Say("rehearse.stretch.places")})
}

// underWay tells that the movement has been set going, or stands on its way.
func (r Room) underWay() bool { return r.Replay.Playing || r.Replay.T > 0 && !r.Replay.AtEnd() }

// stretchOn marks the stretch on the cloth.
func (d drawer) stretchOn() []scene.Item {
	if d.Stretch.To == 0 || d.Live != nil {
		return nil
	}
	part := d.Line.Section(d.Stretch.From, d.Stretch.To)
	return []scene.Item{scene.Line(stretchWidth, scene.Mix(d.pal.Cloth, d.pal.Chalk, 0.25), scene.OnScreen(part, d.View)...)}
}

// stretchWidth in pixels leaves cloth between the lines of a swirl.
const stretchWidth = 14.0
