package route

import (
	"math"
	"strconv"
	"testing"

	"unthreaded/game/glyph"
	"unthreaded/game/place"
	"unthreaded/game/plan"
	"unthreaded/game/scene"
	"unthreaded/game/screen"
	"unthreaded/game/top"
	"unthreaded/path/geom"
	"unthreaded/path/machine"
	"unthreaded/path/motif"
	"unthreaded/path/plane"
	"unthreaded/path/quilt"
	"unthreaded/path/route"
	"unthreaded/path/route/steps"
)

// windows are the cloth of a laptop, a tablet held upright and a phone.
var windows = []screen.Cloth{
	{W: 1026, H: 656, Strip: 112, DPR: 1, PxPerMM: 96 / 25.4},
	{W: 820, H: 640, Strip: 112, DPR: 2, PxPerMM: 96 / 25.4},
	{W: 390, H: 430, Strip: 92, DPR: 3, PxPerMM: 96 / 25.4},
}

// label is a text on the cloth and the box of its letters: as wide as the font says, as
// high as its capitals.
type label struct {
	text   string
	lo, hi geom.Point
}

func labelsOf(items []scene.Item) (labels []label, thin []scene.Item) {
	for _, it := range items {
		switch {
		case it.Shape == scene.Label:
			w, h := glyph.Width(it.Text, it.Width), 0.72*it.Width
			p := it.Points[0]
			labels = append(labels, label{it.Text, geom.Pt(p.X-w/2, p.Y-h/2), geom.Pt(p.X+w/2, p.Y+h/2)})
		case it.Shape == scene.Stroke && len(it.Points) == 2 && it.Width == 1:
			thin = append(thin, it)
		}
	}
	return labels, thin
}

// on tells whether a line runs through a label by more than a quarter of a pixel (each
// piece is clipped to the box: Liang and Barsky, ACM TOG 3, 1984).
func (l label) on(pts []geom.Point) bool {
	lo, hi := geom.Pt(l.lo.X+0.25, l.lo.Y+0.25), geom.Pt(l.hi.X-0.25, l.hi.Y-0.25)
	for i := 1; i < len(pts); i++ {
		from, to := 0.0, 1.0
		clip := func(p, q, lo, hi float64) {
			d := q - p
			switch a, b := (lo-p)/d, (hi-p)/d; {
			case d == 0:
				if p <= lo || p >= hi {
					to = -1
				}
			default:
				from, to = max(from, min(a, b)), min(to, max(a, b))
			}
		}
		clip(pts[i-1].X, pts[i].X, lo.X, hi.X)
		clip(pts[i-1].Y, pts[i].Y, lo.Y, hi.Y)
		if from < to {
			return true
		}
	}
	return false
}

// readable reports labels that overlap, lie on a line or out of sight, and numbers that
// should be there and are not.
func readable(t *testing.T, name string, r Room) {
	t.Helper()
	marks := r.picture().Marks()
	labels, thin := labelsOf(marks)
	var lines [][]geom.Point
	for _, m := range r.Desk.Moves() {
		if m.Kind != steps.StopMove {
			lines = append(lines, scene.OnScreen(m.Path, r.view))
		}
	}
	for _, e := range r.Desk.Graph.Edges {
		lines = append(lines, scene.OnScreen(e.Path, r.view))
	}
	for _, it := range thin {
		lines = append(lines, it.Points)
	}
	there := map[string]bool{}
	for i, l := range labels {
		there[l.text] = true
		if l.lo.X < 0 || l.lo.Y < 0 || l.hi.X > r.Screen.W || l.hi.Y > r.Screen.H-r.Screen.Strip {
			t.Errorf("%s: %q lies out of sight", name, l.text)
		}
		for _, o := range labels[:i] {
			if math.Max(l.lo.X, o.lo.X) < math.Min(l.hi.X, o.hi.X) && math.Max(l.lo.Y, o.lo.Y) < math.Min(l.hi.Y, o.hi.Y) {
				t.Errorf("%s: %q and %q overlap", name, l.text, o.text)
			}
		}
		for _, pts := range lines {
			if l.on(pts) {
				t.Errorf("%s: %q lies on a line", name, l.text)
				break
			}
		}
	}
	if len(r.Desk.Stays()) == 1 {
		flagged(t, name, r, marks)
	}
	if r.pane.Larger() {
		return
	}
	last := len(r.Desk.Stays())
	if last == 1 {
		last, _ = r.counted(len(r.Desk.Moves()))
	}
	for n := 1; n <= last; n++ {
		if (n == 1 || n == last || n%5 == 0) && !there[strconv.Itoa(n)] {
			t.Errorf("%s: of %d numbers %d is not there", name, last, n)
		}
	}
	if !there[r.Book().Say("route.start")] && !there[r.Book().Say("route.start-and-leave")] {
		t.Errorf("%s: the start has no name", name)
	}
}

