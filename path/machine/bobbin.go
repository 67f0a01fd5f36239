package machine

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"sort"
)

// BobbinPlan asks where on a route the bobbin is to be changed.
type BobbinPlan struct {
	// Length is that of the route, PerMM the bobbin thread for each mm of it
	// (Seam.PerMM), Waste the thread in mm for a start and its end.
	Length, PerMM, Waste float64
	// Starts are the arc lengths where pieces after the first begin, ascending.
	Starts []float64
	// Full is the thread in mm on a full bobbin, First that on the one in the
	// machine; Reserve is the share of Full that is not counted on.
	Full, First, Reserve float64
	// Places are where it may be changed, in any order.
	Places []Place
}

// BobbinChange is one change of the bobbin.
type BobbinChange struct {
	Place
	// RunsOut is the arc length in mm where the old bobbin would have run out,
	// reserve aside, or the end of the route; Left is the thread in mm still on it.
	RunsOut, Left float64
}

// NoPlaceError tells that the bobbin runs out before a good place comes.
type NoPlaceError struct {
	// From is where the bobbin was put in, To where it runs out, in mm.
	From, To float64
}

// Error says where a place is missing.
func (e NoPlaceError) Error() string {
	return fmt.Sprintf("no good place to change the bobbin lies between %.0f and %.0f mm of the route: mark one there, or wind a fuller bobbin", e.From, e.To)
}

// PerMMRange is that of bobbin thread for each mm of line: 1 for cloth without
// thickness.
var PerMMRange = Range{"bobbin-thread-per-mm", "mm", 1, 50, 2}

// Validate reports the first value that cannot be, by its index.
func (b BobbinPlan) Validate() error {
	first := BobbinLength.Called("thread-on-the-first-bobbin")
	first.Min, first.Max = 0, b.Full
	if err := checkAll(entry{b.Length, LineLength}, entry{b.PerMM, PerMMRange}, entry{b.Waste, Waste},
		entry{b.Full, BobbinLength}, entry{b.First, first}, entry{b.Reserve, Reserve}); err != nil {
		return err
	}
	on := Range{Name: "arc-length", Unit: "mm", Min: 0, Max: b.Length}
	for i, s := range b.Starts {
		if err := on.Check(s); err != nil {
			return fmt.Errorf("start %d: %w", i, err)
		}
		if i > 0 && s <= b.Starts[i-1] {
			return fmt.Errorf("start %d at %v mm does not come after start %d at %v mm", i, s, i-1, b.Starts[i-1])
		}
	}
	for i, p := range b.Places {
		if err := on.Check(p.At); err != nil {
			return fmt.Errorf("place %d: %w", i, err)
		}
	}
	return nil
}

// Changes returns the changes in order: each at the last place that the bobbin
// reaches, so that there are as few as can be. A bobbin pays for the start where
// it is put in and for those before the next change. It may be changed at 0 mm,
// where what is in the machine is too little for the first stretch. A *NoPlaceError
// tells that no place is in reach; the changes before it are returned with it.
// Cost O(n log n) for n places, times O(starts) for each change.
func (b BobbinPlan) Changes() ([]BobbinChange, error) {
	if err := b.Validate(); err != nil {
		return nil, err
	}
	places := append([]Place{{At: 0, Kind: EndOfPiece}}, b.Places...)
	slices.SortStableFunc(places, func(p, q Place) int {
		return cmp.Or(cmp.Compare(p.At, q.At), cmp.Compare(q.Kind.rank(), p.Kind.rank()))
	})
	var out []BobbinChange
	at, have := 0.0, math.Max(0, b.First-b.Reserve*b.Full)
	for {
		to := b.reach(at, have)
		if to >= b.Length {
			return out, nil
		}
		k := sort.Search(len(places), func(i int) bool { return b.used(at, places[i].At) > have }) - 1
		p := places[k]
		if len(out) > 0 && p.At <= at {
			return out, &NoPlaceError{From: at, To: to}
		}
		left := have + b.Reserve*b.Full - b.used(at, p.At)
		if len(out) == 0 {
			left = b.First - b.used(at, p.At)
		}
		out = append(out, BobbinChange{Place: p, RunsOut: to, Left: left})
		at, have = p.At, b.Full*(1-b.Reserve)
	}
}

// used returns the thread in mm that a bobbin put in at arc length from gives up
// to arc length to, the start of a piece at to left out. It grows with to.
func (b BobbinPlan) used(from, to float64) float64 {
	if to <= from {
		return 0
	}
	starts := 1
	for _, s := range b.Starts {
		if s > from+joinMM && s < to-joinMM {
			starts++
		}
	}
	return b.PerMM*(to-from) + float64(starts)*b.Waste
}

// reach returns the arc length in mm at which a bobbin put in at arc length from
// has given the thread have, at most the length of the route.
func (b BobbinPlan) reach(from, have float64) float64 {
	have -= b.Waste
	for _, s := range b.Starts {
		if s <= from+joinMM || s >= b.Length-joinMM {
			continue
		}
		if need := b.PerMM * (s - from); have < need {
			break
		} else {
			have -= need
		}
		from = s
		if have -= b.Waste; have < 0 {
			return s
		}
	}
	return math.Min(b.Length, from+math.Max(0, have)/b.PerMM)
}

// Bobbins returns how many full bobbins hold a length of thread in mm (of Thread:
// Bobbin) if the share reserve of each is not counted on. Changing at good places
// only may take more: see BobbinPlan.
func Bobbins(thread, full, reserve float64) (int, error) {
	need := Range{"bobbin-thread", "mm", 0, 1e9, 0}
	if err := checkAll(entry{thread, need}, entry{full, BobbinLength}, entry{reserve, Reserve}); err != nil {
		return 0, err
	}
	return int(math.Ceil(thread / (full * (1 - reserve)))), nil
}
