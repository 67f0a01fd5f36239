package route

import (
	"fmt"
	"math"
	"strconv"

	"unthreaded/game/place"
	"unthreaded/game/plan"
	"unthreaded/game/replay"
	"unthreaded/game/words"
	"unthreaded/path/machine"
	"unthreaded/path/plane"
	"unthreaded/path/route"
	"unthreaded/path/route/steps"
)

// Shown is what the page shows where a route is planned.
type Shown struct {
	Drawings    []place.Option `json:"drawings"`
	Drawing     string         `json:"drawing"`
	DrawingNote string         `json:"drawingNote"`
	Rules       []place.Option `json:"rules"`
	Rule        string         `json:"rule"`
	// HasEnds tells that start and exit can be chosen: a row has its own.
	HasEnds  bool   `json:"hasEnds"`
	HasStart bool   `json:"hasStart"`
	HasExit  bool   `json:"hasExit"`
	HasSeams bool   `json:"hasSeams"`
	Seams    bool   `json:"seams"`
	Stops    bool   `json:"stops"`
	StopNote string `json:"stopNote"`

	Choices []ChoiceRow    `json:"choices"`
	Parts   []place.Option `json:"parts"`
	// Free tells that the route can be planned anew: a stage of a quilt is planned there.
	Free bool `json:"free"`
	// EndsNow tells in a line what is set of ends and stops, nothing where all is given.
	EndsNow string `json:"endsNow"`

	// Plan tells that the plan is in sight: not while she gives her own order.
	Plan bool `json:"plan"`
	// Follow tells that the route is followed beside the machine, MoveNow the move at hand;
	// AwakeNote tells that the screen cannot stay lit.
	Follow    bool   `json:"follow"`
	MoveNow   string `json:"moveNow"`
	AwakeNote string `json:"awakeNote"`

	Reasons
	Own     bool   `json:"own"`
	OwnText string `json:"ownText"`
	// Next are the lines that can follow in her own order.
	Next []place.Option `json:"next"`
	// Order is the route shown, move by move; Stays are the places of a row instead, Inside
	// the moves of the one that is opened.
	Order     []StepRow `json:"order"`
	Stays     []StayRow `json:"stays"`
	Inside    []StepRow `json:"inside"`
	MovesNote string    `json:"movesNote"`
	// Key says how the route is drawn, as far as it has such lines.
	Key    string `json:"key"`
	Joined string `json:"joined"`
}

// StayRow is a place of a row, by its number.
type StayRow struct {
	ID   string `json:"id"`
	Name string `json:"name"`
	Open bool   `json:"open"`
}

// Reasons say why something is added, and what would save most.
type Reasons struct {
	Why     bool        `json:"why"`
	CanWhy  bool        `json:"canWhy"`
	WhyText string      `json:"whyText"`
	Reason  string      `json:"reason"`
	Proof   string      `json:"proof"`
	Changes []ChangeRow `json:"changes"`
	Better  bool        `json:"better"`
	// Stops says that there are many.
	Stops string `json:"manyStops"`
	// OtherWays tells that the row can be sewn in others.
	OtherWays bool `json:"otherWays"`
}

// ChoiceRow is one route on offer.
type ChoiceRow struct {
	ID     string `json:"id"`
	Name   string `json:"name"`
	Note   string `json:"note"`
	Picked bool   `json:"picked"`
}

// ChangeRow is one change that would save something.
type ChangeRow struct {
	ID     string `json:"id"`
	Text   string `json:"text"`
	CanTry bool   `json:"canTry"`
}

// StepRow is a move of the route, by its number.
type StepRow struct {
	ID    string `json:"id"`
	Value string `json:"value"`
}

// Page is as place.Room has it.
func (r Room) Page() place.Page {
	k, b := r.Desk, r.Book()
	said := k.Summary()
	if !k.Trouble.None() {
		said = k.Trouble
	}
	if r.own.Asked {
		said = r.ownSummary()
	}
	play := r.replay(b)
	steps := place.Steps{Undo: len(r.past) > 0, Redo: len(r.future) > 0, Sizes: true}
	if r.pane.Larger() {
		steps.Whole = b.Say("route.whole")
	}
	return place.Page{
		Sentence: b.Write(said), Steps: steps, Cloth: b.Say("route.cloth", k.Drawing.Title(), k.Route().Moves),
		Figures: r.figures(b), Plays: true, Replay: &play, In: r.shown(b),
	}
}

