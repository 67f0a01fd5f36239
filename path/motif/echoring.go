package motif

import (
	"fmt"
	"math"
)

var _ = add(Ruled, 10, Motif{
	ID: "echo-outline", Closed: true,
	Params: []Param{
		{ID: "spacing", Unit: "mm", Min: 3, Max: 100, Step: 0.5, Usual: 12.5},
		{ID: "count", Min: 1, Max: 200, Step: 1, Usual: 200},
	},
	fit: fitEcho,
})

// fitEcho returns the outline of the field and those that lie one spacing after
// the other within it, for as long as the space inside measures half a spacing.
func fitEcho(f field, v Values) ([]Piece, error) {
	spacing := v["spacing"]
	var out []Piece
	for k := range int(v["count"]) {
		in, ok := f.inset(float64(k) * spacing)
		if !ok || k > 0 && in.radius < spacing/4 {
			break
		}
		p := Piece{Name: fmt.Sprintf("echo %d", k+1), Path: in.outline(), Ruler: in.corners != nil}
		if in.corners == nil {
			p.Length = 2 * math.Pi * in.radius
		}
		out = append(out, p)
	}
	return out, nil
}
