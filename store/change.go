package store

import (
	"context"
	"encoding/json"
	"math/rand/v2"
	"time"
)

var noTime time.Time

// stamp ends the keys of changes: the time, and chance for those of one moment.
func stamp(now time.Time) []byte {
	return area(nil).key(0, uint64(now.UnixNano()), rand.Uint32())[1:]
}

// record keeps a change under the workspace and, of a recipe, under it too.
func (t *tx) record(a area, c Change) error {
	c.When = t.now
	end := stamp(t.now)
	if c.Kind == "recipe" {
		if err := t.write(a.key(kindHistory, c.ID, end), c); err != nil {
			return err
		}
	}
	return t.write(a.key(kindChange, end), c)
}

// Changes returns the latest changes, newest first.
func (w *workspaceBadger) Changes(ctx context.Context, max int) ([]Change, error) {
	var out []Change
	add := collect(&out)
	err := w.view(ctx, func(t *tx) error {
		return t.each(w.area.key(kindChange), true, func(key, value []byte) (bool, error) {
			if len(out) >= max {
				return false, nil
			}
			return add(key, value)
		})
	})
	return out, err
}

// collect decodes values into a list.
func collect[T any](out *[]T) func(key, value []byte) (bool, error) {
	return func(_, value []byte) (bool, error) {
		var v T
		if err := json.Unmarshal(value, &v); err != nil {
			return false, &Error{Code: ErrCorrupt.Code, Message: "a record of the store is damaged", Err: err}
		}
		*out = append(*out, v)
		return true, nil
	}
}
