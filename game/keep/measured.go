package keep

import (
	"encoding/json"
	"fmt"
	"math"

	"unthreaded/game/guard"
	"unthreaded/scoring"
	"unthreaded/scoring/progress"
)

// Measures are what was measured of a trace when it was kept, at the needle speed and
// stitch length it was traced with. They are a copy: the samples give them again.
type Measures struct {
	// Version is that of the measures, scoring.Version; 0 where they have to be made anew.
	Version int `json:"version"`
	// Figures are those that are defined.
	Figures map[scoring.Code]float64 `json:"figures,omitempty"`
	// Faults are what went wrong, the gravest first.
	Faults []Fault `json:"faults,omitempty"`
	// Weeks is what is followed over the weeks.
	Weeks *Measured `json:"weeks,omitempty"`
}

// Fault is a thing that went wrong: a kind of scoring, where on the line in mm, and how
// much in the unit of its kind.
type Fault struct {
	Kind   scoring.FaultKind `json:"kind"`
	From   float64           `json:"from_mm"`
	To     float64           `json:"to_mm"`
	At     float64           `json:"at_mm"`
	Size   float64           `json:"size"`
	Number int               `json:"number,omitempty"`
}

// Measured is what is followed over the weeks of a trace.
type Measured struct {
	// Version is that of the measures.
	Version int `json:"version"`
	// Seconds is how long the trace took, SPM the needle speed in stitches per minute
	// and StitchMM the mean stitch length in mm, 0 where there were too few stitches.
	Seconds  float64 `json:"seconds"`
	SPM      float64 `json:"spm"`
	StitchMM float64 `json:"stitch_mm,omitempty"`
	// Figures are the measures that are defined, Places those of each movement; none
	// where the trace was too short to measure.
	Figures map[progress.Measure]float64                       `json:"figures,omitempty"`
	Places  map[progress.Movement]map[progress.Measure]float64 `json:"places,omitempty"`
}

// ReadMeasured reads what is followed over the weeks. It fails where there is none of it,
// where it is damaged, where the summary does not say of which line it is, and where it
// is of other measures than this program's: the record can be measured anew.
func (s Summary) ReadMeasured() (Measured, error) {
	var m Measured
	if s.Print == "" {
		return m, fmt.Errorf("measures of %s: without the fingerprint of its line", s.ID)
	}
	if len(s.Measured) == 0 {
		return m, fmt.Errorf("no measures of %s", s.ID)
	}
	if err := json.Unmarshal(s.Measured, &m); err != nil {
		return m, fmt.Errorf("measures of %s: %w", s.ID, err)
	}
	if m.Version != scoring.Version {
		return m, fmt.Errorf("measures of %s: of version %d", s.ID, m.Version)
	}
	if !(m.Seconds >= 0) || math.IsInf(m.Seconds, 1) {
		return m, fmt.Errorf("measures of %s: it took %v s", s.ID, m.Seconds)
	}
	return m, nil
}

// Measure scores the record anew, at the needle speed and stitch length it was traced
// with. A trace that cannot be measured has measures that say so. Cost: that of
// scoring.Score.
func (r *Record) Measure() error {
	line, err := r.GeomLine()
	if err != nil {
		return fmt.Errorf("record %q: its line: %w", r.ID, err)
	}
	if f := guard.Run("scoring", func() {
		rep, fails := scoring.Score(line, r.Trace(), scoring.Settings{SPM: r.SPM, TargetMM: r.StitchMM})
		if err = fails; err == nil {
			r.SetMeasures(rep)
		}
	}); f != nil || err != nil {
		r.SetUnmeasured()
	}
	return nil
}

// SetUnmeasured notes that the trace is too short to be measured.
func (r *Record) SetUnmeasured() {
	r.Measures = Measures{Version: scoring.Version, Weeks: &Measured{
		Version: scoring.Version, SPM: r.SPM, Seconds: max(0, r.Trace().Duration()),
	}}
}

// SetMeasures notes the measures of a report that has just been made, with its
// profile.
func (r *Record) SetMeasures(rep scoring.Report) {
	m := Measures{Version: scoring.Version, Figures: map[scoring.Code]float64{}}
	for code, f := range scoring.Figures(rep) {
		if f.Defined {
			m.Figures[code] = round(f.Value, 6)
		}
	}
	for _, f := range rep.Faults {
		m.Faults = append(m.Faults, Fault{
			Kind: f.Kind, From: round(f.From, 3), To: round(f.To, 3), At: round(f.At, 3), Size: round(f.Size, 4), Number: f.Number,
		})
	}
	w := Measured{
		Version: scoring.Version, Seconds: round(rep.Duration, 3), SPM: r.SPM, Figures: progress.Figures(rep), Places: progress.Places(rep),
	}
	if f := rep.Evenness.StitchMM; f.Defined {
		w.StitchMM = round(f.Value, 4)
	}
	roundAll(w.Figures)
	for _, figures := range w.Places {
		roundAll(figures)
	}
	m.Weeks = &w
	r.Measures = m
}

// roundAll rounds to 0.0001, finer than any of the measures is told apart.
func roundAll(figures map[progress.Measure]float64) {
	for k, v := range figures {
		figures[k] = round(v, 4)
	}
}
