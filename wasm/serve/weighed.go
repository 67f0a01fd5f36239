package main

import (
	"context"
	"fmt"
	"os"

	"unthreaded/wasm/serve/build"
	"unthreaded/wasm/serve/weigh"
)

// listedBytes is the weight from which on a package is listed.
const listedBytes = 50_000

// weighed prints the packages of each program whose functions take 50 kB or more, before
// compression, and what the rest takes together.
func weighed(ctx context.Context, o build.Options) error {
	programs, err := build.Named(ctx, o)
	if err != nil {
		return err
	}
	for _, named := range programs {
		module, err := os.ReadFile(named.File)
		if err != nil {
			return err
		}
		p, err := weigh.Read(module)
		if err != nil {
			return fmt.Errorf("%s: %w", named.Name, err)
		}
		fmt.Printf("%s: %d bytes of functions, %d of data\n", named.Name, p.Code, p.Data)
		rest, n := 0, 0
		for _, k := range p.Packages(named.Packages) {
			if k.Bytes < listedBytes {
				rest, n = rest+k.Bytes, n+1
				continue
			}
			fmt.Printf("%9d  %s\n", k.Bytes, k.Path)
		}
		fmt.Printf("%9d  %d lighter packages\n", rest, n)
	}
	return nil
}
