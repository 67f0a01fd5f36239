package rehearse

import (
	"fmt"
	"math"
	"strconv"

	"unthreaded/game/keep"
	"unthreaded/game/place"
	"unthreaded/game/place/rehearse/guide"
	"unthreaded/game/replay"
	"unthreaded/game/said"
	"unthreaded/game/screen"
	"unthreaded/game/words"
	"unthreaded/path/motif"
)

// Page holds what the page shows of the place.
type Page struct {
	Practise Practise `json:"practise"`
	ToTrace
	Helps
	Speeds
	Traces
	Findings
	Glance Glance `json:"glance"`
	Watch  Watch  `json:"watch"`
	Card   Card   `json:"card"`
	// Ink is what is asked of a file of ink.
	Ink InkPage `json:"ink"`
	// Rests tells that the needle is down and the trace may be finished or gone on with.
	Rests bool `json:"rests"`
}

// ToTrace is what is traced, and how large it is shown.
type ToTrace struct {
	Motifs      []place.Option `json:"motifs"`
	Motif       string         `json:"motif"`
	MotifNote   string         `json:"motifNote"`
	Repeats     []place.Option `json:"repeats"`
	RepeatCount string         `json:"repeatCount"`
	RepeatUnit  string         `json:"repeatUnit"`
	HasRepeats  bool           `json:"hasRepeats"`
	SizeNote    string         `json:"sizeNote"`
	Measure     string         `json:"measure"`
}

// Helps is how she moves, what she sees and hears.
type Helps struct {
	Ways    []Way  `json:"ways"`
	WayNow  string `json:"wayNow"`
	WayNote string `json:"wayNote"`
	CountIn bool   `json:"countIn"`
	Seen
	// Hear tells in short what she hears.
	Hear       string `json:"hear"`
	Ticks      bool   `json:"ticks"`
	Volume     string `json:"volume"`
	VolumeText string `json:"volumeText"`
}

// Seen is what is marked on the cloth and what leads.
type Seen struct {
	// See tells it in short.
	See        string         `json:"see"`
	Marks      []place.Option `json:"marks"`
	Mark       string         `json:"mark"`
	Leads      []place.Option `json:"leads"`
	Lead       string         `json:"lead"`
	Numbers    bool           `json:"numbers"` // of the dots can be left out
	Unnumbered bool           `json:"unnumbered"`
	Strip      bool           `json:"strip"`
}

// Way is one way of moving.
type Way struct {
	ID     string `json:"id"`
	Name   string `json:"name"`
	Picked bool   `json:"picked"`
}

// Speeds are those of needle, stitch and hand.
type Speeds struct {
	SPM        string `json:"spm"`
	SPMText    string `json:"spmText"`
	Stitch     string `json:"stitch"`
	StitchText string `json:"stitchText"`
	HandText   string `json:"handText"`
	// Pace tells the pace and how the trace starts, in short.
	Pace          string         `json:"pace"`
	Thirds        []place.Option `json:"thirds"`
	Follows       string         `json:"follows"`
	HandSpeed     string         `json:"handSpeed"`
	HandSpeedText string         `json:"handSpeedText"`
	SetsNeedle    bool           `json:"setsNeedle"`
	SetsStitch    bool           `json:"setsStitch"`
	SetsHand      bool           `json:"setsHand"`
}

// Findings are what is said of the trace on the cloth beside the first figures.
type Findings struct {
	HasTrace bool        `json:"hasTrace"`
	Compared string      `json:"compared"`
	More     []place.Row `json:"more"`
	HasMore  bool        `json:"hasMore"`
	// Advice is about the worst places, which the cloth shows by number.
	Advice    []AdviceRow `json:"advice"`
	HasAdvice bool        `json:"hasAdvice"`
}

// AdviceRow is a word on one place, which lies At mm along the line.
type AdviceRow struct {
	ID   string `json:"id"`
	Text string `json:"text"`
	At   string `json:"at"`
}

// Card is the outline that is fitted to a payment card, its sizes in CSS pixels.
type Card struct {
	Open  bool    `json:"open"`
	Long  string  `json:"long"`
	LongN float64 `json:"longSide"`
	Short float64 `json:"shortSide"`
	Text  string  `json:"text"`
	Known bool    `json:"known"`
	// Asked tells that she is asked to measure the screen.
	Asked bool `json:"asked"`
}

// Page returns what the page round the cloth shows.
func (r Room) Page() place.Page {
	in := Page{Practise: r.practise(), ToTrace: r.toTrace(), Helps: r.helped(), Speeds: r.speeds(), Traces: r.traces(), Glance: r.glance(), Watch: r.watch(), Card: r.card(), Ink: r.inkPage(), Rests: r.Live.Rests()}
	text, next := r.sentence()
	out := place.Page{Sentence: text, Next: next, Cloth: r.clothLabel(), HasTrace: r.Open != nil, Plays: true, Replay: r.replay()}
	in.Findings.HasTrace = r.Open != nil
	if !r.Guessing() {
		var more []place.Row
		out.Figures, more = r.figures()
		advice := r.advice()
		in.Findings = Findings{r.Open != nil, r.compared(), more, len(more) > 0, advice, len(advice) > 0}
	}
	out.In = in
	return out
}

