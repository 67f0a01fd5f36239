package draw

import (
	"math"
	"slices"
	"strconv"

	"unthreaded/game/place"
	"unthreaded/game/place/draw/board"
	"unthreaded/game/words"
	"unthreaded/path/geom"
	"unthreaded/path/motif"
	"unthreaded/path/quilt"
	"unthreaded/path/sketch"
)

// DrawnLines lists the drawn lines and what can be done with those chosen.
type DrawnLines struct {
	Rows    []LineRow      `json:"rows"`
	Any     bool           `json:"any"`
	Chosen  bool           `json:"chosen"`
	One     bool           `json:"one"`
	AtPoint bool           `json:"atPoint"`
	Kinds   []place.Option `json:"kinds"`
	Kind    string         `json:"kind"`
	Point   string         `json:"point"`
	Copies  bool           `json:"copies"`
	Turned  string         `json:"turned"`
	Repeats string         `json:"repeats"`
	Pitch   string         `json:"pitch"`
	// Way is the way of the row; Refits tells that the last stroke can be fitted anew,
	// Smoother and Closer to which side.
	Way      string `json:"way"`
	Refits   bool   `json:"refits"`
	Smoother bool   `json:"smoother"`
	Closer   bool   `json:"closer"`
}

// LineRow is one drawn line.
type LineRow struct {
	ID     string `json:"id"`
	Name   string `json:"name"`
	Note   string `json:"note"`
	Chosen bool   `json:"chosen"`
}

func (r Room) linesPart() DrawnLines {
	b, c, inches := r.Board, r.Copying, r.Inches()
	out := DrawnLines{
		Any: len(b.Design.Lines) > 0, Chosen: b.Chosen != board.None, One: b.Chosen >= 0, AtPoint: b.Chosen >= 0 && b.Node >= 0,
		Copies: c.Keep, Turned: number(c.Turned), Repeats: strconv.Itoa(c.Repeats), Pitch: words.Typed(c.Pitch, inches),
		Way: "across", Smoother: b.CanRefit(1), Closer: b.CanRefit(-1),
	}
	if c.Down {
		out.Way = "down"
	}
	out.Refits = out.Smoother || out.Closer
	for _, k := range kinds {
		out.Kinds = append(out.Kinds, place.Option{ID: k, Name: r.Book().Say("draw.kind." + k)})
	}
	for i, l := range b.Design.Lines {
		out.Rows = append(out.Rows, LineRow{
			ID: strconv.Itoa(i), Name: l.Name, Chosen: b.Chosen == i || b.Chosen == board.All,
			Note: r.Book().Say("draw.line-note", words.LengthMM(l.Path.Length()), r.Book().Say("draw.kind."+l.Kind), runsOut(b.Design.Shape, l)),
		})
	}
	if b.Chosen >= 0 {
		l := b.Design.Lines[b.Chosen]
		out.Kind = l.Kind
		out.Point = pointText(r.Book(), l, b.Node)
	}
	return out
}

// outMM is how far in mm a line may run out of its block and still be said to lie in it: by
// less than the width of a seam.
const outMM = 2.0

// runsOut tells whether a line runs out of its block. Cost O(points).
func runsOut(s motif.Shape, l quilt.Line) bool {
	outline := s.Outline()
	for _, p := range l.Path.Flatten() {
		if s.Contains(p) {
			continue
		}
		near := math.Inf(1)
		for i := 1; i < len(outline); i++ {
			_, q := geom.NearestOnSegment(p, outline[i-1], outline[i])
			near = math.Min(near, geom.Dist(p, q))
		}
		if near > outMM {
			return true
		}
	}
	return false
}

