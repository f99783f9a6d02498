package slack

import "sync"

// recent keeps the last values put in, by key; older ones are dropped.
type recent[T any] struct {
	mu     sync.Mutex
	values map[string]T
	keys   []string // a ring, the oldest at next
	next   int
}

func newRecent[T any](size int) *recent[T] {
	return &recent[T]{values: make(map[string]T), keys: make([]string, size)}
}

func (r *recent[T]) put(key string, value T) {
	r.mu.Lock()
	defer r.mu.Unlock()
	if _, there := r.values[key]; there {
		r.values[key] = value
		return
	}
	r.add(key, value)
}

// add puts in a value that is not there; the caller holds mu.
func (r *recent[T]) add(key string, value T) {
	delete(r.values, r.keys[r.next])
	r.keys[r.next] = key
	r.next = (r.next + 1) % len(r.keys)
	r.values[key] = value
}

// putNew puts a value in, unless there is one already, and reports whether it
// did.
func (r *recent[T]) putNew(key string, value T) bool {
	r.mu.Lock()
	defer r.mu.Unlock()
	if _, there := r.values[key]; there {
		return false
	}
	r.add(key, value)
	return true
}

func (r *recent[T]) get(key string) (T, bool) {
	r.mu.Lock()
	defer r.mu.Unlock()
	value, ok := r.values[key]
	return value, ok
}
