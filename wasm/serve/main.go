// Command serve builds the site and serves it on this computer alone.
//
//	go run ./wasm/serve           build quickly, serve, print the address
//	go run ./wasm/serve -build    build for release and stop
//	go run ./wasm/serve -weigh    tell how many bytes each package takes
package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"net"
	"net/http"
	"os"
	"os/signal"
	"path/filepath"
	"strconv"
	"syscall"
	"time"

	"unthreaded/wasm/serve/build"
	"unthreaded/wasm/serve/host"
)

// usualPort is tried first when no port is asked for, then those after it.
const (
	usualPort  = 8017
	portsTried = 50
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	port := flag.String("port", os.Getenv("PORT"), "port to serve on; by default 8017 or the next free one")
	release := flag.Bool("build", false, "only build, with the best compression")
	scales := flag.Bool("weigh", false, "only tell how many bytes each package takes")
	flag.Parse()
	if err := run(ctx, *port, *release, *scales); err != nil && ctx.Err() == nil {
		fmt.Fprintln(os.Stderr, "serve:", err)
		os.Exit(1)
	}
}

func run(ctx context.Context, port string, release, scales bool) error {
	root, err := build.ModuleRoot()
	if err != nil {
		return err
	}
	o := build.Options{
		Root:    root,
		Main:    filepath.Join(root, "wasm"),
		Second:  filepath.Join(root, "wasm", "work"),
		Pages:   filepath.Join(root, "wasm", "site"),
		Work:    filepath.Join(root, ".build"),
		Out:     filepath.Join(root, ".build", "site"),
		Quality: build.QuickQuality,
		Notices: os.Stderr,
	}
	if scales {
		return weighed(ctx, o)
	}
	if release {
		o.Quality = build.BestQuality
	}
	fmt.Fprintln(os.Stderr, "Building the page. The first time this takes a minute or two.")
	report, err := build.Site(ctx, o)
	if err != nil {
		return err
	}
	if release {
		fmt.Println(o.Out, "version", report.Version)
		report.WriteSizes(os.Stdout)
		return nil
	}
	handler, err := host.New(os.DirFS(o.Out))
	if err != nil {
		return err
	}
	listener, err := listen(port)
	if err != nil {
		return err
	}
	return serve(ctx, listener, handler, os.Stdout)
}

// listen opens the port asked for, or the first free one from the usual one on.
// Only this computer can reach it.
func listen(port string) (net.Listener, error) {
	if port != "" {
		return net.Listen("tcp", net.JoinHostPort("127.0.0.1", port))
	}
	for p := usualPort; p < usualPort+portsTried; p++ {
		l, err := net.Listen("tcp", net.JoinHostPort("127.0.0.1", strconv.Itoa(p)))
		if err == nil {
			return l, nil
		}
		if !errors.Is(err, syscall.EADDRINUSE) {
			return nil, err
		}
	}
	return nil, fmt.Errorf("the ports %d to %d are all in use", usualPort, usualPort+portsTried-1)
}

// serve answers until ctx ends, then lets running answers finish for a moment.
func serve(ctx context.Context, l net.Listener, h http.Handler, out io.Writer) error {
	server := &http.Server{Handler: host.Local(h), ReadTimeout: 10 * time.Second, WriteTimeout: time.Minute, IdleTimeout: time.Minute}
	fmt.Fprintf(out, "Unthreaded is at http://%s/ (Ctrl-C ends it)\n", l.Addr())
	failed := make(chan error, 1)
	go func() { failed <- server.Serve(l) }()
	select {
	case err := <-failed:
		return err
	case <-ctx.Done():
		last, cancel := context.WithTimeout(context.Background(), time.Second)
		defer cancel()
		return server.Shutdown(last)
	}
}
