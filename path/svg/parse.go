package svg

import (
	"encoding/xml"
	"errors"
	"fmt"
	"io"
)

const (
	maxStyle      = 1 << 20 // bytes of a style element that are looked at
	maxAttributes = 1000    // of one element
)

type parser struct {
	dec *xml.Decoder
	tree
	open []*node
}

func (p *parser) document() error {
	for {
		line, _ := p.dec.InputPos() // of the element that begins here
		tok, err := p.dec.Token()
		if errors.Is(err, io.EOF) {
			if p.root == nil {
				return errors.New("there is no element svg")
			}
			return nil
		}
		if err != nil {
			return err
		}
		switch e := tok.(type) {
		case xml.StartElement:
			err = p.start(e, line)
		case xml.EndElement:
			p.open = p.open[:len(p.open)-1]
		case xml.CharData:
			p.text(e)
		}
		if err != nil {
			return err
		}
	}
}

// start takes an element in; what belongs to other namespaces (the notes of
// drawing programs, metadata) is not drawn by anyone and passed over.
func (p *parser) start(e xml.StartElement, line int) error {
	if p.count++; p.count > MaxElements {
		return fmt.Errorf("the file has more than %d elements", MaxElements)
	}
	if len(p.open) == MaxDepth {
		return fmt.Errorf("<%s>: elements stand deeper than %d within each other", clip(e.Name.Local, 40), MaxDepth)
	}
	n := &node{name: e.Name.Local, line: line}
	n.foreign = e.Name.Space != "" && e.Name.Space != namespace || n.name == "metadata"
	if len(e.Attr) > maxAttributes {
		return fmt.Errorf("%s has more than %d attributes", n.where(), maxAttributes)
	}
	n.attrs = e.Attr
	for _, a := range e.Attr {
		n.size += len(a.Name.Local) + len(a.Value)
	}
	if err := p.place(n); err != nil {
		return err
	}
	p.open = append(p.open, n)
	if id := n.attr("id"); id != "" && !n.foreign && p.byID[id] == nil {
		p.byID[id] = n
	}
	return nil
}

// place makes n a child of the element that is open.
func (p *parser) place(n *node) error {
	switch {
	case len(p.open) > 0:
		parent := p.open[len(p.open)-1]
		n.foreign = n.foreign || parent.foreign
		if !n.foreign {
			parent.kids = append(parent.kids, n)
		}
	case p.root != nil:
		return errors.New("there is a second element after the end of svg")
	case n.name != "svg" || n.foreign:
		return fmt.Errorf("the file is no SVG: it begins with <%s>", clip(n.name, 40))
	default:
		p.root = n
	}
	return nil
}

// text keeps the words of titles, descriptions and style elements.
func (p *parser) text(data xml.CharData) {
	if len(p.open) == 0 {
		return
	}
	n := p.open[len(p.open)-1]
	if n.name == "style" {
		n.css = append(n.css, data[:min(len(data), maxStyle-len(n.css))]...)
		return
	}
	if len(p.open) < 2 || n.name != "title" && n.name != "desc" {
		return
	}
	parent := p.open[len(p.open)-2]
	room := MaxName
	if parent == p.root {
		room = MaxText
	}
	if n.name == "title" && parent.title == "" {
		parent.title = clip(string(data), room)
	}
	if n.name == "desc" && parent.desc == "" {
		parent.desc = clip(string(data), room)
	}
}
