package game_test

import (
	"testing"

	"pgregory.net/rapid"

	"unthreaded/game"
	"unthreaded/game/keep"
	"unthreaded/game/look"
	place "unthreaded/game/place/machine"
	"unthreaded/game/place/machine/bench"
	"unthreaded/game/words"
	"unthreaded/game/worktest"
	"unthreaded/path/machine"
	"unthreaded/path/motif"
)

func TestSettingsComeBack(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		s := game.Settings{
			Motif:    rapid.SampledFrom([]string{"linked-swirls", "ruler-zigzag"}).Draw(rt, "motif"),
			Repeats:  rapid.IntRange(0, 8).Draw(rt, "repeats"),
			SPM:      rapid.Float64Range(machine.NeedleSpeed.Min, machine.NeedleSpeed.Max).Draw(rt, "spm"),
			StitchMM: rapid.Float64Range(machine.StitchLength.Min, machine.StitchLength.Max).Draw(rt, "stitch"),
			Units:    rapid.SampledFrom([]game.Units{game.Inches, game.Millimetres}).Draw(rt, "units"),
			Hand:     rapid.SampledFrom([]game.Hand{game.LeftHand, game.RightHand}).Draw(rt, "hand"),
			FootMM:   rapid.Float64Range(game.MinFoot, game.MaxFoot).Draw(rt, "foot"),
			Lang:     rapid.SampledFrom([]words.Lang{"", words.English, words.German}).Draw(rt, "lang"),
			Theme:    rapid.SampledFrom([]string{"auto", "dark", "light"}).Draw(rt, "theme"),
			Fabric:   rapid.SampledFrom(append([]look.Theme{""}, look.Fabrics...)).Draw(rt, "fabric"),
			Follows:  rapid.SampledFrom([]game.Third{game.HandFollows, game.NeedleFollows, game.StitchFollows}).Draw(rt, "follows"),
			Way:      rapid.SampledFrom([]string{keep.Pencil, keep.Cloth}).Draw(rt, "way"),
			Guide: keep.Guide{
				Marks: rapid.SampledFrom([]string{keep.WholeLine, keep.DotsOnly, keep.EndsOnly, keep.NoMarks}).Draw(rt, "marks"),
				Lead:  rapid.SampledFrom([]string{keep.NoLead, keep.LeadAhead, keep.LeadWaits}).Draw(rt, "lead"),
				Ticks: rapid.Bool().Draw(rt, "ticks"),
			},
			Volume: rapid.Float64Range(0, 1).Draw(rt, "volume"),
			Place:  rapid.SampledFrom([]game.Place{"", game.Draw, game.Rehearse, game.Machine}).Draw(rt, "place"),
			Alike:  game.Alike{Help: rapid.SampledFrom([]string{"", "whole", "none"}).Draw(rt, "help"), Size: rapid.SampledFrom([]string{"", "100?"}).Draw(rt, "size")},
		}
		for i := range rapid.IntRange(0, len(s.Screens)).Draw(rt, "screens") {
			s.Screens[i] = game.Screen{Short: 800, Long: 1000 + float64(i), DPR: 1, PxPerMM: rapid.Float64Range(1.5, 12).Draw(rt, "px")}
		}
		if back := game.DecodeSettings(s.Encode()); back != s {
			rt.Fatalf("%+v came back as %+v", s, back)
		}
	})
}

func TestDamagedSettingsTakeTheDefault(t *testing.T) {
	d := game.DefaultSettings()
	for doc, want := range map[string]game.Settings{
		"":                          d,
		"{":                         d,
		`{"spm":"fast"}`:            d,
		`{"lang":"tlh"}`:            d,
		`{"fabric":"velvet"}`:       d,
		`{"spm":1e9,"units":"ell"}`: func() game.Settings { s := d; s.SPM = machine.NeedleSpeed.Max; return s }(),
	} {
		if got := game.DecodeSettings([]byte(doc)); got != want {
			t.Errorf("%q gives %+v, want %+v", doc, got, want)
		}
	}
	if m := game.New(game.Settings{Motif: "gone"}, 0); m.Rehearsal().Motif.ID != motif.ToRehearse()[0].ID {
		t.Errorf("a motif that is gone gives %q", m.Rehearsal().Motif.ID)
	}
}

