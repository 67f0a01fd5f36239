package control

import (
	"errors"
	"testing"
)

func TestRead(t *testing.T) {
	for _, c := range []struct {
		decl Decl
		sent Sent
		want Event
		err  Reason
	}{
		{Decl{Kind: Press}, Sent{Value: "x"}, Event{}, ""},
		{Decl{Kind: Press, OfItem: true}, Sent{Item: "a"}, Event{Item: "a"}, ""},
		{Decl{Kind: Press, OfItem: true}, Sent{}, Event{}, NoItem},
		{Decl{Kind: Toggle}, Sent{Value: "on"}, Event{On: true}, ""},
		{Decl{Kind: Toggle}, Sent{Value: "off"}, Event{}, ""},
		{Decl{Kind: Toggle}, Sent{Value: "true"}, Event{}, NotOnOff},
		{Decl{Kind: Number, Min: 1, Max: 6}, Sent{Value: "2.5"}, Event{Number: 2.5}, ""},
		{Decl{Kind: Number, Min: 1, Max: 6}, Sent{Value: "6"}, Event{Number: 6}, ""},
		{Decl{Kind: Number, Min: 1, Max: 6}, Sent{Value: "6.1"}, Event{}, OutOfRange},
		{Decl{Kind: Number, Min: 1, Max: 6}, Sent{Value: "0.9"}, Event{}, OutOfRange},
		{Decl{Kind: Number}, Sent{Value: "-1e3"}, Event{Number: -1000}, ""},
		{Decl{Kind: Number}, Sent{Value: "NaN"}, Event{}, NotANumber},
		{Decl{Kind: Number}, Sent{Value: "Inf"}, Event{}, NotANumber},
		{Decl{Kind: Number}, Sent{Value: ""}, Event{}, NotANumber},
		{Decl{Kind: Choice, Choices: []string{"", "in"}}, Sent{Value: ""}, Event{}, ""},
		{Decl{Kind: Choice, Choices: []string{"mm", "in"}}, Sent{Value: "in"}, Event{Text: "in"}, ""},
		{Decl{Kind: Choice, Choices: []string{"mm", "in"}}, Sent{Value: "cm"}, Event{}, NotAChoice},
		{Decl{Kind: Text, Max: 3}, Sent{Value: "äöü"}, Event{Text: "äöü"}, ""},
		{Decl{Kind: Text, Max: 3}, Sent{Value: "four"}, Event{}, TooLong},
		{Decl{Kind: File}, Sent{Value: "<svg/>"}, Event{Text: "<svg/>"}, ""},
		{Decl{Kind: Key}, Sent{Value: "ArrowUp", Item: "shift"}, Event{Text: "ArrowUp", Shift: true}, ""},
		{Decl{Kind: Wheel}, Sent{Value: "0 -3", Item: "10.5 20 zoom"}, Event{Turn: Turn{0, -3, 10.5, 20, true}}, ""},
		{Decl{Kind: Wheel}, Sent{Value: "1 2", Item: "3 4"}, Event{Turn: Turn{1, 2, 3, 4, false}}, ""},
		{Decl{Kind: Wheel}, Sent{Value: "1", Item: "3 4"}, Event{}, NotATurn},
		{Decl{Kind: Wheel}, Sent{Value: "1 x", Item: "3 4"}, Event{}, NotATurn},
	} {
		c.decl.Name, c.want.Name = "c", "c"
		got, err := c.decl.Read(c.sent)
		var wrong *Error
		switch {
		case c.err == "" && (err != nil || got != c.want):
			t.Errorf("%v by %v is %v (%v), want %v", c.sent, c.decl, got, err, c.want)
		case c.err != "" && (!errors.As(err, &wrong) || wrong.Reason != c.err || wrong.Decl.Name != "c" || wrong.Value != c.sent.Value):
			t.Errorf("%v by %v fails with %v, want %q", c.sent, c.decl, err, c.err)
		}
	}
}

type state struct {
	spm   float64
	notes []string
}

func TestTable(t *testing.T) {
	table := NewTable(
		Bound[state]{Decl{Name: "spm", Kind: Number, Min: 100, Max: 1200}, func(s state, e Event) state {
			s.spm = e.Number
			return s
		}},
		Bound[state]{Decl{Name: "note", Kind: Text}, func(s state, e Event) state {
			s.notes = append(s.notes[:len(s.notes):len(s.notes)], e.Text)
			return s
		}},
	)
	s, err := table.Do(state{spm: 600}, Sent{Name: "spm", Value: "700"})
	if err != nil || s.spm != 700 {
		t.Errorf("%v, %v", s, err)
	}
	for sent, slip := range map[Sent]bool{{Name: "spm", Value: "7000"}: true, {Name: "spn", Value: "700"}: false} {
		after, err := table.Do(s, sent)
		var wrong *Error
		if !errors.As(err, &wrong) || wrong.Slip() != slip || wrong.Decl.Name != sent.Name || after.spm != s.spm {
			t.Errorf("%v: %v, %v", sent, after, err)
		}
	}
	if d := table.Decls(); len(d) != 2 || d[0].Name != "note" || d[1].Max != 1200 {
		t.Errorf("declared as %v", d)
	}
	for name, twice := range map[string][]Bound[state]{"twice": {table["spm"], table["spm"]}, "idle": {{Decl: Decl{Name: "idle"}}}} {
		func() {
			defer func() {
				if recover() == nil {
					t.Errorf("%s is taken", name)
				}
			}()
			NewTable(twice...)
		}()
	}
}

func FuzzReadTurn(f *testing.F) {
	f.Add("1 2", "3 4 zoom")
	f.Fuzz(func(t *testing.T, value, item string) {
		if _, err := (Decl{Name: "wheel", Kind: Wheel}).Read(Sent{"wheel", value, item}); err != nil {
			var wrong *Error
			if !errors.As(err, &wrong) {
				t.Fatal(err)
			}
		}
	})
}
