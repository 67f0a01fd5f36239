package game

// backEntered prepares the place on entering.
func (m Model) backEntered() (Model, []Effect) { return m, nil }

// backControl does what a control of the place asks for.
func (m Model) backControl(c Control) (Model, []Effect) { return m, nil }

// backPoint takes one report of a pointer.
func (m Model) backPoint(p Pointer) (Model, []Effect) { return m, nil }

// backLaid fits the place to the screen.
func (m Model) backLaid() Model { return m }