// flagged reports numbers that no thin line joins to the line of their own move.
func flagged(t *testing.T, name string, r Room, items []scene.Item) {
	t.Helper()
	numbered := map[string]int{}
	for i, m := range r.Desk.Moves() {
		if m.Kind != steps.StopMove {
			numbered[strconv.Itoa(len(numbered)+1)] = i
		}
	}
	for i, it := range items {
		if it.Shape != scene.Label || i < 2 {
			continue
		}
		move, ok := numbered[it.Text]
		if !ok {
			continue
		}
		pole := items[i-2]
		if len(pole.Points) != 2 || pole.Width != 1 {
			t.Errorf("%s: nothing joins %s to its move", name, it.Text)
			continue
		}
		near := 6.0 // what is sewn again lies beside itself
		foot := scene.Around(pole.Points[1], 2*near, 2*near)
		path := scene.OnScreen(r.Desk.Moves()[move].Path, r.view)
		if !(label{lo: foot.Lo, hi: foot.Hi}).on(path) {
			t.Errorf("%s: number %s is joined to a place that is not on its move", name, it.Text)
		}
	}
}

// asDrawn tells of a route that does not sew all of a motif's lines, and of a motif of one line
// that is cut or sewn again. What a motif itself sews twice, and strands nearer than lines are
// told apart by, count once: a twentieth of the line at most, of those that touch by nature as
// much as lies doubled.
func asDrawn(t *testing.T, p motif.Motif, shape motif.Shape, pieces []motif.Piece, whole route.Route) {
	t.Helper()
	length := 0.0
	for _, q := range pieces {
		length += q.Path.Length()
	}
	once := 0.95 * length
	if d := shape.Survey(pieces).Doubled; d > 0.05 {
		once = (1 - d) * length
	}
	if whole.SewnMM < once || whole.SewnMM > 1.01*length {
		t.Errorf("%s in a %s: %.0f mm are sewn, its lines are %.0f mm long", p.ID, shape.Kind, whole.SewnMM, length)
	}
	if p.Continuous && (whole.RetraceMM > 0.03*length || whole.Jumps > 0 || whole.SeamMM > 0) {
		t.Errorf("%s in a %s is one line, and %.0f of its %.0f mm are sewn again, with %d stops and %.0f mm along seams", p.ID, shape.Kind, whole.RetraceMM, length, whole.Jumps, whole.SeamMM)
	}
}

// shownAs returns the place with a motif in a shape on the cloth.
func shownAs(t *testing.T, p motif.Motif, shape motif.Shape) Room {
	t.Helper()
	pieces, err := p.Fit(shape, 6, p.Usual(shape))
	if err != nil {
		t.Fatalf("%s in a %s: %v", p.ID, shape.Kind, err)
	}
	built, err := plane.Build(plan.Strokes(append(shape.OutlinePieces(), pieces...)), plane.Options{SnapMM: plane.DefaultSnap})
	if err != nil {
		t.Fatal(err)
	}
	rules := route.Rules{Costs: route.Costs{Retrace: 1, Seam: machine.DitchPrice, Jump: machine.StopPrice()}, Ends: route.Ends{Rule: route.Free, Start: route.Nowhere, Exit: route.Nowhere}}
	whole, err := route.Solve(built.Graph, rules)
	if err != nil {
		t.Fatalf("%s in a %s: %v", p.ID, shape.Kind, err)
	}
	asDrawn(t, p, shape, pieces, whole)
	s := place.Shared{Settings: place.DefaultSettings(), Screen: windows[0]}
	r := New().With(s).(Room)
	r.Desk = plan.OpenSewn(plan.Drawing{ID: p.ID}, plan.Sewn{Moves: steps.Moves(built.Graph, whole.Steps), Around: []geom.Polyline{shape.Outline()}})
	return r.rewound()
}

// With the whole in the window no two labels overlap and none lies on a line, and the
// first, the last and every fifth move have their number, for every ready motif in every
// shape; shown four times larger none overlaps and none lies on a line either. It takes
// some seconds, as there are 300 drawings: half of them to fit the motifs and plan them.
func TestLabelsOfEveryMotif(t *testing.T) {
	for i, kind := range motif.Shapes() {
		t.Run(string(kind), func(t *testing.T) {
			t.Parallel()
			for k, p := range motif.Ready() {
				shape := motif.Shape{Kind: kind, W: 150, H: 90}
				if p.Lack(shape) != "" && kind == motif.Rectangle {
					shape.W, shape.H = 250, 60 // it runs along strips
				}
				if p.Lack(shape) != "" {
					continue
				}
				r := shownAs(t, p, shape)
				r.Screen = windows[(i+k)%len(windows)]
				r = r.fitted()
				readable(t, p.ID, r)
				r.pane = r.pane.At(4)
				r.pane.Around = r.Desk.Moves()[0].Path[0]
				readable(t, p.ID+", larger", r.fitted())
			}
		})
	}
}

// The same holds for a row of 17 places at each size of window, out and back or in one
// pass; there each place has one number.
func TestLabelsOfARowOf17(t *testing.T) {
	q, designs := quilt.Demo()
	q.Rows, q.Cols = 1, 17
	s := place.Shared{Settings: place.DefaultSettings()}
	for _, d := range designs {
		s.Designs = append(s.Designs, d)
	}
	s.Top = top.Open(q, s.DesignsByID()).Planned()
	for _, c := range windows {
		s.Screen = c
		r := New().With(s).(Room)
		for i, st := range r.Top.Plan.Order.Stages {
			r = r.open(r.stageDrawing(st))
			readable(t, st.ID, r)
			if len(st.Legs) > 1 {
				r.inside = i % len(st.Legs)
				labels, _ := labelsOf(r.picture().Marks())
				if len(labels) < 3 {
					t.Errorf("%s: the place that is opened has %d labels", st.ID, len(labels))
				}
			}
		}
	}
}