func (r Room) shown(b words.Book) Shown {
	k := r.Desk
	s := Shown{
		Drawing: k.Drawing.ID, DrawingNote: b.Write(k.Drawing.Note), Rule: string(k.Rule), HasEnds: !k.Drawing.Row,
		HasStart: !k.Drawing.Row, HasExit: !k.Drawing.Row && k.Rule == route.Fixed,
		Free: !k.Fixed, HasSeams: k.HasSeams() && !k.Fixed, Seams: k.Seams, Stops: k.Stops,
		Own: r.own.Asked, OwnText: b.Write(r.ownSummary()),
	}
	s.EndsNow = endsNow(s, b)
	for _, d := range r.drawings() {
		s.Drawings = append(s.Drawings, place.Option{ID: d.ID, Name: b.Amount(d.Title())})
	}
	for _, rule := range rules {
		s.Rules = append(s.Rules, place.Option{ID: string(rule), Name: b.Say("route.rule." + string(rule))})
	}
	for i, c := range k.Choices {
		s.Choices = append(s.Choices, ChoiceRow{strconv.Itoa(i), choiceName(c, b), costs(c, b), i == k.Pick})
	}
	s.Parts = r.toRehearse(b)
	if r.own.Asked {
		for _, n := range r.nextLines() {
			s.Next = append(s.Next, place.Option{ID: strconv.Itoa(n.line), Name: b.Write(n.text)})
		}
	}
	s.Plan = !r.own.Asked
	if i := r.shownMove(); r.following() && i >= 0 && i < len(k.Moves()) {
		s.MoveNow = b.Write(r.moveSaid(i))
	}
	if s.Follow = r.awake.follows; r.awake.refused {
		s.AwakeNote = b.Say("route.no-wake-lock")
	}
	s = r.told(s, b)
	if n := len(k.Joined); n > 0 {
		s.Joined = b.Say("route.joined", n, words.SmallMM(plane.DefaultSnap))
	}
	if rt := k.Route(); k.Stops && len(k.Moves()) > 0 && rt.Jumps == 0 {
		s.StopNote = b.Say("route.no-stop-pays", words.DurationS(machine.StopTime.Usual))
	}
	s.Reasons = r.reasons(b)
	return s
}

// told puts the order into words: of a row its places, and the moves of the one opened.
func (r Room) told(s Shown, b words.Book) Shown {
	k := r.Desk
	rows := func(told []plan.Told) []StepRow {
		var out []StepRow
		for _, t := range told {
			row := StepRow{Value: b.Write(t.Text)}
			if t.Number > 0 {
				row.ID = strconv.Itoa(t.Number)
			}
			out = append(out, row)
		}
		return out
	}
	if len(k.Stays()) < 2 {
		s.Order = rows(k.Order())
	} else {
		for i, t := range k.Order() {
			s.Stays = append(s.Stays, StayRow{strconv.Itoa(i + 1), b.Say("route.stay-row", i+1, t.Text), i == r.inside})
		}
		s.Inside = rows(k.Inside(r.inside))
	}
	has := map[steps.MoveKind]bool{}
	for _, m := range k.Moves() {
		has[m.Kind] = true
	}
	s.Key = b.Say("route.key", has[steps.DitchMove], has[steps.AgainMove], has[steps.StopMove])
	if rt := k.Route(); rt.MovesBound > 0 {
		less := rt.Turning - rt.Smoothest
		s.MovesNote = b.Say("route.fewest", rt.Moves == rt.MovesBound, rt.MovesBound, less > 0.1, words.Decimal{Value: less / (2 * math.Pi), Digits: 1})
	}
	return s
}

// moveSaid tells a move with its number, and in a row its place.
func (r Room) moveSaid(i int) words.Msg {
	k := r.Desk
	said := k.Said()[i]
	if n := k.Numbered(i); n > 0 {
		said = words.Of("route.move-said", n, said)
	}
	if stays := k.Stays(); len(stays) > 1 {
		at := k.StayOf(i)
		return words.Of("route.in-stay", at+1, stays[at].Name, said)
	}
	return said
}

