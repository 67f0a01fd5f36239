//go:build js

package dom

// Listen has the page make itself ready for sound, or be silent. A browser lets a
// page sound only after the person has done something on it, so this belongs into
// the handling of what she did.
func Listen(on bool) { page.Get("sound").Call("listen", on) }

// Sound sounds ticks at the given times in s on the clock of events, or as soon as
// they can be; volume is 0 to 1, beats are lower.
func Sound(at []float64, volume float64, beats bool) {
	sound := page.Get("sound")
	for _, t := range at {
		sound.Call("tick", t, volume, beats)
	}
}
