package matching

import (
	"encoding/json"
	"errors"
	"os"
	"path/filepath"
	"testing"
)

// published is a graph with the results that networkx 2.8.8 gives for it.
// Graphs of kind "issue610" and the like carry the name of the report that they
// come from.
type published struct {
	N             int        `json:"n"`
	Edges         [][3]int64 `json:"edges"`
	MaxWeight     int64      `json:"max_weight"`
	MaxCard       int64      `json:"max_card"`
	MaxCardWeight int64      `json:"max_card_weight"`
	MinPerfect    *int64     `json:"min_perfect"`
	Kind          string     `json:"kind"`
}

// Every graph of every file in testdata/matching, against networkx: the least
// perfect matching, and by reduction to it the greatest weight of any matching
// and of one with as many pairs as can be.
func TestAgainstNetworkx(t *testing.T) {
	files, err := filepath.Glob("../../../testdata/matching/*.json")
	if err != nil || len(files) == 0 {
		t.Fatalf("no files in testdata/matching (%v)", err)
	}
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		var graphs []published
		if err := json.Unmarshal(text, &graphs); err != nil {
			t.Fatalf("%s: %v", file, err)
		}
		for i, g := range graphs {
			checkPublished(t, filepath.Base(file), i, g)
		}
	}
}

func checkPublished(t *testing.T, file string, i int, g published) {
	report := func(what string, got, want int64, err error) {
		if err != nil || got != want {
			t.Errorf("%s graph %d (%s) %s: got %d (error %v), want %d", file, i, g.Kind, what, got, err, want)
		}
	}
	if g.MinPerfect == nil {
		if _, err := Perfect(g.N, g.matrix()); !errors.Is(err, ErrNone) {
			t.Errorf("%s graph %d (%s): error %v, want none found", file, i, g.Kind, err)
		}
	} else {
		r, err := Perfect(g.N, g.matrix())
		report("least perfect", r.Weight, *g.MinPerfect, err)
	}
	got, err := g.greatest(0)
	report("greatest weight", got, g.MaxWeight, err)
	// A bonus on each pair that outweighs all costs makes the number of pairs
	// come first.
	const bonus = 1 << 30
	got, err = g.greatest(bonus)
	report("most pairs, then weight", got, g.MaxCard*bonus+g.MaxCardWeight, err)
}

func (g published) matrix() []int64 {
	c := matrix(g.N)
	for _, e := range g.Edges {
		set(c, g.N, int(e[0]), int(e[1]), e[2])
	}
	return c
}

// greatest returns the greatest weight of a matching, perfect or not, with a
// bonus on each pair: in two copies of the graph, joined at twin vertices for
// nothing, a perfect matching pairs with its twin each vertex that is left over.
func (g published) greatest(bonus int64) (int64, error) {
	n := 2 * g.N
	c := matrix(n)
	for v := 0; v < g.N; v++ {
		set(c, n, v, v+g.N, 0)
	}
	for _, e := range g.Edges {
		u, v := int(e[0]), int(e[1])
		set(c, n, u, v, -e[2]-bonus)
		set(c, n, u+g.N, v+g.N, -e[2]-bonus)
	}
	r, err := Perfect(n, c)
	return -r.Weight / 2, err
}
