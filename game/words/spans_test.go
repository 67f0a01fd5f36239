package words

import "testing"

// What is known roughly is written roughly: two digits, and a unit that two ends share
// once. 1 yd = 914.4 mm exactly (international yard and pound agreement, 1959).
func TestRoughAmounts(t *testing.T) {
	in, mm := Book{Inches: true}, Book{}
	for _, c := range []struct{ got, want string }{
		{in.Amount(RoughThreadMM(914.4 * 1234)), "1200 yd"},
		{in.Amount(RoughThreadMM(914.4 * 12.4)), "12 yd"},
		{in.Amount(RoughThreadMM(914.4 * 2.46)), "2.5 yd"},
		{mm.Amount(RoughThreadMM(123456)), "120 m"},
		{mm.Amount(RoughThreadMM(0)), "0.0 m"},
		{mm.Amount(RoughS(43)), "45 s"},
		{mm.Amount(RoughS(40 * 60)), "40 min"},
		{mm.Amount(RoughS(2*3600 + 13*60)), "2 h 15 min"},
		{mm.Amount(RoughS(7*3600 + 20*60)), "7 h 15 min"},
		{mm.Amount(Rough(12345)), "12000"},
		{mm.Amount(Rough(7)), "7"},
		{mm.Amount(Span{RoughS(7200), RoughS(7200 + 46*60)}), "2 h 00 to 2 h 45 min"},
		{mm.Amount(Span{DurationS(3600), DurationS(7200)}), "60 min to 2 h 00 min"},
		{in.Amount(Span{StitchMM(25.4 / 9), StitchMM(25.4 / 11)}), "9 to 11 per inch"},
		{mm.Amount(Span{RoughS(2.5 * 3600), RoughS(5.5 * 3600)}), "2 h 30 to 5 h 30 min"},
		{mm.Amount(Span{3, 3}), "3"},
		{mm.Amount(Span{3, 5}), "3 to 5"},
		{mm.Amount(Span{RoughThreadMM(12000), RoughThreadMM(15000)}), "12 to 15 m"},
		{Book{Lang: German}.Amount(Span{RoughThreadMM(1200), RoughThreadMM(15000)}), "1,2 bis 15 m"},
	} {
		if c.got != c.want {
			t.Errorf("got %q, want %q", c.got, c.want)
		}
	}
}
