package order

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/path/geom"
	"unthreaded/path/machine"
	"unthreaded/path/quilt"
)

// ErrNothing is returned for a top on which nothing is to be sewn.
var ErrNothing = errors.New("nothing is to be sewn on this top")

// planner holds a top while it is planned.
type planner struct {
	q       quilt.Quilt
	choices Choices
	laying  quilt.Laying
	places  []laid
	rows    [][]int
	net     net
	out     Order
	at      geom.Point // where the needle is
	begun   bool
	turned  bool
	whole   map[string]int // programs that are no block's, by key
	ways    map[string]decided
}

// decided is the way of a row that was chosen, with how much longer than the least.
type decided struct {
	way    Way
	longer float64
	exact  bool
}

// Plan plans the whole top. Designs that cannot be laid are told in Misfits. It fails
// on a quilt or choices that are not valid, and with ErrNothing where nothing is to be
// sewn. Cost: planning each *different* block once for each pair of its ends, and for
// each row its length times the square of the ends.
func Plan(q quilt.Quilt, designs quilt.Designs, c Choices) (Order, error) {
	return PlanTelling(q, designs, c, func(float64) {})
}

// PlanTelling is Plan, and tells before each stage what share of the stages is planned.
func PlanTelling(q quilt.Quilt, designs quilt.Designs, c Choices, tell func(share float64)) (Order, error) {
	p, err := newPlanner(q, designs, c)
	if err != nil {
		return Order{}, err
	}
	stages, err := p.stages()
	if err != nil {
		return Order{}, err
	}
	sequence := p.sequence(stages)
	for i, s := range sequence {
		tell(float64(i) / float64(len(sequence)))
		if err := p.add(s); err != nil {
			return Order{}, fmt.Errorf("%s: %w", s.stage.ID, err)
		}
	}
	if len(p.out.Stages) == 0 {
		return Order{}, ErrNothing
	}
	p.out.keepUsed()
	return p.out, nil
}

// keepUsed counts how often each program is sewn and drops those that are not.
func (o *Order) keepUsed() {
	number := map[int]int{}
	var kept []Program
	for i := range o.Stages {
		for k := range o.Stages[i].Legs {
			l := &o.Stages[i].Legs[k]
			n, known := number[l.Program]
			if !known {
				n = len(kept)
				number[l.Program] = n
				kept = append(kept, o.Programs[l.Program])
			}
			kept[n].Times++
			l.Program = n
		}
	}
	o.Programs = kept
}

func newPlanner(q quilt.Quilt, designs quilt.Designs, c Choices) (*planner, error) {
	if err := q.Validate(); err != nil {
		return nil, fmt.Errorf("quilt: %w", err)
	}
	if err := c.Validate(); err != nil {
		return nil, fmt.Errorf("order: %w", err)
	}
	p := &planner{q: q, choices: c, laying: q.Lay(designs), rows: q.SewingRows(), whole: map[string]int{}, ways: map[string]decided{}}
	p.out = Order{Schema: Schema, Quilt: q.ID, Fingerprint: Fingerprint(q, designs, c)}
	for _, m := range p.laying.Misfits {
		p.out.Misfits = append(p.out.Misfits, m.Cell)
	}
	var err error
	if p.places, err = lay(p.laying); err != nil {
		return nil, err
	}
	if p.net, err = newNet(p.places); err != nil {
		return nil, err
	}
	for _, o := range p.laying.Overs {
		p.out.Over = append(p.out.Over, o.Cell)
	}
	p.places = append(p.places, layOver(p.laying)...)
	return p, nil
}

// Fingerprint tells two plans of the same quilt, choices and designs from others; of
// the designs those count that the quilt names.
func Fingerprint(q quilt.Quilt, designs quilt.Designs, c Choices) string {
	h := sha256.New()
	enc := json.NewEncoder(h)
	q.Name = ""
	_ = enc.Encode(q) // what encodes to a hash does not fail
	for _, id := range q.DesignIDs() {
		if d, known := designs[id]; known {
			d.Photo, d.Name = nil, ""
			_ = enc.Encode(d)
		}
	}
	c.Schema, c.Quilt = Schema, q.ID
	_ = enc.Encode(c)
	return hex.EncodeToString(h.Sum(nil)[:16])
}

// waiting is a stage before it is planned.
type waiting struct {
	stage Stage
	cells []int           // of a row, those from the first to the last that is sewn
	seams []geom.Polyline // of the ditch
	// outer counts borders from the inside, 0 for other stages.
	outer int
	// middle is that of a row across the rows, in mm from the first edge.
	middle float64
}

// across returns the direction across the rows and the side of the quilt along it. Rows
// from edge to edge lie level in every setting.
func (p *planner) across() (dir geom.Point, side float64) {
	size := p.q.Size()
	if p.q.Setting == quilt.OnPoint && p.q.Overall == nil {
		dir = geom.Pt(math.Sqrt2/2, math.Sqrt2/2)
		return dir, (size.W + size.H) * math.Sqrt2 / 2
	}
	return geom.Pt(0, 1), size.H
}

