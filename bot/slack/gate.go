package slack

import "sync"

// verdict is what happened to a message at the gate.
type verdict int

const (
	taken    verdict = iota // it will be answered
	repeated                // it was or is being answered
	ignored                 // it is not for pottle
	busy                    // there is no room, and the person was told
	refused                 // it was not taken; Slack should send it again
)

// gate counts what was accepted and is not yet answered, as a whole and by
// person, knows the events among them, and at the end waits for all.
type gate struct {
	limit, perUser int

	mu     sync.Mutex
	count  int
	users  map[string]int
	events map[string]bool
	closed bool
	empty  chan struct{} // closed when the gate is closed and nothing is inside
}

func newGate(limit, perUser int) *gate {
	return &gate{limit: limit, perUser: perUser, users: make(map[string]int), events: make(map[string]bool), empty: make(chan struct{})}
}

// enter counts a message in and gives taken, or busy if it is one too many.
// Who got taken or busy must leave. It gives repeated if the event is inside
// already and refused once the gate is closed.
func (g *gate) enter(event, user string) verdict {
	g.mu.Lock()
	defer g.mu.Unlock()
	v := taken
	switch {
	case g.closed:
		return refused
	case g.events[event]:
		return repeated
	case g.count >= g.limit, g.users[user] >= g.perUser:
		v = busy
	}
	g.count++
	g.users[user]++
	g.events[event] = true
	return v
}

func (g *gate) leave(event, user string) {
	g.mu.Lock()
	defer g.mu.Unlock()
	g.count--
	delete(g.events, event)
	if g.users[user]--; g.users[user] == 0 {
		delete(g.users, user)
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
