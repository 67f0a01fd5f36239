package keep

import (
	"encoding/json"
	"fmt"
	"math"

	"unthreaded/scoring"
	"unthreaded/scoring/progress"
)

// measuredForm is the version of Measured; a summary with an older one is measured
// anew.
const measuredForm = 1

// Measured is what is followed over the weeks of a trace.
type Measured struct {
	Form int `json:"form"`
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
// has an older form: the record can be measured anew.
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
	if m.Form < measuredForm {
		return m, fmt.Errorf("measures of %s: of the older form %d", s.ID, m.Form)
	}
	if !(m.Seconds >= 0) || math.IsInf(m.Seconds, 1) {
		return m, fmt.Errorf("measures of %s: it took %v s", s.ID, m.Seconds)
	}
	return m, nil
}

// Remeasure scores a record anew, at the needle speed and stitch length it was traced
// with, and returns its summary with all that is followed over the weeks. A trace that
// cannot be measured gets a summary that says so, and is not asked for again. Cost:
// that of scoring.Score.
func Remeasure(r Record) (Summary, error) {
	line, err := r.GeomLine()
	if err != nil {
		return Summary{}, fmt.Errorf("record %q: its line: %w", r.ID, err)
	}
	tr := r.Trace()
	rep, err := scoring.Score(line, tr, scoring.Settings{SPM: r.SPM, TargetMM: r.StitchMM})
	if err != nil {
		s := Summarise(r)
		s.Measured = encodeMeasured(Measured{SPM: r.SPM, Seconds: max(0, tr.Duration())})
		return s, nil
	}
	r.Report = rep
	return Summarise(r), nil
}

// measuredOf returns what is followed of a record whose report has just been made;
// one that was read from its document lacks the profile and gives none.
func measuredOf(r Record) json.RawMessage {
	rep := r.Report
	if len(rep.Profile.Speed) == 0 {
		return nil
	}
	m := Measured{Seconds: round(rep.Duration, 3), SPM: r.SPM, Figures: progress.Figures(rep), Places: progress.Places(rep)}
	if f := rep.Evenness.StitchMM; f.Defined {
		m.StitchMM = round(f.Value, 4)
	}
	roundAll(m.Figures)
	for _, figures := range m.Places {
		roundAll(figures)
	}
	return encodeMeasured(m)
}

// roundAll rounds to 0.0001, finer than any of the measures is told apart.
func roundAll(figures map[progress.Measure]float64) {
	for k, v := range figures {
		figures[k] = round(v, 4)
	}
}

func encodeMeasured(m Measured) json.RawMessage {
	m.Form = measuredForm
	doc, err := json.Marshal(m)
	if err != nil {
		return nil // a measure that is no number: the record itself is kept all the same
	}
	return doc
}
