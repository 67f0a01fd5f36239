package order

import (
	"encoding/json"
	"fmt"
	"slices"

	"unthreaded/path/machine"
)

// Schema is the number of the form in which Choices and Order are written.
const Schema = 1

// Choices are what she decided about the order of a top, a document kept with its
// quilt. The zero value is the usual order: in the ditch along the long seams from
// the middle out, then the rows from the middle out, then the borders (common
// practice: what holds the layers comes first, and slack is worked to the edges).
type Choices struct {
	Schema int    `json:"schema"`
	Quilt  string `json:"quilt,omitempty"` // the id of the quilt
	// NoDitch leaves the long seams unsewn.
	NoDitch bool `json:"no_ditch,omitempty"`
	// Rows is the order of the rows, "" for machine.MiddleOut.
	Rows machine.OrderKind `json:"rows,omitempty"`
	// Stages are the IDs of stages in an order of her own; those that are missing
	// follow in the usual order, those that the top does not have are passed over.
	Stages []string `json:"stages,omitempty"`
	// Ways and Passes are by stage ID; what is missing is chosen by the planner.
	Ways   map[string]Way    `json:"ways,omitempty"`
	Passes map[string]Passes `json:"passes,omitempty"`
	// FarEnd says by stage ID at which end a row is begun; what is missing is chosen
	// so that the needle's ways between rows are short.
	FarEnd map[string]bool `json:"far_end,omitempty"`
}

// maxStages bounds the entries of each list.
const maxStages = 1000

// rowOrders are the orders that Rows may name.
var rowOrders = []machine.OrderKind{"", machine.MiddleOut, machine.HalfAndHalf, machine.EdgesIn, machine.FirstToLast, machine.LastToFirst}

// Validate reports the first field at fault by its name.
func (c Choices) Validate() error {
	if !slices.Contains(rowOrders, c.Rows) {
		return fmt.Errorf("rows: no order is called %q", c.Rows)
	}
	if n := max(len(c.Stages), len(c.Ways), len(c.Passes), len(c.FarEnd)); n > maxStages {
		return fmt.Errorf("stages: %d, at most %d", n, maxStages)
	}
	for id, w := range c.Ways {
		if w != BlockByBlock && w != LongLines && w != LeastTwice {
			return fmt.Errorf("ways[%q]: no way is called %q", id, w)
		}
	}
	for id, p := range c.Passes {
		if p != OnePass && p != OutAndBack {
			return fmt.Errorf("passes[%q]: %q is neither %q nor %q", id, p, OnePass, OutAndBack)
		}
	}
	return nil
}

// Encode returns the choices as a document. It fails where Validate does.
func (c Choices) Encode() ([]byte, error) {
	if err := c.Validate(); err != nil {
		return nil, fmt.Errorf("order: %w", err)
	}
	c.Schema = Schema
	return json.Marshal(c)
}

// DecodeChoices reads what Encode writes and checks it whole; a form that is not
// known yet is quilt.ErrNewer.
func DecodeChoices(doc []byte) (Choices, error) {
	var c Choices
	if err := decode(doc, &c); err != nil {
		return Choices{}, fmt.Errorf("order: %w", err)
	}
	if err := c.Validate(); err != nil {
		return Choices{}, fmt.Errorf("order: %w", err)
	}
	return c, nil
}

// Moved returns the choices with a stage of the order as it is now put in another
// place of it (0: first). The choices it is called on are left as they were.
func (c Choices) Moved(now Order, id string, to int) Choices {
	var ids []string
	for _, s := range now.Stages {
		if s.ID != id {
			ids = append(ids, s.ID)
		}
	}
	if len(ids) == len(now.Stages) {
		return c
	}
	c.Stages = slices.Insert(ids, min(max(to, 0), len(ids)), id)
	return c
}
