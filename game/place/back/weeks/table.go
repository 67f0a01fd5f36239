package weeks

import (
	"encoding/csv"
	"fmt"
	"io"
	"slices"
	"strconv"
	"time"

	tables "unthreaded/scoring"
	"unthreaded/scoring/progress"
)

// headings name the measures with their units.
var headings = []struct {
	measure progress.Measure
	heading string
}{
	{progress.Spacing, "spacing CV [1]"},
	{progress.Speed, "speed CV [1]"},
	{progress.Beside, "movement error ME [mm]"},
	{progress.Farthest, "95th percentile of error [mm]"},
	{progress.Corners, "mean overshoot [mm]"},
	{progress.Slowing, "distance of speed-curvature exponent from 0 [1]"},
	{progress.Flow, "SPARC [1]"},
	{progress.Covered, "coverage [1]"},
}

// WriteTraces writes traces as a table (RFC 4180), one row each in the order of the
// sessions: what they are, whether they count, and every measure; the cell of one that is
// not defined is empty. Times are in UTC (ISO 8601). keep tells which traces are in.
func WriteTraces(w io.Writer, sessions []progress.Session, keep func(t progress.Trace) bool) error {
	rows := [][]string{{"trace", "began [UTC]", "session", "line", "size [share of true size]", "way", "device", "guide", "warming up", "duration [s]"}}
	for _, h := range headings {
		rows[0] = append(rows[0], h.heading)
	}
	for k, s := range sessions {
		for i, t := range s.Traces {
			if !keep(t) {
				continue
			}
			warming := strconv.FormatBool(i < progress.WarmUpTraces || t.WarmUp)
			row := []string{
				t.ID, iso(t.At), strconv.Itoa(k + 1), t.Like.Line, short(t.Like.Zoom), t.Like.Way,
				string(t.Like.Device), string(t.Like.Guide), warming, short(t.Seconds),
			}
			for _, h := range headings {
				cell := ""
				if v, ok := t.Figures[h.measure]; ok {
					cell = short(v)
				}
				row = append(row, cell)
			}
			rows = append(rows, row)
		}
	}
	return write(w, rows)
}

// WriteScores writes the scores of sessions as a table (RFC 4180), one row each.
func WriteScores(w io.Writer, scores []progress.Score, m progress.Measure) error {
	unit := string(m)
	if i := slices.IndexFunc(headings, func(h struct {
		measure progress.Measure
		heading string
	}) bool {
		return h.measure == m
	}); i >= 0 {
		unit = headings[i].heading
	}
	rows := [][]string{{"session", "began [UTC]", "median, " + unit, "lower quartile", "upper quartile", "traces counted", "traces not counted", "enough to judge by"}}
	for _, s := range scores {
		rows = append(rows, []string{
			strconv.Itoa(s.Session + 1), iso(s.At), short(s.Median), short(s.Q1), short(s.Q3),
			strconv.Itoa(len(s.Counted)), strconv.Itoa(len(s.Apart)), strconv.FormatBool(s.Sure()),
		})
	}
	return write(w, rows)
}

func write(w io.Writer, rows [][]string) error {
	table := csv.NewWriter(w)
	table.UseCRLF = true
	for _, row := range rows[1:] {
		for i, text := range row {
			row[i] = tables.Cell(text)
		}
	}
	if err := table.WriteAll(rows); err != nil {
		return fmt.Errorf("writing the table: %w", err)
	}
	return nil
}

func short(v float64) string { return strconv.FormatFloat(v, 'g', 6, 64) }

func iso(s float64) string { return time.UnixMilli(int64(s * 1000)).UTC().Format(time.RFC3339) }

// Shown tells whether a trace is one of those compared, whether it counts or not.
func (b Book) Shown(t progress.Trace) bool {
	if b.ask.Motif == "" {
		return string(t.Like.Guide) == b.work.By[Help]
	}
	return b.alike(b.known[t.ID])
}
