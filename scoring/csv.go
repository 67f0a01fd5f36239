package scoring

import (
	"encoding/csv"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"
)

// Named is a report with the name of its trace.
type Named struct {
	Name   string
	Report Report
}

// Code names a measure in kept documents; it never changes its meaning but with Version.
type Code string

// The codes that others ask for.
const (
	Seconds    Code = "duration_s"
	Cruise     Code = "cruise_mm_s"
	SpacingCV  Code = "spacing_cv"
	NearTarget Code = "near_target"
	P95        Code = "p95_mm"
	Covered    Code = "coverage"
)

// column is one column of the table: the code of the measure, its heading with the
// unit in brackets, and its value.
type column struct {
	code    Code
	heading string
	of      func(r Report) Figure
}

// plainly wraps a value that is always defined.
func plainly(f func(r Report) float64) func(r Report) Figure {
	return func(r Report) Figure { return figure(f(r)) }
}

var columns = []column{
	{"spm", "needle rate [stitches/min]", plainly(func(r Report) float64 { return r.Settings.SPM })},
	{"target_mm", "planned stitch [mm]", plainly(func(r Report) float64 { return r.Settings.TargetMM })},
	{"tolerance_mm", "tolerance [mm]", plainly(func(r Report) float64 { return r.Settings.ToleranceMM })},
	{Seconds, "duration [s]", plainly(func(r Report) float64 { return r.Duration })},
	{"unrecorded_s", "not recorded [s]", plainly(func(r Report) float64 { return r.Unrecorded })},
	{"line_mm", "line [mm]", plainly(func(r Report) float64 { return r.LineMM })},
	{"trace_mm", "trace [mm]", plainly(func(r Report) float64 { return r.TraceMM })},
	{"mean_speed_mm_s", "mean speed [mm/s]", func(r Report) Figure { return r.MeanSpeed }},
	{Cruise, "cruising speed [mm/s]", func(r Report) Figure { return r.Pace.Cruise }},
	{"pace", "speed over plan [1]", func(r Report) Figure { return r.Pace.Ratio }},
	{"stitch_mm", "mean stitch [mm]", func(r Report) Figure { return r.Evenness.StitchMM }},
	{"speed_cv", "speed CV [1]", func(r Report) Figure { return r.Evenness.SpeedCV }},
	{"speed_noise_cv", "speed CV noise [1]", func(r Report) Figure { return r.Evenness.SpeedNoise }},
	{SpacingCV, "spacing CV [1]", func(r Report) Figure { return r.Evenness.SpacingCV }},
	{NearTarget, "stitches near plan [1]", func(r Report) Figure { return r.Evenness.NearTarget }},
	{"mean_error_mm", "movement error ME [mm]", func(r Report) Figure { return r.Lateral.MeanError }},
	{"offset_mm", "movement offset MO [mm]", func(r Report) Figure { return r.Lateral.Offset }},
	{"spread_mm", "movement variability MV [mm]", func(r Report) Figure { return r.Lateral.Spread }},
	{P95, "95th percentile of error [mm]", func(r Report) Figure { return r.Lateral.P95 }},
	{"max_mm", "largest error [mm]", func(r Report) Figure { return r.Lateral.Max }},
	{"max_at_mm", "place of largest error [mm]", func(r Report) Figure { return r.Lateral.MaxAt }},
	{"mean_overshoot_mm", "mean overshoot [mm]", func(r Report) Figure { return r.Turns.MeanOvershoot }},
	{"worst_overshoot_mm", "worst overshoot [mm]", func(r Report) Figure { return r.Turns.WorstOvershoot }},
	{"knots", "knots [1]", plainly(knots)},
	{"hesitations", "hesitations [1]", plainly(hesitationCount)},
	{"exponent", "speed-curvature exponent [1]", func(r Report) Figure { return r.Slowing.Exponent }},
	{"untrained_exponent", "untrained exponent [1]", func(r Report) Figure { return r.Slowing.Untrained }},
	{"sparc", "SPARC [1]", func(r Report) Figure { return r.SPARC }},
	{"wobble", "wobble [1]", func(r Report) Figure { return r.Wobble.Share }},
	{"wobble_hz", "wobble frequency [Hz]", func(r Report) Figure { return r.Wobble.Hz }},
	{"frechet_mm", "Frechet distance [mm]", func(r Report) Figure { return r.Order.Frechet }},
	{"frechet_holes_mm", "Frechet distance of the holes [mm]", func(r Report) Figure { return r.Order.Holes }},
	{Covered, "coverage [1]", func(r Report) Figure { return r.Coverage }},
	{"missed_mm", "missed [mm]", plainly(func(r Report) float64 { return r.Cover.MissedMM })},
	{"doubled_mm", "sewn twice [mm]", plainly(func(r Report) float64 { return r.Cover.DoubledMM })},
	{"dots_missed", "dots missed [1]", plainly(func(r Report) float64 { return dotCount(r, func(d Dot) bool { return !d.Reached }) })},
	{"dots_early", "dots out of order [1]", plainly(func(r Report) float64 { return dotCount(r, func(d Dot) bool { return d.Early }) })},
	{"steering", "steering index [1]", plainly(func(r Report) float64 { return r.Difficulty.Steering })},
	{"turning_deg", "turning [deg]", plainly(func(r Report) float64 { return r.Difficulty.Turning * 180 / math.Pi })},
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

// Figures returns the measures of a report that the table has, by their codes.
func Figures(r Report) map[Code]Figure {
	out := make(map[Code]Figure, len(columns))
	for _, c := range columns {
		out[c.code] = c.of(r)
	}
	return out
}

// Row writes the row of one trace: the caller's own cells, then its measures, as Figures
// returns them; those that are not there are not defined.
func (t *Table) Row(figures map[Code]Figure, lead ...string) error {
	if len(lead) != t.lead {
		return fmt.Errorf("a row begins with %d cells, the table with %d", len(lead), t.lead)
	}
	t.row = t.row[:0]
	for _, text := range lead {
		t.row = append(t.row, Cell(text))
	}
	for _, c := range columns {
		cell := ""
		if f := figures[c.code]; f.Defined {
			cell = strconv.FormatFloat(f.Value, 'g', 6, 64)
		}
		t.row = append(t.row, cell)
	}
	return t.to.Write(t.row)
}

// Cell returns a text as a cell of a table that a spreadsheet opens: what it would take for
// a formula, such as a name of hers that begins with an equals sign, gets an apostrophe
// before it. Numbers stay numbers. (OWASP, "CSV Injection": a cell that begins with = + - @,
// a tab or the end of a line, in full width too.)
func Cell(text string) string {
	if _, err := strconv.ParseFloat(text, 64); err == nil || !strings.ContainsAny(first(text), "=+-@\t\r\n＝＋－＠") {
		return text
	}
	return "'" + text
}

// first returns the first character of a text.
func first(text string) string {
	for i := range text {
		if i > 0 {
			return text[:i]
		}
	}
	return text
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
		if err := t.Row(Figures(n.Report), n.Name); err != nil {
			return fmt.Errorf("writing row %d: %w", i, err)
		}
	}
	return t.Flush()
}
