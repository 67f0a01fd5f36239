package bench

// Step looks at the next place in the order of the rows (by +1) or at the one
// before.
func (b Bench) Step(by int) Bench {
	b.Place += by
	b.Rev++
	return b.inRows()
}

// StepLine looks at the next ruler line (by +1) or at the one before.
func (b Bench) StepLine(by int) Bench {
	b.Line = max(0, min(b.Plan.Figures.RulerLines-1, b.Line+by))
	b.Rev++
	return b
}

func (b Bench) inRows() Bench {
	b.Place = max(0, min(len(b.Layout().Rows)-1, b.Place))
	return b
}
