package words

import (
	"fmt"
	"strconv"
	"strings"
	"testing"

	"golang.org/x/text/feature/plural"
	tags "golang.org/x/text/language"
)

// written formats a message outside the catalogue.
func written(t testing.TB, b Book, text string, args ...any) string {
	t.Helper()
	m, err := parse(text)
	if err != nil {
		t.Fatal(err)
	}
	var out strings.Builder
	if err := b.write(&out, m.parts, args); err != nil {
		t.Fatal(err)
	}
	return out.String()
}

// The quoting cases are those of ICU4J, class MessagePattern, ApostropheMode
// DOUBLE_OPTIONAL ("I see {many}" quoted, "I don't" not) and of the ICU User Guide,
// Formatting Messages; the guests follow the guide's example of nested choices.
func TestMessage(t *testing.T) {
	guests := "{0, select, female {{1, plural, =0 {{2} gives no party.} one {{2} invites # guest to her party.} other {{2} invites # guests to her party.}}}" +
		" other {{1, plural, =0 {{2} gives no party.} one {{2} invites # guest.} other {{2} invites # guests.}}}}"
	for _, c := range []struct {
		text string
		args []any
		want string
	}{
		{"plain", nil, "plain"},
		{"I don't", nil, "I don't"},
		{"I don''t", nil, "I don't"},
		{"I see '{many}'", nil, "I see {many}"},
		{"I said '{''Wow!''}'", nil, "I said {'Wow!'}"},
		{"so: '{'", nil, "so: {"},
		{"# 3", nil, "# 3"},
		{"{1} before {0}", []any{"a", "b"}, "b before a"},
		{"{ 0 }", []any{7}, "7"},
		{"{0, plural, one {# row} other {# rows}}", []any{1}, "1 row"},
		{"{0, plural, one {# row} other {# rows}}", []any{0}, "0 rows"},
		{"{0, plural, one {# row} other {# rows}}", []any{1.5}, "1.5 rows"},
		{"{0, plural, one {# row} other {# rows}}", []any{Decimal{1, 1}}, "1.0 rows"},
		{"{0, plural, =1 {the row} one {# row} other {# rows}}", []any{1}, "the row"},
		{"{0,plural,other{a '#' of #}}", []any{2}, "a # of 2"},
		{"{0, select, true {on} other {off}}", []any{false}, "off"},
		{"{0}", []any{Msg{"unit.length-mm", []any{3}}}, "3 mm"},
		{"{0}{1}", []any{Msg{}, partKindText("x")}, "x"},
		{guests, []any{"female", 0, "Ada"}, "Ada gives no party."},
		{guests, []any{"female", 1, "Ada"}, "Ada invites 1 guest to her party."},
		{guests, []any{"they", 3, "Jo"}, "Jo invites 3 guests."},
	} {
		if got := written(t, Book{}, c.text, c.args...); got != c.want {
			t.Errorf("%s with %v is %q, want %q", c.text, c.args, got, c.want)
		}
	}
	for _, text := range []string{
		"{", "}", "{0", "{x}", "{10}", "{0, plural}", "{0, date, short}", "{0, plural, one {a}}", "{0, plural, one {a} other {b}",
		"{0, select, {a} other {b}}", "{0, plural, odd {a} other {b}}", "{0, plural, one {a} one {b} other {c}}", "{0, plural, =x {a} other {b}}", "{0, plural, other {",
	} {
		if m, err := parse(text); err == nil {
			t.Errorf("%s is read as %v", text, m)
		}
	}
}

type partKindText string

// The reference is golang.org/x/text/feature/plural, made from CLDR.
func TestPluralRules(t *testing.T) {
	for _, l := range languages {
		for _, text := range []string{"0", "1", "2", "3", "5", "11", "21", "100", "101", "1000000", "0.0", "0.5", "1.0", "1.5", "2.0", "10.1"} {
			whole, parts, _ := strings.Cut(text, ".")
			i, _ := strconv.Atoi(whole)
			f, _ := strconv.Atoi("0" + parts)
			trimmed := strings.TrimRight(parts, "0")
			tt, _ := strconv.Atoi("0" + trimmed)
			form := plural.Cardinal.MatchPlural(tags.Make(string(l.tag)), i, len(parts), len(trimmed), f, tt)
			names := map[plural.Form]string{plural.Other: other, plural.Zero: "zero", plural.One: "one", plural.Two: "two", plural.Few: "few", plural.Many: "many"}
			if got := l.plural(text); got != names[form] {
				t.Errorf("%s: %s is %q, by CLDR %q", l.tag, text, got, names[form])
			}
		}
	}
}

// Whatever is read can be written with the arguments it asks for, and plain text comes
// out as it went in.
func FuzzParse(f *testing.F) {
	for _, s := range []string{"a {0} b", "{0, plural, one {# x} other {# y}}", "{1, select, a {'{'} other {{0}}}", "it's ''", "{0,plural,=3{'#'}other{#}}"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		m, err := parse(text)
		if err != nil {
			return
		}
		args := make([]any, m.arity)
		for i := range args {
			args[i] = 1
		}
		got := written(t, Book{}, text, args...)
		if !strings.ContainsAny(text, "{}'") && got != text {
			t.Fatalf("%q became %q", text, got)
		}
	})
}

func BenchmarkOpen(b *testing.B) {
	var text strings.Builder
	for i := range 2500 {
		fmt.Fprintf(&text, "key-%d = {0, plural, one {# place where an odd number of lines meet} other {# places where an odd number of lines meet}} on %d\n", i, i)
	}
	for b.Loop() {
		if _, err := readFile(text.String()); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkSay(b *testing.B) {
	book := Book{English, true}
	for b.Loop() {
		book.Say("unit.speed-both", Decimal{12.3, 1}, LengthMM(34.9))
	}
}
