// Package checkhtml holds a page's HTML against the declarations of its controls and
// the struct that it shows. It serves tests and is in no program.
//
// The page binds its elements by attributes: data-send, data-file and data-photo name a
// control; data-text, data-value, data-show, data-enabled, data-pressed, data-checked,
// data-time, data-modal, data-picture and data-list name a field by its path of JSON
// names ("draw.lines.one"), data-attr and data-size several as "attribute:path,...";
// inside the template of a data-list the path begins at an entry, which has an id.
// data-focus names a place to which the keyboard is led.
package checkhtml

import (
	"cmp"
	"fmt"
	"maps"
	"reflect"
	"slices"
	"strings"

	"golang.org/x/net/html"

	"unthreaded/game/control"
)

// Spec is what the HTML is held against.
type Spec struct {
	Controls []control.Decl
	// Scripted are controls that the page's scripts send and no element does, besides keys
	// and the wheel.
	Scripted []string
	// Shown is a value of the struct that the page shows. What an interface in it holds
	// is looked at as it is.
	Shown any
	// Rooms are what single places show, each under its name. What stands in an element
	// that shows something of a place (at.place, or a field of its own) belongs to that
	// place and names nothing of another.
	Rooms map[string]any
	// Unbound are paths of fields that the scripts read and no element shows.
	Unbound []string
	// Focus are all places to which the keyboard is led.
	Focus []control.Focus
}

// Check returns what is wrong with a page, a sentence each, in the order of the page and
// then of the names; none if all fits.
func Check(page string, s Spec) []string {
	root, err := html.Parse(strings.NewReader(page))
	if err != nil {
		return []string{err.Error()}
	}
	c := &checker{spec: s, controls: map[string]*declared{}, focus: map[string]bool{}}
	for _, d := range s.Controls {
		if c.controls[d.Name] != nil {
			c.tell("control %s is declared twice", d.Name)
		}
		byScript := d.Kind == control.Key || d.Kind == control.Wheel
		c.controls[d.Name] = &declared{Decl: d, values: map[string]bool{}, reached: byScript, open: byScript}
	}
	for _, name := range s.Scripted {
		if d := c.controls[name]; d != nil {
			d.reached, d.open = true, true
		} else {
			c.tell("control %s is sent by a script and not declared", name)
		}
	}
	shown := structFields(reflect.ValueOf(s.Shown), "")
	for _, room := range slices.Sorted(maps.Keys(s.Rooms)) {
		shown.add(room, newField(reflect.ValueOf(s.Rooms[room]), room))
	}
	c.walk(root, scope{fields: shown})
	c.unreached()
	for _, path := range shown.unbound(s.Unbound) {
		c.tell("field %s is shown nowhere", path)
	}
	for _, f := range s.Focus {
		if !c.focus[string(f)] {
			c.tell("focus %s is nowhere on the page", f)
		}
		delete(c.focus, string(f))
	}
	for _, f := range slices.Sorted(maps.Keys(c.focus)) {
		c.tell("focus %s is not declared", f)
	}
	return c.wrong
}

type checker struct {
	spec     Spec
	controls map[string]*declared
	focus    map[string]bool
	wrong    []string
}

// declared is a control with what the page has for it.
type declared struct {
	control.Decl
	reached bool
	// values are those that its buttons and options give; open tells that some come from
	// what is shown.
	values map[string]bool
	open   bool
}

func (c *checker) tell(format string, args ...any) {
	c.wrong = append(c.wrong, fmt.Sprintf(format, args...))
}

// scope is where an element stands: the struct that its paths begin at, whether that
// is the entry of a list, and the place that it belongs to, if any.
type scope struct {
	fields *fields
	inList bool
	room   string
}

// walk looks at an element and all below it.
func (c *checker) walk(n *html.Node, at scope) {
	inner := at
	if n.Type == html.ElementNode {
		a := attributes(n)
		at.room = c.room(a, at)
		inner = at
		c.shows(a, at)
		c.sends(n, a, at)
		if f, ok := a["data-focus"]; ok {
			c.focus[f] = true
		}
		if path, ok := a["data-list"]; ok {
			inner.fields, inner.inList = c.entries(at.fields, path), true
			if !hasTemplate(n) {
				c.tell("list %s has no template", path)
			}
		}
	}
	for child := n.FirstChild; child != nil; child = child.NextSibling {
		c.walk(child, inner)
	}
}

// room returns the place that an element belongs to, and tells of one that names another.
func (c *checker) room(a map[string]string, at scope) string {
	of, names := at.room, []string{"data-send", "data-file", "data-photo"}
	if !at.inList {
		names = slices.Concat(names, plain, []string{"data-list"})
	}
	for _, name := range names {
		first, rest, _ := strings.Cut(a[name], ".")
		if first == "at" {
			first = rest
		}
		if _, is := c.spec.Rooms[first]; !is {
			continue
		}
		if of != "" && of != first {
			c.tell("%s=%q stands in what belongs to %s", name, a[name], of)
		}
		of = first
	}
	return of
}

func hasTemplate(n *html.Node) bool {
	for child := n.FirstChild; child != nil; child = child.NextSibling {
		if child.Data == "template" {
			return true
		}
	}
	return false
}

func attributes(n *html.Node) map[string]string {
	out := map[string]string{}
	for _, a := range n.Attr {
		out[a.Key] = a.Val
	}
	return out
}

