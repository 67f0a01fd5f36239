package matching

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"
)

// matrix returns a cost matrix with nothing allowed.
func matrix(n int) []int64 {
	c := make([]int64, n*n)
	for i := range c {
		c[i] = Missing
	}
	return c
}

func set(c []int64, n, u, v int, w int64) { c[u*n+v], c[v*n+u] = w, w }

// bruteForce tries all pairings, (n-1)!! of them.
func bruteForce(n int, cost []int64) (best int64, ok bool) {
	used := make([]bool, n)
	best = Missing
	var try func(sum int64)
	try = func(sum int64) {
		u := 0
		for u < n && used[u] {
			u++
		}
		if u == n {
			best = min(best, sum)
			return
		}
		used[u] = true
		for v := u + 1; v < n; v++ {
			if c := cost[u*n+v]; !used[v] && c != Missing {
				used[v] = true
				try(sum + c)
				used[v] = false
			}
		}
		used[u] = false
	}
	try(0)
	return best, best != Missing
}

// Every graph up to 10 vertices, with ties, zero and negative costs and missing
// pairs, against all its pairings.
func TestAgainstAllPairings(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		n := 2 * rapid.IntRange(0, 5).Draw(rt, "half")
		low := rapid.SampledFrom([]int64{-4, 0, 1}).Draw(rt, "low")
		high := low + rapid.SampledFrom([]int64{0, 1, 5, 1000}).Draw(rt, "spread")
		share := rapid.IntRange(1, 10).Draw(rt, "share")
		cost := matrix(n)
		for u := 0; u < n; u++ {
			for v := u + 1; v < n; v++ {
				if rapid.IntRange(1, 10).Draw(rt, "there") <= share {
					set(cost, n, u, v, rapid.Int64Range(low, high).Draw(rt, "cost"))
				}
			}
		}
		want, ok := bruteForce(n, cost)
		got, err := Perfect(n, cost)
		if errors.Is(err, ErrNone) == ok || (err != nil && ok) {
			rt.Fatalf("%d vertices, %v: error %v, a matching exists: %v", n, cost, err, ok)
		}
		if ok && got.Weight != want {
			rt.Fatalf("%d vertices, %v: weight %d, want %d", n, cost, got.Weight, want)
		}
	})
}

// Big graphs have no oracle here but their proof: Perfect checks its certificate
// and fails if it does not hold. On distances, which keep the triangle
// inequality, no radius is negative (Juenger & Pulleyblank, "Geometric duality
// and combinatorial optimization", 1993; cited from memory).
func TestCertificatesOfLargeInstances(t *testing.T) {
	for seed := uint64(0); seed < 60; seed++ {
		rng := rand.New(rand.NewPCG(seed, 7))
		n := 2 + 2*rng.IntN(100)
		cost := matrix(n)
		x, y := make([]int64, n), make([]int64, n)
		span := int64(1) << (2 + rng.IntN(20))
		for i := range x {
			x[i], y[i] = rng.Int64N(span), rng.Int64N(span)
		}
		for u := 0; u < n; u++ {
			for v := u + 1; v < n; v++ {
				set(cost, n, u, v, abs(x[u]-x[v])+abs(y[u]-y[v]))
			}
		}
		r, err := Perfect(n, cost)
		if err != nil {
			t.Fatalf("seed %d, %d vertices: %v", seed, n, err)
		}
		for v, radius := range r.Radius {
			if radius < 0 {
				t.Errorf("seed %d: radius of vertex %d is %d on distances", seed, v, radius)
			}
		}
	}
}

func abs(x int64) int64 { return max(x, -x) }

// A certificate that is tampered with in any one number must be refused.
func TestCertifyRefusesFalseProofs(t *testing.T) {
	n, cost := pentagonAndTail()
	for _, spoil := range []struct {
		what string
		do   func(*Result)
	}{
		{"weight", func(r *Result) { r.Weight-- }},
		{"a radius raised", func(r *Result) { r.Radius[0]++ }},
		{"a radius moved", func(r *Result) { r.Radius[0] += 9; r.Radius[1] -= 9 }},
		{"a partner", func(r *Result) { r.Mate[0] = 0 }},
		{"a pair swapped", func(r *Result) {
			a, b := r.Mate[0], r.Mate[1]
			r.Mate[0], r.Mate[1], r.Mate[a], r.Mate[b] = b, a, 1, 0
		}},
		{"a width below 0", func(r *Result) { r.Groups = append(r.Groups, Group{[]int{0, 1, 2}, -2}) }},
		{"an even group", func(r *Result) { r.Groups = append(r.Groups, Group{[]int{0, 1}, 0}) }},
	} {
		r, err := Perfect(n, cost)
		if err != nil {
			t.Fatal(err)
		}
		spoil.do(&r)
		if r.Certify(cost) == nil {
			t.Errorf("%s: the proof was accepted", spoil.what)
		}
	}
}

// pentagonAndTail needs a blossom: five vertices in a tight ring, and one that
// only a far pair reaches.
func pentagonAndTail() (int, []int64) {
	cost := matrix(6)
	for i := 0; i < 5; i++ {
		set(cost, 6, i, (i+1)%5, 2)
	}
	set(cost, 6, 0, 5, 40)
	set(cost, 6, 2, 5, 30)
	return 6, cost
}

func TestPentagonAndTail(t *testing.T) {
	r, err := Perfect(pentagonAndTail())
	if err != nil {
		t.Fatal(err)
	}
	if r.Weight != 34 || r.Mate[5] != 2 {
		t.Errorf("weight %d with 5-%d, want 34 with 5-2", r.Weight, r.Mate[5])
	}
}

func TestRefusals(t *testing.T) {
	big := matrix(2)
	set(big, 2, 0, 1, Missing/4)
	skew := []int64{0, 1, 2, 0}
	for _, c := range []struct {
		n    int
		cost []int64
		want string
	}{
		{3, matrix(3), "no perfect matching: 3 vertices"},
		{2, matrix(2), "no perfect matching"},
		{2, matrix(1), "cost matrix of 2 vertices has 1 entries, want 4"},
		{2, skew, "pair 0, 1: cost 1 one way and 2 the other"},
		{2, big, fmt.Sprintf("pair 0, 1: cost %d is beyond %d", int64(Missing/4), int64(Missing/24))},
	} {
		if _, err := Perfect(c.n, c.cost); err == nil || err.Error() != c.want {
			t.Errorf("error %v, want %q", err, c.want)
		}
	}
}
