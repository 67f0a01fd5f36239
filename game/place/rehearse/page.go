package rehearse

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"unthreaded/game/keep"
	"unthreaded/game/place"
	"unthreaded/game/place/rehearse/guide"
	"unthreaded/game/replay"
	"unthreaded/game/screen"
	"unthreaded/game/words"
)

// Page holds what the page shows of the place.
type Page struct {
	Practise Practise `json:"practise"`
	ToTrace
	Helps
	Speeds
	Traces
	Findings
	Card Card `json:"card"`
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
}

// Page returns what the page round the cloth shows.
func (r Room) Page() place.Page {
	in := Page{Practise: r.practise(), ToTrace: r.toTrace(), Helps: r.helped(), Speeds: r.speeds(), Traces: r.traces(), Card: r.card(), Rests: r.Live.Rests()}
	out := place.Page{Sentence: r.sentence(), Cloth: r.clothLabel(), HasTrace: r.Open != nil, Plays: true, Replay: r.replay()}
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
	if r.Open != nil {
		return fmt.Sprintf("Your trace as stitches along %d %s. The measures are beside it as text.", r.Repeats, words.MotifUnit(r.Motif.ID))
	}
	return fmt.Sprintf("Cloth with a chalk line to trace: %s, %d %s, %s long.", r.Motif.Name, r.Repeats, words.MotifUnit(r.Motif.ID), words.Length(r.Line.Length(), r.Inches()))
}

// replay is the state of the replay's controls.
func (r Room) replay() *place.Replay {
	p := &place.Replay{Play: "Watch it again", Playing: r.Replay.Playing, Rate: number(r.Replay.Rate), Max: "1", Scrub: "0", Waiting: r.Open == nil}
	for _, v := range replay.Rates {
		p.Rates = append(p.Rates, place.Option{ID: number(v), Name: number(v) + "x"})
	}
	if r.Open == nil {
		return p
	}
	p.Enabled = len(r.Open.Place) > 0 && r.Live == nil && !r.Guessing()
	if r.Replay.Playing {
		p.Play = "Pause"
	}
	at := r.PlaceNow()
	p.Max, p.Scrub = fmt.Sprintf("%.1f", r.Line.Length()), fmt.Sprintf("%.1f", at)
	p.Time = words.Clock(r.Replay.T) + " of " + words.Clock(r.Replay.Length)
	p.Spoken = fmt.Sprintf("%s along the line, %s", words.Length(at, r.Inches()), words.Clock(r.Replay.T))
	return p
}

func (r Room) toTrace() ToTrace {
	p := ToTrace{
		Motifs: r.motifs(), Motif: r.Motif.ID, MotifNote: r.Motif.Note,
		Repeats: r.repeats(), RepeatCount: r.repeatCount(), RepeatUnit: words.MotifUnit(r.Motif.ID), HasRepeats: r.Motif.Max > 1,
		SizeNote: r.sizeText(), Measure: "Measure this screen with a card",
	}
	if r.Screen.SizeKnown {
		p.Measure = "Measure this screen again"
	}
	return p
}

func (r Room) helped() Helps {
	s, g := r.Settings, r.guideSeen()
	p := Helps{CountIn: g.CountIn, Seen: r.seen(g), Hear: "nothing", Ticks: g.Ticks}
	p.Ways = []Way{
		{keep.Pencil, "Pencil", s.Way != keep.Cloth},
		{keep.Cloth, "Cloth", s.Way == keep.Cloth},
	}
	p.WayNote = "The needle follows the pointer, as in drawing on paper."
	if s.Way == keep.Cloth {
		p.WayNote = "The needle stands still and you push the cloth under it, as at the machine. Push it right, and the line grows to the left. Let go where your hands must be set anew: the needle stays down."
	}
	if g.Ticks {
		p.Hear = "a tick at each stitch"
	}
	p.Volume, p.VolumeText = fmt.Sprintf("%.2f", s.Volume), words.Percent(s.Volume)
	return p
}

func (r Room) seen(g keep.Guide) Seen {
	p := Seen{
		See: guideWords(g, r.Ruled()), Marks: markNames(r.Ruled()), Mark: g.Marks, Leads: leadNames(r.Inches()), Lead: g.Lead,
		Numbers: r.Ruled() || g.Marks == keep.DotsOnly, Unnumbered: g.Unnumbered, Strip: g.SpeedStrip,
	}
	if g.Lead == keep.NoLead {
		p.Lead = noLead
	}
	return p
}

func (r Room) speeds() Speeds {
	s := r.Settings
	p := Speeds{
		SPM: number(s.SPM), SPMText: number(math.Round(s.SPM)) + " a minute",
		Stitch: number(s.StitchMM), StitchText: words.Stitch(s.StitchMM, r.Inches()) + " (" + words.Stitch(s.StitchMM, !r.Inches()) + ")",
		HandText: "Move your hand " + words.Length(r.HandSpeed(), r.Inches()) + " a second.",
		Thirds:   thirds, Follows: string(s.Follows),
		HandSpeed: fmt.Sprintf("%.1f", s.HandSpeed()), HandSpeedText: words.Speed(s.HandSpeed(), r.Inches()),
		SetsHand:   s.Follows == place.NeedleFollows || s.Follows == place.StitchFollows,
		SetsNeedle: s.Follows != place.NeedleFollows, SetsStitch: s.Follows != place.StitchFollows,
	}
	p.Pace = p.HandSpeedText
	if s.Guide.CountIn {
		p.Pace += ", three beats first"
	}
	return p
}

