package machine

import "math"

// Figures are what the choice of a foot rests on, taken from a route's geometry.
type Figures struct {
	// Length is that of all that is walked, in mm; Travel the part that only leads
	// on, Ruler the part sewn along a ruler, Straight the part in straight
	// stretches of at least MinStraight.
	Length, Travel, Ruler, Straight float64
	// StraightShare is Straight over Length.
	StraightShare float64
	// SmallestRadius is that of the tightest curve in mm; StraightRadius where
	// nothing bends more. Corners are counted as pivots instead.
	SmallestRadius float64
	// Turning is the sum over the pieces, Wound the largest among them; Closed and
	// Index are those of the whole where it is a single piece.
	Turning Turning
	// RotationsPerMetre is the number of full turns of the quilt, if fed, for each
	// metre of line.
	RotationsPerMetre float64
	// Pivots are corners, Halts corners and inner dots, RulerLines straight or
	// curved lines along a ruler, from dot or corner to dot or corner; Stops are
	// one fewer than pieces.
	Pivots, Halts, RulerLines, Stops int
	// Spacing is the area of the block over the length sewn, in mm: how far apart
	// parallel lines of that length would lie.
	Spacing float64
}

// Figures measures the work. The turn of the quilt from the end of a piece to the
// beginning of the next is left out. Cost O(points + length/mm).
func (w Work) Figures() (Figures, error) {
	if err := w.Validate(); err != nil {
		return Figures{}, err
	}
	f := Figures{Length: w.Length(), Stops: len(w.Pieces) - 1, SmallestRadius: StraightRadius}
	f.Travel = w.lengthOf(func(s Span) bool { return s.Travel })
	f.Ruler = w.lengthOf(func(s Span) bool { return s.Ruler && !s.Travel })
	for _, p := range w.Pieces {
		straight, smallest := bendsOf(p.Line)
		f.Straight += straight
		f.SmallestRadius = math.Min(f.SmallestRadius, smallest)
		f.Pivots += len(pivots(p.Line))
		f.Halts += len(halts(p.Line))
		t := TurningOf(p.Line)
		f.Turning.Total += t.Total
		f.Turning.Net += t.Net
		f.Turning.Wound = math.Max(f.Turning.Wound, t.Wound)
		if len(w.Pieces) == 1 {
			f.Turning.Closed, f.Turning.Index = t.Closed, t.Index
		}
	}
	f.RulerLines = len(w.RulerLines())
	f.StraightShare = math.Min(1, f.Straight/f.Length)
	f.RotationsPerMetre = f.Turning.Rotations() / (f.Length / 1000)
	if sewn := f.Length - f.Travel; sewn >= 1 {
		f.Spacing = w.BlockW * w.BlockH / sewn
	}
	return f, nil
}
