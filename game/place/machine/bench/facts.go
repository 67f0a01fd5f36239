package bench

import (
	"unthreaded/game/plan"
	"unthreaded/game/words"
	"unthreaded/path/machine"
)

// Facts are how the machine is set and what the plan takes, as a card says it; t is the
// triangle in force, again the length in mm that is sewn twice.
func (b Bench) Facts(t machine.Triangle, again float64) []plan.Fact {
	out := []plan.Fact{
		{Name: words.Of("card.fact.foot"), Value: words.Of("machine.foot-in." + string(b.Method()))},
		{Name: words.Of("card.fact.needle"), Value: words.Of("card.spm", words.Decimal{Value: t.SPM})},
		{Name: words.Of("card.fact.stitch"), Value: words.StitchBothMM(t.Stitch)},
		{Name: words.Of("card.fact.hand"), Value: words.SpeedBothMM(t.Hand())},
		{Name: words.Of("card.fact.length"), Value: words.LengthMM(b.Plan.Work.Length())},
	}
	if again > 0 {
		out = append(out, plan.Fact{Name: words.Of("card.fact.again"), Value: words.LengthMM(again)})
	}
	if parts, err := b.Parts(t.Hand(), t.Stitch); err == nil {
		out = append(out,
			plan.Fact{Name: words.Of("card.fact.time"), Value: words.Of("card.about", words.DurationS(parts[0].Time.Total))},
			plan.Fact{Name: words.Of("card.fact.thread"), Value: words.Of("card.each", words.ThreadMM(parts[0].Thread.Top))})
	}
	if f, err := b.Bobbins(t.Stitch); err == nil && len(f.Due) > 0 {
		d := f.Due[0]
		out = append(out, plan.Fact{Name: words.Of("card.fact.bobbin"), Value: words.Of("card.due", b.Plan.Row, d.Time, words.LengthMM(d.At))})
	}
	if b.Plan.Ruled() {
		out = append(out, plan.Fact{Name: words.Of("card.fact.ruler"), Value: words.Of("card.beside", words.SmallMM(b.Mine.Offset))})
	}
	return out
}
