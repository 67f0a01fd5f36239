package place

import (
	"errors"

	"unthreaded/game/words"
	"unthreaded/path/motif"
)

// MotifWhy says why a motif cannot lie in a block as it is set; none for no error.
func MotifWhy(err error) words.Msg {
	if err == nil {
		return words.Msg{}
	}
	var r *motif.Refusal
	if !errors.As(err, &r) {
		return words.Of("motif.refused")
	}
	shape := words.Of("motif.shape." + string(r.Shape.Kind))
	measure := words.Of("motif.measure." + r.Measure)
	switch r.Code {
	case motif.TooFine:
		return words.Of("motif.refused.too-fine", measure, words.ExactMM(r.Value), shape, words.ExactMM(r.Limit))
	case motif.TooLarge:
		return words.Of("motif.refused.too-large", measure, words.ExactMM(r.Value), shape, words.ExactMM(r.Limit))
	case motif.NoRoom:
		return words.Of("motif.refused.no-room", shape, words.ExactMM(r.Value))
	case motif.TooMany:
		return words.Of("motif.refused.too-many", measure, int(r.Value), shape, int(r.Limit))
	case motif.TooSharp:
		return words.Of("motif.refused.too-sharp", shape)
	case motif.TooLong:
		return words.Of("motif.refused.too-long")
	}
	return words.Of("motif.refused.unfit."+r.Measure, shape)
}
