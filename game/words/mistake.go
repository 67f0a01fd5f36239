//go:build !js

package words

import "fmt"

// mistaken stops the program that asks for what the catalogue has not: natively only
// tests do.
func mistaken(_ string, err error) string { panic(fmt.Sprintf("words: %v", err)) }
