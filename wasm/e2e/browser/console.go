package browser

import (
	"context"
	"fmt"
	"strings"
	"sync"
	"time"

	"github.com/chromedp/chromedp"
)

// violationScript makes a line on the console of each violation of the content
// security policy. Chromium reports some itself and keeps silent on others.
const violationScript = `document.addEventListener('securitypolicyviolation', e => console.error(
	'policy violation: ' + e.violatedDirective + ' forbids ' + (e.blockedURI || e.sourceFile)))`

// console collects what a page says. Safe for use by several goroutines.
type console struct {
	mu       sync.Mutex
	messages []chromedp.ConsoleMessage
	expected []string // texts that errors may hold
	came     chan struct{}
}

// listen collects from now on, until ctx ends.
func listen(ctx context.Context) *console {
	c := &console{came: make(chan struct{}, 1)}
	messages := chromedp.Console(ctx)
	go func() {
		for m, err := range messages {
			if err != nil {
				return
			}
			c.mu.Lock()
			c.messages = append(c.messages, m)
			c.mu.Unlock()
			select {
			case c.came <- struct{}{}:
			default:
			}
		}
	}()
	return c
}

// Expect allows errors on the console that hold the text. One that never comes
// fails the test, so that no stale allowance stays behind.
func (p *Page) Expect(text string) {
	p.console.mu.Lock()
	defer p.console.mu.Unlock()
	p.console.expected = append(p.console.expected, text)
}

// Console lists what the page has said so far, a line each: "error: ...".
func (p *Page) Console() []string {
	p.console.mu.Lock()
	defer p.console.mu.Unlock()
	lines := make([]string, 0, len(p.console.messages))
	for _, m := range p.console.messages {
		if !isMark(m) {
			lines = append(lines, m.String())
		}
	}
	return lines
}

// complaints lists the errors that nobody expected.
func (c *console) complaints() []string {
	c.mu.Lock()
	defer c.mu.Unlock()
	var bad []string
	for _, m := range c.messages {
		if !m.IsException() && m.Type != chromedp.ConsoleError && m.Type != "assert" {
			continue
		}
		if !holdsAny(m.Text, c.expected) {
			bad = append(bad, fmt.Sprintf("%v (%s:%d)", m, m.URL, m.Line+1))
		}
	}
	return bad
}

// missing lists the expected texts that no message holds.
func (c *console) missing() []string {
	c.mu.Lock()
	defer c.mu.Unlock()
	var absent []string
	for _, text := range c.expected {
		found := false
		for _, m := range c.messages {
			found = found || strings.Contains(m.Text, text)
		}
		if !found {
			absent = append(absent, text)
		}
	}
	return absent
}

func holdsAny(text string, parts []string) bool {
	for _, part := range parts {
		if strings.Contains(text, part) {
			return true
		}
	}
	return false
}

// check fails the test for every complaint, at its end.
func (c *console) check(p *Page) {
	c.flush(p.ctx)
	for _, bad := range c.complaints() {
		p.tb.Errorf("the page complained: %s", bad)
	}
	for _, text := range c.missing() {
		p.tb.Errorf("the page was expected to complain of %q and did not", text)
	}
}

// mark is a message of the harness itself: all that came before it is known
// once it has come.
const mark = "harness: all said"

func isMark(m chromedp.ConsoleMessage) bool { return m.Text == mark }

// flush waits until all that the page has said is collected. A page that has gone
// cannot say more, so failing to ask it is no error.
func (c *console) flush(ctx context.Context) {
	ctx, cancel := context.WithTimeout(ctx, 5*time.Second)
	defer cancel()
	marks := c.countMarks()
	if chromedp.Do(ctx, chromedp.Evaluate[chromedp.Void](fmt.Sprintf("console.debug(%q)", mark))) != nil {
		return
	}
	for c.countMarks() == marks {
		select {
		case <-c.came:
		case <-ctx.Done():
			return
		}
	}
}

func (c *console) countMarks() int {
	c.mu.Lock()
	defer c.mu.Unlock()
	n := 0
	for _, m := range c.messages {
		if isMark(m) {
			n++
		}
	}
	return n
}

// tail gives the last words of the page, for messages of failure.
func (c *console) tail() string {
	if c == nil {
		return ""
	}
	c.mu.Lock()
	defer c.mu.Unlock()
	last := c.messages[max(0, len(c.messages)-10):]
	if len(last) == 0 {
		return ""
	}
	var b strings.Builder
	b.WriteString("\nthe page said last:")
	for _, m := range last {
		fmt.Fprintf(&b, "\n\t%v", m)
	}
	return b.String()
}
