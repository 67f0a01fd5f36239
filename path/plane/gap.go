package plane

import (
	"fmt"
	"math"

	"unthreaded/path/geom"
)

// Gap is a place that no stitching enters: the circle about Centre with Radius in
// mm. The batting is held nowhere within it.
type Gap struct {
	Centre geom.Point
	Radius float64
}

// Width returns the diameter in mm, which is what makers of batting limit.
func (g Gap) Width() float64 { return 2 * g.Radius }

// DefaultGapTolerance is the tolerance in mm of the radius of a gap: half a
// thread's width.
const DefaultGapTolerance = 0.1

// minGapTolerance keeps the search short; it is that of flattening curves.
const minGapTolerance = geom.Sagitta

// MaxGaps is the largest number of gaps that WideGaps returns.
const MaxGaps = 1000

// GapOptions say what holds the batting and how exactly gaps are measured.
type GapOptions struct {
	// Seams counts seams as stitched, as they are where they are sewn in the ditch.
	Seams bool
	// ToleranceMM is the tolerance of the radius; 0 stands for DefaultGapTolerance.
	ToleranceMM float64
}

// LargestGap returns the largest empty circle: the largest that lies within a
// closed outline without crossing itself and that no stroke enters. No larger one
// exceeds its radius by more than the tolerance, and it is empty in truth. A gap that
// runs on from a block into the next is found with the outline and the strokes of the
// top, not with those of the block.
//
// Branch and bound over a quadtree (as for poles of inaccessibility). The distance
// to the nearest line rises no faster than one walks, so that a square whose centre
// is at distance d and whose half diagonal is e holds no circle larger than d+e; the
// lines on opposite sides of a square give a closer bound (closeBound). The first
// squares find the lines about them in an R-tree; each hands to its quarters those
// that can be the nearest there. Cost O(n log n) for n chords spread evenly, and for
// each of the largest gaps O(log(gap/tolerance)) squares, along curved channels
// sqrt(gap x tolerance) apart.
//
// It fails on a bad outline, tolerance or stroke, which it names.
func LargestGap(strokes []Stroke, within geom.Polyline, opt GapOptions) (Gap, error) {
	s, err := newGapSearch(strokes, within, opt)
	if err != nil {
		return Gap{}, err
	}
	g, found := s.next(0)
	if !found {
		return Gap{}, fmt.Errorf("the outline leaves no room")
	}
	return g, nil
}

// WideGaps returns the gaps wider than a limit in mm, the widest first and at most
// so many: each is the largest empty circle that does not overlap those before, so
// that they are well apart. The widths are those of LargestGap.
func WideGaps(strokes []Stroke, within geom.Polyline, limitMM float64, most int, opt GapOptions) ([]Gap, error) {
	if !(limitMM > 0) || math.IsInf(limitMM, 1) {
		return nil, fmt.Errorf("a limit of %v mm is not above 0", limitMM)
	}
	if most < 1 || most > MaxGaps {
		return nil, fmt.Errorf("%d gaps asked for, 1 to %d are possible", most, MaxGaps)
	}
	s, err := newGapSearch(strokes, within, opt)
	if err != nil {
		return nil, err
	}
	var out []Gap
	for len(out) < most {
		g, found := s.next(limitMM / 2)
		if !found {
			break
		}
		out = append(out, g)
		s.taken = append(s.taken, g)
	}
	return out, nil
}

func newGapSearch(strokes []Stroke, within geom.Polyline, opt GapOptions) (*gapSearch, error) {
	s := &gapSearch{tol: opt.ToleranceMM}
	if s.tol == 0 {
		s.tol = DefaultGapTolerance
	}
	if !(s.tol >= minGapTolerance) || math.IsInf(s.tol, 1) {
		return nil, fmt.Errorf("a tolerance of %v mm is not %v or more", opt.ToleranceMM, minGapTolerance)
	}
	if err := validateOutline(within); err != nil {
		return nil, err
	}
	n := len(within)
	for _, st := range strokes {
		n += len(st.Path)
	}
	s.chords = make([]gapChord, 0, n)
	s.add(within)
	s.sides = len(s.chords)
	for i, st := range strokes {
		if err := st.validate(); err != nil {
			return nil, fmt.Errorf("stroke %d (%q): %w", i, st.Name, err)
		}
		if st.Kind.Must() || opt.Seams {
			s.add(st.Path)
		}
	}
	s.start(within)
	return s, nil
}

// validateOutline reports an outline that is not closed or encloses nothing.
func validateOutline(within geom.Polyline) error {
	if err := within.Validate(); err != nil {
		return fmt.Errorf("outline: %w", err)
	}
	for i, p := range within {
		if math.Abs(p.X) > MaxPlace || math.Abs(p.Y) > MaxPlace {
			return fmt.Errorf("outline: point %d at (%g, %g) mm lies more than %d mm from the origin", i, p.X, p.Y, MaxPlace)
		}
	}
	if d := geom.Dist(within[0], within[len(within)-1]); d > Grid {
		return fmt.Errorf("outline: it ends %.3g mm from where it starts", d)
	}
	if areaWithin(within) < Grid {
		return fmt.Errorf("outline: it encloses nothing")
	}
	return nil
}

// areaWithin returns the area of a closed polygon (the shoelace formula round its
// first point), whichever way it runs.
func areaWithin(pl geom.Polyline) float64 {
	var sum float64
	for i := 1; i < len(pl); i++ {
		a, b, o := pl[i-1], pl[i], pl[0]
		sum += (a.X-o.X)*(b.Y-o.Y) - (b.X-o.X)*(a.Y-o.Y)
	}
	return math.Abs(sum) / 2
}
