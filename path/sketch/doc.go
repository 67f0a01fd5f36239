// Package sketch turns what a hand draws into clean lines and lets them be changed:
// strokes fitted by smooth curves, nodes and handles moved, copies mirrored and
// repeated, dots spaced for the ruler, a photo squared up to its true size. All
// functions are pure: they return new values and leave what they were given alone.
// Lengths are mm, angles radians, y grows downwards.
//
// A line is a geom.Spline. Its nodes are the points 0, 3, 6, ... of it, counted as
// nodes 0, 1, 2, ...; the points between them are the handles. Of a closed line the
// first and the last node are one, and either number stands for it.
package sketch
