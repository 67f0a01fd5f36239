package svg

import (
	"bufio"
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"strings"
)

// The namespaces of SVG and of the references of SVG 1.1.
const (
	namespace = "http://www.w3.org/2000/svg"
	xlink     = "http://www.w3.org/1999/xlink"
)

// node is one SVG element of a file.
type node struct {
	name  string
	attrs []xml.Attr
	kids  []*node
	line  int
	// title and desc are those of the element's own child elements; css is the text
	// of a style element.
	title, desc string
	css         []byte
	// foreign tells that the element, or one round it, is not SVG's.
	foreign bool
	// drawn counts how often the element is being drawn at the moment; above one, it
	// holds a use of itself.
	drawn int
	// size is that of the attributes in bytes.
	size int
}

// attr returns an attribute without a namespace, its outer white space dropped.
func (n *node) attr(name string) string {
	for _, a := range n.attrs {
		if a.Name.Local == name && a.Name.Space == "" {
			return strings.TrimSpace(a.Value)
		}
	}
	return ""
}

// href returns what the element refers to; the attribute of SVG 2 goes before that
// of SVG 1.1.
func (n *node) href() string {
	if h := n.attr("href"); h != "" {
		return h
	}
	for _, a := range n.attrs {
		if a.Name.Local == "href" && a.Name.Space == xlink {
			return strings.TrimSpace(a.Value)
		}
	}
	return ""
}

// label is the name of an element for people: its title, or else its id.
func (n *node) label() string {
	if n.title != "" {
		return n.title
	}
	return clip(n.attr("id"), MaxName)
}

// where names the element and its line in the file.
func (n *node) where() string {
	if id := n.attr("id"); id != "" {
		return fmt.Sprintf("<%s id=%q>, line %d", clip(n.name, 40), clip(id, 40), n.line)
	}
	return fmt.Sprintf("<%s>, line %d", clip(n.name, 40), n.line)
}

// clip returns text with single blanks for white space, cut to n characters.
func clip(text string, n int) string {
	if len(text) > 8*n { // spares the work on a text that is cut anyway
		text = strings.ToValidUTF8(text[:8*n], "")
	}
	r := []rune(strings.Join(strings.Fields(text), " "))
	return strings.TrimSpace(string(r[:min(len(r), n)]))
}

// tree is a file as elements.
type tree struct {
	root  *node
	byID  map[string]*node
	count int
}

// parse reads the elements of a file. An error names the line.
func parse(r io.Reader) (*tree, error) {
	limited := &io.LimitedReader{R: r, N: MaxBytes + 1}
	in := bufio.NewReader(&tagGuard{r: limited})
	if magic, _ := in.Peek(2); string(magic) == "\x1f\x8b" {
		return nil, errors.New("the file is compressed (.svgz); save it as plain SVG")
	}
	p := parser{dec: xml.NewDecoder(in), tree: tree{byID: map[string]*node{}}}
	p.dec.CharsetReader = charset
	err := p.document()
	if limited.N <= 0 {
		return nil, fmt.Errorf("the file is larger than %d MB", MaxBytes>>20)
	}
	if err != nil {
		line, _ := p.dec.InputPos()
		return nil, fmt.Errorf("line %d: %w", line, plainly(err))
	}
	return &p.tree, nil
}

// plainly takes the line out of an error of the XML reader, which states its own.
func plainly(err error) error {
	if e := new(xml.SyntaxError); errors.As(err, &e) {
		if strings.Contains(e.Msg, "character entity") {
			return errors.New("the file is no plain XML: " + e.Msg + "; entities of a file's own are not expanded")
		}
		return errors.New("the file is no well-formed XML: " + e.Msg)
	}
	return err
}

// charset serves the encodings that contain no more than the first 256 characters.
func charset(name string, r io.Reader) (io.Reader, error) {
	switch strings.ToLower(name) {
	case "us-ascii", "ascii", "iso-8859-1", "latin1":
		return &latin1{r: r}, nil
	}
	return nil, fmt.Errorf("the encoding %q is not read; save the file as UTF-8", clip(name, 40))
}

// latin1 turns ISO 8859-1 into UTF-8.
type latin1 struct {
	r    io.Reader
	left bytes.Buffer
}

// Read gives UTF-8.
func (l *latin1) Read(p []byte) (int, error) {
	if l.left.Len() == 0 {
		var buf [4096]byte
		n, err := l.r.Read(buf[:])
		for _, b := range buf[:n] {
			l.left.WriteRune(rune(b))
		}
		if n == 0 {
			return 0, err
		}
	}
	return l.left.Read(p)
}
