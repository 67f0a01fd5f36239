package game

import (
	"fmt"
	"strconv"
	"strings"

	"unthreaded/game/top"
	"unthreaded/game/words"
	"unthreaded/path/quilt"
)

// Say puts a length in mm into the words and units of the person.
func (m Model) Say(mm float64) string { return words.Length(mm, m.Settings.Units == Inches) }

// typed reads a length as it was typed; nothing, "none" and 0 are no length at all.
func (m Model) typed(text string) (float64, error) {
	switch strings.ToLower(strings.TrimSpace(text)) {
	case "", "none", "0":
		return 0, nil
	}
	return words.ParseLength(text, m.Settings.Units == Inches)
}

// layoutControls are the controls of the layout and how they change the top.
var layoutControls = map[string]func(m Model, c Control) (top.Top, error){
	"name": func(m Model, c Control) (top.Top, error) {
		return m.Quilting.Top.SetName(strings.TrimSpace(c.Value)), nil
	},
	"rows": func(m Model, c Control) (top.Top, error) {
		n, err := wholeNumber(c.Value)
		if err != nil {
			return top.Top{}, err
		}
		return m.Quilting.Top.SetRows(n, m.Quilting.Top.Quilt.Cols, m.Say)
	},
	"cols": func(m Model, c Control) (top.Top, error) {
		n, err := wholeNumber(c.Value)
		if err != nil {
			return top.Top{}, err
		}
		return m.Quilting.Top.SetRows(m.Quilting.Top.Quilt.Rows, n, m.Say)
	},
	"setting": func(m Model, c Control) (top.Top, error) {
		return m.Quilting.Top.SetSetting(quilt.Setting(c.Value), m.Say)
	},
	"alternate": func(m Model, c Control) (top.Top, error) {
		return m.Quilting.Top.SetAlternate(quilt.Alternation(c.Value), m.Say)
	},
	"block": func(m Model, c Control) (top.Top, error) {
		mm, err := m.typed(c.Value)
		if err != nil {
			return top.Top{}, err
		}
		return m.Quilting.Top.SetBlock(mm, m.Say)
	},
	"sashing": func(m Model, c Control) (top.Top, error) {
		mm, err := m.typed(c.Value)
		if err != nil {
			return top.Top{}, err
		}
		s := m.Quilting.Top.Quilt.Sashing
		s.WidthMM = mm
		return m.Quilting.Top.SetSashing(s, m.Say)
	},
	"stones": func(m Model, c Control) (top.Top, error) {
		s := m.Quilting.Top.Quilt.Sashing
		s.Cornerstones = c.Value == "on"
		return m.Quilting.Top.SetSashing(s, m.Say)
	},
	"round": func(m Model, c Control) (top.Top, error) {
		s := m.Quilting.Top.Quilt.Sashing
		s.Round = c.Value == "on"
		return m.Quilting.Top.SetSashing(s, m.Say)
	},
	"gap": func(m Model, c Control) (top.Top, error) {
		mm, err := m.typed(c.Value)
		if err != nil {
			return top.Top{}, err
		}
		return m.Quilting.Top.SetGap(mm, m.Say)
	},
	"border-add": func(m Model, _ Control) (top.Top, error) { return m.Quilting.Top.AddBorder(m.Say) },
	"border-width": func(m Model, c Control) (top.Top, error) {
		mm, err := m.typed(c.Value)
		if err != nil {
			return top.Top{}, err
		}
		return m.border(c, func(b *quilt.Border) { b.WidthMM = mm })
	},
	"border-corners": func(m Model, c Control) (top.Top, error) {
		return m.border(c, func(b *quilt.Border) { b.Corners = c.Value == "on" })
	},
	"border-drop": func(m Model, c Control) (top.Top, error) {
		i, err := strconv.Atoi(c.Item)
		if err != nil {
			return m.Quilting.Top, nil
		}
		return m.Quilting.Top.DropBorder(i, m.Say)
	},
	"want-width": func(m Model, c Control) (top.Top, error) {
		return m.want(c, func(s *quilt.Size, mm float64) { s.W = mm })
	},
	"want-height": func(m Model, c Control) (top.Top, error) {
		return m.want(c, func(s *quilt.Size, mm float64) { s.H = mm })
	},
}

func wholeNumber(text string) (int, error) {
	n, err := strconv.Atoi(strings.TrimSpace(text))
	if err != nil {
		return 0, fmt.Errorf("%q is no whole number", strings.TrimSpace(text))
	}
	return n, nil
}

// border changes the border in whose row of the list the control stands.
func (m Model) border(c Control, set func(*quilt.Border)) (top.Top, error) {
	t := m.Quilting.Top
	i, err := strconv.Atoi(c.Item)
	if err != nil || i < 0 || i >= len(t.Quilt.Borders) {
		return t, nil
	}
	b := t.Quilt.Borders[i]
	set(&b)
	return t.SetBorder(i, b, m.Say)
}

func (m Model) want(c Control, set func(*quilt.Size, float64)) (top.Top, error) {
	t := m.Quilting.Top
	mm, err := m.typed(c.Value)
	if err != nil {
		return t, err
	}
	if mm > quilt.MaxTopMM {
		return t, fmt.Errorf("up to %s are possible", m.Say(quilt.MaxTopMM))
	}
	s := t.Want
	set(&s, mm)
	return t.SetWant(s), nil
}
