package order

import (
	"slices"

	"unthreaded/path/geom"
	"unthreaded/path/machine"
	"unthreaded/path/quilt"
	"unthreaded/path/route/steps"
)

// StageKind tells what is sewn in a stage.
type StageKind string

// The kinds of stage: in the ditch along a long seam, a row of blocks, a row of
// sashing, a border, a row from edge to edge over whatever is pieced.
const (
	Ditch   StageKind = "ditch"
	RowOf   StageKind = "row"
	Sashing StageKind = "sashing"
	Border  StageKind = "border"
	EdgeRow StageKind = "edge-row"
)

// Way is a way to sew a row.
type Way string

// The ways: block by block, every line whole; lines that meet at the seams through
// all blocks, there and back; the least sewn twice, lines cut where that saves.
const (
	BlockByBlock Way = "block-by-block"
	LongLines    Way = "long-lines"
	LeastTwice   Way = "least-twice"
)

// Passes is the number of passes through a row.
type Passes string

// One pass from end to end, or out and back.
const (
	OnePass    Passes = "one-pass"
	OutAndBack Passes = "out-and-back"
)

// Order is the order in which a whole top is sewn.
type Order struct {
	Schema      int       `json:"schema"`
	Quilt       string    `json:"quilt"`       // its id
	Fingerprint string    `json:"fingerprint"` // of quilt, designs and choices
	Stages      []Stage   `json:"stages"`
	Programs    []Program `json:"programs"`
	// Over are the places of the lines that lie over the top, beside those that the top
	// has.
	Over []quilt.Cell `json:"over,omitempty"`
	// Misfits are the places whose design could not be laid, by cell id.
	Misfits []string `json:"misfits,omitempty"`
}

// Stage is what is sewn in one go of planning: all seams in the ditch of one
// direction, a row, a border.
type Stage struct {
	// ID is stable while the layout is: "ditch-across", "row-3" (of SewingRows,
	// counted from 1), "border-1", "edge-row-2".
	ID   string    `json:"id"`
	Kind StageKind `json:"kind"`
	// Number counts the stages of its kind on the top from 1: row 2 is the same row
	// whenever it is sewn.
	Number int `json:"number"`
	// Row indexes quilt.SewingRows, -1 for the ditch and for rows from edge to edge.
	Row int `json:"row"`
	// Line tells that it is a line that lies over the places of the top: one place by
	// itself, sewn in one way.
	Line bool `json:"line,omitempty"`
	// Turned tells that the quilt lies turned half way round, Turn that it is turned
	// before this stage.
	Turned bool `json:"turned,omitempty"`
	Turn   bool `json:"turn,omitempty"`
	// FarEnd tells that the row is begun at its far end.
	FarEnd bool   `json:"far_end,omitempty"`
	Way    Way    `json:"way"`
	Passes Passes `json:"passes"`
	Legs   []Leg  `json:"legs"`
	// AddedMM is what the stage adds to sewing each line once, at the prices of
	// Rules; SavesMM how much less it could add at most if lines were cut within its
	// blocks.
	AddedMM float64 `json:"added_mm"`
	SavesMM float64 `json:"saves_mm"`
	// Best tells that no way block by block adds less as far as the orders within
	// blocks are the best.
	Best bool `json:"best"`
	// Longer is the share by which the stage takes longer at the machine than the
	// least of all ways that were looked at; where Measured is false it is a bound, or
	// was measured on the first places of the row.
	Longer   float64 `json:"longer"`
	Measured bool    `json:"measured"`
	Work     Work    `json:"work"`
}

// Leg is one stay in one place of the top.
type Leg struct {
	// Cell is the id of the place, "" for a seam in the ditch; Pass is 1 on the way
	// home.
	Cell string `json:"cell,omitempty"`
	Pass int    `json:"pass,omitempty"`
	// Program indexes Order.Programs, Where lays it on the top.
	Program int             `json:"program"`
	Where   quilt.Transform `json:"where"`
	// Come is the way of the needle here from the end of the leg before, or of the
	// stage before.
	Come Come `json:"come"`
}

// Come is a way of the needle: along seams in the ditch, or by a stop: tied off and
// begun again elsewhere.
type Come struct {
	Stop bool          `json:"stop,omitempty"`
	Path geom.Polyline `json:"path,omitempty"` // on the top; the two ends of a stop
	// DitchMM is the length sewn in the ditch on it.
	DitchMM float64 `json:"ditch_mm,omitempty"`
}

