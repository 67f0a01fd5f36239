//go:build js

package view

// capsuleShader colours a point by its distance from a straight stroke with round
// ends: custom holds the place along and across the stroke from its middle, half
// its length and its radius, all in device pixels. The edge is softened over one
// pixel, so no multisampling is needed.
const capsuleShader = `//kage:unit pixels
package main

func Fragment(dst vec4, src vec2, color vec4, custom vec4) vec4 {
	beyond := max(abs(custom.x) - custom.z, 0)
	distance := length(vec2(beyond, custom.y)) - custom.w
	return color * clamp(0.5 - distance, 0, 1)
}
`