// plain are the attributes that name one field.
var plain = []string{"data-text", "data-value", "data-show", "data-enabled", "data-pressed", "data-checked", "data-time", "data-modal", "data-picture"}

// shows looks at what an element shows.
func (c *checker) shows(a map[string]string, at scope) {
	for _, name := range plain {
		if path, ok := a[name]; ok {
			c.bind(at.fields, path, name)
		}
	}
	for _, name := range []string{"data-attr", "data-size"} {
		pairs, ok := a[name]
		if !ok {
			continue
		}
		for pair := range strings.SplitSeq(pairs, ",") {
			target, path, found := strings.Cut(pair, ":")
			if !found || target == "" {
				c.tell("%s=%q is not of the form name:path", name, pairs)
				continue
			}
			c.bind(at.fields, path, name)
		}
	}
}

// dynamic tells that an attribute of an element comes from what is shown.
func dynamic(a map[string]string, name string) bool {
	for pair := range strings.SplitSeq(a["data-attr"], ",") {
		if target, _, _ := strings.Cut(pair, ":"); target == name {
			return true
		}
	}
	return false
}

// sends looks at what an element sends.
func (c *checker) sends(n *html.Node, a map[string]string, at scope) {
	for _, attr := range []string{"data-send", "data-file", "data-photo"} {
		name, ok := a[attr]
		if !ok {
			continue
		}
		d := c.controls[name]
		if d == nil {
			c.tell("control %s is not declared", name)
			continue
		}
		d.reached = true
		if kinds := kindsOf(n, a, attr); !slices.Contains(kinds, d.Kind) {
			c.tell("control %s is declared as %s, and its <%s%s> gives %s", name, d.Kind, n.Data, typeOf(a), join(kinds))
		}
		if d.OfItem && !at.inList {
			c.tell("control %s concerns an entry of a list and stands in none", name)
		}
		c.ranges(d, a)
		c.values(d, n, a)
	}
}

func typeOf(a map[string]string) string {
	if a["type"] == "" {
		return ""
	}
	return " type=" + a["type"]
}

func join(kinds []control.Kind) string {
	var out []string
	for _, k := range kinds {
		out = append(out, string(k))
	}
	return strings.Join(out, " or ")
}

// kindsOf returns the kinds of value that an element can give.
func kindsOf(n *html.Node, a map[string]string, attr string) []control.Kind {
	value, fixed := a["value"]
	switch {
	case attr == "data-file":
		return []control.Kind{control.File}
	case attr == "data-photo":
		return []control.Kind{control.Photo}
	case n.Data == "button" && !fixed && !dynamic(a, "value"):
		return []control.Kind{control.Press}
	case n.Data == "button" && (value == "on" || value == "off"):
		return []control.Kind{control.Toggle, control.Choice}
	case n.Data == "button" || n.Data == "select":
		return []control.Kind{control.Choice, control.Text, control.Number}
	case a["type"] == "checkbox":
		return []control.Kind{control.Toggle}
	case a["type"] == "range" || a["type"] == "number":
		return []control.Kind{control.Number}
	}
	return []control.Kind{control.Text}
}

// ranges holds the bounds of an element against those declared. An element need not have
// any: the page sets them.
func (c *checker) ranges(d *declared, a map[string]string) {
	want := map[string]float64{"min": d.Min, "max": d.Max, "step": d.Step}
	if d.Kind == control.Text {
		want = map[string]float64{"maxlength": d.Max}
	}
	for _, name := range slices.Sorted(maps.Keys(want)) {
		if d.Kind == control.Number && d.Open() {
			continue
		}
		if dynamic(a, name) {
			c.tell("control %s has a range and takes its %s from what is shown", d.Name, name)
		}
		if text, there := a[name]; there && text != fmt.Sprint(want[name]) {
			c.tell("control %s has %s=%s on the page, declared is %v", d.Name, name, text, want[name])
		}
	}
}

// values takes note of the values that an element gives and holds them against the
// choices.
func (c *checker) values(d *declared, n *html.Node, a map[string]string) {
	if d.Kind != control.Choice {
		return
	}
	if n.Data == "button" && !dynamic(a, "value") {
		c.value(d, a["value"])
		return
	}
	if _, list := a["data-list"]; n.Data == "select" && !list {
		for o := n.FirstChild; o != nil; o = o.NextSibling {
			if o.Type == html.ElementNode && o.Data == "option" {
				c.value(d, attributes(o)["value"])
			}
		}
		return
	}
	d.open = true
}

func (c *checker) value(d *declared, v string) {
	if !slices.Contains(d.Choices, v) {
		c.tell("control %s is sent with %q, which is none of its choices", d.Name, v)
	}
	d.values[v] = true
}

// unreached tells which controls and choices nobody can send.
func (c *checker) unreached() {
	byName := func(a, b *declared) int { return cmp.Compare(a.Name, b.Name) }
	for _, d := range slices.SortedFunc(maps.Values(c.controls), byName) {
		if !d.reached {
			c.tell("control %s is sent by nothing on the page", d.Name)
			continue
		}
		for _, v := range d.Choices {
			if d.Kind == control.Choice && !d.open && !d.values[v] {
				c.tell("control %s: its choice %q is sent by nothing on the page", d.Name, v)
			}
		}
	}
}
