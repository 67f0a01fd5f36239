package order

import (
	"slices"
	"testing"
)

// What is told of a plan in the making begins at nothing, never falls, and tells of each stage.
func TestPlanTelling(t *testing.T) {
	q, d := denseQuilt(2, 2, 1)
	var told []float64
	o, err := PlanTelling(q, d, Choices{}, func(s float64) { told = append(told, s) })
	if err != nil || len(told) < len(o.Stages) || told[0] != 0 || !slices.IsSorted(told) || told[len(told)-1] >= 1 {
		t.Errorf("told %v of %d stages (%v)", told, len(o.Stages), err)
	}
}