// The language is that of the browser until she chooses one; units follow it only where
// nothing was set yet.
func TestTheLanguageIsHers(t *testing.T) {
	for _, c := range []struct {
		reads  game.Reads
		chosen string
		want   words.Book
	}{
		{game.Reads{Tags: []string{"de-CH", "en"}, Unset: true}, "", words.Book{Lang: words.German}},
		{game.Reads{Tags: []string{"de"}}, "", words.Book{Lang: words.German, Inches: true}},
		{game.Reads{Tags: []string{"en-US", "de"}, Unset: true}, "", words.Book{Lang: words.English, Inches: true}},
		{game.Reads{Tags: []string{"fi"}, Unset: true}, "", words.Book{Lang: words.English}},
		{game.Reads{Unset: true}, "", words.Book{Lang: words.English, Inches: true}},
		{game.Reads{Tags: []string{"de"}}, "en", words.Book{Lang: words.English, Inches: true}},
		{game.Reads{Tags: []string{"en"}}, "de", words.Book{Lang: words.German, Inches: true}},
	} {
		m, _ := worktest.Update(game.New(game.DefaultSettings(), 0), c.reads)
		m, _ = worktest.Update(m, game.Control{Name: "lang", Value: c.chosen})
		if got := m.Book(); got != c.want {
			t.Errorf("%v with %q chosen: %v, want %v", c.reads, c.chosen, got, c.want)
		}
	}
}

// Paper is that of her country until she has chosen one herself.
func TestThePaperIsThatOfTheCountry(t *testing.T) {
	for tag, want := range map[string]bench.Paper{"de-AT": bench.A4, "en-US": bench.Letter, "en-GB": bench.A4, "fr-CA": bench.Letter} {
		m, _ := game.Update(game.New(game.DefaultSettings(), 0), game.Reads{Tags: []string{tag}, Unset: true})
		m, _ = game.Update(m, game.Control{Name: "place", Value: "machine"})
		m, _ = game.Update(m, game.Shelf{})
		if got := m.Front().(place.Room).Bench().Mine.Paper; got != want {
			t.Errorf("%s prints on %s, want %s", tag, got, want)
		}
		chosen := bench.A4
		if want == bench.A4 {
			chosen = bench.Letter
		}
		m, _ = game.Update(m, game.Control{Name: "machine.paper", Value: string(chosen)})
		if got := m.Front().(place.Room).Bench().Mine.Paper; got != chosen {
			t.Errorf("%s prints on %s, chosen was %s", tag, got, chosen)
		}
	}
}

// Whatever the page sends in whatever order, the program goes on, its settings
// stay in range, and the line is on the cloth.
// FuzzDecodeSettings: whatever document stands in the storage, the settings that come of it
// are in range and can be written.
func FuzzDecodeSettings(f *testing.F) {
	f.Add(game.DefaultSettings().Encode())
	f.Add([]byte(`{"spm":1e308,"stitch_mm":-1,"volume":9,"screens":[{}],"guide":{"marks":"?"},"place":"nowhere","repeats":-5}`))
	f.Fuzz(func(t *testing.T, doc []byte) {
		s := game.DecodeSettings(doc)
		if !s.Triangle().Valid() || !(s.Volume >= 0 && s.Volume <= 1) {
			t.Fatalf("out of range: %+v", s)
		}
		s.Encode()
	})
}

func FuzzControls(f *testing.F) {
	f.Add("spm", "1200", "scrub", "-3")
	f.Add("stitch", "NaN", "rate", "Inf")
	f.Add("motif", "ruler-zigzag", "repeats", "99999999999")
	f.Add("open", "", "undo", "x")
	f.Fuzz(func(t *testing.T, n1, v1, n2, v2 string) {
		tb := newTable(t)
		h := even()
		h.Stop = 30
		tb.draw(h, "pen", 1)
		tb.send(game.Control{Name: n1, Value: v1, Item: v2}, game.Control{Name: n2, Value: v2, Item: v1}, game.Frame{Now: 2})
		s := tb.m.Settings
		if !s.Triangle().Valid() {
			t.Fatalf("settings out of range: %+v", s)
		}
		if !(tb.m.Rehearsal().Line.Length() > 0) || tb.m.Rehearsal().Repeats < 1 {
			t.Fatalf("no line on the cloth: %d repeats", tb.m.Rehearsal().Repeats)
		}
	})
}
