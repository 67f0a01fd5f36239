package place

import (
	"cmp"
	"slices"
	"time"
	"unthreaded/game/control"
	"unthreaded/game/keep"
	"unthreaded/game/look"
	"unthreaded/game/plan"
	"unthreaded/game/screen"
	"unthreaded/game/top"
	"unthreaded/game/words"
	"unthreaded/game/work"
	"unthreaded/path/machine"
	"unthreaded/path/quilt"
)

// Notice is one message to the person; it is known by the key of what is said.
type Notice struct {
	Said words.Msg
	// Action names the control that the notice offers, "" for none.
	Action string
}

// Say returns the notice of a message of the catalogue.
func Say(key string, args ...any) Notice { return Notice{Said: words.Of(key, args...)} }

// Offer returns the notice with a control that it offers.
func (n Notice) Offer(control string) Notice {
	n.Action = control
	return n
}

// None tells that nothing is said.
func (n Notice) None() bool { return n.Said.None() }

// Is tells whether both notices are the same message.
func (n Notice) Is(o Notice) bool {
	return n.Said.Key == o.Said.Key && n.Action == o.Action
}

// In returns the notice's text.
func (n Notice) In(b words.Book) string {
	return b.Write(n.Said)
}

// And returns both notices as one, with the action of the later that has one.
func (n Notice) And(later Notice) Notice {
	both := Notice{Said: n.Said, Action: n.Action}
	switch {
	case n.Said.None():
		both.Said = later.Said
	case !later.Said.None():
		both.Said = words.Of("page.and-then", n.Said, later.Said)
	}
	if later.Action != "" {
		both.Action = later.Action
	}
	return both
}

// Instead returns the notice with the message of the same key in it said anew, or else with
// what is said now after it.
func (n Notice) Instead(now Notice) Notice {
	if said, was := instead(n.Said, now.Said); was {
		n.Said = said
		return n
	}
	return n.And(now)
}

func instead(m, now words.Msg) (words.Msg, bool) {
	if m.Key == now.Key {
		return now, true
	}
	if m.Key != "page.and-then" {
		return m, false
	}
	for i, arg := range m.Args {
		if part, ok := arg.(words.Msg); ok {
			if said, was := instead(part, now); was {
				args := slices.Clone(m.Args)
				args[i] = said
				return words.Msg{Key: "page.and-then", Args: args}, true
			}
		}
	}
	return m, false
}

// Focus names the place on the page that the keyboard is led to (its data-focus);
// N grows with each time.
type Focus struct {
	To string
	N  int
}

// ClothFocus is the cloth.
const ClothFocus control.Focus = "cloth"

// Clock is the event clock: Origin is the time in ms since 1970 at which it was 0,
// FirstFrame and LastFrame are the times in s of frames on it. Ahead is how many s her clock
// is ahead of UTC.
type Clock struct{ Origin, FirstFrame, LastFrame, Ahead float64 }

// Today returns the calendar day where she is, "2006-01-02".
func (c Clock) Today() string {
	return time.UnixMilli(int64(1000 * (c.Seconds() + c.Ahead))).UTC().Format(time.DateOnly)
}

// Now returns the time in s of the last frame on the event clock.
func (c Clock) Now() float64 { return c.LastFrame }

// Seconds returns the time of the last frame in s since 1970.
func (c Clock) Seconds() float64 { return c.Origin/1000 + c.LastFrame }

// NowMS returns the time of the last frame in ms since 1970.
func (c Clock) NowMS() int64 { return int64(c.Origin + c.LastFrame*1000) }

// Library holds the documents that places share. Slices in it are never written
// into: a change makes a new one.
type Library struct {
	// Designs are the blocks, newest first; Binned those deleted in this visit, for
	// undo.
	Designs, Binned []quilt.Design
	// OnBoard is the block that lies on the board where blocks are drawn, "" for none.
	OnBoard string
	// Quilts are the quilts, newest first; BinnedQuilts those deleted in this visit.
	Quilts, BinnedQuilts []quilt.Quilt
	// Top is the quilt as it lies on the table, with what was found of it; zero before one
	// was laid there.
	Top top.Top
	// Plans are the choices and ticks of the quilts, by quilt.
	Plans map[string]KeptPlan
	// Assumed is what the figures of a job rest on, as it is set at the machine; see
	// Assumptions.
	Assumed machine.Assumptions
	// Records are the summaries of all kept traces, newest first.
	Records []keep.Summary
	// Desk holds the route planned last.
	Desk plan.Desk
	// OnCloth is the line that is rehearsed.
	OnCloth string
	// Known tells that what is kept has been read.
	Known bool
}