func number(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

func pointText(book words.Book, l quilt.Line, node int) string {
	n := l.Path.Pieces() + 1
	if node < 0 {
		return book.Say("draw.points", n)
	}
	joint, err := sketch.JointAt(l.Path, node)
	return book.Say("draw.point", node+1, n, err == nil && joint == sketch.Smooth)
}

// Dots is about the dots that are marked for the ruler.
type Dots struct {
	Places      []place.Option `json:"places"`
	On          string         `json:"on"`
	Count       string         `json:"count"`
	Spreads     []place.Option `json:"spreads"`
	Spread      string         `json:"spread"`
	Has         bool           `json:"has"`
	Graduations []place.Option `json:"graduations"`
	Graduation  string         `json:"graduation"`
	Text        string         `json:"text"`
	Error       string         `json:"error"`
	List        []DotRow       `json:"list"`
	Edge        bool           `json:"edge"`
	Sides       []place.Option `json:"sides"`
	Side        string         `json:"side"`
	Foot        string         `json:"foot"`
}

// DotRow is one dot of the marking list: where it lies exactly, what to set off from
// the start, and by how much that is out.
type DotRow struct {
	ID     string `json:"id"`
	Exact  string `json:"exact"`
	Marked string `json:"marked"`
	Out    string `json:"out"`
}

// graduationKeys and spreadKeys are the messages of the marks of a ruler, and of the ways
// to spread dots.
var (
	graduationKeys = map[sketch.Graduation]string{
		sketch.EighthInch: "eighth-inch", sketch.SixteenthInch: "sixteenth-inch", sketch.Millimetre: "mm", sketch.HalfMillimetre: "half-mm",
	}
	spreadKeys = map[sketch.Spread]string{
		sketch.WithEnds: "with-ends", sketch.BetweenEnds: "between-ends", sketch.HalfSpace: "half-space", sketch.FromStart: "from-start",
	}
)

func (r Room) dotsPart() Dots {
	b, u := r.Board, r.Ruler
	mark := b.MarkOn(u.MarkOn)
	out := Dots{
		On: u.MarkOn, Count: strconv.Itoa(mark.Count), Spread: string(mark.Spread), Has: mark.Count > 0,
		Graduation: string(r.Graduation()), Edge: u.Edge, Side: "left",
		Sides: []place.Option{{ID: "left", Name: r.Book().Say("draw.side.left")}, {ID: "right", Name: r.Book().Say("draw.side.right")}},
		Foot:  words.Typed(r.Settings.FootMM, r.Inches()),
	}
	if u.Side == sketch.Right {
		out.Side = "right"
	}
	for _, x := range spreads {
		out.Spreads = append(out.Spreads, place.Option{ID: string(x), Name: r.Book().Say("draw.spread." + spreadKeys[x])})
	}
	other := place.Millimetres
	if !r.Inches() {
		other = place.Inches
	}
	for _, g := range slices.Concat(graduations[r.Settings.Units], graduations[other]) {
		out.Graduations = append(out.Graduations, place.Option{ID: string(g), Name: r.Book().Say("draw.mark." + graduationKeys[g])})
	}
	for _, on := range b.Design.MarkPlaces() {
		name := r.Book().Say("draw.every-side")
		switch side, line := quilt.MarkPlace(on); {
		case line != "":
			name = r.Book().Say("draw.one-line", line)
		case side > 0:
			name = r.Book().Say("draw.one-side", side)
		}
		out.Places = append(out.Places, place.Option{ID: on, Name: name})
	}
	if mark.Count > 0 {
		r.marking(&out, mark)
	}
	return out
}

// marking fills the marking list. Sides that differ in length are each said for the
// first; a place of its own gives the list of another.
func (r Room) marking(out *Dots, mark quilt.Mark) {
	book := r.Book()
	lines, err := r.Board.Design.MarkedLines(mark.On)
	if err != nil {
		out.Text = book.Say("draw.dots.none")
		return
	}
	list, err := sketch.MarkDots(lines[0].Length(), mark.Count, mark.Spread, r.Graduation())
	if err != nil {
		out.Text = book.Say("draw.dots.none")
		return
	}
	differ := slices.ContainsFunc(lines, func(l geom.Line) bool { return math.Abs(l.Length()-lines[0].Length()) > 0.05 })
	out.Text = book.Say("draw.dots.text", words.Of("draw.dots.first-way", list.Space.Text, list.OnEnd, list.First.Text), differ)
	out.Error = book.Say("draw.dots.out", words.ExactMM(list.WorstStepped), words.ExactMM(list.WorstMeasured))
	if list.WorstStepped < 1e-6 {
		out.Error = book.Say("draw.dots.on-marks")
	}
	for i, k := range list.Measured {
		out.List = append(out.List, DotRow{
			ID: strconv.Itoa(i + 1), Exact: book.Amount(words.ExactMM(k.Exact)), Marked: k.Text, Out: book.Amount(words.SignedMM(k.Error)),
		})
	}
}

// PhotoPart is about the photo under the drawing.
type PhotoPart struct {
	Has       bool   `json:"has"`
	Cornering bool   `json:"cornering"`
	Squared   bool   `json:"squared"`
	Trouble   string `json:"trouble"`
	Width     string `json:"width"`
	Height    string `json:"height"`
	Shown     bool   `json:"shown"`
	Strength  string `json:"strength"`
	Percent   string `json:"percent"`
}

func (r Room) photoPart() PhotoPart {
	b, inches := r.Board, r.Inches()
	p := b.Design.Photo
	if p == nil {
		return PhotoPart{}
	}
	return PhotoPart{
		Has: true, Cornering: b.Cornering(), Squared: p.Squared && !b.Photo.Trouble, Trouble: unsquared(r.Book(), b.Photo.Trouble),
		Width: words.Typed(p.WMM, inches), Height: words.Typed(p.HMM, inches), Shown: p.Shown,
		Strength: number(100 * p.Strength), Percent: r.Book().Amount(words.Share(p.Strength)),
	}
}

// unsquared says that a photo cannot be squared up, where that is so.
func unsquared(b words.Book, trouble bool) string {
	if !trouble {
		return ""
	}
	return b.Say("draw.photo-unsquared")
}
