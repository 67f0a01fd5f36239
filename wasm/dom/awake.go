//go:build js

package dom

// StayAwake asks the browser to keep the screen lit, or lets it go dark as it does.
func StayAwake(on bool) { page.Get("awake").Call("keep", on) }