// WithRecords returns the library with the summaries of more kept traces, those left out
// whose ID is there already.
func (l Library) WithRecords(more ...keep.Summary) Library {
	seen := map[string]bool{}
	for _, s := range l.Records {
		seen[s.ID] = true
	}
	var all []keep.Summary
	for _, s := range more {
		if !seen[s.ID] {
			seen[s.ID] = true
			all = append(all, s)
		}
	}
	all = append(all, l.Records...)
	slices.SortStableFunc(all, func(a, b keep.Summary) int { return cmp.Compare(b.Started, a.Started) })
	l.Records = all
	return l
}

// Design returns the block of this ID.
func (l Library) Design(id string) (quilt.Design, bool) {
	for _, d := range l.Designs {
		if d.ID == id {
			return d, true
		}
	}
	return quilt.Design{}, false
}

// Storage tells how keeping stands: StorageWhy says why nothing is kept, empty while
// storage works; Persisted that the browser promised to keep it.
type Storage struct {
	StorageWhy Why
	Persisted  bool
}

// Shared is what all places share. A place changes it by returning another.
type Shared struct {
	Clock
	Library
	Storage
	Settings Settings
	// Reads is the language of the browser.
	Reads words.Lang
	// Letter tells that her country prints on Letter, not on A4.
	Letter bool
	// Dark tells that the system prefers dark colours, Moves that it does not ask for less
	// motion.
	Dark, Moves bool
	// Place is the one in front.
	Place Name
	// Screen is the cloth's place on the page.
	Screen screen.Cloth
	Notice Notice
	Focus  Focus
	// Working are the jobs that are being worked out; see game/work.
	Working work.List
}

// Asks has a job worked out, and returns what is shared with it noted. Of tells what it is
// of; Worked brings the answer.
func (s Shared) Asks(k work.Kind, of string, in any) (Shared, []Effect) {
	var ask work.Ask
	s.Working, ask = s.Working.Ask(k, of, in, s.Now())
	return s, []Effect{ask}
}

// Leaves gives up the jobs of a kind that nobody looks at any more.
func (s Shared) Leaves(k work.Kind) (Shared, []Effect) {
	l, stops := s.Working.Leave(k)
	s.Working = l
	var out []Effect
	for _, stop := range stops {
		out = append(out, stop)
	}
	return s, out
}

// Theme returns the colours of the cloth: the pair she chose, or that of the page.
func (s Shared) Theme() look.Theme {
	if s.Settings.Fabric != "" {
		return s.Settings.Fabric
	}
	return s.Scheme()
}

// Scheme returns the colours of the page, light or dark.
func (s Shared) Scheme() look.Theme {
	if s.Settings.Theme == "dark" || (s.Settings.Theme != "light" && s.Dark) {
		return look.Dark
	}
	return look.Light
}

// Palette returns the colours of the cloth.
func (s Shared) Palette() look.Palette { return look.Of(s.Theme()) }

// Book returns the language and the units in which she is spoken to.
func (s Shared) Book() words.Book {
	lang := s.Settings.Lang
	if lang == "" {
		lang = s.Reads
	}
	if lang == "" {
		lang = words.English
	}
	return words.Book{Lang: lang, Inches: s.Inches()}
}

// WithReads takes in which languages she reads: units and paper are those of the first,
// where she has not set others.
func (s Shared) WithReads(r Reads) Shared {
	s.Reads = words.Prefer(r.Tags...)
	if len(r.Tags) == 0 {
		return s
	}
	s.Letter = words.OnLetter(r.Tags[0])
	if r.Unset && !words.InInches(r.Tags[0]) {
		s.Settings.Units = Millimetres
	}
	return s
}

// Lead returns what is shared with the keyboard led to a named place on the page.
func (s Shared) Lead(to control.Focus) Shared {
	s.Focus = Focus{To: string(to), N: s.Focus.N + 1}
	return s
}

// Inches tells whether lengths are shown in inches.
func (s Shared) Inches() bool { return s.Settings.Units == Inches }

// Common returns what is shared, as a place has it that embeds it.
func (s Shared) Common() Shared { return s }
