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
	if _, there := r.values[key]; !there {
		delete(r.values, r.keys[r.next])
		r.keys[r.next] = key
		r.next = (r.next + 1) % len(r.keys)
	}
	r.values[key] = value
}

func (r *recent[T]) get(key string) (T, bool) {
	r.mu.Lock()
	defer r.mu.Unlock()
	value, ok := r.values[key]
	return value, ok
}
