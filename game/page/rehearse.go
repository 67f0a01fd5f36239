package page

import (
	"fmt"
	"math"
	"strings"

	"unthreaded/game"
	"unthreaded/game/guide"
	"unthreaded/game/keep"
	"unthreaded/game/words"
)

// Rehearse holds what the page shows of how she moves, what she sees and hears.
type Rehearse struct {
	Practise Practise `json:"practise"`

	Ways    []Way  `json:"ways"`
	WayNote string `json:"wayNote"`

	// Pace tells the pace and how the trace starts, in short.
	Pace          string   `json:"pace"`
	Thirds        []Option `json:"thirds"`
	Follows       string   `json:"follows"`
	HandSpeed     string   `json:"handSpeed"`
	HandSpeedText string   `json:"handSpeedText"`
	SetsNeedle    bool     `json:"setsNeedle"`
	SetsStitch    bool     `json:"setsStitch"`
	SetsHand      bool     `json:"setsHand"`
	CountIn       bool     `json:"countIn"`

	// See tells in short what she sees.
	See        string   `json:"see"`
	Marks      []Option `json:"marks"`
	Mark       string   `json:"mark"`
	Leads      []Option `json:"leads"`
	Lead       string   `json:"lead"`
	HasDots    bool     `json:"hasDots"`
	Numbers    bool     `json:"numbers"` // of the dots can be left out
	Unnumbered bool     `json:"unnumbered"`
	Strip      bool     `json:"strip"`

	// Hear tells in short what she hears.
	Hear       string `json:"hear"`
	Ticks      bool   `json:"ticks"`
	Volume     string `json:"volume"`
	VolumeText string `json:"volumeText"`

	// Rests tells that the needle is down and the trace may be finished or gone on with.
	Rests bool `json:"rests"`

	Measure string `json:"measure"`
	Card    Card   `json:"card"`
}

// Way is one way of moving.
type Way struct {
	ID     string `json:"id"`
	Name   string `json:"name"`
	Picked bool   `json:"picked"`
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

var thirds = []Option{
	{ID: string(game.HandFollows), Name: "the hand speed"},
	{ID: string(game.NeedleFollows), Name: "the needle speed"},
	{ID: string(game.StitchFollows), Name: "the stitch length"},
}

// markNames name what is marked of the line, on a line with dots and on one without.
func markNames(dots bool) []Option {
	between := "start, end, and a dot every inch"
	if dots {
		between = "the dots only"
	}
	return []Option{
		{ID: keep.WholeLine, Name: "the whole line"},
		{ID: keep.DotsOnly, Name: between},
		{ID: keep.EndsOnly, Name: "start and end only"},
		{ID: keep.NoMarks, Name: "only where to start"},
	}
}

// noLead is the choice of no ideal needle; a choice must have a value.
const noLead = "none"

func leadNames(inches bool) []Option {
	return []Option{
		{ID: noLead, Name: "none"},
		{ID: keep.LeadAhead, Name: "runs ahead at the planned hand speed"},
		{ID: keep.LeadWaits, Name: "waits when you are over " + words.Length(guide.ReachMM, inches) + " behind"},
	}
}

// onRehearsal fills in the page for the place Rehearse.
func onRehearsal(p *Page, m game.Model) {
	s, g := m.Settings, guideSeen(m)
	inches := s.Units == game.Inches
	r := &p.Rehearse
	r.Ways = []Way{
		{keep.Pencil, "Pencil", s.Way != keep.Cloth},
		{keep.Cloth, "Cloth", s.Way == keep.Cloth},
	}
	r.WayNote = "The needle follows the pointer, as in drawing on paper."
	if s.Way == keep.Cloth {
		r.WayNote = "The needle stands still and you push the cloth under it, as at the machine. Push it right, and the line grows to the left. Let go where your hands must be set anew: the needle stays down."
	}
	r.Thirds, r.Follows = thirds, string(s.Follows)
	r.HandSpeed, r.HandSpeedText = fmt.Sprintf("%.1f", s.HandSpeed()), words.Speed(s.HandSpeed(), inches)
	r.SetsHand = s.Follows == game.NeedleFollows || s.Follows == game.StitchFollows
	r.SetsNeedle, r.SetsStitch = s.Follows != game.NeedleFollows, s.Follows != game.StitchFollows
	r.Pace, r.CountIn = r.HandSpeedText, g.CountIn
	if g.CountIn {
		r.Pace += ", three beats first"
	}
	r.HasDots, r.Numbers = m.Ruled(), m.Ruled() || g.Marks == keep.DotsOnly
	r.Marks, r.Mark, r.Unnumbered, r.Strip = markNames(r.HasDots), g.Marks, g.Unnumbered, g.SpeedStrip
	r.Leads, r.Lead = leadNames(inches), g.Lead
	if g.Lead == keep.NoLead {
		r.Lead = noLead
	}
	r.See = guideWords(g, r.HasDots)
	r.Hear, r.Ticks = "nothing", g.Ticks
	if g.Ticks {
		r.Hear = "a tick at each stitch"
	}
	r.Volume, r.VolumeText = fmt.Sprintf("%.2f", s.Volume), words.Percent(s.Volume)
	onCard(r, m)
	onPractice(p, m)
	r.Rests = m.Live.Rests()
}

// guideSeen returns the help as she chose it, what is seen as the lesson has it.
func guideSeen(m game.Model) keep.Guide {
	g, asked := m.Settings.Guide.Known(), m.Guide()
	if m.Leading() {
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

// onCard fills in how the screen is measured.
func onCard(r *Rehearse, m game.Model) {
	r.Measure = "Measure this screen with a card"
	if m.Screen.SizeKnown {
		r.Measure = "Measure this screen again"
	}
	long := m.Card
	c := Card{Open: long > 0, Known: m.Screen.SizeKnown, Long: fmt.Sprintf("%.1f", long)}
	c.LongN, c.Short = long, math.Round(100*long*game.CardShortMM/game.CardLongMM)/100
	c.Text = fmt.Sprintf("%.2f pixels to the millimetre", long/game.CardLongMM)
	r.Card = c
}

// sizeNote tells how large the cloth is shown, and whether that is known.
func sizeNote(m game.Model) string {
	text := "Shown at true size."
	if m.View.Zoom < 1 {
		text = fmt.Sprintf("Shown at %s of true size, so that all of it fits.", words.Percent(m.View.Zoom))
	}
	if !m.Screen.SizeKnown {
		text += " That is a guess until you have measured this screen."
	}
	return text
}

// startSentence says what to do first.
func startSentence(m game.Model) string {
	if m.Way() == keep.Cloth {
		return "Hold the ring and push the cloth, so that the line runs under the needle."
	}
	begin := "Put the pointer on the start dot, hold it down and "
	if m.Screen.Touch {
		begin = "Put your finger or pen on the start dot and "
	}
	marks := m.Guide().Marks
	switch {
	case marks == keep.NoMarks:
		return begin + "sew the line from memory."
	case m.Ruled():
		return begin + "sew from dot to dot. Stop on each with the needle down, then turn."
	case marks == keep.EndsOnly:
		return begin + "sew the line to its end from memory."
	case marks == keep.DotsOnly:
		return begin + "sew the line over its dots."
	}
	return begin + "follow the chalk line."
}

// liveSentence speaks to a hand that traces: calmly, and never to stop it.
func liveSentence(m game.Model) string {
	l := m.Live
	told, hidden := l.Dots.Told, m.Guide().Unnumbered
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
