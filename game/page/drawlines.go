package page

import (
	"fmt"
	"strconv"

	"unthreaded/game"
	"unthreaded/game/board"
	"unthreaded/game/words"
	"unthreaded/path/quilt"
	"unthreaded/path/sketch"
)

// DrawnLines lists the drawn lines and what can be done with those chosen.
type DrawnLines struct {
	Rows    []LineRow `json:"rows"`
	Any     bool      `json:"any"`
	Chosen  bool      `json:"chosen"`
	One     bool      `json:"one"`
	AtPoint bool      `json:"atPoint"`
	Kinds   []Option  `json:"kinds"`
	Kind    string    `json:"kind"`
	Point   string    `json:"point"`
	Copies  bool      `json:"copies"`
	Turned  string    `json:"turned"`
	Repeats string    `json:"repeats"`
	Pitch   string    `json:"pitch"`
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

func drawnLines(m game.Model) DrawnLines {
	d := m.Drawing
	b, inches := d.Board, m.Settings.Units == game.Inches
	out := DrawnLines{
		Any: len(b.Design.Lines) > 0, Chosen: b.Chosen != board.None, One: b.Chosen >= 0, AtPoint: b.Chosen >= 0 && b.Node >= 0,
		Copies: d.Copies, Turned: number(d.Turned), Repeats: strconv.Itoa(d.Repeats), Pitch: words.Typed(d.Pitch, inches),
		Way: "across", Smoother: b.CanRefit(1), Closer: b.CanRefit(-1),
	}
	if d.Down {
		out.Way = "down"
	}
	out.Refits = out.Smoother || out.Closer
	names := map[string]string{}
	for _, k := range game.KindNames {
		out.Kinds = append(out.Kinds, Option{ID: k[0], Name: k[1]})
		names[k[0]] = k[1]
	}
	for i, l := range b.Design.Lines {
		out.Rows = append(out.Rows, LineRow{
			ID: strconv.Itoa(i), Name: l.Name, Chosen: b.Chosen == i || b.Chosen == board.All,
			Note: fmt.Sprintf("%s, %s", words.Length(l.Path.Length(), inches), names[l.Kind]),
		})
	}
	if b.Chosen >= 0 {
		l := b.Design.Lines[b.Chosen]
		out.Kind = l.Kind
		out.Point = pointText(l, b.Node)
	}
	return out
}

func pointText(l quilt.Line, node int) string {
	n := l.Path.Pieces() + 1
	if node < 0 {
		return fmt.Sprintf("%d points. Tap one to choose it.", n)
	}
	kind := "a corner"
	if j, err := sketch.JointAt(l.Path, node); err == nil && j == sketch.Smooth {
		kind = "smooth"
	}
	return fmt.Sprintf("Point %d of %d is chosen, %s.", node+1, n, kind)
}

// Dots is about the dots that are marked for the ruler.
type Dots struct {
	Places      []Option `json:"places"`
	On          string   `json:"on"`
	Count       string   `json:"count"`
	Spreads     []Option `json:"spreads"`
	Spread      string   `json:"spread"`
	Has         bool     `json:"has"`
	Graduations []Option `json:"graduations"`
	Graduation  string   `json:"graduation"`
	Text        string   `json:"text"`
	Error       string   `json:"error"`
	List        []DotRow `json:"list"`
	Edge        bool     `json:"edge"`
	Sides       []Option `json:"sides"`
	Side        string   `json:"side"`
	Foot        string   `json:"foot"`
}

// DotRow is one dot of the marking list: where it lies exactly, what to set off from
// the start, and by how much that is out.
type DotRow struct {
	ID     string `json:"id"`
	Exact  string `json:"exact"`
	Marked string `json:"marked"`
	Out    string `json:"out"`
}

// graduations are the finest marks of rulers, those of the person's unit first.
func graduations(inches bool) []Option {
	in := []Option{{ID: string(sketch.EighthInch), Name: "1/8 inch"}, {ID: string(sketch.SixteenthInch), Name: "1/16 inch"}}
	mm := []Option{{ID: string(sketch.Millimetre), Name: "1 mm"}, {ID: string(sketch.HalfMillimetre), Name: "1/2 mm"}}
	if inches {
		return append(in, mm...)
	}
	return append(mm, in...)
}

var spreads = []Option{
	{ID: string(sketch.WithEnds), Name: "from end to end, a dot on each"},
	{ID: string(sketch.BetweenEnds), Name: "between the ends, none on them"},
	{ID: string(sketch.HalfSpace), Name: "half a space at either end"},
	{ID: string(sketch.FromStart), Name: "from the start on, none on the end"},
}

func dotsPart(m game.Model) Dots {
	d, inches := m.Drawing, m.Settings.Units == game.Inches
	b := d.Board
	mark := b.MarkOn(d.MarkOn)
	out := Dots{
		On: d.MarkOn, Count: strconv.Itoa(mark.Count), Spread: string(mark.Spread), Spreads: spreads, Has: mark.Count > 0,
		Graduations: graduations(inches), Graduation: string(d.Graduation), Edge: d.Edge,
		Sides: []Option{{ID: "left", Name: "left of the line"}, {ID: "right", Name: "right of the line"}}, Side: "left",
		Foot: words.Typed(m.Settings.FootMM, inches),
	}
	if d.EdgeSide == sketch.Right {
		out.Side = "right"
	}
	for _, place := range b.Design.MarkPlaces() {
		name := place
		if place == quilt.OnSides {
			name = "every side"
		}
		out.Places = append(out.Places, Option{ID: place, Name: name})
	}
	if mark.Count > 0 {
		marking(&out, b, mark, d.Graduation, inches)
	}
	return out
}

// marking fills the marking list. Sides that differ in length are each said for the
// first; a place of its own gives the list of another.
func marking(out *Dots, b board.Board, mark quilt.Mark, g sketch.Graduation, inches bool) {
	lines, err := b.Design.MarkedLines(mark.On)
	if err != nil {
		out.Text = err.Error()
		return
	}
	list, err := sketch.MarkDots(lines[0].Length(), mark.Count, mark.Spread, g)
	if err != nil {
		out.Text = err.Error()
		return
	}
	out.Text = "Mark a dot " + list.Text + "."
	out.Error = fmt.Sprintf("Stepped off one after the other, the dots end up to %s out; each measured from the start, up to %s.",
		words.Exact(list.WorstStepped, inches), words.Exact(list.WorstMeasured, inches))
	if list.WorstStepped < 1e-6 {
		out.Error = "All of them lie on marks of your ruler."
	}
	for _, l := range lines[1:] {
		if d := l.Length() - lines[0].Length(); d > 0.05 || d < -0.05 {
			out.Text += " That is for the first side; choose another side for its own list."
			break
		}
	}
	for i, k := range list.Measured {
		out.List = append(out.List, DotRow{
			ID: strconv.Itoa(i + 1), Exact: words.Exact(k.Exact, inches), Marked: k.Text, Out: words.Signed(k.Error, inches),
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

func photoPart(m game.Model) PhotoPart {
	b, inches := m.Drawing.Board, m.Settings.Units == game.Inches
	p := b.Design.Photo
	if p == nil {
		return PhotoPart{}
	}
	return PhotoPart{
		Has: true, Cornering: b.Cornering(), Squared: p.Squared && b.Photo.Trouble == "", Trouble: b.Photo.Trouble,
		Width: words.Typed(p.WMM, inches), Height: words.Typed(p.HMM, inches), Shown: p.Shown,
		Strength: number(100 * p.Strength), Percent: words.Percent(p.Strength),
	}
}
