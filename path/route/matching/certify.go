package matching

import "fmt"

// Certify checks the proof that comes with the matching against the costs it was
// made from: that everyone has one partner, that no pair costs less than what it
// crosses, that no width is negative, and that radii and widths add up to the
// doubled weight. An error is a fault of the program, never of the input. Cost
// O(n^2), and the square of its size for each group.
func (r Result) Certify(cost []int64) error {
	n := len(r.Mate)
	if err := r.certifyPairs(cost); err != nil {
		return err
	}
	var sum int64
	potential := make([]int64, n)
	for v, y := range r.Radius {
		potential[v] = y
		sum += y
	}
	// Doubled cost less what the pair crosses; a group that holds both is not
	// crossed, so what it added to either is given back.
	slack := make([]int64, n*n)
	for i, g := range r.Groups {
		if len(g.Members)%2 == 0 || g.Width < 0 {
			return fmt.Errorf("group %d: %d members, width %d", i, len(g.Members), g.Width)
		}
		sum += g.Width
		for _, u := range g.Members {
			potential[u] += g.Width
			for _, v := range g.Members {
				slack[u*n+v] += 2 * g.Width
			}
		}
	}
	for u := 0; u < n; u++ {
		for v := u + 1; v < n; v++ {
			if c := cost[u*n+v]; c != Missing && 2*c-potential[u]-potential[v]+slack[u*n+v] < 0 {
				return fmt.Errorf("pair %d, %d: cost %d is below its duals", u, v, c)
			}
		}
	}
	if sum != 2*r.Weight {
		return fmt.Errorf("the duals add up to %d, twice the weight is %d", sum, 2*r.Weight)
	}
	return nil
}

func (r Result) certifyPairs(cost []int64) error {
	n := len(r.Mate)
	var weight int64
	for u, v := range r.Mate {
		if v < 0 || v >= n || v == u || r.Mate[v] != u {
			return fmt.Errorf("vertex %d: partner %d is not its own", u, v)
		}
		if cost[u*n+v] == Missing {
			return fmt.Errorf("pair %d, %d is not allowed", u, v)
		}
		if u < v {
			weight += cost[u*n+v]
		}
	}
	if weight != r.Weight {
		return fmt.Errorf("the pairs cost %d, not %d", weight, r.Weight)
	}
	return nil
}
