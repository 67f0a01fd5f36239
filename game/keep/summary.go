package keep

import (
	"encoding/binary"
	"encoding/json"
	"fmt"
	"hash/fnv"
	"math"
	"strconv"

	"unthreaded/path/geom"
	"unthreaded/scoring"
	"unthreaded/scoring/trace"
)

// Summary is what the list of past traces shows of a record; it is kept beside
// it, so that the list opens without reading the traces.
type Summary struct {
	ID      string `json:"id"`
	Started int64  `json:"started"`
	Motif   string `json:"motif"`
	Name    string `json:"name"`
	Repeats int    `json:"repeats"`
	// Print is the fingerprint of the line, LineDoc.Print; summaries from before there
	// was one lack it and are measured anew.
	Print  string       `json:"print,omitempty"`
	Device trace.Device `json:"device"`
	Ending trace.Ending `json:"ending"`
	// Way, Zoom, SizeKnown and Guide are those of the record; summaries from before
	// they were noted lack them.
	Way       string  `json:"way,omitempty"`
	Zoom      float64 `json:"zoom,omitempty"`
	SizeKnown bool    `json:"size_known,omitempty"`
	Guide     *Guide  `json:"guide,omitempty"`
	WarmUp    bool    `json:"warm_up,omitempty"`
	// Measured is a document of Measured, read only where progress is looked at; empty
	// where the summary is older than that.
	Measured json.RawMessage `json:"measured,omitempty"`
	// StitchCV and Within tell the evenness of the stitches, P95MM how near the
	// line they lie; nil where the trace was too short to say.
	StitchCV *float64 `json:"stitch_cv,omitempty"`
	Within   *float64 `json:"within,omitempty"`
	P95MM    *float64 `json:"p95_mm,omitempty"`
	// Coverage is the share of the line that was followed.
	Coverage *float64 `json:"coverage,omitempty"`
	// Digest tells traces apart by their samples; empty in summaries written before
	// there was one.
	Digest string `json:"digest,omitempty"`
	// CruiseMM is the middle speed in mm/s where the hand moved freely; summaries
	// from before it was noted lack it.
	CruiseMM *float64 `json:"cruise_mm_s,omitempty"`
}

// Summarise returns the summary of a record; figures of other measures than this program's
// are left out.
func Summarise(r Record) Summary {
	s := Summary{
		ID: r.ID, Started: r.Started, Motif: r.Motif, Name: r.Name, Repeats: r.Repeats, Print: r.Line.Print(),
		Device: r.Device, Ending: r.Ending, Way: r.Way, Zoom: r.Zoom, SizeKnown: r.SizeKnown, Guide: r.Guide,
		WarmUp: r.WarmUp, Digest: r.Samples.Digest(),
	}
	if r.Measures.Version != scoring.Version {
		return s
	}
	value := func(code scoring.Code) *float64 {
		if v, ok := r.Measures.Figures[code]; ok {
			return &v
		}
		return nil
	}
	s.StitchCV, s.Within, s.P95MM = value(scoring.SpacingCV), value(scoring.NearTarget), value(scoring.P95)
	s.Coverage, s.CruiseMM = value(scoring.Covered), value(scoring.Cruise)
	if doc, err := json.Marshal(r.Measures.Weeks); err == nil && r.Measures.Weeks != nil {
		s.Measured = doc
	}
	return s
}

// printUnit is the fineness in mm of a line's fingerprint: far below what a hand can
// follow, and far above what a record rounds its points to.
const printUnit = 0.01

// Print returns the fingerprint of a line: a hash (FNV-1a, 64 bits, RFC 9923) over its
// points, each rounded to printUnit. Lines with equal prints are the same line; one that
// was kept and read again has the print it had before.
func (d LineDoc) Print() string {
	h := fnv.New64a()
	var b [16]byte
	for _, p := range d.Points {
		for i, v := range p {
			binary.LittleEndian.PutUint64(b[8*i:], uint64(int64(math.Round(v/printUnit))))
		}
		h.Write(b[:])
	}
	return strconv.FormatUint(h.Sum64(), 16)
}

// PrintOf returns the fingerprint of a line as a record would keep it.
func PrintOf(l geom.Line) string {
	var r Record
	r.SetLine(l)
	return r.Line.Print()
}

// Digest returns a hash over times and places (FNV-1a, 64 bits, RFC 9923), for telling
// whether a trace is here already.
func (s Samples) Digest() string {
	h := fnv.New64a()
	var b [8]byte
	for _, column := range [][]float64{s.T, s.X, s.Y} {
		for _, v := range column {
			binary.LittleEndian.PutUint64(b[:], math.Float64bits(v))
			h.Write(b[:])
		}
	}
	return strconv.FormatUint(h.Sum64(), 16)
}

// EncodeSummary returns the summary as a document.
func EncodeSummary(s Summary) ([]byte, error) {
	b, err := json.Marshal(s)
	if err != nil {
		return nil, fmt.Errorf("summary of %s: %w", s.ID, err)
	}
	return b, nil
}

// DecodeSummary reads a summary.
func DecodeSummary(doc []byte) (Summary, error) {
	var s Summary
	if err := json.Unmarshal(doc, &s); err != nil {
		return Summary{}, fmt.Errorf("not a summary: %w", err)
	}
	if s.ID == "" {
		return Summary{}, fmt.Errorf("a summary has no id")
	}
	return s, nil
}
