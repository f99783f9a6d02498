package engine

import (
	"sync/atomic"

	lru "github.com/hashicorp/golang-lru/v2"

	"pottle/fooddata"
)

// Options are the settings of an Engine; the zero value is the default.
type Options struct {
	// CacheSize is how many matched names are remembered; 0 means 4096. The
	// cache never changes an answer.
	CacheSize int
}

// Engine works out recipes against a food table.
type Engine struct {
	table  *fooddata.Table
	team   team // of its own foods and words; none unless made by With
	size   int  // of the cache
	cache  *lru.Cache[string, Match]
	hits   atomic.Int64
	misses atomic.Int64
}

// New returns an Engine that takes its foods from table.
func New(table *fooddata.Table, opts Options) *Engine {
	size := opts.CacheSize
	if size <= 0 {
		size = 4096
	}
	cache, err := lru.New[string, Match](size)
	if err != nil {
		panic("engine: " + err.Error()) // only for a size below one
	}
	return &Engine{table: table, size: size, cache: cache}
}

// CacheStats returns how many names were found in the cache and how many
// had to be matched.
func (e *Engine) CacheStats() (hits, misses int64) { return e.hits.Load(), e.misses.Load() }

// Table returns the food table that the engine works with.
func (e *Engine) Table() *fooddata.Table { return e.table }
