package machine

import (
	"fmt"
	"strings"

	"unthreaded/game/place"
	"unthreaded/game/place/machine/bench"
	"unthreaded/game/words"
)

type (
	Row    = place.Row
	Option = place.Option
)

// Shown is what the page shows where the sewing machine is set up.
type Shown struct {
	// Empty tells that there is nothing to set it up for.
	Empty bool   `json:"empty"`
	Ready bool   `json:"ready"`
	Plan  string `json:"plan"`

	Topics []TopicRow `json:"topics"`
	On     OnTopic    `json:"on"`
	// Fields are those of the topic, More the ones behind a click.
	Fields   []FieldRow `json:"fields"`
	More     []FieldRow `json:"more"`
	HasMore  bool       `json:"hasMore"`
	MoreName string     `json:"moreName"`
	Cautions []Row      `json:"cautions"`

	Methods   []ChoiceRow `json:"methods"`
	Reasons   []Row       `json:"reasons"`
	Against   []Row       `json:"against"`
	Overruled bool        `json:"overruled"`
	Changes   []Row       `json:"changes"`

	Finds    []Option   `json:"finds"`
	Find     string     `json:"find"`
	TrioText string     `json:"trioText"`
	TrioUse  string     `json:"trioUse"`
	PaceText string     `json:"paceText"`
	CanPace  bool       `json:"canPace"`
	PaceUse  string     `json:"paceUse"`
	Heads    []Option   `json:"heads"`
	Speeds   []SpeedRow `json:"speeds"`
	Times    []Row      `json:"times"`

	Bobbins []Option `json:"bobbins"`
	Bobbin  string   `json:"bobbin"`
	Threads []Row    `json:"threads"`
	Due     []Row    `json:"due"`
	DueText string   `json:"dueText"`

	Laid     LaidPart `json:"laid"`
	Orders   []Row    `json:"orders"`
	PlaceNow string   `json:"placeNow"`
	Rows     []Row    `json:"rows"`
	Note     string   `json:"note"`

	Sides    []Option `json:"sides"`
	Side     string   `json:"side"`
	MarkText string   `json:"markText"`
	HasRuler bool     `json:"hasRuler"`
	Question string   `json:"question"`
	Why      string   `json:"why"`

	Checks []CheckGroup `json:"checks"`

	Papers []Option  `json:"papers"`
	Paper  string    `json:"paper"`
	Cards  []CardRow `json:"cards"`
}

// ChoiceRow is one of several to choose from.
type ChoiceRow struct {
	ID     string `json:"id"`
	Name   string `json:"name"`
	Note   string `json:"note"`
	Picked bool   `json:"picked"`
}

// TopicRow is one of the topics.
type TopicRow struct {
	ID   string `json:"id"`
	Name string `json:"name"`
	Open bool   `json:"open"`
}

// OnTopic is true for the topic shown.
type OnTopic struct {
	Foot   bool `json:"foot"`
	Speed  bool `json:"speed"`
	Thread bool `json:"thread"`
	Throat bool `json:"throat"`
	Marks  bool `json:"marks"`
	Check  bool `json:"check"`
	Card   bool `json:"card"`
}

// FieldRow is a figure that she types.
type FieldRow struct {
	ID    string `json:"id"`
	Name  string `json:"name"`
	Unit  string `json:"unit"`
	Value string `json:"value"`
	// Error says why what she typed was not taken, and what can be.
	Error   string `json:"error"`
	Invalid string `json:"invalid"`
}

// SpeedRow is a line of the table of speeds.
type SpeedRow struct {
	ID    string   `json:"id"`
	Cells []Option `json:"cells"`
	// Now tells that it is the needle speed in force.
	Now bool `json:"now"`
}

// CheckGroup is a part of the list.
type CheckGroup struct {
	ID    string     `json:"id"`
	Items []CheckRow `json:"items"`
}

// CheckRow is one thing to check.
type CheckRow struct {
	ID      string `json:"id"`
	Text    string `json:"text"`
	Why     string `json:"why"`
	Ticked  bool   `json:"ticked"`
	Caution bool   `json:"caution"`
}

// CardRow is a card with the forms in which it can be had.
type CardRow struct {
	ID   string `json:"id"`
	Name string `json:"name"`
	Note string `json:"note"`
	// PNG tells that it can be had as a picture, SVG what its drawing is called.
	PNG bool   `json:"png"`
	SVG string `json:"svg"`
	// Seen tells that its first page lies on the cloth.
	Seen bool `json:"seen"`
}

var topicNames = map[bench.Topic]string{
	bench.FootTopic: "Foot", bench.SpeedTopic: "Speed", bench.ThreadTopic: "Thread", bench.ThroatTopic: "Throat",
	bench.MarksTopic: "Marking", bench.CheckTopic: "Checklist", bench.CardTopic: "Card",
}

// writer fills the page of the place.
type writer struct {
	r      Room
	b      bench.Bench
	out    *Shown
	inches bool
}

// Page is as place.Room has it.
func (r Room) Page() place.Page {
	if r.bench.Trouble != "" || r.bench.Plan.ID == "" {
		return place.Page{
			Sentence: "Here your sewing machine is set up for a route: foot, speed, thread, room and marks. There is no route yet.",
			Cloth:    "Cloth without a route.", In: Shown{Empty: true},
		}
	}
	out := Shown{Ready: true, Plan: "For: " + r.bench.Plan.Name}
	w := writer{r: r, b: r.bench, out: &out, inches: r.Inches()}
	for _, t := range bench.Topics() {
		out.Topics = append(out.Topics, TopicRow{string(t), topicNames[t], t == r.bench.Topic})
	}
	fill := map[bench.Topic]func() string{
		bench.FootTopic: w.foot, bench.SpeedTopic: w.speed, bench.ThreadTopic: w.thread, bench.ThroatTopic: w.throat,
		bench.MarksTopic: w.marks, bench.CheckTopic: w.check, bench.CardTopic: w.card,
	}
	said := fill[r.bench.Topic]()
	switch r.bench.Topic {
	case bench.SpeedTopic, bench.ThreadTopic, bench.ThroatTopic:
		w.laid()
	}
	out.HasMore = len(out.More) > 0
	return place.Page{
		Sentence: said, In: out,
		Cloth: fmt.Sprintf("%s: a picture of what the page says in words. %s", topicNames[r.bench.Topic], said),
	}
}

// fields returns the rows of the fields with the given IDs.
func (w writer) fields(ids ...string) []FieldRow {
	var out []FieldRow
	for _, id := range ids {
		f, ok := bench.FindField(id)
		if !ok {
			continue
		}
		row := FieldRow{ID: id, Name: f.Name, Unit: f.UnitName(w.inches), Value: f.Value(w.b.State, w.inches)}
		if w.b.Refused.Field == id {
			row.Value, row.Error, row.Invalid = w.b.Refused.Text, w.b.Refused.Why, "true"
		}
		out = append(out, row)
	}
	return out
}

// cautions puts cautions in place.
func (w writer) cautions(ids ...string) {
	for _, i := range w.b.Cautions(ids...) {
		w.out.Cautions = append(w.out.Cautions, Row{ID: i.ID, Value: i.Text, Note: i.Reason})
	}
}

func (w writer) length(mm float64) string { return words.Length(mm, w.inches) }

func upper(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}
