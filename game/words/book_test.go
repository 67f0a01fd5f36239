package words

import (
	"strings"
	"testing"
	"time"
)

// The decimal comma, the space before % and the order of a date are those of DIN 5008
// (from memory); 1 in = 25.4 mm exactly.
func TestAmountsInGerman(t *testing.T) {
	at := time.Date(2026, time.March, 5, 7, 8, 0, 0, time.UTC)
	inches, mm := Book{German, true}, Book{German, false}
	for _, c := range []struct {
		b    Book
		arg  any
		want string
	}{
		{inches, LengthMM(34.925), "1⅜ Zoll"},
		{mm, LengthMM(9.94), "9,9 mm"},
		{mm, StitchMM(2.54), "2,5 mm"},
		{inches, StitchMM(2.42), "10,5 je Zoll"},
		{inches, ExactMM(12.7), "0,50 Zoll"},
		{inches, ThreadMM(1234), "1,3 Yard"},
		{mm, SpeedBothMM(25.4), "1,00 Zoll/s (25,4 mm/s)"},
		{mm, ClockS(12.34), "12,3 s"},
		{mm, Share(0.846), "85 %"},
		{mm, 1.25, "1,25"},
		{mm, Date(at), "5. März 2026"},
		{mm, Moment(at), "5. März 2026, 07:08"},
		{mm, And{"a", "b", 1.5}, "a, b und 1,5"},
		{Book{}, Moment(at), "5 Mar 2026, 07:08"},
		{Book{}, Or{"a", "b"}, "a or b"},
		{Book{}, And{"a"}, "a"},
		{Book{}, And{}, ""},
		{Book{}, Date(at), at.Format(Day)},
		{Book{}, Moment(at), at.Format(DayAndTime)},
	} {
		if got := c.b.Amount(c.arg); got != c.want {
			t.Errorf("%v is %q, want %q", c.arg, got, c.want)
		}
	}
}

func TestMistakesAreSeen(t *testing.T) {
	for name, say := range map[string]func() string{
		"key":    func() string { return Book{}.Say("unit.no-such") },
		"few":    func() string { return Book{}.Say("unit.percent") },
		"many":   func() string { return Book{}.Say("unit.percent", 1, 2) },
		"type":   func() string { return Book{}.Say("unit.percent", struct{}{}) },
		"nested": func() string { return Book{}.Say("unit.percent", Of("unit.no-such")) },
	} {
		func() {
			defer func() {
				if recover() == nil {
					t.Errorf("%s: nobody complains", name)
				}
			}()
			// On the page the key itself is shown.
			if text := say(); strings.Contains(text, "[unit.") {
				panic(text)
			}
		}()
	}
	if _, err := parse("{0, plural, one {a} other {b}}"); err != nil {
		t.Fatal(err)
	}
	m, _ := parse("{0, plural, one {a} other {b}}")
	if err := (Book{}).write(&strings.Builder{}, m.parts, []any{"many"}); err == nil {
		t.Error("a text is taken for a number")
	}
}

func TestFilesOfMessages(t *testing.T) {
	all, err := readFile("# a comment\n\n a-b.1 = x = {0}\n")
	if err != nil {
		t.Fatal(err)
	}
	if e := all["a-b.1"]; len(all) != 1 || e.text != "x = {0}" {
		t.Errorf("read as %v", all)
	}
	for _, text := range []string{"no message", "= text", "Key = text", "a b = text", "a = text\na = again"} {
		if _, err := readFile(text); err == nil {
			t.Errorf("%q is taken", text)
		}
	}
}

// What a language lacks is said in English, and an unknown language is English.
func TestLanguages(t *testing.T) {
	if got := (Book{Lang: "xx"}).Say("unit.percent", 5); got != "5 %" {
		t.Error(got)
	}
	for _, c := range []struct {
		tags string
		want Lang
	}{{"de-AT,en", German}, {"fr,DE,en", German}, {"fr", English}, {"", English}, {"en-US,de", English}} {
		if got := Prefer(strings.Split(c.tags, ",")...); got != c.want {
			t.Errorf("%s: %s, want %s", c.tags, got, c.want)
		}
	}
	if German.Name() != "Deutsch" || len(Languages()) != len(languages) {
		t.Error("languages are not told")
	}
}
