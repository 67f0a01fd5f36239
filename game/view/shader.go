//go:build js

package view

import _ "embed"

// capsuleShader colours a point by its distance from a straight stroke with round
// ends: custom holds the place along and across the stroke from its middle, half
// its length and its radius, all in device pixels. The edge is softened over one
// pixel, so no multisampling is needed.
//
//go:embed capsule.kage
var capsuleShader []byte
