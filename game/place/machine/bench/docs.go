package bench

import (
	"encoding/json"
	"fmt"
	"math"
	"slices"
	"strings"

	"unthreaded/path/machine"
)

// Schema is the version of the documents that this program writes. A change of the
// form takes a new number and a step in the decoders that lifts the older one.
const Schema = 1

// Paper is a size of paper.
type Paper string

// The papers: A4 is 210 x 297 mm (ISO 216), Letter 8.5 x 11 in (ANSI/ASME Y14.1).
const (
	A4     Paper = "a4"
	Letter Paper = "letter"
)

// Size returns the width and height of the paper held upright, in mm.
func (p Paper) Size() (w, h float64) {
	if p == Letter {
		return 8.5 * machine.MMPerInch, 11 * machine.MMPerInch
	}
	return 210, 297
}

// Mine are the figures of her machine, of the table it stands on, and of what she
// has at hand. Lengths are mm.
type Mine struct {
	Schema int `json:"schema"`
	// MinSPM and MaxSPM are the needle speeds in spm that the machine keeps.
	MinSPM float64 `json:"min_spm"`
	MaxSPM float64 `json:"max_spm"`
	// ThroatW and ThroatH are the room right of the needle, Hand what is kept free
	// of it.
	ThroatW float64 `json:"throat_width_mm"`
	ThroatH float64 `json:"throat_height_mm"`
	Hand    float64 `json:"hand_room_mm"`
	// Bobbin is the ID of the bobbin's class. FullMM is what one holds, if she
	// has measured it, else 0; Weight is that of the thread.
	Bobbin string  `json:"bobbin"`
	FullMM float64 `json:"full_bobbin_mm,omitempty"`
	Weight float64 `json:"thread_wt"`
	// Left, Behind and Front are the reach of the table from the needle.
	Left   float64 `json:"table_left_mm"`
	Behind float64 `json:"table_behind_mm"`
	Front  float64 `json:"table_front_mm"`
	// Ruler is the thickness of her ruler, 0 where she has not said; Offset the
	// distance from the needle to its edge.
	Ruler  float64 `json:"ruler_mm,omitempty"`
	Offset float64 `json:"ruler_offset_mm"`
	Paper  Paper   `json:"paper"`
	// Assumed is what the figures of a job rest on; documents from before it was kept
	// have the usual.
	Assumed Assumed `json:"assumed"`
}

// Usual returns the figures with which entry begins: near the usual ones, in whole
// quarters of an inch.
func Usual() Mine {
	const in = machine.MMPerInch
	return Mine{
		Schema: Schema, MinSPM: 100, MaxSPM: 1000, ThroatW: 8 * in, ThroatH: 4.75 * in, Hand: 2 * in,
		Bobbin: machine.BobbinClasses()[0].ID, Weight: machine.ThreadWeight.Usual,
		Left: 24 * in, Behind: 24 * in, Front: 6 * in,
		Offset: machine.RulerOffset.Usual, Paper: A4, Assumed: UsualAssumed(),
	}
}

// Job is what she settled for one plan: the quilt that it goes on, how she sews it,
// and what is ticked. Lengths are mm.
type Job struct {
	Schema int `json:"schema"`
	// Plan is the ID of the drawing.
	Plan string `json:"plan"`
	// Method is the one she chose against the advice, else empty.
	Method machine.Method `json:"method,omitempty"`
	// Quilt is the ID of a quilt where the rows are taken from that on the table; empty where
	// they are typed, as in all documents from before there was the choice.
	Quilt string `json:"quilt,omitempty"`
	// Along and Across are the sides of the quilt along and across its rows, Rows their
	// number, as typed.
	Along     float64 `json:"along_mm"`
	Across    float64 `json:"across_mm"`
	Rows      int     `json:"rows"`
	Thickness float64 `json:"thickness_mm"`
	// First is the share of a full bobbin that is on the one in the machine.
	First float64 `json:"first_bobbin_share"`
	// Spacing is the longest way between two dots, OnLeft tells on which side of
	// the line the ruler lies.
	Spacing float64 `json:"dot_spacing_mm"`
	OnLeft  bool    `json:"ruler_on_left,omitempty"`
	// Template tells that a full-size template was made.
	Template bool `json:"template,omitempty"`
	// Ticks are the IDs of the items ticked, in order.
	Ticks []string `json:"ticks,omitempty"`
}

// JobFor returns the job of a plan with which entry begins: a top of the usual
// size with rows as high as its block.
func JobFor(p Plan) Job {
	const side = 60 * machine.MMPerInch
	rows := min(max(1, math.Round(side/math.Max(1, p.Work.BlockH))), machine.RowCount.Max)
	return Job{
		Schema: Schema, Plan: p.ID, Along: side, Across: side, Rows: int(rows),
		Thickness: machine.Thickness.Usual, First: 1, Spacing: machine.DotSpacing.Usual,
	}
}

// Ticked tells whether an item is ticked.
func (j Job) Ticked(id string) bool { return slices.Contains(j.Ticks, id) }

