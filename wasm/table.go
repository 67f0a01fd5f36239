//go:build js

package main

import (
	"bytes"

	"unthreaded/game"
	"unthreaded/game/keep"
	"unthreaded/wasm/dom"
)

// toldEvery is after how many traces the page is told how far the table has come.
const toldEvery = 20

// makeTable reads one trace after the other, so that no more than one is in memory.
func (a *app) makeTable(e game.MakeTable) {
	var b bytes.Buffer
	news := game.TableNews{Of: len(e.IDs)}
	table, err := keep.NewTable(&b)
	for i := 0; err == nil && i < len(e.IDs); i++ {
		var doc []byte
		if doc, err = dom.Get(e.IDs[i]); err != nil {
			break
		}
		if table.Add(doc) != nil {
			news.Damaged++
		}
		if news.Done++; news.Done%toldEvery == 0 {
			a.step(news)
		}
	}
	if err == nil {
		err = table.Flush()
	}
	if err != nil {
		a.step(game.TableNews{Err: why(err)})
		return
	}
	dom.Download(e.Name, "text/csv", b.Bytes())
	news.Finished = true
	a.step(news)
}
