package scoring

import "math"

// Figure is a measured value, or the reason why there is none. It is written to
// JSON without infinities and NaN, which JSON does not know.
type Figure struct {
	// Value is 0 where the figure is not defined.
	Value float64 `json:"value"`
	// Defined tells that Value was measured.
	Defined bool `json:"defined"`
	// Why tells in words why it was not.
	Why string `json:"why,omitempty"`
}

// figure returns a defined figure; a value that is no finite number becomes
// undefined.
func figure(v float64) Figure {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return undefined("the arithmetic gave no finite number")
	}
	return Figure{Value: v, Defined: true}
}

func undefined(why string) Figure { return Figure{Why: why} }