func number(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

func (r Room) clothLabel() string {
	b := r.Book()
	if r.Open != nil {
		return b.Say("rehearse.cloth.trace", r.Repeats, b.MotifUnit(r.Motif.ID))
	}
	return b.Say("rehearse.cloth.line", r.motifName(), r.Repeats, b.MotifUnit(r.Motif.ID), words.LengthMM(r.Line.Length()))
}

// motifName returns what the line on the cloth is called.
func (r Room) motifName() string { return r.nameOf(r.Motif.ID, r.Motif.Name) }

// nameOf returns the name of a line: of a ready motif in her language, else its own.
func (r Room) nameOf(id, own string) string {
	if _, ready := motif.Find(id); !ready {
		return own
	}
	name, _ := r.Book().Motif(id)
	return name
}

// motifNote says what the line on the cloth is.
func (r Room) motifNote() string {
	b := r.Book()
	if _, ready := motif.Find(r.Motif.ID); ready {
		_, note := b.Motif(r.Motif.ID)
		return note
	}
	if r.Motif.Note == "" {
		return b.Say("rehearse.rehearsed-before")
	}
	return r.Motif.Note
}

// replay is the state of the replay's controls.
func (r Room) replay() *place.Replay {
	b := r.Book()
	p := &place.Replay{Play: b.Say("rehearse.watch"), Rate: number(r.Replay.Rate), Max: "1", Scrub: "0"}
	for _, v := range replay.Rates {
		p.Rates = append(p.Rates, place.Option{ID: number(v), Name: b.Say("page.rate", v)})
	}
	p.Enabled = r.watchable()
	if r.ideals() {
		p.Play = b.Say("rehearse.watch-ideal")
	}
	if r.Replay.Playing {
		p.Play = b.Say("page.pause")
	}
	at := r.PlaceNow()
	p.Max, p.Scrub = fmt.Sprintf("%.1f", r.Line.Length()), fmt.Sprintf("%.1f", at)
	p.Time = b.Say("rehearse.time", words.ClockS(r.Replay.T), words.ClockS(r.Replay.Length))
	p.Spoken = b.Say("rehearse.spoken", words.LengthMM(at), words.ClockS(r.Replay.T))
	return p
}

func (r Room) toTrace() ToTrace {
	return ToTrace{
		Motifs: r.motifs(), Motif: r.Motif.ID, MotifNote: r.motifNote(),
		Repeats: r.repeats(), RepeatCount: r.repeatCount(), RepeatUnit: r.Book().MotifUnit(r.Motif.ID), HasRepeats: r.Motif.Max > 1,
		SizeNote: r.sizeText(), Measure: r.Book().Say("rehearse.measure", r.Screen.SizeKnown),
	}
}

func (r Room) helped() Helps {
	s, g, b := r.Settings, r.guideSeen(), r.Book()
	p := Helps{CountIn: g.CountIn, Seen: r.seen(g), Hear: b.Say("rehearse.hear", g.Ticks), Ticks: g.Ticks}
	way := keep.Pencil
	if s.Way == keep.Cloth {
		way = keep.Cloth
	}
	for _, w := range []string{keep.Pencil, keep.Cloth} {
		p.Ways = append(p.Ways, Way{w, b.Say("rehearse.way." + w), w == way})
	}
	p.WayNow = b.Say("rehearse.way." + way)
	p.WayNote = b.Say("rehearse.way-note." + way)
	p.Volume, p.VolumeText = fmt.Sprintf("%.2f", s.Volume), b.Amount(words.Share(s.Volume))
	return p
}

func (r Room) seen(g keep.Guide) Seen {
	p := Seen{
		See: r.guideWords(g), Marks: r.markNames(), Mark: g.Marks, Leads: r.leadNames(), Lead: g.Lead,
		Numbers: r.Ruled() || g.Marks == keep.DotsOnly, Unnumbered: g.Unnumbered, Strip: g.SpeedStrip,
	}
	if g.Lead == keep.NoLead {
		p.Lead = noLead
	}
	return p
}

func (r Room) speeds() Speeds {
	s, b := r.Settings, r.Book()
	perInch, mm := math.Round(2*place.MMPerInch/s.StitchMM)/2, words.Decimal{Value: s.StitchMM, Digits: 1}
	hand := b.Amount(words.SpeedMM(s.HandSpeed()))
	p := Speeds{
		SPM: number(s.SPM), SPMText: b.Say("rehearse.spm", math.Round(s.SPM)),
		Stitch: number(s.StitchMM), StitchText: b.Say("rehearse.stitch", r.Inches(), perInch, mm),
		HandText: b.Say("rehearse.hand", said.Speed(r.HandSpeed(), r.Inches())), Follows: string(s.Follows),
		HandSpeed: fmt.Sprintf("%.1f", s.HandSpeed()), HandSpeedText: hand, Pace: b.Say("rehearse.pace", hand, s.Guide.CountIn),
		SetsHand:   s.Follows == place.NeedleFollows || s.Follows == place.StitchFollows,
		SetsNeedle: s.Follows != place.NeedleFollows, SetsStitch: s.Follows != place.StitchFollows,
	}
	for _, third := range []place.Third{place.HandFollows, place.NeedleFollows, place.StitchFollows} {
		p.Thirds = append(p.Thirds, place.Option{ID: string(third), Name: b.Say("rehearse.follows." + string(third))})
	}
	return p
}

// markNames name what is marked of the line, on a line with dots and on one without.
func (r Room) markNames() (out []place.Option) {
	for _, m := range []string{keep.WholeLine, keep.DotsOnly, keep.EndsOnly, keep.NoMarks} {
		out = append(out, place.Option{ID: m, Name: r.markName(m)})
	}
	return out
}

func (r Room) markName(mark string) string {
	b := r.Book()
	if mark == keep.DotsOnly {
		return b.Say("rehearse.mark-dots", r.Ruled())
	}
	return b.Say("rehearse.mark." + mark)
}

func (r Room) leadNames() []place.Option {
	b := r.Book()
	return []place.Option{
		{ID: noLead, Name: b.Say("rehearse.lead.none")},
		{ID: keep.LeadAhead, Name: b.Say("rehearse.lead.ahead")},
		{ID: keep.LeadWaits, Name: b.Say("rehearse.lead.waits", words.LengthMM(guide.ReachMM))},
	}
}

// guideSeen returns the help as she chose it, what is seen as the lesson has it.
func (r Room) guideSeen() keep.Guide {
	g, asked := r.Settings.Guide.Known(), r.Guide()
	if r.Leading() {
		g.Marks, g.Lead, g.SpeedStrip = asked.Marks, asked.Lead, asked.SpeedStrip
	}
	return g
}

// guideWords tells what is seen under a guide, in a few words.
func (r Room) guideWords(g keep.Guide) string {
	b := r.Book()
	parts := words.List{r.markName(g.Known().Marks)}
	if g.Lead != keep.NoLead {
		parts = append(parts, b.Say("rehearse.see."+g.Lead))
	}
	if g.Unnumbered && r.Ruled() {
		parts = append(parts, b.Say("rehearse.see.unnumbered"))
	}
	if g.SpeedStrip {
		parts = append(parts, b.Say("rehearse.see.strip"))
	}
	return b.Amount(parts)
}

// card is the outline of a card by which the screen is measured.
func (r Room) card() Card {
	long := r.Card
	return Card{
		Open: long > 0, Known: r.Screen.SizeKnown, Asked: r.asksSize(), Long: fmt.Sprintf("%.1f", long),
		LongN: long, Short: math.Round(100*long*screen.CardShortMM/screen.CardLongMM) / 100,
		Text: r.Book().Say("rehearse.pixels", words.Decimal{Value: long / screen.CardLongMM, Digits: 2}),
	}
}

// sizeText tells how large the cloth is shown, and whether that is known.
func (r Room) sizeText() string {
	return r.Book().Say("rehearse.size", words.Share(r.View.Zoom), !(r.View.Zoom < 1), r.Screen.SizeKnown)
}

// startSentence says what to do first.
func (r Room) startSentence() string {
	if r.Way() == keep.Cloth {
		return r.Book().Say("rehearse.start-cloth")
	}
	how := "line"
	switch marks := r.Guide().Marks; {
	case marks == keep.NoMarks:
		how = "none"
	case r.Ruled():
		how = "ruled"
	case marks == keep.EndsOnly || marks == keep.DotsOnly:
		how = marks
	}
	return r.Book().Say("rehearse.start", r.Screen.Touch, how)
}

// liveSentence speaks to a hand that traces: calmly, and never to stop it.
func (r Room) liveSentence() string {
	b, l := r.Book(), r.Live
	told, hidden := l.Dots.Told, r.Guide().Unnumbered
	switch {
	case l.Rests():
		return b.Say("rehearse.live.rests")
	case l.Counting:
		return b.Say("rehearse.live.count")
	case told.Word == guide.LeftOut && hidden:
		return b.Say("rehearse.live.left-out-hidden")
	case told.Word == guide.LeftOut:
		return b.Say("rehearse.live.left-out", told.Last-told.First+1, told.First+1, told.Last+1)
	case told.Word == guide.NoStop && hidden:
		return b.Say("rehearse.live.no-stop-hidden")
	case told.Word == guide.NoStop:
		return b.Say("rehearse.live.no-stop", told.First+1)
	case told.Word == guide.OutOfOrder && (hidden || l.Dots.Next >= len(l.Dots.At)):
		return b.Say("rehearse.live.again-hidden")
	case told.Word == guide.OutOfOrder:
		return b.Say("rehearse.live.again", told.First+1, l.Dots.Next+1)
	case l.Resized:
		return b.Say("rehearse.live.resized")
	}
	return b.Say("rehearse.live.on")
}
