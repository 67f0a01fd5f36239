package route

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// smallest is a file with one of everything.
const smallest = `{"format":"linework/1","name":"n","units":"mm",
"nodes":[{"id":0,"x":0,"y":0},{"id":1,"x":3,"y":4}],
"edges":[{"id":0,"u":0,"v":1,"must":true,"kind":"line","length":5,"polyline":[[0,0],[3,4]]},
{"id":1,"u":1,"v":0,"must":false,"kind":"seam","length":5,"polyline":[[3,4],[0,0]]}],
"cost":{"retrace":1,"seam":0.3,"jump":null},"ends":"closed","start":null,"exit":null,"mode":"single"}`

func TestParseErrorsNameThePlace(t *testing.T) {
	if _, err := ParseLinework([]byte(smallest)); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ old, new, want string }{
		{`linework/1`, `linework/2`, `the format is "linework/2", not "linework/1"`},
		{`"units":"mm"`, `"units":"in"`, `the units are "in", not mm`},
		{`{"id":1,"x":3`, `{"id":7,"x":3`, "node 1: its id is 7"},
		{`{"id":1,"u":1`, `{"id":4,"u":1`, "edge 1: its id is 4"},
		{`"seam","length"`, `"hem","length"`, `edge 1: unknown kind "hem"`},
		{`"must":false`, `"must":true`, `edge 1: kind "seam" with must true`},
		{`"u":1,"v":0`, `"u":1,"v":9`, "line 1: joins junctions 1 and 9 of 2"},
		{`"length":5,"polyline":[[0,0]`, `"length":-5,"polyline":[[0,0]`, "line 0: length -5 mm"},
		{`[[0,0],[3,4]]`, `[[0,1],[3,4]]`, "edge 0: its polyline begins 1.000 mm from node 0"},
		{`[[0,0],[3,4]]`, `[[0,0],[3,2]]`, "edge 0: its polyline ends 2.000 mm from node 1"},
		{`[[0,0],[3,4]]`, `[[0,0],[3,4e8]]`, "line 0: lies more than 1000000 mm away"},
		{`[[3,4],[0,0]]`, `[[3,4]]`, "line 1: a line needs at least 2 points, this one has 1"},
		{`"retrace":1`, `"retrace":0`, "the retrace price 0 is not from 0.01 to 100"},
		{`"seam":0.3`, `"seam":-1`, "the seam price -1 is not from 0 to 100"},
		{`"jump":null`, `"jump":-2`, "the price of a stop -2 is not from 0 to 1000000, nor infinite"},
		{`"ends":"closed"`, `"ends":"fixed"`, "the start, junction -1, is not one of 2"},
		{`"ends":"closed","start":null`, `"ends":"closed","start":5`, "the start, junction 5, is not one of 2"},
		{`"ends":"closed"`, `"ends":"open"`, `no rule for the ends is called "open"`},
		{`"mode":"single"`, `"mode":"double"`, `the mode is "double", neither single nor out-and-back`},
		{`"mode":"single"`, `"mode":"out-and-back"`, "out and back, but there are no blocks"},
		{`"mode":"single"`, `"mode":"single","blocks":[{"id":3}]`, "block 0: its id is 3"},
		{`"mode":"single"`, `"mode":"single","blocks":[{"id":0,"left":0,"right":1,"edges":[5]}]`, "block 0: line 5 is not one of 2"},
		{`"must":true,"kind":"line"`, `"must":false,"kind":"travel"`, ErrNothing.Error()},
		{`"nodes":`, `nodes:`, "reading line work: "},
	} {
		if !strings.Contains(smallest, c.old) {
			t.Fatalf("%s is not in the file", c.old)
		}
		_, err := ParseLinework([]byte(strings.Replace(smallest, c.old, c.new, 1)))
		if err == nil || !strings.HasPrefix(err.Error(), c.want) {
			t.Errorf("%s: error %v, want %q", c.new, err, c.want)
		}
	}
}

// Whatever is read without an error can be planned without a panic, and its route
// is a valid walk.
func FuzzParseLinework(f *testing.F) {
	f.Add([]byte(smallest))
	files, err := filepath.Glob("../../testdata/routes/*.json")
	if err != nil {
		f.Fatal(err)
	}
	for _, file := range files {
		if text, err := os.ReadFile(file); err == nil && len(text) < 8000 {
			f.Add(text)
		}
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		l, err := ParseLinework(text)
		if err != nil || len(l.Graph.Edges) > 60 || len(l.Graph.Nodes) > 60 {
			return
		}
		r, err := Solve(l.Graph, l.Rules)
		if err != nil {
			return
		}
		if err := walk(l.Graph, l.Rules, r); err != nil {
			t.Fatal(err)
		}
	})
}
