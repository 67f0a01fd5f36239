package game

// machineEntered prepares the place on entering.
func (m Model) machineEntered() (Model, []Effect) { return m, nil }

// machineControl does what a control of the place asks for.
func (m Model) machineControl(c Control) (Model, []Effect) { return m, nil }

// machineBack takes the last change back, machineAgain does it again.
func (m Model) machineBack() (Model, []Effect) { return m, nil }

// machineAgain does again what was taken back last.
func (m Model) machineAgain() (Model, []Effect) { return m, nil }

// machineLaid fits the place to the screen.
func (m Model) machineLaid() Model { return m }
