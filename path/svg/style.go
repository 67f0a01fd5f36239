package svg

import (
	"bytes"
	"fmt"
	"iter"
	"slices"
	"strings"
)

// state is what an element hands down to those within it.
type state struct {
	m      matrix
	view   viewport
	kind   string
	name   string
	hidden bool
	depth  int
}

// placing are the properties by which a style could move or change a line; SVG 2
// lets style rules set what were attributes before. Attributes are read, and a
// style that sets one of these is reported.
var placing = []string{
	"transform", "translate", "rotate", "scale", "offset-path", "zoom",
	"d", "x", "y", "width", "height", "cx", "cy", "r", "rx", "ry",
}

// turning are those that change what a transform does.
var turning = []string{"transform-origin", "transform-box"}

// showing are those that hide a line.
var showing = []string{"display", "visibility"}

// cutting are those that draw only a part of an element.
var cutting = []string{"clip-path", "mask"}

// telling are all of these: what the rules of a style element are looked through for.
var telling = slices.Concat(placing, turning, showing, cutting)

// declarations lists the properties in the style attribute of n with their values
// (CSS Style Attributes, 3).
func (n *node) declarations() iter.Seq2[string, string] {
	return func(yield func(string, string) bool) {
		for part := range strings.SplitSeq(n.attr("style"), ";") {
			name, value, ok := strings.Cut(part, ":")
			value, _, _ = strings.Cut(value, "!")
			if ok && !yield(strings.ToLower(strings.TrimSpace(name)), strings.TrimSpace(value)) {
				return
			}
		}
	}
}

// property returns the value of a property of n, from its style or else from the
// attribute of that name.
func (n *node) property(name string) string {
	value := n.attr(name)
	for property, v := range n.declarations() {
		if property == name {
			value = v
		}
	}
	return value
}

// moved returns the first property by which the style of n would change its place
// or its shape, "" if there is none. The attribute transform-origin counts too.
func (n *node) moved() string {
	turned := n.attr("transform") != ""
	for name, value := range n.declarations() {
		if slices.Contains(placing, name) && value != "none" && value != "auto" ||
			turned && slices.Contains(turning, name) {
			return name
		}
	}
	if turned && n.attr("transform-origin") != "" {
		return "transform-origin"
	}
	return ""
}

// kind returns the kind that the attribute class of n names, or else the one round
// it.
func (n *node) kind(outside string) string {
	for w := range strings.FieldsSeq(n.attr("class")) {
		if w == Sewn || w == Ruler || w == Seam {
			return w
		}
	}
	return outside
}

// rules returns the properties that the rules of a style element set and which
// would move, change or hide lines, each once. It looks at what stands before a
// colon within braces; selectors are not matched.
func rules(css []byte) []string {
	var out []string
	for len(css) > 0 {
		end := bytes.IndexAny(css, "{};")
		part := css
		if end >= 0 {
			part, css = css[:end], css[end+1:]
		} else {
			css = nil
		}
		name, _, ok := bytes.Cut(part, []byte(":"))
		if !ok {
			continue
		}
		if i := bytes.LastIndex(name, []byte("*/")); i >= 0 {
			name = name[i+2:]
		}
		word := strings.ToLower(string(bytes.TrimSpace(name)))
		if slices.Contains(telling, word) && !slices.Contains(out, word) {
			out = append(out, word)
		}
	}
	return out
}

// warnings returns what else about n is not read: effects of its own properties.
func (n *node) warnings() []error {
	var out []error
	for _, name := range cutting {
		if v := n.property(name); v != "" && v != "none" {
			out = append(out, fmt.Errorf("%s is not read: the lines are whole", name))
		}
	}
	return out
}
