package route

import (
	"encoding/json"
	"errors"
	"fmt"
	"math"

	"unthreaded/path/geom"
	"unthreaded/path/plane"
)

// LineworkFormat names the format that ParseLinework reads.
const LineworkFormat = "linework/1"

// Linework is a drawing with the rules for its route, as a file holds it.
type Linework struct {
	Name, Note string
	Graph      plane.Graph
	Rules      Rules
	// Row holds the blocks of a row, left to right; nil for a single drawing.
	Row []Block
	// OutAndBack asks for two passes through the row.
	OutAndBack bool
}

type fileNode struct {
	ID   int     `json:"id"`
	X, Y float64 // mm
}

type fileEdge struct {
	ID       int          `json:"id"`
	U        int          `json:"u"`
	V        int          `json:"v"`
	Must     bool         `json:"must"`
	Kind     string       `json:"kind"`
	Stroke   string       `json:"stroke"`
	Length   float64      `json:"length"`
	Polyline [][2]float64 `json:"polyline"`
	Block    *int         `json:"block"`
}

type fileBlock struct {
	ID    int   `json:"id"`
	Left  int   `json:"left"`
	Right int   `json:"right"`
	Edges []int `json:"edges"`
}

type file struct {
	Format string     `json:"format"`
	Name   string     `json:"name"`
	Note   string     `json:"note"`
	Units  string     `json:"units"`
	Nodes  []fileNode `json:"nodes"`
	Edges  []fileEdge `json:"edges"`
	Cost   struct {
		Retrace float64  `json:"retrace"`
		Seam    float64  `json:"seam"`
		Jump    *float64 `json:"jump"`
	} `json:"cost"`
	Ends   EndRule     `json:"ends"`
	Start  *int        `json:"start"`
	Exit   *int        `json:"exit"`
	Mode   string      `json:"mode"`
	Blocks []fileBlock `json:"blocks"`
}

// ParseLinework reads a drawing in the format linework/1: JSON with nodes,
// edges, prices, ends and, for a row, blocks. An error names the place at fault.
// Members that it does not know are passed over.
func ParseLinework(data []byte) (Linework, error) {
	var f file
	if err := json.Unmarshal(data, &f); err != nil {
		return Linework{}, fmt.Errorf("reading line work: %w", err)
	}
	if f.Format != LineworkFormat {
		return Linework{}, fmt.Errorf("the format is %q, not %q", f.Format, LineworkFormat)
	}
	if f.Units != "mm" {
		return Linework{}, fmt.Errorf("the units are %q, not mm", f.Units)
	}
	l := Linework{Name: f.Name, Note: f.Note, Rules: f.rules()}
	var err error
	if l.Graph, err = f.graph(); err != nil {
		return Linework{}, err
	}
	if l.Row, l.OutAndBack, err = f.row(); err != nil {
		return Linework{}, err
	}
	for _, check := range []func() error{
		func() error { return validateGraph(l.Graph) },
		func() error { return checkLineEnds(l.Graph) },
		func() error { return l.Rules.Validate(l.Graph) },
		func() error { return validateRow(l.Graph, l.Row) },
	} {
		if err := check(); err != nil {
			return Linework{}, err
		}
	}
	return l, nil
}

func (f file) row() (row []Block, outAndBack bool, err error) {
	switch f.Mode {
	case "single":
	case "out-and-back":
		outAndBack = true
	default:
		return nil, false, fmt.Errorf("the mode is %q, neither single nor out-and-back", f.Mode)
	}
	for i, b := range f.Blocks {
		if b.ID != i {
			return nil, false, fmt.Errorf("block %d: its id is %d", i, b.ID)
		}
		row = append(row, Block{Left: b.Left, Right: b.Right, Edges: b.Edges})
	}
	if outAndBack && len(row) == 0 {
		return nil, false, errors.New("out and back, but there are no blocks")
	}
	return row, outAndBack, nil
}

func (f file) rules() Rules {
	r := Rules{Costs: Costs{Retrace: f.Cost.Retrace, Seam: f.Cost.Seam, Jump: math.Inf(1)}}
	if f.Cost.Jump != nil {
		r.Costs.Jump = *f.Cost.Jump
	}
	r.Ends = Ends{Rule: f.Ends, Start: Nowhere, Exit: Nowhere}
	if f.Start != nil {
		r.Ends.Start = *f.Start
	}
	if f.Exit != nil {
		r.Ends.Exit = *f.Exit
	}
	return r
}

// kinds are the kinds of line by their names in a file.
var kinds = map[string]plane.Kind{
	"line": plane.Sewn, "ruler": plane.Ruler, "seam": plane.Seam, "travel": plane.Seam,
}

func (f file) graph() (plane.Graph, error) {
	var g plane.Graph
	for i, n := range f.Nodes {
		if n.ID != i {
			return g, fmt.Errorf("node %d: its id is %d", i, n.ID)
		}
		g.Nodes = append(g.Nodes, geom.Pt(n.X, n.Y))
	}
	for i, e := range f.Edges {
		kind, known := kinds[e.Kind]
		switch {
		case e.ID != i:
			return g, fmt.Errorf("edge %d: its id is %d", i, e.ID)
		case !known:
			return g, fmt.Errorf("edge %d: unknown kind %q", i, e.Kind)
		case kind.Must() != e.Must:
			return g, fmt.Errorf("edge %d: kind %q with must %v", i, e.Kind, e.Must)
		}
		edge := plane.Edge{U: e.U, V: e.V, Kind: kind, Stroke: e.Stroke, Length: e.Length}
		if e.Block != nil {
			edge.Block = fmt.Sprint(*e.Block)
		}
		for _, p := range e.Polyline {
			edge.Path = append(edge.Path, geom.Pt(p[0], p[1]))
		}
		g.Edges = append(g.Edges, edge)
	}
	placeAlong(g.Edges)
	return g, nil
}

// placeAlong gives each piece its place along its stroke in its block: the pieces of
// a stroke stand in drawing order, each from its u to its v, and one that does not
// begin where the one before ends begins another part.
func placeAlong(edges []plane.Edge) {
	type key struct {
		block, stroke string
		kind          plane.Kind
	}
	last := map[key]int{}
	for i := range edges {
		e := &edges[i]
		k := key{e.Block, e.Stroke, e.Kind}
		if before, known := last[k]; known {
			b := edges[before]
			e.Part, e.From = b.Part, b.To
			if b.V != e.U || e.Stroke == "" {
				e.Part, e.From = b.Part+1, 0
			}
		}
		e.To = e.From + e.Length
		last[k] = i
	}
}

// endSlack is how far in mm a polyline may begin or end from its node: ten times
// what rounding to micrometres leaves.
const endSlack = 0.01

// checkLineEnds reports the first edge whose polyline does not run from its u to
// its v.
func checkLineEnds(g plane.Graph) error {
	for i, e := range g.Edges {
		if d := geom.Dist(e.Path[0], g.Nodes[e.U]); !(d <= endSlack) {
			return fmt.Errorf("edge %d: its polyline begins %.3f mm from node %d", i, d, e.U)
		}
		if d := geom.Dist(e.Path[len(e.Path)-1], g.Nodes[e.V]); !(d <= endSlack) {
			return fmt.Errorf("edge %d: its polyline ends %.3f mm from node %d", i, d, e.V)
		}
	}
	return nil
}
