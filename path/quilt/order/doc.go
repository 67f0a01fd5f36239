// Package order plans a whole top as it is sewn: one order, kept with the quilt, that
// every place reads.
//
// # How to call it
//
//	choices := order.Choices{}                        // or the document kept with the quilt
//	o, err := order.Plan(q, designs, choices)         // quilt.Quilt, quilt.Designs
//
// Plan is pure and takes well under a second for a bed-sized top, so that it can run
// in a worker after each change: the document that is kept is Choices (Encode,
// Decode), what she decided; Order is made from it and the quilt and may be kept too,
// as it is plain data. Order.Fingerprint tells whether it is still of this quilt.
//
// An Order holds
//
//	Stages    in the order sewn: ditch, rows (and strips of sashing), borders; each with
//	          its legs: one stay in one place of the top (Cell), by one Program
//	Programs  the moves of each different block, in the block's own mm, once however
//	          often they are sewn; Leg.Where lays them on the top
//
// What is shown, stepped and printed are moves: o.Moves(stage) returns those of a stage
// on the top, o.Programs[i].Moves those of a different block. A stage is named by its
// code (StageKind and Number), a place by its cell's id; words are made above.
//
// She changes the order by Choices.Moved (a stage dragged or moved by keys), and by
// the fields Rows, NoDitch, Ways, Passes and FarEnd; each returns or takes plain values. Compare
// plans a row in all ways by name and measures them.
//
// Lengths are mm; y grows downwards; prices are mm-equivalents (see Rules).
package order
