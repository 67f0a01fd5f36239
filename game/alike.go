package game

import "unthreaded/game/weeks"

// Alike holds the values of the filters she asked for where traces are looked back on;
// empty is what can be judged best. A value that no trace has waits until one has it.
type Alike struct {
	Row    string `json:"row,omitempty"`
	Way    string `json:"way,omitempty"`
	Device string `json:"device,omitempty"`
	Help   string `json:"help,omitempty"`
	Size   string `json:"size,omitempty"`
}

// at returns the place of a filter's value, nil for no filter.
func (a *Alike) at(f weeks.Filter) *string {
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

// by returns the values asked for.
func (a Alike) by() map[weeks.Filter]string {
	out := map[weeks.Filter]string{}
	for _, f := range weeks.Filters {
		if v := *a.at(f); v != "" {
			out[f] = v
		}
	}
	return out
}

// with returns the values with one more asked for, and with it those before it in the
// order of narrowing, as they are shown: what she looks at changes in that one only.
func (a Alike) with(f weeks.Filter, value string, shown weeks.Found) Alike {
	if a.at(f) == nil {
		return a
	}
	for _, g := range weeks.Filters {
		if g == f {
			break
		}
		if len(shown.Options[g]) > 1 {
			*a.at(g) = shown.By[g]
		}
	}
	*a.at(f) = value
	return a
}
