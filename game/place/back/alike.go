package back

import (
	"unthreaded/game/place"
	"unthreaded/game/place/back/weeks"
)

// alikeAt returns the place of a filter's value, nil for no filter.
func alikeAt(a *place.Alike, f weeks.Filter) *string {
	switch f {
	case weeks.Row:
		return &a.Row
	case weeks.Way:
		return &a.Way
	case weeks.Device:
		return &a.Device
	case weeks.Help:
		return &a.Help
	case weeks.Size:
		return &a.Size
	}
	return nil
}

// alikeBy returns the values asked for.
func alikeBy(a place.Alike) map[weeks.Filter]string {
	out := map[weeks.Filter]string{}
	for _, f := range weeks.Filters {
		if v := *alikeAt(&a, f); v != "" {
			out[f] = v
		}
	}
	return out
}

// alikeWith returns the values with one more asked for, and with it those before it in the
// order of narrowing, as they are shown: what she looks at changes in that one only.
func alikeWith(a place.Alike, f weeks.Filter, value string, shown weeks.Found) place.Alike {
	if alikeAt(&a, f) == nil {
		return a
	}
	for _, g := range weeks.Filters {
		if g == f {
			break
		}
		if len(shown.Options[g]) > 1 {
			*alikeAt(&a, g) = shown.By[g]
		}
	}
	*alikeAt(&a, f) = value
	return a
}
