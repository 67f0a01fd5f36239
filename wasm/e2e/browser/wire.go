package browser

import (
	"context"
	"strings"
	"sync"

	"github.com/chromedp/cdproto"
	"github.com/chromedp/cdproto/target"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/remote"
)

// wire is the connection to Chromium. It tells when a command for input has been
// written, which chromedp does not: a call there returns with the answer, and the
// answer to a pointer event comes with the next frame. Who knows that the one
// event is written can send the next at once and in order.
type wire struct {
	chromedp.Transport

	mu      sync.Mutex
	written map[target.SessionID]chan<- struct{}
}

func (w *wire) dial(ctx context.Context, url string) (chromedp.Transport, error) {
	conn, err := remote.DialContext(ctx, url)
	if err != nil {
		return nil, err
	}
	w.Transport = conn
	return w, nil
}

// Write sends one message and reports it if somebody waits for it.
func (w *wire) Write(ctx context.Context, m *cdproto.Message) error {
	err := w.Transport.Write(ctx, m)
	if strings.HasPrefix(string(m.Method), "Input.dispatch") {
		w.mu.Lock()
		done := w.written[m.SessionID]
		w.mu.Unlock()
		if done != nil {
			done <- struct{}{}
		}
	}
	return err
}

// watch returns a channel that receives once for each command for input written
// to the session, until stop is called. The receiver must not fall behind by
// more than one.
func (w *wire) watch(session target.SessionID) (done <-chan struct{}, stop func()) {
	ch := make(chan struct{}, 1)
	w.mu.Lock()
	defer w.mu.Unlock()
	if w.written == nil {
		w.written = map[target.SessionID]chan<- struct{}{}
	}
	w.written[session] = ch
	return ch, func() {
		w.mu.Lock()
		defer w.mu.Unlock()
		delete(w.written, session)
	}
}
