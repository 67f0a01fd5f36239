package weeks

import (
	"cmp"
	"slices"

	"unthreaded/game/keep"
	"unthreaded/scoring/progress"
)

// Ask is what is looked at: a motif, or all of them where Motif is empty, a measure, and
// the values of the filters.
type Ask struct {
	Motif   string
	Measure progress.Measure
	By      map[Filter]string
}

// Measures are those to choose from: evenness, on the line, corners, flow.
var Measures = []progress.Measure{progress.Spacing, progress.Beside, progress.Corners, progress.Flow}

// placeMeasure returns the measure that tells a single movement's share in m, false
// where there is none.
func placeMeasure(m progress.Measure) (progress.Measure, bool) {
	switch m {
	case progress.Spacing:
		return progress.Uneven, true
	case progress.Beside:
		return progress.Beside, true
	}
	return "", false
}

// Book holds all kept traces and what has been worked out about those asked for.
// Nothing is worked out but by Step, a small piece at a time, so that no frame takes
// long.
type Book struct {
	// Rev grows with each change of what was found.
	Rev int

	kept []keep.Summary
	// known holds the entries by ID, as read from the summaries.
	known map[string]*entry
	zone  Zone
	ask   Ask

	stage stage
	next  int // summary, or movement, that a stage goes on with

	entries  []*entry // of the kept traces, by time
	sessions []progress.Session
	// older are the IDs of those that have yet to be measured for this.
	older []string
	// seen are the sessions as they look for what is asked, like what counts in them.
	seen []progress.Session
	like progress.Like
	// work becomes found once it is complete, so that nothing half done is seen.
	work, found Found
}

// Found is what has been worked out.
type Found struct {
	// Motif, Measure and By are what was taken for what was asked; Options what there is to
	// choose from.
	Motif   string
	Measure progress.Measure
	By      map[Filter]string
	Options map[Filter][]Option
	// Better are other traces of the motif that can be judged better than those taken,
	// which cannot; without any where there are none.
	Better Pile
	// Alike is how many traces are compared, Scores one score a session of them.
	Alike  int
	Scores []progress.Score
	// Judged is the verdict. Trouble says what stands against one.
	Judged  progress.Judgement
	Trouble error
	// Curve is the learning curve over the sessions with a sure score, unless NoCurve
	// says why there is none.
	Curve   progress.Curve
	NoCurve error
	// Moves are the verdicts of each movement.
	Moves map[progress.Movement]progress.Judgement
	// Marks are all traces that are compared, by time.
	Marks []Mark
	// Days are the days of practice, on whatever motif, the earliest first; Motifs all
	// motifs with how many traces each, those of most first, Names their names by ID.
	Days   []progress.Day
	Motifs []Option
	Names  map[string]string
}

// Mark is one trace of those compared: its measure, and whether it counts.
type Mark struct {
	ID      string
	At      float64 // s since 1970
	Value   float64
	Session int
	Counts  bool
}

// New returns an empty book.
func New() Book {
	return Book{known: map[string]*entry{}, ask: Ask{Measure: Measures[0]}}
}

// With returns the book of other kept traces. What was read of those that stay is not
// read again.
func (b Book) With(kept []keep.Summary) Book {
	b.kept = kept
	b.stage, b.next, b.older = reading, 0, nil
	return b
}

// Look asks for something else; a measure that does not exist is left as it was.
func (b Book) Look(a Ask) Book {
	if !slices.Contains(Measures, a.Measure) {
		a.Measure = b.ask.Measure
	}
	b.ask = a
	if b.stage > sorting {
		b.stage = choosing
	}
	return b
}

// Asked returns what is asked for.
func (b Book) Asked() Ask { return b.ask }

// In sets where the person lives, for what belongs to which day.
func (b Book) In(z Zone) Book {
	b.zone = z
	if b.stage > sorting {
		b.stage = sorting
	}
	return b
}

// Zone returns it.
func (b Book) Zone() Zone { return b.zone }

// Found returns what was worked out last.
func (b Book) Found() Found { return b.found }

// Sessions returns the sessions of all traces that could be measured.
func (b Book) Sessions() []progress.Session { return b.sessions }

// Older returns the IDs of the kept traces that have not been measured for this; nothing
// before all have been read. Do not change them.
func (b Book) Older() []string {
	if b.stage == reading {
		return nil
	}
	return b.older
}

// Empty tells that no trace is kept.
func (b Book) Empty() bool { return len(b.kept) == 0 }

// motifs returns the motifs with how many traces each, those of most first, and their
// names by ID.
func motifs(entries []*entry) ([]Option, map[string]string) {
	n, names := map[string]int{}, map[string]string{}
	for _, e := range entries {
		n[e.motif]++
		names[e.motif] = e.name
	}
	var out []Option
	for id, c := range n {
		out = append(out, Option{id, c})
	}
	slices.SortFunc(out, func(x, y Option) int {
		return cmp.Or(cmp.Compare(y.Count, x.Count), cmp.Compare(x.Value, y.Value))
	})
	return out, names
}

// InSession returns the marks of a session.
func (f Found) InSession(k int) []Mark {
	var out []Mark
	for _, m := range f.Marks {
		if m.Session == k {
			out = append(out, m)
		}
	}
	return out
}