var thirds = []place.Option{
	{ID: string(place.HandFollows), Name: "the hand speed"},
	{ID: string(place.NeedleFollows), Name: "the needle speed"},
	{ID: string(place.StitchFollows), Name: "the stitch length"},
}

// markNames name what is marked of the line, on a line with dots and on one without.
func markNames(dots bool) []place.Option {
	between := "start, end, and a dot every inch"
	if dots {
		between = "the dots only"
	}
	return []place.Option{
		{ID: keep.WholeLine, Name: "the whole line"},
		{ID: keep.DotsOnly, Name: between},
		{ID: keep.EndsOnly, Name: "start and end only"},
		{ID: keep.NoMarks, Name: "only where to start"},
	}
}

func leadNames(inches bool) []place.Option {
	return []place.Option{
		{ID: noLead, Name: "none"},
		{ID: keep.LeadAhead, Name: "runs ahead at the planned hand speed"},
		{ID: keep.LeadWaits, Name: "waits when you are over " + words.Length(guide.ReachMM, inches) + " behind"},
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
func guideWords(g keep.Guide, dots bool) string {
	var parts []string
	for _, o := range markNames(dots) {
		if o.ID == g.Marks {
			parts = append(parts, o.Name)
		}
	}
	switch g.Lead {
	case keep.LeadAhead:
		parts = append(parts, "a needle that runs ahead")
	case keep.LeadWaits:
		parts = append(parts, "a needle that waits")
	}
	if g.Unnumbered && dots {
		parts = append(parts, "no numbers")
	}
	if g.SpeedStrip {
		parts = append(parts, "your speed")
	}
	return strings.Join(parts, ", ")
}

// card is the outline of a card by which the screen is measured.
func (r Room) card() Card {
	long := r.Card
	return Card{
		Open: long > 0, Known: r.Screen.SizeKnown, Long: fmt.Sprintf("%.1f", long),
		LongN: long, Short: math.Round(100*long*screen.CardShortMM/screen.CardLongMM) / 100,
		Text: fmt.Sprintf("%.2f pixels to the millimetre", long/screen.CardLongMM),
	}
}

// sizeText tells how large the cloth is shown, and whether that is known.
func (r Room) sizeText() string {
	text := "Shown at true size."
	if r.View.Zoom < 1 {
		text = fmt.Sprintf("Shown at %s of true size, so that all of it fits.", words.Percent(r.View.Zoom))
	}
	if !r.Screen.SizeKnown {
		text += " That is a guess until you have measured this screen."
	}
	return text
}

// startSentence says what to do first.
func (r Room) startSentence() string {
	if r.Way() == keep.Cloth {
		return "Hold the ring and push the cloth, so that the line runs under the needle."
	}
	begin := "Put the pointer on the start dot, hold it down and "
	if r.Screen.Touch {
		begin = "Put your finger or pen on the start dot and "
	}
	marks := r.Guide().Marks
	switch {
	case marks == keep.NoMarks:
		return begin + "sew the line from memory."
	case r.Ruled():
		return begin + "sew from dot to dot. Stop on each with the needle down, then turn."
	case marks == keep.EndsOnly:
		return begin + "sew the line to its end from memory."
	case marks == keep.DotsOnly:
		return begin + "sew the line over its dots."
	}
	return begin + "follow the chalk line."
}

// liveSentence speaks to a hand that traces: calmly, and never to stop it.
func (r Room) liveSentence() string {
	l := r.Live
	told, hidden := l.Dots.Told, r.Guide().Unnumbered
	dot := func(k int) string { return fmt.Sprintf("dot %d", k+1) }
	switch {
	case l.Rests():
		return "Needle down. Take hold of the cloth again, or finish."
	case l.Counting:
		return "Hold still for three beats, then go."
	case told.Word == guide.LeftOut && hidden:
		return "A dot was left out. Go back for it, or go on to the next."
	case told.Word == guide.LeftOut && told.First == told.Last:
		return "Left out: " + dot(told.First) + ". Go back for it, or go on to the next."
	case told.Word == guide.LeftOut:
		return fmt.Sprintf("Left out: dots %d to %d. Go back for them, or go on to the next.", told.First+1, told.Last+1)
	case told.Word == guide.NoStop && hidden:
		return "You went through that dot. Stop on each with the needle down, then turn."
	case told.Word == guide.NoStop:
		return "You went through " + dot(told.First) + ". Stop on each with the needle down, then turn."
	case told.Word == guide.OutOfOrder && (hidden || l.Dots.Next >= len(l.Dots.At)):
		return "You had that dot already. Go on to the next."
	case told.Word == guide.OutOfOrder:
		return "You had " + dot(told.First) + " already. Next is " + dot(l.Dots.Next) + "."
	case l.Resized:
		return "The window has changed. Go on: the cloth stays as it is until you lift."
	}
	return "Keep going to the end, even if you leave the line."
}
