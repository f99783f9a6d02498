package engine

import (
	"cmp"
	"sync/atomic"

	lru "github.com/hashicorp/golang-lru/v2"

	"pottle/fooddata"
)

// Options are the settings of an Engine; the zero value is the default.
type Options struct {
	// CacheSize is how many matched names are remembered; 0 means 4096. The
	// cache never changes an answer.
	CacheSize int
	// Teams is for how many teams ForTeam keeps the engine it made; 0 means 16.
	Teams int
}

// Engine works out recipes against a food table.
type Engine struct {
	table  *fooddata.Table
	team   team // of its own foods and words; none unless made by With
	size   int  // of the cache
	cache  *lru.Cache[string, Match]
	teams  *lru.Cache[string, *Engine] // made by ForTeam, shared with them
	hits   atomic.Int64
	misses atomic.Int64
}

// New returns an Engine that takes its foods from table.
func New(table *fooddata.Table, opts Options) *Engine {
	return newEngine(table, sizeOr(opts.CacheSize, 4096), newCache[*Engine](sizeOr(opts.Teams, 16)))
}

func newEngine(table *fooddata.Table, size int, teams *lru.Cache[string, *Engine]) *Engine {
	return &Engine{table: table, size: size, cache: newCache[Match](size), teams: teams}
}

// sizeOr is the size that an option gives, or def where it gives none.
func sizeOr(size, def int) int { return cmp.Or(max(size, 0), def) }

func newCache[V any](size int) *lru.Cache[string, V] {
	cache, err := lru.New[string, V](size)
	if err != nil {
		panic("engine: " + err.Error()) // only for a size below one
	}
	return cache
}

// CacheStats returns how many names were found in the cache and how many
// had to be matched.
func (e *Engine) CacheStats() (hits, misses int64) { return e.hits.Load(), e.misses.Load() }

// Table returns the food table that the engine works with.
func (e *Engine) Table() *fooddata.Table { return e.table }
