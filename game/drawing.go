package game

// drawEntered prepares the place on entering.
func (m Model) drawEntered() (Model, []Effect) { return m, nil }

// drawControl does what a control of the place asks for.
func (m Model) drawControl(c Control) (Model, []Effect) { return m, nil }

// drawPoint takes one report of a pointer.
func (m Model) drawPoint(p Pointer) (Model, []Effect) { return m, nil }

// drawBack takes the last change back, drawAgain does it again.
func (m Model) drawBack() (Model, []Effect) { return m, nil }

// drawAgain does again what was taken back last.
func (m Model) drawAgain() (Model, []Effect) { return m, nil }

// drawLaid fits the place to the screen.
func (m Model) drawLaid() Model { return m }

// designKept takes a kept document at the beginning of the visit.
func (m Model) designKept(t Thing) (Model, []Effect) { return m, nil }

// drawPhoto takes a photo to draw over.
func (m Model) drawPhoto(p Photo) (Model, []Effect) { return m, nil }

// drawKey takes a key that was pressed on the cloth; its name is c.Value, and c.Item
// is "shift" where that was held.
func (m Model) drawKey(c Control) (Model, []Effect) { return m, nil }