// named is a value with the name of its field and the range it must keep.
type named struct {
	field string
	v     float64
	r     machine.Range
}

func checked(list []named) error {
	for _, n := range list {
		if err := n.r.Check(n.v); err != nil {
			return fmt.Errorf("%s: %w", n.field, err)
		}
	}
	return nil
}

// Validate names the first field that cannot be.
func (m Mine) Validate() error {
	if err := version(m.Schema); err != nil {
		return err
	}
	if _, err := machine.FindBobbin(m.Bobbin); err != nil {
		return fmt.Errorf("bobbin: %w", err)
	}
	if m.Paper != A4 && m.Paper != Letter {
		return fmt.Errorf("paper: %q is not %q or %q", m.Paper, A4, Letter)
	}
	full, ruler := machine.BobbinLength, machine.RulerThickness
	if m.FullMM == 0 {
		full.Min = 0
	}
	if m.Ruler == 0 {
		ruler.Min = 0
	}
	if err := checked(m.Assumed.named()); err != nil {
		return err
	}
	return checked([]named{
		{"min_spm", m.MinSPM, slowest(m.MaxSPM)}, {"max_spm", m.MaxSPM, machine.NeedleSpeed},
		{"throat_width_mm", m.ThroatW, machine.ThroatWidth}, {"throat_height_mm", m.ThroatH, machine.ThroatHeight},
		{"hand_room_mm", m.Hand, handRoom(m.ThroatW)},
		{"full_bobbin_mm", m.FullMM, full}, {"thread_wt", m.Weight, machine.ThreadWeight},
		{"table_left_mm", m.Left, machine.TableSide}, {"table_behind_mm", m.Behind, machine.TableSide},
		{"table_front_mm", m.Front, machine.TableSide},
		{"ruler_mm", m.Ruler, ruler}, {"ruler_offset_mm", m.Offset, machine.RulerOffset},
	})
}

// Validate names the first field that cannot be.
func (j Job) Validate() error {
	if err := version(j.Schema); err != nil {
		return err
	}
	if j.Plan == "" || len(j.Plan) > maxID {
		return fmt.Errorf("plan: an ID has 1 to %d characters", maxID)
	}
	if j.Method != "" && !slices.Contains(machine.Methods(), j.Method) {
		return fmt.Errorf("method: %q is none", j.Method)
	}
	if len(j.Quilt) > maxID {
		return fmt.Errorf("quilt: an ID has at most %d characters", maxID)
	}
	if len(j.Ticks) > maxTicks {
		return fmt.Errorf("ticks: %d are more than %d", len(j.Ticks), maxTicks)
	}
	for i, id := range j.Ticks {
		if id == "" || len(id) > maxID {
			return fmt.Errorf("ticks: number %d has %d characters, not 1 to %d", i, len(id), maxID)
		}
	}
	return checked([]named{
		{"along_mm", j.Along, machine.QuiltSide}, {"across_mm", j.Across, machine.QuiltSide},
		{"rows", float64(j.Rows), machine.RowCount}, {"thickness_mm", j.Thickness, machine.Thickness},
		{"first_bobbin_share", j.First, fullness}, {"dot_spacing_mm", j.Spacing, machine.DotSpacing},
	})
}

// The bounds of what a document may hold.
const (
	maxID    = 200
	maxTicks = 500
)

func version(schema int) error {
	switch {
	case schema > Schema:
		return fmt.Errorf("schema: it was written by a newer version of this program (form %d, this one reads up to %d)", schema, Schema)
	case schema < 1:
		return fmt.Errorf("schema: it names no form (%d)", schema)
	}
	return nil
}

// DecodeMine reads the figures of a machine and checks them whole.
func DecodeMine(doc []byte) (Mine, error) {
	m := Mine{Assumed: UsualAssumed()}
	if err := json.Unmarshal(doc, &m); err != nil {
		return Mine{}, fmt.Errorf("not the figures of a machine: %w", err)
	}
	return m, m.Validate()
}

// DecodeJob reads a job and checks it whole.
func DecodeJob(doc []byte) (Job, error) {
	var j Job
	if err := json.Unmarshal(doc, &j); err != nil {
		return Job{}, fmt.Errorf("not the list of a plan: %w", err)
	}
	return j, j.Validate()
}

// encode returns a valid document.
func encode(doc any) []byte {
	b, err := json.Marshal(doc)
	if err != nil {
		// Only numbers that are not finite could fail, and these are refused when set.
		panic(fmt.Sprintf("bench: %v", err))
	}
	return b
}

// The names under which documents are kept: one for the machine, one for each
// plan. Where a document of that name is there that cannot be read, a number is
// added, and the document is left as it is.
const (
	mineID    = "mine"
	jobPrefix = "plan-"
)

// IsMine tells whether a kept document is of the machine, not of a plan.
func IsMine(id string) bool { return id == mineID || strings.HasPrefix(id, mineID+".") }
