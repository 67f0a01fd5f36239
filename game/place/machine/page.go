package machine

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

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
	// TimesNote says what is reckoned in with the times.
	TimesNote string `json:"timesNote"`

	Bobbins []Option `json:"bobbins"`
	Bobbin  string   `json:"bobbin"`
	Threads []Row    `json:"threads"`
	Due     []Row    `json:"due"`
	DueText string   `json:"dueText"`

	Job JobPart `json:"job"`

	Laid     LaidPart   `json:"laid"`
	Orders   []OrderRow `json:"orders"`
	PlaceNow string     `json:"placeNow"`
	// Seams tell how what is no row goes through, Feet which feet the whole quilt asks for.
	Seams    []FigureRow `json:"seams"`
	HasSeams bool        `json:"hasSeams"`
	Feet     []Row       `json:"feet"`
	HasFeet  bool        `json:"hasFeet"`
	Rows     []Row       `json:"rows"`
	HasRows  bool        `json:"hasRows"`
	Note     string      `json:"note"`

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

// JobPart is the job of the quilt on the table, added up.
type JobPart struct {
	// Any tells that there is one; None says why not.
	Any     bool        `json:"any"`
	None    string      `json:"none"`
	Stages  []StageRow  `json:"stages"`
	Bobbins []BobbinRow `json:"bobbins"`
	Sums    []FigureRow `json:"sums"`
	Left    []FigureRow `json:"left"`
	HasLeft bool        `json:"hasLeft"`
	Hand    []FigureRow `json:"hand"`
	Rests   string      `json:"rests"`
}

// FigureRow is a figure, or what is said of a thing, beside its name.
type FigureRow struct {
	ID    string `json:"id"`
	Value string `json:"value"`
}

// BobbinRow is a change of the bobbin, to be ticked off.
type BobbinRow struct {
	ID   string `json:"id"`
	Name string `json:"name"`
	Note string `json:"note"`
	Done bool   `json:"done"`
}

// StageRow is a stage of the job, to be ticked off.
type StageRow struct {
	ID   string `json:"id"`
	Name string `json:"name"`
	Time string `json:"time"`
	Note string `json:"note"`
	Done bool   `json:"done"`
	// Looked tells that it is the stage on the cloth.
	Looked bool `json:"looked"`
}

// OrderRow is an order of the rows.
type OrderRow struct {
	ID   string `json:"id"`
	Name string `json:"name"`
	Note string `json:"note"`
	// Use tells that the quilt can be sewn so instead.
	Use bool `json:"use"`
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
	Job    bool `json:"job"`
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
	// PNG tells that it can be had as a picture, SVG what its drawing is called, "" where
	// there is none.
	PNG bool   `json:"png"`
	SVG string `json:"svg"`
	// Picks are what it can be of, Picked what it is of.
	Picks  []Option `json:"picks"`
	Picked string   `json:"picked"`
	// Seen tells that its first page lies on the cloth.
	Seen bool `json:"seen"`
}

// writer fills the page of the place.
type writer struct {
	r      Room
	b      bench.Bench
	out    *Shown
	book   words.Book
	inches bool
}

// topics are those that there is something to say of: without a route those of the quilt.
func (r Room) topics() []bench.Topic {
	_, laid := r.bench.Laid()
	switch {
	case r.bench.Trouble == nil && r.bench.Plan.ID != "":
		return bench.Topics()
	case laid:
		return []bench.Topic{bench.JobTopic, bench.CardTopic}
	}
	return nil
}

// topic is the one that is shown.
func (r Room) topic() bench.Topic {
	if all := r.topics(); len(all) > 0 && !slices.Contains(all, r.bench.Topic) {
		return all[0]
	}
	return r.bench.Topic
}

// Page is as place.Room has it.
func (r Room) Page() place.Page {
	if len(r.topics()) == 0 {
		return place.Page{
			Sentence: r.Book().Say("machine.empty"), Cloth: r.Book().Say("machine.empty-cloth"), In: Shown{Empty: true},
		}
	}
	out := Shown{Ready: true, Plan: r.Book().Say("machine.for", r.bench.Plan.Title)}
	w := writer{r: r, b: r.bench, out: &out, book: r.Book(), inches: r.Inches()}
	topic := r.topic()
	for _, t := range r.topics() {
		out.Topics = append(out.Topics, TopicRow{string(t), w.book.Say("machine.topic." + string(t)), t == topic})
	}
	if l, laid := r.bench.Laid(); laid && (topic == bench.JobTopic || topic == bench.CardTopic && r.bench.Plan.ID == "") {
		out.Plan = w.book.Say("machine.for", l.Quilt.Name)
	}
	fill := map[bench.Topic]func() string{
		bench.JobTopic: w.job, bench.FootTopic: w.foot, bench.SpeedTopic: w.speed, bench.ThreadTopic: w.thread, bench.ThroatTopic: w.throat,
		bench.MarksTopic: w.marks, bench.CheckTopic: w.check, bench.CardTopic: w.card,
	}
	said := fill[topic]()
	switch topic {
	case bench.SpeedTopic, bench.ThreadTopic, bench.ThroatTopic:
		w.laid()
	}
	out.HasMore = len(out.More) > 0
	return place.Page{
		Sentence: said, In: out,
		Cloth: w.book.Say("machine.cloth", w.book.Say("machine.topic."+string(topic)), said),
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
		row := FieldRow{ID: id, Name: w.book.Say("machine.field." + id), Unit: w.unit(f), Value: w.book.Pointed(f.Value(w.b.State, w.inches))}
		if w.b.Refused.Field == id {
			row.Value, row.Error, row.Invalid = w.b.Refused.Text, w.refused(f), "true"
		}
		out = append(out, row)
	}
	return out
}

// unit is what stands beside a field, "" for a count.
func (w writer) unit(f bench.Field) string {
	if code := f.Unit(w.inches); code != "" {
		return w.book.Say("machine.unit." + code)
	}
	return ""
}

// refused says why what was typed is not taken, and what can be.
func (w writer) refused(f bench.Field) string {
	lo, hi := f.Range(w.b.State, w.inches)
	text := w.book.Say("machine.refused."+string(w.b.Refused.Why), w.b.Refused.Text, w.book.Pointed(lo), w.book.Pointed(hi), w.unit(f))
	return strings.Replace(text, " .", ".", 1) // a count has no unit
}

// cautions puts cautions in place.
func (w writer) cautions(ids ...string) {
	for _, i := range w.b.Cautions(ids...) {
		w.out.Cautions = append(w.out.Cautions, Row{ID: i.ID, Value: w.book.Say("machine.item." + i.ID), Note: w.book.Say("machine.item-why." + i.ID)})
	}
}

func (w writer) length(mm float64) string { return w.book.Amount(words.LengthMM(mm)) }

// upper begins a sentence.
func upper(s string) string {
	if s == "" {
		return s
	}
	first, size := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(first)) + s[size:]
}
