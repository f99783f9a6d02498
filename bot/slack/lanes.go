package slack

import "sync"

// lanes runs jobs: those of one key one after the other in the order they were
// added, those of different keys at the same time. How many jobs there are in
// all is bounded by who adds them (see gate).
type lanes struct {
	slots chan struct{} // one for each job that may run at once; nil for any number

	mu      sync.Mutex
	waiting map[string][]func() // of the lanes that have a goroutine
}

// newLanes returns lanes that run at most atOnce jobs at a time, or any number
// if it is 0.
func newLanes(atOnce int) *lanes {
	l := &lanes{waiting: make(map[string][]func())}
	if atOnce > 0 {
		l.slots = make(chan struct{}, atOnce)
	}
	return l
}

// add puts a job at the end of a lane. The job must not panic.
func (l *lanes) add(key string, job func()) {
	l.mu.Lock()
	defer l.mu.Unlock()
	jobs, runs := l.waiting[key]
	l.waiting[key] = append(jobs, job)
	if !runs {
		go l.run(key)
	}
}

// has reports whether a lane has jobs.
func (l *lanes) has(key string) bool {
	l.mu.Lock()
	defer l.mu.Unlock()
	_, runs := l.waiting[key]
	return runs
}

// run works off a lane and ends when it is empty.
func (l *lanes) run(key string) {
	for {
		l.mu.Lock()
		jobs := l.waiting[key]
		if len(jobs) == 0 {
			delete(l.waiting, key)
			l.mu.Unlock()
			return
		}
		job := jobs[0]
		jobs[0] = nil
		l.waiting[key] = jobs[1:]
		l.mu.Unlock()

		if l.slots != nil {
			l.slots <- struct{}{}
		}
		job()
		if l.slots != nil {
			<-l.slots
		}
	}
}
