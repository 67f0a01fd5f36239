// Package words holds every sentence of the program and puts amounts into the
// language and the units of the person.
//
// The catalogue is a folder of text files for each language, a file for each place of
// the program, one message a line:
//
//	# game/words/en/route.txt
//	odd = {0, plural, one {# place} other {# places}} where an odd number of lines meet.
//
// is the message "route.odd". See message for its syntax, a part of ICU MessageFormat.
// The parser is our own, of 200 lines: golang.org/x/text/message with its catalogue and
// plurals made a small program for the browser 0.76 MB larger (0.18 MB with brotli),
// takes no text files and has no select.
package words

import (
	"embed"
	"fmt"
	"reflect"
	"strings"
	"sync"
)

//go:embed */*.txt
var files embed.FS

// Book is the language and the units in which a person reads. It is a plain value;
// the empty one is English in millimetres.
type Book struct {
	Lang   Lang
	Inches bool
}

// Msg is a message with its arguments, not yet written in a language.
type Msg struct {
	Key  string
	Args []any
}

// Of returns the message of a key with its arguments; see Book.Say.
func Of(key string, args ...any) Msg { return Msg{key, args} }

// None tells that nothing is to be said.
func (m Msg) None() bool { return m.Key == "" }

// Write returns the text of a message; "" for none.
func (b Book) Write(m Msg) string {
	if m.None() {
		return ""
	}
	return b.Say(m.Key, m.Args...)
}

// Say returns the message of a key with its arguments, each an int, a float64 (as
// short as it can be written), a string, a bool (for select), an amount of this package
// (LengthMM, DurationS...) or a Msg. A key that is in no file, a wrong number of arguments
// and one of a wrong kind are mistakes of the program: natively they panic, so that a
// test fails; on the page the key stands in the place of the text.
func (b Book) Say(key string, args ...any) string {
	text, err := b.say(key, args)
	if err != nil {
		return mistaken(key, err)
	}
	return text
}

// Has tells whether the catalogue has a key.
func Has(key string) bool { return find(English, key) != nil }

func (b Book) say(key string, args []any) (string, error) {
	e := find(b.Lang, key)
	if e == nil {
		// What a language lacks is said in English rather than not at all.
		e = find(English, key)
	}
	if e == nil {
		return "", fmt.Errorf("no message %q", key)
	}
	msg, err := e.message()
	if err != nil {
		return "", err
	}
	if msg.arity != len(args) {
		return "", fmt.Errorf("message %q takes %d arguments, not %d", key, msg.arity, len(args))
	}
	var out strings.Builder
	if err := b.write(&out, msg.parts, args); err != nil {
		return "", fmt.Errorf("message %q: %w", key, err)
	}
	return out.String(), nil
}

func (b Book) write(out *strings.Builder, parts []part, args []any) error {
	for _, p := range parts {
		if p.kind == plainText {
			out.WriteString(p.text)
			continue
		}
		text, err := b.argument(args[p.arg])
		if err != nil {
			return err
		}
		var chosen []part
		switch p.kind {
		case argument, theNumber:
			out.WriteString(text)
			continue
		case selectOf:
			chosen = choose(p.branches, text, other)
		case pluralOf:
			number, err := plainNumber(args[p.arg])
			if err != nil {
				return err
			}
			chosen = choose(p.branches, "="+number, b.Lang.of().plural(number))
		}
		if err := b.write(out, chosen, args); err != nil {
			return err
		}
	}
	return nil
}

// choose returns the branch of the first name that there is, or that of the rest.
func choose(branches []branch, names ...string) []part {
	var rest []part
	for _, name := range names {
		for _, b := range branches {
			if b.name == name {
				return b.parts
			}
			if b.name == other {
				rest = b.parts
			}
		}
	}
	return rest
}

// amount is a value that is written in the language and the units of a book.
type amount interface{ in(b Book) string }

func (b Book) argument(arg any) (string, error) {
	switch v := arg.(type) {
	case string:
		return v, nil
	case int, float64, Decimal:
		number, err := plainNumber(v)
		return b.pointed(number), err
	case bool:
		return fmt.Sprint(v), nil
	case Msg:
		return b.Write(v), nil
	case amount:
		return v.in(b), nil
	}
	if v := reflect.ValueOf(arg); v.Kind() == reflect.String {
		return v.String(), nil
	}
	return "", fmt.Errorf("argument %v of type %T", arg, arg)
}

// entry is a message as the file has it, parsed when it is first said.
type entry struct {
	text   string
	once   sync.Once
	parsed message
	err    error
}

func (e *entry) message() (message, error) {
	e.once.Do(func() { e.parsed, e.err = parse(e.text) })
	return e.parsed, e.err
}

// find returns the message of a key in a language, nil if it has none.
func find(l Lang, key string) *entry {
	if l == "" {
		l = English
	}
	place, rest, _ := strings.Cut(key, ".")
	return placeOf(l, place)[rest]
}

type source struct {
	lang  Lang
	place string
}

var opened sync.Map // source -> func() map[string]*entry

// placeOf returns the messages of a place in a language; none where there is no file.
// The file is read when the first of its messages is said.
func placeOf(l Lang, place string) map[string]*entry {
	s := source{l, place}
	read, found := opened.Load(s)
	if !found {
		read, _ = opened.LoadOrStore(s, sync.OnceValue(func() map[string]*entry {
			all, err := readPlace(l, place)
			if err != nil {
				panic(err) // the files are part of the program; a test reads them
			}
			return all
		}))
	}
	return read.(func() map[string]*entry)()
}

func readPlace(l Lang, place string) (map[string]*entry, error) {
	name := string(l) + "/" + place + ".txt"
	text, err := files.ReadFile(name)
	if err != nil {
		return nil, nil
	}
	all, err := readFile(string(text))
	if err != nil {
		return nil, fmt.Errorf("%s:%w", name, err)
	}
	return all, nil
}

// readFile reads lines of "key = text". An error begins with the number of the line.
func readFile(text string) (map[string]*entry, error) {
	all := make(map[string]*entry, strings.Count(text, "\n"))
	n := 0
	for line := range strings.Lines(text) {
		n++
		line = strings.TrimSpace(line)
		if line == "" || line[0] == '#' {
			continue
		}
		key, message, found := strings.Cut(line, "=")
		key, message = strings.TrimSpace(key), strings.TrimSpace(message)
		if !found || !isKey(key) {
			return nil, fmt.Errorf("%d: not of the form key = text", n)
		}
		if all[key] != nil {
			return nil, fmt.Errorf("%d: %s stands twice", n, key)
		}
		all[key] = &entry{text: message}
	}
	return all, nil
}

// isKey tells a key within a file: small letters, digits, points and hyphens.
func isKey(key string) bool {
	for i := range len(key) {
		if c := key[i]; !(c >= 'a' && c <= 'z' || c >= '0' && c <= '9' || c == '.' || c == '-') {
			return false
		}
	}
	return key != ""
}

// Keys returns the keys of a language with the number of arguments of each. An error
// names a message that cannot be read. It serves the checks of the catalogue.
func Keys(l Lang) (map[string]int, error) {
	list, err := files.ReadDir(string(l))
	if err != nil {
		return nil, err
	}
	out := map[string]int{}
	for _, f := range list {
		place := strings.TrimSuffix(f.Name(), ".txt")
		all, err := readPlace(l, place)
		if err != nil {
			return nil, err
		}
		for key, e := range all {
			m, err := e.message()
			if err != nil {
				return nil, fmt.Errorf("%s/%s.txt: %s: %w", l, place, key, err)
			}
			out[place+"."+key] = m.arity
		}
	}
	return out, nil
}
