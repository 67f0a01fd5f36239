package route

import (
	"errors"
	"fmt"

	"unthreaded/path/route/matching"
)

// nearest is the number of odd junctions that are looked for round each at first.
const nearest = 10

// pairUp matches the odd junctions, and so many free ends that cost nothing, at
// least cost. Only pairs of junctions near to each other are offered to the
// matching at first. All others are farther apart than the search round either
// of them went; as long as the potentials of the two stay within that distance
// they cannot contradict the proof, else the search goes on from there.
func (f *finder) pairUp(odd []int32, frees int) (proof, error) {
	k := len(odd)
	p := proof{odd: odd, dist: make([]int64, k*k)}
	for i := range p.dist {
		p.dist[i] = matching.Missing
	}
	reach := make([]int64, k) // how far round each junction all pairs are known
	wanted := make([]int, k)  // how many others are looked for there
	more := make([]int, k)
	for i := range odd {
		wanted[i], more[i] = nearest, i
	}
	place := make([]int32, f.n.junctions())
	goal := make([]bool, f.n.junctions())
	for i, v := range odd {
		place[v], goal[v] = int32(i), true
	}
	for {
		for _, i := range more {
			reach[i] = f.lookRound(p, i, wanted[i], place, goal)
			wanted[i] *= 2
		}
		var err error
		p.match, err = matching.Perfect(k+frees, f.pairCosts(p, frees))
		if err != nil && !errors.Is(err, matching.ErrNone) {
			return p, fmt.Errorf("pairing %d odd junctions: %w", k, err)
		}
		more = p.unproven(reach, err == nil)
		if len(more) == 0 && err != nil {
			return p, ErrApart
		}
		if len(more) == 0 {
			return p, nil
		}
	}
}

// lookRound finds the distances from odd junction i to so many of the others that
// are nearest, and returns how far it looked; unreached if it found all.
func (f *finder) lookRound(p proof, i, wanted int, place []int32, goal []bool) int64 {
	t := f.search(p.odd[i:i+1], goal, wanted+1)
	k := len(p.odd)
	for _, v := range t.goals {
		p.dist[i*k+int(place[v])] = t.dist[v]
		p.dist[int(place[v])*k+i] = t.dist[v]
	}
	if len(t.goals) <= wanted {
		return unreached
	}
	return t.dist[t.goals[wanted]]
}

// pairCosts is the cost matrix of odd junctions and free ends.
func (f *finder) pairCosts(p proof, frees int) []int64 {
	k := len(p.odd)
	size := k + frees
	cost := make([]int64, size*size)
	for i := 0; i < k; i++ {
		copy(cost[i*size:], p.dist[i*k:(i+1)*k])
		if p.odd[i] != f.n.air {
			continue
		}
		down := int64(matching.Missing)
		if l := f.landing(); l >= 0 {
			down = f.n.lines[l].cost
		}
		for j := k; j < size; j++ {
			cost[i*size+j], cost[j*size+i] = down, down
		}
	}
	return cost
}

// unproven returns the odd junctions round which the search must go on: those
// with a pair that was not offered and may be closer than their potentials
// allow, or, if there was no matching, all that did not look everywhere.
func (p proof) unproven(reach []int64, matched bool) []int {
	k := len(p.odd)
	var out []int
	if !matched {
		for i := range reach {
			if reach[i] != unreached {
				out = append(out, i)
			}
		}
		return out
	}
	potential, holders := p.potentials(k)
	again := make([]bool, k)
	for i := range k {
		for j := range i {
			if p.dist[i*k+j] != matching.Missing {
				continue
			}
			known := max(reach[i], reach[j])
			sum := potential[i] + potential[j]
			if known != unreached && sum > 2*known && sum-p.shared(holders[i], holders[j]) > 2*known {
				again[i], again[j] = true, true
			}
		}
	}
	for i, is := range again {
		if is && reach[i] != unreached {
			out = append(out, i)
		}
	}
	return out
}

// potentials returns for each of the first k odd junctions what its own band and the
// groups round it add up to, and the indices of these groups.
func (p proof) potentials(k int) (potential []int64, holders [][]int32) {
	potential = append(potential, p.match.Radius[:k]...)
	holders = make([][]int32, k)
	for g, group := range p.match.Groups {
		for _, v := range group.Members {
			if v < k {
				potential[v] += group.Width
				holders[v] = append(holders[v], int32(g))
			}
		}
	}
	return potential, holders
}

// shared returns what the groups that hold two junctions add to the potentials of
// both, though they do not lie between the two. Groups are given in the order in
// which they come; those in common are the last.
func (p proof) shared(a, b []int32) int64 {
	sum := int64(0)
	for len(a) > 0 && len(b) > 0 && a[len(a)-1] == b[len(b)-1] {
		sum += 2 * p.match.Groups[a[len(a)-1]].Width
		a, b = a[:len(a)-1], b[:len(b)-1]
	}
	return sum
}
