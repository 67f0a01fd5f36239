package motif

import (
	"cmp"
	"math"
	"slices"

	"unthreaded/path/geom"
)

// Effort is what lines ask of the hand that sews them, whatever its speed.
type Effort struct {
	// Length in mm of all lines, Ruler the part of it along a ruler.
	Length, Ruler float64
	// Spacing in mm is the area of the shape over the length: how far apart parallel
	// lines of that length lie. The smaller, the denser.
	Spacing float64
	// Threads is how often thread is begun at least, where nothing is sewn twice and no
	// seam is travelled: half the ends at which an odd number of lines meet, and one for
	// each closed line.
	Threads int
	// Points are the places at which the needle stands while the cloth is turned or a
	// ruler is moved.
	Points int
	// Turning in radians is the sum of all bends, either way, without the points.
	Turning float64
	// Radius in mm is exceeded by nineteen twentieths of the line; +Inf where nothing bends.
	Radius float64
	// Swings counts the changes from turning left to turning right and back.
	Swings int
	// Beside is the share of the line that touches another or is sewn over it.
	Beside float64
}

// The lengths in mm over which a hand notices a bend: about a stitch; and the turn in
// radians from which on it counts as one to the left or to the right.
const (
	effortStep = 1.0
	effortOver = 3
	leastSwing = math.Pi / 6
)

// Effort measures lines in a shape. Cost O(points + length in mm).
func (s Shape) Effort(pieces []Piece) Effort {
	out := Effort{Radius: math.Inf(1), Threads: threads(pieces)}
	var radii []float64
	for _, p := range pieces {
		path := p.Path.Compact()
		if len(path) < 2 {
			continue
		}
		n := path.Length()
		out.Length += n
		if p.Ruler {
			out.Ruler += n
			out.Points++
		}
		parts := smoothParts(path)
		out.Points += len(parts) - 1
		for _, part := range parts {
			radii = append(radii, out.bends(part)...)
		}
	}
	if out.Length == 0 {
		return out
	}
	out.Spacing = s.Area() / out.Length
	out.Beside = s.beside(pieces, out.Spacing)
	if len(radii) > 0 {
		slices.Sort(radii)
		out.Radius = radii[len(radii)/20]
		if out.Radius > 1e5 {
			out.Radius = math.Inf(1)
		}
	}
	return out
}

// beside returns the share of the line that is doubled.
func (s Shape) beside(pieces []Piece, spacing float64) float64 {
	strands := make([]strand, len(pieces))
	for i, p := range pieces {
		strands[i] = newStrand(p.Path, surveyStep*spacing)
	}
	return newDots(s, strands, spacing).doubled(strands, spacing)
}

// bends adds the bends of a part without corners, and returns its radii, one for each mm.
func (e *Effort) bends(part geom.Polyline) []float64 {
	at, heading := headings(part)
	n := max(1, int(math.Round(part.Length()/effortStep)))
	step := part.Length() / float64(n)
	var radii, turns []float64
	k, before := 0, heading[0]
	for i := range n {
		s := float64(i+1) * step
		for k < len(at)-2 && at[k+1] < s {
			k++
		}
		share := 0.0
		if at[k+1] > at[k] {
			share = math.Max(0, math.Min(1, (s-at[k])/(at[k+1]-at[k])))
		}
		now := heading[k] + share*(heading[k+1]-heading[k])
		turns = append(turns, now-before)
		e.Turning += math.Abs(now - before)
		before = now
	}
	sum, last := 0.0, 0.0
	for i, turn := range turns {
		if sum*turn < 0 {
			sum = 0
		}
		sum += turn
		if math.Abs(sum) >= leastSwing && sum*last <= 0 {
			if last != 0 {
				e.Swings++
			}
			last = sum
		}
		over := 0.0
		from, to := max(0, i-effortOver/2), min(len(turns), i+effortOver/2+1)
		for _, t := range turns[from:to] {
			over += t
		}
		radii = append(radii, float64(to-from)*step/math.Max(1e-9, math.Abs(over)))
	}
	return radii
}

// headings returns the heading in radians of a flattened curve at some arc lengths, between
// which it changes evenly: over half a chord before and after each vertex, and on a long
// straight beside a curve over no more than on the curve.
func headings(part geom.Polyline) (at, heading []float64) {
	along, now := 0.0, 0.0
	for i := range part[1:] {
		d := geom.Dist(part[i], part[i+1])
		before, after := d/2, d/2
		if i > 0 {
			now += geom.TurnAngle(part[i-1], part[i], part[i+1])
			before = math.Min(before, geom.Dist(part[i-1], part[i])/2)
		}
		if i+2 < len(part) {
			after = math.Min(after, geom.Dist(part[i+1], part[i+2])/2)
		}
		at, heading = append(at, along+before, along+d-after), append(heading, now, now)
		along += d
	}
	return at, heading
}

