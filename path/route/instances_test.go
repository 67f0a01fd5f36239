package route

import (
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// instance is a file in the format linework/1 with the optimum that its maker
// states (the method stands in the file).
type instance struct {
	Linework
	file string
	want *optimum // nil where the file states none
}

type optimum struct {
	Added   float64 `json:"added_cost"`
	Must    float64 `json:"must_length"`
	Odd     int     `json:"odd_nodes"`
	Method  string  `json:"method"`
	Ends    []int   `json:"ends_used"`
	Turning *struct {
		Witness float64 `json:"witness_deg"`
		Bound   float64 `json:"lower_bound_deg"`
		Exact   bool    `json:"exact"`
	} `json:"turning"`
}

// costTolerance is what the files' rounding of lengths to micrometres leaves.
const costTolerance = 1e-4

// instances loads every file of testdata/routes that states its optimum, and of the fetched instances,
// which are not ours to copy, those that lie beside the project.
func instances(t testing.TB) []instance {
	t.Helper()
	var out []instance
	for _, dir := range []string{"../../testdata/routes", "../../../shared/routing/fetched"} {
		files, err := filepath.Glob(dir + "/*.json")
		if err != nil {
			t.Fatal(err)
		}
		if len(files) == 0 {
			t.Logf("no instances in %s: skipped", dir)
		}
		for _, file := range files {
			if in := load(t, file); in.want != nil {
				out = append(out, in)
			}
		}
	}
	if len(out) == 0 {
		t.Fatal("no instances found")
	}
	return out
}

func load(t testing.TB, file string) instance {
	t.Helper()
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	l, err := ParseLinework(text)
	if err != nil {
		t.Fatalf("%s: %v", file, err)
	}
	var more struct {
		Optimal *optimum `json:"optimal"`
	}
	if err := json.Unmarshal(text, &more); err != nil {
		t.Fatalf("%s: %v", file, err)
	}
	return instance{Linework: l, file: filepath.Base(file), want: more.Optimal}
}

// relaxed tells whether the stated optimum is only a lower bound, because the
// file's maker let pieces lie loose.
func (in instance) relaxed() bool { return strings.Contains(in.want.Method, "relaxation") }

func degrees(rad float64) float64 { return rad * 180 / math.Pi }

// Every instance reaches its stated optimum and is a valid walk; the file's maker
// found it by integer programming or by a matching of his own. Where he let
// pieces lie loose the figure is a lower bound.
func TestInstances(t *testing.T) {
	for _, in := range instances(t) {
		t.Run(in.file, func(t *testing.T) {
			r, rules, err := in.solve()
			if err != nil {
				t.Fatalf("%s: %v", in.file, err)
			}
			if err := walk(in.Graph, rules, r); err != nil {
				t.Errorf("%s: %v", in.file, err)
			}
			if math.Abs(r.SewnMM-in.want.Must) > 1e-6*in.want.Must {
				t.Errorf("%s: sews %.4f mm, want %.4f", in.file, r.SewnMM, in.want.Must)
			}
			if r.Added < in.want.Added-costTolerance {
				t.Errorf("%s: adds %.4f, less than the optimum %.4f", in.file, r.Added, in.want.Added)
			}
			if r.Added > in.want.Added+costTolerance && !(in.relaxed() && !r.Exact) {
				t.Errorf("%s: adds %.4f, want %.4f (%s)", in.file, r.Added, in.want.Added, in.want.Method)
			}
			if w := in.want.Turning; w != nil && degrees(r.Turning) > w.Witness+0.01 {
				t.Errorf("%s: turns %.2f degrees, the file's own tour %.2f", in.file, degrees(r.Turning), w.Witness)
			}
		})
	}
}

// solve plans an instance, and returns the rules that its route then keeps.
func (in instance) solve() (Route, Rules, error) {
	if !in.OutAndBack {
		r, err := Solve(in.Graph, in.Rules)
		return r, in.Rules, err
	}
	rules := in.Rules
	rules.Ends = Ends{Rule: Closed, Start: in.Row[0].Left}
	r, err := SolveRow(in.Graph, in.Row, in.Rules, OutAndBack)
	return r.Route, rules, err
}

// The matching's count of odd junctions, where the ends do not change it, is the
// file's.
func TestOddJunctionsOfInstances(t *testing.T) {
	for _, in := range instances(t) {
		n := newNetwork(in.Graph, in.Rules)
		d := n.demandOf(in.Rules)
		d.ends = Ends{Rule: Closed, Start: Nowhere}
		if got := len(n.oddJunctions(d)); got != in.want.Odd {
			t.Errorf("%s: %d odd junctions, want %d", in.file, got, in.want.Odd)
		}
	}
}
