package practice

import "math"

// Band is a word for how even the stitches are, which can be guessed.
type Band string

// The bands of the coefficient of variation of the stitch lengths. They are ours, to
// be set anew from her own traces.
const (
	VeryEven Band = "very even" // up to 0.15
	Even     Band = "even"      // up to 0.25
	Usual    Band = "usual"     // up to 0.40
	Uneven   Band = "uneven"    // above
)

// Bands lists them from the most even on.
var Bands = []Band{VeryEven, Even, Usual, Uneven}

// upTo are the upper bounds of the bands.
var upTo = []float64{0.15, 0.25, 0.40, math.Inf(1)}

// BandOf returns the band of a coefficient of variation, empty for one that is no
// number.
func BandOf(cv float64) Band {
	for k, most := range upTo {
		if cv <= most {
			return Bands[k]
		}
	}
	return ""
}
