package scoring

import (
	"encoding/csv"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
)

// Named is a report with the name of its trace.
type Named struct {
	Name   string
	Report Report
}

// column is one column of the table: its heading with the unit in brackets, and
// its value.
type column struct {
	heading string
	of      func(r Report) Figure
}

// plainly wraps a value that is always defined.
func plainly(f func(r Report) float64) func(r Report) Figure {
	return func(r Report) Figure { return figure(f(r)) }
}

var columns = []column{
	{"needle rate [stitches/min]", plainly(func(r Report) float64 { return r.Settings.SPM })},
	{"planned stitch [mm]", plainly(func(r Report) float64 { return r.Settings.TargetMM })},
	{"tolerance [mm]", plainly(func(r Report) float64 { return r.Settings.ToleranceMM })},
	{"duration [s]", plainly(func(r Report) float64 { return r.Duration })},
	{"not recorded [s]", plainly(func(r Report) float64 { return r.Unrecorded })},
	{"line [mm]", plainly(func(r Report) float64 { return r.LineMM })},
	{"trace [mm]", plainly(func(r Report) float64 { return r.TraceMM })},
	{"mean speed [mm/s]", func(r Report) Figure { return r.MeanSpeed }},
	{"cruising speed [mm/s]", func(r Report) Figure { return r.Pace.Cruise }},
	{"speed over plan [1]", func(r Report) Figure { return r.Pace.Ratio }},
	{"mean stitch [mm]", func(r Report) Figure { return r.Evenness.StitchMM }},
	{"speed CV [1]", func(r Report) Figure { return r.Evenness.SpeedCV }},
	{"speed CV noise [1]", func(r Report) Figure { return r.Evenness.SpeedNoise }},
	{"spacing CV [1]", func(r Report) Figure { return r.Evenness.SpacingCV }},
	{"stitches near plan [1]", func(r Report) Figure { return r.Evenness.NearTarget }},
	{"movement error ME [mm]", func(r Report) Figure { return r.Lateral.MeanError }},
	{"movement offset MO [mm]", func(r Report) Figure { return r.Lateral.Offset }},
	{"movement variability MV [mm]", func(r Report) Figure { return r.Lateral.Spread }},
	{"95th percentile of error [mm]", func(r Report) Figure { return r.Lateral.P95 }},
	{"largest error [mm]", func(r Report) Figure { return r.Lateral.Max }},
	{"place of largest error [mm]", func(r Report) Figure { return r.Lateral.MaxAt }},
	{"mean overshoot [mm]", func(r Report) Figure { return r.Turns.MeanOvershoot }},
	{"worst overshoot [mm]", func(r Report) Figure { return r.Turns.WorstOvershoot }},
	{"knots [1]", plainly(knots)},
	{"hesitations [1]", plainly(hesitationCount)},
	{"speed-curvature exponent [1]", func(r Report) Figure { return r.Slowing.Exponent }},
	{"untrained exponent [1]", func(r Report) Figure { return r.Slowing.Untrained }},
	{"SPARC [1]", func(r Report) Figure { return r.SPARC }},
	{"wobble [1]", func(r Report) Figure { return r.Wobble.Share }},
	{"wobble frequency [Hz]", func(r Report) Figure { return r.Wobble.Hz }},
	{"Frechet distance [mm]", func(r Report) Figure { return r.Order.Frechet }},
	{"Frechet distance of the holes [mm]", func(r Report) Figure { return r.Order.Holes }},
	{"coverage [1]", func(r Report) Figure { return r.Coverage }},
	{"missed [mm]", plainly(func(r Report) float64 { return r.Cover.MissedMM })},
	{"sewn twice [mm]", plainly(func(r Report) float64 { return r.Cover.DoubledMM })},
	{"dots missed [1]", plainly(func(r Report) float64 { return dotCount(r, func(d Dot) bool { return !d.Reached }) })},
	{"dots out of order [1]", plainly(func(r Report) float64 { return dotCount(r, func(d Dot) bool { return d.Early }) })},
	{"steering index [1]", plainly(func(r Report) float64 { return r.Difficulty.Steering })},
	{"turning [deg]", plainly(func(r Report) float64 { return r.Difficulty.Turning * 180 / math.Pi })},
}

func knots(r Report) (n float64) {
	for _, s := range r.Stops {
		if s.Kind == Knot {
			n++
		}
	}
	return n
}

// hesitationCount leaves out those that belong where they are.
func hesitationCount(r Report) (n float64) {
	for _, h := range r.Hesitations {
		if !h.AtBreak {
			n++
		}
	}
	return n
}

func dotCount(r Report, which func(Dot) bool) (n float64) {
	for _, d := range r.Dots {
		if which(d) {
			n++
		}
	}
	return n
}

// Table writes the measures of traces as a table (RFC 4180), one row a trace. The
// headings name the units, [1] where there is none; the cell of a figure that is not
// defined is empty.
type Table struct {
	to   *csv.Writer
	lead int
	row  []string
}

// NewTable begins a table with columns of the caller's own before those of the
// measures, whose headings it writes.
func NewTable(w io.Writer, lead ...string) (*Table, error) {
	t := &Table{to: csv.NewWriter(w), lead: len(lead), row: slices.Clone(lead)}
	t.to.UseCRLF = true
	for _, c := range columns {
		t.row = append(t.row, c.heading)
	}
	if err := t.to.Write(t.row); err != nil {
		return nil, fmt.Errorf("writing the headings: %w", err)
	}
	return t, nil
}

// Row writes the row of one trace: the caller's own cells, then its measures.
func (t *Table) Row(r Report, lead ...string) error {
	if len(lead) != t.lead {
		return fmt.Errorf("a row begins with %d cells, the table with %d", len(lead), t.lead)
	}
	t.row = append(t.row[:0], lead...)
	for _, c := range columns {
		cell := ""
		if f := c.of(r); f.Defined {
			cell = strconv.FormatFloat(f.Value, 'g', 6, 64)
		}
		t.row = append(t.row, cell)
	}
	return t.to.Write(t.row)
}

// Flush writes out what is still held back.
func (t *Table) Flush() error {
	t.to.Flush()
	if err := t.to.Error(); err != nil {
		return fmt.Errorf("writing the table: %w", err)
	}
	return nil
}

// WriteCSV writes the reports as a table whose first column is their names.
func WriteCSV(w io.Writer, reports []Named) error {
	t, err := NewTable(w, "trace")
	if err != nil {
		return err
	}
	for i, n := range reports {
		if err := t.Row(n.Report, n.Name); err != nil {
			return fmt.Errorf("writing row %d: %w", i, err)
		}
	}
	return t.Flush()
}
