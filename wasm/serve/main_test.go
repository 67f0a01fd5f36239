package main

import (
	"context"
	"io"
	"net"
	"net/http"
	"regexp"
	"strconv"
	"testing"
	"testing/fstest"

	"unthreaded/wasm/serve/host"
)

// TestServe reads the address that is printed, as its user does, and asks there.
func TestServe(t *testing.T) {
	handler, err := host.New(fstest.MapFS{"index.html": {Data: []byte("cloth")}})
	if err != nil {
		t.Fatal(err)
	}
	l, err := listen("0")
	if err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithCancel(t.Context())
	out, in := io.Pipe()
	ended := make(chan error)
	go func() { ended <- serve(ctx, l, handler, in) }()
	line := make([]byte, 200)
	n, err := out.Read(line)
	if err != nil {
		t.Fatal(err)
	}
	address := regexp.MustCompile(`http://127\.0\.0\.1:[0-9]+/`).Find(line[:n])
	resp, err := http.Get(string(address))
	if err != nil {
		t.Fatalf("no answer at the address in %q: %v", line[:n], err)
	}
	body, err := io.ReadAll(resp.Body)
	resp.Body.Close()
	if err != nil || string(body) != "cloth" {
		t.Errorf("expected the page, got %q (%v)", body, err)
	}
	stop()
	if err := <-ended; err != nil {
		t.Errorf("expected a quiet end, got %v", err)
	}
}

// TestListen: with the usual port taken the next free one serves; a port that was
// asked for is not exchanged for another.
func TestListen(t *testing.T) {
	first, err := listen("")
	if err != nil {
		t.Fatal(err)
	}
	defer first.Close()
	second, err := listen("")
	if err != nil {
		t.Fatal(err)
	}
	defer second.Close()
	a, b := first.Addr().(*net.TCPAddr), second.Addr().(*net.TCPAddr)
	if !a.IP.IsLoopback() || !b.IP.IsLoopback() || b.Port <= a.Port || a.Port < usualPort {
		t.Errorf("expected two rising ports of this computer from %d on, got %v and %v", usualPort, a, b)
	}
	if l, err := listen(strconv.Itoa(a.Port)); err == nil {
		l.Close()
		t.Errorf("the taken port %d was given out again", a.Port)
	}
}
