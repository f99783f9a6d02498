package slack

import (
	"sync"

	"golang.org/x/time/rate"
)

// verdict is what happened to a message at the gate.
type verdict int

const (
	taken    verdict = iota // it will be answered
	repeated                // it was or is being answered
	ignored                 // it is not for pottle
	busy                    // there is no room, and the person was told
	refused                 // it was not taken; Slack should send it again
)

// gate counts what was accepted and is not yet answered, as a whole, by
// workspace and by person, and keeps workspaces and persons to a rate. It knows
// the events among what is inside, and at the end waits for all.
type gate struct {
	limit, perTeam, perUser int
	teamPace, userPace      *paces

	mu     sync.Mutex
	count  int
	from   map[string]int // by workspace, and by person
	events map[string]bool
	closed bool
	empty  chan struct{} // closed when the gate is closed and nothing is inside
}

func newGate(cfg Config) *gate {
	minutely := func(n int) rate.Limit { return rate.Limit(float64(n) / 60) }
	return &gate{
		limit: cfg.Queue, perTeam: cfg.PerTeam, perUser: cfg.PerUser,
		teamPace: newPaces(minutely(cfg.TeamRate), cfg.PerTeam), userPace: newPaces(minutely(cfg.UserRate), cfg.PerUser),
		from: make(map[string]int), events: make(map[string]bool), empty: make(chan struct{}),
	}
}

// enter counts a message in and gives taken, or busy if it is one too many.
// Who got taken or busy must leave. It gives repeated if the event is inside
// already and refused once the gate is closed.
func (g *gate) enter(m *said) verdict {
	g.mu.Lock()
	defer g.mu.Unlock()
	v := taken
	switch {
	case g.closed:
		return refused
	case g.events[m.id]:
		return repeated
	case g.count >= g.limit, g.from[m.team] >= g.perTeam, g.from[m.person()] >= g.perUser,
		!g.userPace.of(m.person()).Allow(), !g.teamPace.of(m.team).Allow():
		v = busy
	}
	g.count++
	g.from[m.team]++
	g.from[m.person()]++
	g.events[m.id] = true
	return v
}

func (g *gate) leave(m *said) {
	g.mu.Lock()
	defer g.mu.Unlock()
	g.count--
	delete(g.events, m.id)
	for _, from := range []string{m.team, m.person()} {
		if g.from[from]--; g.from[from] == 0 {
			delete(g.from, from)
		}
	}
	if g.closed && g.count == 0 {
		close(g.empty)
	}
}

// close lets nothing in any more. The channel is closed once all have left.
func (g *gate) close() <-chan struct{} {
	g.mu.Lock()
	defer g.mu.Unlock()
	if !g.closed {
		g.closed = true
		if g.count == 0 {
			close(g.empty)
		}
	}
	return g.empty
}

// inside is how many were accepted and are not yet answered.
func (g *gate) inside() int {
	g.mu.Lock()
	defer g.mu.Unlock()
	return g.count
}

func (g *gate) isClosed() bool {
	g.mu.Lock()
	defer g.mu.Unlock()
	return g.closed
}