// Program is what is sewn in one visit to a different block, in the block's own mm.
type Program struct {
	// Design is the id of its design, "" for a seam; Shape and Own tell in which shape
	// it lies: its own, or one it was fitted to.
	Design string `json:"design,omitempty"`
	Own    bool   `json:"own,omitempty"`
	// Pattern is the motif of a line that lies over the top, "" for others.
	Pattern string       `json:"pattern,omitempty"`
	Moves   []steps.Move `json:"moves"`
	// Paths are those of the moves, in mm.
	Paths []geom.Polyline `json:"paths"`
	// Start and End are where it begins and ends.
	Start geom.Point `json:"start"`
	End   geom.Point `json:"end"`
	// Exact tells that no order of its whole lines adds less between its ends.
	Exact bool `json:"exact"`
	Work  Work `json:"work"`
	// Times is how often it is sewn.
	Times int `json:"times"`
}

// Work is what is done in a stage, a program or a whole top.
type Work struct {
	// SewnMM is the length of lines sewn, AgainMM of those sewn once more, DitchMM
	// what is sewn along seams, RulerMM the part of SewnMM along a ruler.
	SewnMM  float64 `json:"sewn_mm"`
	AgainMM float64 `json:"again_mm"`
	DitchMM float64 `json:"ditch_mm"`
	RulerMM float64 `json:"ruler_mm"`
	// Starts counts where thread is begun (and tied off), Halts where the needle stands
	// while the cloth is turned, RulerLines the lines along a ruler, Moves the moves.
	Starts     int `json:"starts"`
	Halts      int `json:"halts"`
	RulerLines int `json:"ruler_lines"`
	Moves      int `json:"moves"`
}

// Length is all that is stitched, in mm.
func (w Work) Length() float64 { return w.SewnMM + w.AgainMM + w.DitchMM }

// MachineMM is the time that it takes at the machine as a length: the mm sewn in it at
// the usual hand speed, with the usual times for a stop and a halt.
func (w Work) MachineMM() float64 {
	return w.Length() + machine.HandSpeed.Usual*(float64(w.Starts)*machine.StopTime.Usual+float64(w.Halts)*machine.HaltTime.Usual)
}

// Plus returns both together.
func (w Work) Plus(v Work) Work {
	return Work{
		w.SewnMM + v.SewnMM, w.AgainMM + v.AgainMM, w.DitchMM + v.DitchMM, w.RulerMM + v.RulerMM,
		w.Starts + v.Starts, w.Halts + v.Halts, w.RulerLines + v.RulerLines, w.Moves + v.Moves,
	}
}

// scaled returns the work with all lengths times s.
func (w Work) scaled(s float64) Work {
	w.SewnMM, w.AgainMM, w.DitchMM, w.RulerMM = w.SewnMM*s, w.AgainMM*s, w.DitchMM*s, w.RulerMM*s
	return w
}

// Work returns what the whole top adds up to: the sum of its stages.
func (o Order) Work() Work {
	var sum Work
	for _, s := range o.Stages {
		sum = sum.Plus(s.Work)
	}
	return sum
}

// Places returns all places that a leg can name: those of the top, and the lines over it.
func (o Order) Places(top []quilt.Cell) []quilt.Cell { return slices.Concat(top, o.Over) }

// StageMove is a move of a stage on the top.
type StageMove struct {
	// Leg indexes Stage.Legs; Come tells that the move leads to it, and is none of
	// its program.
	Leg  int
	Come bool
	steps.Move
}

// Moves returns the moves of a stage in order, on the top in mm. Cost O(points).
func (o Order) Moves(stage int) []StageMove {
	var out []StageMove
	for i, l := range o.Stages[stage].Legs {
		if len(l.Come.Path) > 1 {
			m := steps.Move{Kind: steps.DitchMove, Path: l.Come.Path, Length: l.Come.Path.Length()}
			if l.Come.Stop {
				m.Kind, m.Length = steps.StopMove, 0
			}
			out = append(out, StageMove{Leg: i, Come: true, Move: steps.Seen(m)})
		}
		p := o.Programs[l.Program]
		for k, m := range p.Moves {
			m.Path = l.Where.Path(p.Paths[k])
			out = append(out, StageMove{Leg: i, Move: steps.Seen(m)})
		}
	}
	return out
}
