package slack

import (
	"sync"

	"golang.org/x/time/rate"
)

// paces holds a rate for each of many keys: channels, persons, workspaces.
type paces struct {
	limit rate.Limit
	burst int

	mu  sync.Mutex
	all map[string]*rate.Limiter
}

// newPaces allows each key a burst of so many, and then one by one at a rate.
func newPaces(limit rate.Limit, burst int) *paces {
	return &paces{limit: limit, burst: burst, all: make(map[string]*rate.Limiter)}
}

// mostPaces is the number of keys beyond which those that have been quiet are
// forgotten.
const mostPaces = 10_000

func (p *paces) of(key string) *rate.Limiter {
	p.mu.Lock()
	defer p.mu.Unlock()
	l := p.all[key]
	if l == nil {
		if len(p.all) >= mostPaces {
			for key, l := range p.all {
				if l.Tokens() >= float64(p.burst) {
					delete(p.all, key)
				}
			}
		}
		l = rate.NewLimiter(p.limit, p.burst)
		p.all[key] = l
	}
	return l
}