// choiceName says what a route on offer is good at.
func choiceName(c plan.Choice, b words.Book) string {
	var good words.List
	for _, key := range c.Good {
		good = append(good, words.Of("route.good."+key))
	}
	return words.Upper(b.Amount(good))
}

// costs tells what a route costs, in one line.
func costs(c plan.Choice, b words.Book) string {
	r := c.Route
	parts := words.List{words.Of("route.nothing-twice")}
	if r.RetraceMM > 0.5 {
		parts[0] = words.Of("route.twice", words.LengthMM(r.RetraceMM))
	}
	if r.SeamMM > 0 {
		parts = append(parts, words.Of("route.in-ditch", words.LengthMM(r.SeamMM)))
	}
	if r.Jumps > 0 {
		parts = append(parts, words.Of("route.stops", r.Jumps))
	}
	parts = append(parts, words.Of("route.moves", r.Moves))
	if c.Times > 0 {
		parts = append(parts, words.Of("route.times", c.Times))
	}
	if r.Turning > 0 {
		parts = append(parts, words.Of("route.turns", words.Decimal{Value: r.Turning / (2 * math.Pi), Digits: 1}))
	}
	return b.Amount(parts)
}

func (r Room) replay(b words.Book) place.Replay {
	c := r.clock
	step, of := r.counted(r.moveNow())
	done, all := words.LengthMM(r.reached()), words.LengthMM(r.Desk.Length())
	out := place.Replay{
		Play: b.Say("route.play"), Rate: strconv.FormatFloat(c.Rate, 'f', -1, 64), Enabled: c.Length > 0 && !r.own.Asked,
		Max:   fmt.Sprintf("%.1f", max(1, r.Desk.Length())),
		Scrub: fmt.Sprintf("%.1f", r.reached()),
		Time:  b.Say("route.time", step, of, done, all), Spoken: b.Say("route.time-spoken", step, done),
	}
	if c.Playing {
		out.Play = b.Say("page.pause")
	}
	for _, rate := range replay.RateNames() {
		out.Rates = append(out.Rates, place.Option{ID: rate, Name: b.Say("page.rate", rate)})
	}
	return out
}

func (r Room) figures(b words.Book) []place.Figure {
	rt := r.Desk.Route()
	if len(r.Desk.Moves()) == 0 || r.own.Asked {
		return nil
	}
	figure := func(id string, mm float64) place.Figure {
		stitch := r.Settings.StitchMM
		return place.Figure{
			ID: id, Name: b.Say("route.figure." + id), Value: b.Amount(words.LengthMM(mm)),
			Note: b.Say("route.stitches", route.Stitches(mm, stitch), words.StitchMM(stitch)),
		}
	}
	out := []place.Figure{figure("sewn", rt.SewnMM)}
	if all := rt.SewnMM + rt.RetraceMM + rt.SeamMM; all > rt.SewnMM {
		out[0].Name = b.Say("route.figure.lines")
		out = append(out, figure("all", all))
	}
	if rt.RetraceMM > 0 {
		out = append(out, figure("twice", rt.RetraceMM))
	}
	if rt.SeamMM > 0 {
		f := figure("ditch", rt.SeamMM)
		f.Note = b.Say("route.hidden")
		out = append(out, f)
	}
	if rt.Jumps > 0 {
		out = append(out, place.Figure{ID: "stops", Name: b.Say("route.figure.stops"), Value: strconv.Itoa(rt.Jumps), Note: b.Say("route.tie-off")})
	}
	return out
}

// endsNow tells in a line what is set of the ends and of stops.
func endsNow(s Shown, b words.Book) string {
	var set words.List
	if s.HasEnds {
		set = append(set, words.Of("route.rule."+s.Rule))
	}
	if s.HasSeams && s.Seams {
		set = append(set, words.Of("route.on-seams"))
	}
	if s.Free {
		set = append(set, words.Of("route.stops-now", s.Stops))
	}
	if len(set) == 0 {
		return ""
	}
	return b.Amount(set)
}