// threads returns the least number of lines drawn without lifting that cover pieces once
// (Euler: half the odd ends of each connected part, one where there are none). Pieces are
// joined at their ends only.
func threads(pieces []Piece) int {
	const near = 1e-3
	var ends []geom.Point
	var part []int // of each end, the one it is joined to
	var root func(i int) int
	root = func(i int) int {
		if part[i] != i {
			part[i] = root(part[i])
		}
		return part[i]
	}
	degree := map[int]int{}
	at := map[[2]int64]int{}
	end := func(p geom.Point) int {
		cell := [2]int64{int64(math.Round(p.X / near / 10)), int64(math.Round(p.Y / near / 10))}
		for dx := int64(-1); dx <= 1; dx++ {
			for dy := int64(-1); dy <= 1; dy++ {
				if i, ok := at[[2]int64{cell[0] + dx, cell[1] + dy}]; ok && geom.Dist(ends[i], p) <= near*10 {
					return i
				}
			}
		}
		i := len(ends)
		ends, part = append(ends, p), append(part, i)
		at[cell] = i
		return i
	}
	for _, p := range pieces {
		if len(p.Path) < 2 {
			continue
		}
		a, b := end(p.Path[0]), end(p.Path[len(p.Path)-1])
		degree[a]++
		degree[b]++
		part[root(a)] = root(b)
	}
	odd := map[int]int{}
	for i := range ends {
		odd[root(i)] += degree[i] % 2
	}
	sum := 0
	for _, n := range odd {
		sum += max(1, n/2)
	}
	return sum
}

// Pace is how a hand works: Hand in mm/s, Stop the seconds to end a thread and begin
// another, Halt those to turn the cloth or to move a ruler.
type Pace struct{ Hand, Stop, Halt float64 }

// Time returns the seconds it takes to sew the lines at a pace.
func (e Effort) Time(p Pace) float64 {
	return e.Length/p.Hand + float64(e.Threads)*p.Stop + float64(e.Points)*p.Halt
}

// Demand names what makes lines hard.
type Demand string

// What makes lines hard: that the cloth is turned fast, that bends are tight, that left and
// right follow one another fast, that lines touch or are sewn over, that many points are to
// be met, that thread is begun often, that there is much of it.
const (
	FastTurns   Demand = "fast-turns"
	TightBends  Demand = "tight-bends"
	FastSwings  Demand = "fast-swings"
	CloseLines  Demand = "close-lines"
	ManyPoints  Demand = "many-points"
	ManyThreads Demand = "many-threads"
	LongWork    Demand = "long-work"
)

// Hardness is how hard lines are at a hand's speed.
type Hardness struct {
	// Level is from 1, easy, to 5, very hard.
	Level int
	// Score is the sum of what is asked; 1 is about what a large wave or loop asks.
	Score float64
	// Demands are what asks most, the most first; none where all of it is little.
	Demands []Demand
}

// hardLevels are the scores from which on lines count as level 2, 3, 4 and 5. They and the
// weights below are ours, set so that the order is that in which motifs are commonly taught:
// straight lines and spirals first, then waves and loops, meanders and swirls, and last what
// touches itself, pebbles and feathers (common practice, from memory).
var hardLevels = [...]float64{0.6, 1.3, 2.2, 3.2}

// longWork is the length in mm that asks about as much again as its shapes: at an inch a
// second twenty minutes.
const longWork = 30000

// leastDemand is the score from which on a demand is worth saying.
const leastDemand = 0.3

// Hard tells how hard the lines are at a hand speed in mm/s: what comes fast, per second at
// that speed, and what has to be met. A slower hand, or larger lines, make it easier. Zero
// for no line or no speed.
func (e Effort) Hard(hand float64) Hardness {
	if !(e.Length > 0 && hand > 0) {
		return Hardness{}
	}
	seconds := e.Length / hand
	free := math.Max(0, 1-e.Ruler/e.Length)
	type part struct {
		what Demand
		much float64
	}
	parts := []part{
		{FastTurns, e.Turning / (2 * math.Pi) / seconds / 0.5},       // half a turn a second
		{TightBends, free * hand / (2 * math.Pi * e.Radius) / 1.5},   // one and a half turns a second
		{FastSwings, float64(e.Swings) / seconds},                    // one a second
		{CloseLines, free * e.Beside / 0.15},                         // a seventh of the line
		{ManyPoints, float64(e.Points) / seconds},                    // one each second sewn
		{ManyThreads, float64(e.Threads-1) / (e.Length / 1000) / 20}, // 20 a metre
		{LongWork, 1 - math.Exp(-e.Length/longWork)},
	}
	var out Hardness
	slices.SortStableFunc(parts, func(a, b part) int { return cmp.Compare(b.much, a.much) })
	for _, p := range parts {
		out.Score += p.much
		if p.much >= leastDemand && len(out.Demands) < 3 {
			out.Demands = append(out.Demands, p.what)
		}
	}
	out.Level = 1
	for _, from := range hardLevels {
		if out.Score >= from {
			out.Level++
		}
	}
	return out
}
