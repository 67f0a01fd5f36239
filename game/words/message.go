package words

import (
	"errors"
	"fmt"
	"strings"
)

// A message is written in the part of ICU MessageFormat that the catalogue needs
// (unicode-org.github.io/icu/userguide/format_parse/messages):
//
//	{0}                                         an argument, by its place
//	{0, plural, =0 {none} one {# row} other {# rows}}  by the plural rule of the language; # is the number
//	{0, select, left {to the left} other {}}    by the text of the argument
//	'{'  ''                                     a brace as it is, an apostrophe; a lone apostrophe is one
//
// Branches nest. Every plural and every select has "other".
type message struct {
	parts []part
	arity int // arguments it takes: the highest place and one
}

// part is plain text, or an argument, or branches over one.
type part struct {
	text     string
	arg      int
	kind     partKind
	branches []branch
}

type partKind int

const (
	plainText partKind = iota
	argument
	theNumber // "#" of the plural around it
	pluralOf
	selectOf
)

type branch struct {
	name  string
	parts []part
}

// other is the branch for all that has none of its own.
const other = "other"

// maxArgs bounds the places of arguments, and maxNesting the branches in branches: no
// sentence has as many.
const maxArgs, maxNesting = 10, 5

var errUnclosed = errors.New("a brace is not closed")

// parse reads a message; its cost is linear in the text.
func parse(text string) (message, error) {
	p := parser{rest: text}
	parts, err := p.parts(0, -1)
	if err == nil && p.rest != "" {
		err = errors.New("a brace is closed that was not opened")
	}
	if err != nil {
		return message{}, fmt.Errorf("message %q: %w", text, err)
	}
	return message{parts: parts, arity: p.arity}, nil
}

type parser struct {
	rest  string
	arity int
}

// parts reads up to the brace that closes the branch, or to the end. plural is the
// argument that "#" stands for, or -1.
func (p *parser) parts(depth, plural int) ([]part, error) {
	if depth > maxNesting {
		return nil, errors.New("branches nest too deep")
	}
	var out []part
	var text strings.Builder
	flush := func() {
		if text.Len() > 0 {
			out = append(out, part{text: text.String()})
			text.Reset()
		}
	}
	for p.rest != "" && p.rest[0] != '}' {
		c := p.rest[0]
		switch {
		case c == '\'':
			text.WriteString(p.quoted(plural >= 0))
			continue
		case c == '#' && plural >= 0:
			flush()
			out = append(out, part{kind: theNumber, arg: plural})
			p.rest = p.rest[1:]
			continue
		case c == '{':
			flush()
			one, err := p.placeholder(depth, plural)
			if err != nil {
				return nil, err
			}
			out = append(out, one)
			continue
		}
		text.WriteByte(c)
		p.rest = p.rest[1:]
	}
	flush()
	return out, nil
}

// quoted reads from an apostrophe on: two are one, one before a sign of the syntax
// quotes up to the next one alone, any other stands for itself.
func (p *parser) quoted(inPlural bool) string {
	rest := p.rest[1:]
	if strings.HasPrefix(rest, "'") {
		p.rest = rest[1:]
		return "'"
	}
	if rest == "" || !(rest[0] == '{' || rest[0] == '}' || inPlural && rest[0] == '#') {
		p.rest = rest
		return "'"
	}
	var out strings.Builder
	for rest != "" {
		if strings.HasPrefix(rest, "''") {
			out.WriteByte('\'')
			rest = rest[2:]
			continue
		}
		c := rest[0]
		rest = rest[1:]
		if c == '\'' {
			break
		}
		out.WriteByte(c)
	}
	p.rest = rest
	return out.String()
}

// placeholder reads from an opening brace to its end.
func (p *parser) placeholder(depth, plural int) (part, error) {
	p.rest = p.rest[1:]
	end := strings.IndexAny(p.rest, ",}")
	if end < 0 {
		return part{}, errUnclosed
	}
	name := strings.TrimSpace(p.rest[:end])
	if len(name) != 1 || name[0] < '0' || name[0] > '9' {
		return part{}, fmt.Errorf("%q is no place of an argument, which is one digit below %d", name, maxArgs)
	}
	one := part{kind: argument, arg: int(name[0] - '0')}
	p.arity = max(p.arity, one.arg+1)
	closed := p.rest[end] == '}'
	p.rest = p.rest[end+1:]
	if closed {
		return one, nil
	}
	word, rest, found := strings.Cut(p.rest, ",")
	if !found {
		return part{}, errUnclosed
	}
	p.rest = rest
	switch strings.TrimSpace(word) {
	case "plural":
		one.kind, plural = pluralOf, one.arg
	case "select":
		one.kind = selectOf
	default:
		return part{}, fmt.Errorf("%q is neither plural nor select", strings.TrimSpace(word))
	}
	var err error
	one.branches, err = p.branches(depth, plural, one.kind)
	return one, err
}

// branches reads "name {text}" up to the closing brace of the placeholder.
func (p *parser) branches(depth, plural int, kind partKind) ([]branch, error) {
	var out []branch
	seen := map[string]bool{}
	for {
		p.rest = strings.TrimLeft(p.rest, " ")
		if strings.HasPrefix(p.rest, "}") {
			p.rest = p.rest[1:]
			if !seen[other] {
				return nil, errors.New("a choice has no branch other")
			}
			return out, nil
		}
		name, rest, found := strings.Cut(p.rest, "{")
		if !found {
			return nil, errUnclosed
		}
		name = strings.TrimSpace(name)
		if name == "" || strings.ContainsAny(name, "}, ") || kind == pluralOf && !pluralName(name) || seen[name] {
			return nil, fmt.Errorf("%q is no name of a branch here, or stands twice", name)
		}
		seen[name] = true
		p.rest = rest
		parts, err := p.parts(depth+1, plural)
		if err != nil {
			return nil, err
		}
		if p.rest == "" {
			return nil, errUnclosed
		}
		p.rest = p.rest[1:]
		out = append(out, branch{name, parts})
	}
}

// pluralName tells a category of CLDR, or an exact number as "=0".
func pluralName(name string) bool {
	switch name {
	case "zero", "one", "two", "few", "many", other:
		return true
	}
	digits, exact := strings.CutPrefix(name, "=")
	return exact && digits != "" && strings.Trim(digits, "0123456789") == ""
}
