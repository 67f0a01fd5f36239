package scoring

// leastStroke is the shortest stroke in seconds whose smoothness says anything:
// the lowest frequency that hands move at is about 1 Hz.
const leastStroke = 0.5

// Stroke is a piece of the movement between two stops, gaps, pauses or ends.
type Stroke struct {
	// From and To are the places in mm along the line at its ends, T the time in
	// seconds at which it begins.
	From    float64 `json:"from_mm"`
	To      float64 `json:"to_mm"`
	T       float64 `json:"t_s"`
	Seconds float64 `json:"seconds"`
	// Speed in mm/s is the mean.
	Speed float64 `json:"speed_mm_s"`
	// SPARC is the spectral arc length of its speed (see SPARC).
	SPARC Figure `json:"sparc"`
}

// strokes cuts the movement at gaps, at pauses and in the middle of stops.
func (r *run) strokes() []Stroke {
	out := []Stroke{}
	for _, span := range r.p.Runs() {
		begin := span[0]
		for _, s := range r.stops {
			if mid := (s.i + s.end) / 2; !r.rests(s.i, s.end) && mid > begin && mid < span[1] && s.i > 0 && s.end < len(r.p.Points) {
				out = r.addStroke(out, begin, mid)
				begin = mid
			}
		}
		out = r.addStroke(out, begin, span[1])
	}
	return out
}

func (r *run) addStroke(out []Stroke, begin, end int) []Stroke {
	s := Stroke{
		From: r.m.Place[begin], To: r.m.Place[end-1], T: r.p.Time(begin),
		Seconds: float64(end-1-begin) / r.p.Rate, SPARC: undefined(TooShort),
	}
	if s.Seconds < leastStroke {
		return append(out, s)
	}
	s.Speed = (r.p.Arc[end-1] - r.p.Arc[begin]) / s.Seconds
	s.SPARC = figure(SPARC(r.p.Speed[begin:end], r.p.Rate))
	return append(out, s)
}

// smoothness returns the SPARC of the strokes, each counting by its time.
func smoothness(strokes []Stroke) Figure {
	var sum, time float64
	for _, s := range strokes {
		if s.SPARC.Defined {
			sum += s.SPARC.Value * s.Seconds
			time += s.Seconds
		}
	}
	if time == 0 {
		return undefined(TooShort)
	}
	return figure(sum / time)
}
