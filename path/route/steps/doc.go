// Package steps plans a row in the steps in which a quilter thinks of it: a line as it
// was drawn stays one, a block is sewn by whole lines in one visit, blocks that lie
// alike are sewn alike, and a row is its blocks in order.
//
// In the field's terms: a block is a rural postman problem whose required edges come
// in paths that may not be broken (a stroke, from one end to the other), solved over
// sets of strokes by dynamic programming (Held and Karp) or improved by exchange;
// travel between strokes is a shortest path that may lean on what is sewn already. A
// row is a chain of such blocks, solved by min-plus dynamic programming over the ends
// at which blocks are entered and left. What the least route of all would add, lines
// cut or not, is the least T-join of the row (route.Least), and stands beside it.
//
// PlanRow is the entry. Lengths are mm, angles radians; blocks, lines and steps are
// named by their index.
package steps
