package progress

import (
	"errors"
	"fmt"
	"math"
)

// Why there is no learning curve. Errors of LearningCurve wrap one of them.
var (
	ErrFewSessions = errors.New("too few sessions for a learning curve")
	ErrNoChange    = errors.New("no change that is larger than chance")
	ErrNoPlateau   = errors.New("where it will level off cannot be told yet")
)

// LeastCurve is the fewest sessions for a learning curve.
const LeastCurve = 8

// Curve is a learning curve y = A + B e^(-a n) over the sessions n: the exponential
// law fits single learners, the power law their average (Heathcote, Brown and Mewhort,
// Psychonomic Bulletin & Review 7, 2000).
type Curve struct {
	// Plateau is A, Gain is B, what there is to gain at n = 0, with the sign of
	// y - A; Rate is a, the share of it gained a session (relative learning rate).
	Plateau, Gain, Rate float64
	// Interval is that of the plateau, by the profile of the sum of squares.
	Interval Interval
	// Scatter is the standard deviation of the scores about the curve, with 3 degrees
	// of freedom less than scores.
	Scatter float64
}

// At returns the curve at session n.
func (c Curve) At(n float64) float64 { return c.Plateau + c.Gain*math.Exp(-c.Rate*n) }

// LearningCurve fits a curve to the scores y of the sessions 1, 2, 3 and on by least
// squares. It refuses:
//
//   - ErrFewSessions below LeastCurve scores;
//   - ErrNoChange where the curve is no better than one level for all (F test, 5 %);
//   - ErrNoPlateau where an end of the interval of the plateau is farther from it than
//     half of what was gained from the first session to the last, as where a straight
//     line, which never levels off, fits as well.
//
// Other errors are those of values that are not finite. Cost O(n) times some ten
// thousand.
func LearningCurve(y []float64) (Curve, error) {
	if err := pairs(y, y); err != nil {
		return Curve{}, err
	}
	if len(y) < LeastCurve {
		return Curve{}, fmt.Errorf("%d of %d: %w", len(y), LeastCurve, ErrFewSessions)
	}
	n := make([]float64, len(y))
	for i := range n {
		n[i] = float64(i + 1)
	}
	f := newFit(n, y)
	c, rss := f.curve()
	free := float64(len(y) - 3)
	if (f.level()-rss)/2 <= fisher(Confidence, 2, free)*rss/free {
		return Curve{}, ErrNoChange
	}
	c.Scatter = math.Sqrt(rss / free)
	var ok bool
	if c.Interval, ok = f.plateaus(c, rss*(1+fisher(Confidence, 1, free)/free)); !ok {
		return Curve{}, ErrNoPlateau
	}
	return c, nil
}