// stages returns the stages of the top that have something to sew.
func (p *planner) stages() ([]waiting, error) {
	var out []waiting
	if !p.choices.NoDitch {
		out = append(out, p.ditch()...)
	}
	count := map[StageKind]int{}
	for r, row := range p.rows {
		kind := p.kindOf(row)
		count[kind]++
		w := waiting{stage: Stage{ID: fmt.Sprintf("row-%d", r+1), Kind: kind, Number: count[kind], Row: r, Way: BlockByBlock, Passes: OnePass}}
		w.cells = p.trimmed(row)
		if kind == Border {
			w.stage.ID, w.outer = fmt.Sprintf("border-%d", count[kind]), count[kind]
			if k := p.over(count[kind] - 1); k >= 0 {
				w.cells, w.stage.Line = []int{k}, true
			}
		}
		if len(w.cells) == 0 {
			continue
		}
		w.middle = p.middle(row)
		out = append(out, w)
	}
	return append(out, p.edgeRows()...), nil
}

// middle returns the middle of a row across the rows of the top, in mm from its first
// edge: that of the band that the row is, as the throat has it.
func (p *planner) middle(row []int) float64 {
	dir, _ := p.across()
	from, to := math.Inf(1), math.Inf(-1)
	for _, i := range row {
		for _, v := range p.places[i].outline {
			d := r2.Dot(dir, v)
			from, to = min(from, d), max(to, d)
		}
	}
	return (from + to) / 2
}

// kindOf tells of what a row is.
func (p *planner) kindOf(row []int) StageKind {
	kind := Sashing
	for _, i := range row {
		switch k := p.places[i].cell.Kind; {
		case strings.HasPrefix(string(k), "border-"):
			return Border
		case k != quilt.Strip && k != quilt.Cornerstone && k != quilt.HalfCornerstone:
			kind = RowOf
		}
	}
	return kind
}

// trimmed returns the places of a row from the first to the last that is sewn.
func (p *planner) trimmed(row []int) []int {
	sewn := func(i int) bool { return !p.places[i].block.empty }
	first := slices.IndexFunc(row, sewn)
	if first < 0 {
		return nil
	}
	last := len(row) - 1
	for !sewn(row[last]) {
		last--
	}
	return row[first : last+1]
}

// sequence puts the stages in order: the usual one, or hers.
func (p *planner) sequence(all []waiting) []waiting {
	var ditch, rows, borders []waiting
	for _, w := range all {
		switch w.stage.Kind {
		case Ditch:
			ditch = append(ditch, w)
		case Border:
			borders = append(borders, w)
		default:
			rows = append(rows, w)
		}
	}
	middles := make([]float64, len(rows))
	for i, w := range rows {
		middles[i] = w.middle
	}
	_, side := p.across()
	kind := p.choices.Rows
	if kind == "" {
		kind = machine.MiddleOut
	}
	order, turned := machine.Sequence(kind, middles, side)
	out := ditch
	for k, i := range order {
		rows[i].stage.Turned = turned[k]
		out = append(out, rows[i])
	}
	out = append(out, borders...)
	place := func(w waiting) int {
		if k := slices.Index(p.choices.Stages, w.stage.ID); k >= 0 {
			return k
		}
		return len(p.choices.Stages)
	}
	slices.SortStableFunc(out, func(a, b waiting) int { return place(a) - place(b) })
	return out
}

// add plans a stage and appends it.
func (p *planner) add(w waiting) error {
	s := w.stage
	s.Turn = s.Kind != Ditch && s.Kind != Border && s.Turned != p.turned
	if s.Kind != Ditch && s.Kind != Border {
		p.turned = s.Turned
	}
	var err error
	switch {
	case s.Kind == Ditch:
		p.sewSeams(&s, w.seams)
	case s.Line:
		p.sewLine(&s, w.cells[0])
	default:
		err = p.sewRow(&s, w.cells)
	}
	if err != nil {
		return err
	}
	p.out.Stages = append(p.out.Stages, s)
	p.out.measure(len(p.out.Stages) - 1)
	return nil
}

// come returns the needle's way to a place, from where it is; known is a way along
// seams and lines that is at hand, nil for none.
func (p *planner) come(to geom.Point, known geom.Polyline) Come {
	defer func() { p.at, p.begun = to, true }()
	if !p.begun || geom.Dist(p.at, to) <= onRim {
		return Come{}
	}
	rules := Rules()
	path, found := p.net.way(p.at, to)
	if known != nil && (!found || known.Length() < path.Length()) {
		path, found = known, true
	}
	if found && path.Length()*rules.Costs.Seam < rules.Costs.Jump {
		return Come{Path: path, DitchMM: path.Length()}
	}
	return Come{Stop: true, Path: geom.Polyline{p.at, to}}
}
