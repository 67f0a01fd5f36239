package game

// quiltEntered prepares the place on entering.
func (m Model) quiltEntered() (Model, []Effect) { return m, nil }

// quiltControl does what a control of the place asks for.
func (m Model) quiltControl(c Control) (Model, []Effect) { return m, nil }

// quiltPoint takes one report of a pointer.
func (m Model) quiltPoint(p Pointer) (Model, []Effect) { return m, nil }

// quiltBack takes the last change back, quiltAgain does it again.
func (m Model) quiltBack() (Model, []Effect) { return m, nil }

// quiltAgain does again what was taken back last.
func (m Model) quiltAgain() (Model, []Effect) { return m, nil }

// quiltLaid fits the place to the screen.
func (m Model) quiltLaid() Model { return m }

// quiltKept takes a kept document at the beginning of the visit.
func (m Model) quiltKept(t Thing) (Model, []Effect) { return m, nil }

// quiltKey takes a key that was pressed on the cloth; its name is c.Value, and c.Item
// is "shift" where that was held.
func (m Model) quiltKey(c Control) (Model, []Effect) { return m, nil }
