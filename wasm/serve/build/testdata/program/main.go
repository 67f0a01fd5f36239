//go:build js

// Command program is the smallest program that a site can be built around.
package main

func main() { println("threaded") }
