package scene

import (
	"math"
)

// within returns v within [lo, hi].
func within(v, lo, hi float64) float64 { return math.Max(lo, math.Min(hi, v)) }
