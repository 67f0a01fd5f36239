package machine

import (
	"cmp"
	"fmt"
	"slices"
)

// OrderKind names an order of sewing the rows of a top.
type OrderKind string

// The orders that are compared: from the first edge to the last and back to front; from
// the first edge to the last, from both edges to the middle and from the middle out, each
// turned half way.
const (
	FirstToLast OrderKind = "first-to-last"
	LastToFirst OrderKind = "last-to-first"
	HalfAndHalf OrderKind = "half-and-half"
	EdgesIn     OrderKind = "edges-in"
	MiddleOut   OrderKind = "middle-out"
)

// RowOrder is an order with what it asks of the throat and of the hands.
type RowOrder struct {
	Kind OrderKind
	Fits []Fit
	// WorstRoll is the thickest roll in mm, WorstBunch the largest bunch in mm2.
	WorstRoll, WorstBunch float64
	// NoRoll and NoBunch list the places in Fits, in order, where the quilt does
	// not go through rolled, or bunched.
	NoRoll, NoBunch []int
	// Trapped counts the rows that are sewn between two rows that are sewn already,
	// from where slack cannot go to an edge.
	Trapped int
	// Outward is true where no row is sewn towards the middle of the quilt, so
	// that slack is worked to the edges (common practice).
	Outward bool
	// Turns counts the half turns of the quilt. Moves is the way in mm, across the
	// rows, between the middles of rows that follow each other.
	Turns int
	Moves float64
}

// Orders measures orders of the rows of a top. The first is the one that is asked for:
// sewn lists each row once, turned tells of each whether the quilt lies turned half way;
// it has the kind that it agrees with, "" for none. After it come the others by name, the
// best first: fewest places where the quilt does not go through, then the thinnest worst
// roll, the fewest trapped rows, outward, the fewest turns, the shortest moves. With no
// rows sewn there are only those by name. Cost O(rows^2).
func Orders(t Top, th Throat, sewn []int, turned []bool) ([]RowOrder, error) {
	if err := t.Validate(); err != nil {
		return nil, err
	}
	if err := th.Validate(); err != nil {
		return nil, fmt.Errorf("throat: %w", err)
	}
	var out []RowOrder
	for _, k := range []OrderKind{MiddleOut, HalfAndHalf, EdgesIn, FirstToLast, LastToFirst} {
		rows, half := t.sequence(k)
		o := t.assess(th, rows, half)
		o.Kind = k
		out = append(out, o)
	}
	slices.SortStableFunc(out, compareOrders)
	if len(sewn) == 0 {
		return out, nil
	}
	if err := t.lists(sewn, turned); err != nil {
		return nil, err
	}
	mine := t.assess(th, sewn, turned)
	same := func(o RowOrder) bool {
		return slices.EqualFunc(o.Fits, mine.Fits, func(a, b Fit) bool { return a.Row == b.Row && a.Turned == b.Turned })
	}
	if i := slices.IndexFunc(out, same); i >= 0 {
		mine.Kind = out[i].Kind
	}
	return append([]RowOrder{mine}, slices.DeleteFunc(out, same)...), nil
}

func compareOrders(a, b RowOrder) int {
	outward := func(o RowOrder) int {
		if o.Outward {
			return 0
		}
		return 1
	}
	return cmp.Or(
		cmp.Compare(len(a.NoRoll)+len(a.NoBunch), len(b.NoRoll)+len(b.NoBunch)),
		cmp.Compare(a.WorstRoll, b.WorstRoll), cmp.Compare(a.Trapped, b.Trapped),
		cmp.Compare(outward(a), outward(b)), cmp.Compare(a.Turns, b.Turns), cmp.Compare(a.Moves, b.Moves),
	)
}

// Sequence returns rows in an order, and for each whether the quilt is turned half
// way. Middles are those of the rows in mm from the first edge, ascending, across the
// side of the quilt across them. An order of no known kind is FirstToLast.
func Sequence(k OrderKind, middles []float64, across float64) (rows []int, turned []bool) {
	n, half := len(middles), 0
	// The rows nearer to the first edge leave less in the throat unturned; what sums of
	// floats are off by does not turn a row in the middle.
	for half < n && 2*middles[half] <= across*(1+1e-12) {
		half++
	}
	add := func(from, to, step int, turn bool) {
		for r := from; r != to; r += step {
			rows, turned = append(rows, r), append(turned, turn)
		}
	}
	switch k {
	case LastToFirst:
		add(n-1, -1, -1, false)
	case HalfAndHalf:
		add(0, half, 1, false)
		add(half, n, 1, true)
	case EdgesIn:
		add(0, half, 1, false)
		add(n-1, half-1, -1, true)
	case MiddleOut:
		add(half, n, 1, true)
		add(half-1, -1, -1, false)
	default:
		add(0, n, 1, false)
	}
	return rows, turned
}

// sequence returns the rows of the top in an order.
func (t Top) sequence(k OrderKind) (rows []int, turned []bool) {
	middles := make([]float64, len(t.Rows))
	for r := range t.Rows {
		middles[r] = t.middle(r)
	}
	return Sequence(k, middles, t.Across)
}

// lists tells whether an order lists each row of the top once.
func (t Top) lists(rows []int, turned []bool) error {
	seen := slices.Sorted(slices.Values(rows))
	for i, r := range seen {
		if r != i || len(rows) != len(t.Rows) || len(turned) != len(rows) {
			return fmt.Errorf("order: %v with %d turns does not list each of %d rows once", rows, len(turned), len(t.Rows))
		}
	}
	return nil
}

// assess measures an order of all rows.
func (t Top) assess(th Throat, rows []int, turned []bool) RowOrder {
	o := RowOrder{Outward: true}
	sewn := make([]bool, len(t.Rows))
	for i, r := range rows {
		f := t.fit(th, r, turned[i])
		o.Fits = append(o.Fits, f)
		o.WorstRoll, o.WorstBunch = max(o.WorstRoll, f.Roll), max(o.WorstBunch, f.Bunch)
		if !f.Rolls {
			o.NoRoll = append(o.NoRoll, i)
		}
		if !f.Bunches {
			o.NoBunch = append(o.NoBunch, i)
		}
		if slices.Contains(sewn[:r], true) && slices.Contains(sewn[r+1:], true) {
			o.Trapped++
		}
		sewn[r] = true
		if i == 0 {
			continue
		}
		o.Moves += t.between(rows[i-1], r)
		if turned[i] != turned[i-1] {
			o.Turns++
		} else if t.fromMiddle(r) < t.fromMiddle(rows[i-1])-joinMM {
			o.Outward = false
		}
	}
	return o
}

// middle returns the middle of row r, in mm from the first edge.
func (t Top) middle(r int) float64 { return (t.Rows[r].From + t.Rows[r].To) / 2 }

// between returns the distance in mm of the middles of two rows, fromMiddle that of
// a row's from the middle of the quilt.
func (t Top) between(a, b int) float64 {
	return max(t.middle(a), t.middle(b)) - min(t.middle(a), t.middle(b))
}

func (t Top) fromMiddle(r int) float64 {
	return max(t.middle(r), t.Across/2) - min(t.middle(r), t.Across/2)
}
