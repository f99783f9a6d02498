package store

import (
	"bytes"
	"cmp"
	"context"
	"encoding/binary"
	"slices"
	"strings"
)

// The search reads index keys only, then the heads of the recipes it returns:
// each condition gives a set of ids, and the sets are intersected.

// rid is a recipe's id as it stands in keys.
type rid [idLen]byte

type idSet map[rid]struct{}

// ranked is an id with the number that orders it.
type ranked struct {
	by uint64
	id rid
}

// FindRecipes searches by name, tags and figures.
func (w *workspaceBadger) FindRecipes(ctx context.Context, q Query) (Found, error) {
	if err := q.valid(); err != nil {
		return Found{}, err
	}
	if q.Max == 0 {
		q.Max = 20
	}
	var f Found
	err := w.view(ctx, func(t *tx) error {
		sets, err := t.named(ctx, w.area, q)
		if err != nil {
			return err
		}
		var page []rid
		if len(q.Limits) == 0 {
			page, f.Total, err = t.byName(ctx, w.area, q, sets)
		} else {
			page, f.Total, f.Maybe, err = t.byFigures(ctx, w.area, q, sets)
		}
		if err != nil {
			return err
		}
		for _, id := range page {
			h, err := t.head(w.area, string(id[:]))
			if err != nil {
				return err
			}
			f.Recipes = append(f.Recipes, h)
		}
		return nil
	})
	if err != nil {
		return Found{}, err
	}
	return f, nil
}

func (q Query) valid() error {
	if q.Skip < 0 || q.Max < 0 || q.Max > MaxFound {
		return fault(ErrInvalid, "recipes are found from 0 on and at most %d at once", MaxFound)
	}
	for _, l := range q.Limits {
		if err := l.valid(); err != nil {
			return err
		}
	}
	return nil
}

func (l Limit) valid() error {
	if err := validTagname(l.Tag); err != nil {
		return err
	}
	if l.Bound != AtMost && l.Bound != AtLeast {
		return fault(ErrInvalid, "%q is no bound of a limit", l.Bound)
	}
	if !finite(l.Value) {
		return fault(ErrInvalid, "the limit of %s is %v", l.Tag, l.Value)
	}
	return nil
}

// named gives a set for each word and each tag.
func (t *tx) named(ctx context.Context, a area, q Query) ([]idSet, error) {
	var prefixes [][]byte
	for _, word := range wordsOf(q.Words) {
		if len(word) > 3 {
			word = strings.TrimSuffix(word, "s")
		}
		prefixes = append(prefixes, a.key(kindWord, word))
	}
	for _, tag := range q.Tags {
		prefixes = append(prefixes, a.key(kindTag, fold(tag), byte(0)))
	}
	var sets []idSet
	for _, p := range prefixes {
		set := idSet{}
		err := t.scan(ctx, p, nil, func(key []byte) { set[lastID(key)] = struct{}{} })
		if err != nil {
			return nil, err
		}
		sets = append(sets, set)
	}
	return sets, nil
}

// byName goes through the names in order.
func (t *tx) byName(ctx context.Context, a area, q Query, sets []idSet) (page []rid, total int, err error) {
	var steps int
	err = t.each(a.key(kindName), false, func(_, id []byte) (bool, error) {
		if steps++; steps%1024 == 0 && ctx.Err() != nil {
			return false, ctx.Err()
		}
		if r := lastID(id); inAll(r, sets) {
			if total >= q.Skip && len(page) < q.Max {
				page = append(page, r)
			}
			total++
		}
		return true, nil
	})
	return page, total, err
}

// byFigures collects what meets each limit and what may, and orders by the
// first limit's figure.
func (t *tx) byFigures(ctx context.Context, a area, q Query, sets []idSet) (page []rid, total, maybe int, err error) {
	var sureFirst, maybeFirst []ranked
	sure, either := slices.Clone(sets), slices.Clone(sets)
	for i, l := range q.Limits {
		s, m, err := t.limit(ctx, a, l)
		if err != nil {
			return nil, 0, 0, err
		}
		if i == 0 {
			sureFirst, maybeFirst = s, m
			continue
		}
		set := make(idSet, len(s)+len(m))
		for _, r := range s {
			set[r.id] = struct{}{}
		}
		sure = append(sure, set)
		if len(m) > 0 {
			both := make(idSet, len(s)+len(m))
			for _, r := range slices.Concat(s, m) {
				both[r.id] = struct{}{}
			}
			set = both
		}
		either = append(either, set)
	}
	for _, r := range sureFirst {
		switch {
		case inAll(r.id, sure):
			if total >= q.Skip && len(page) < q.Max {
				page = append(page, r.id)
			}
			total++
		case inAll(r.id, either):
			maybe++
		}
	}
	for _, r := range maybeFirst {
		if inAll(r.id, either) {
			maybe++
		}
	}
	return page, total, maybe, nil
}

// limit returns what meets a limit, best first, and what may meet it. A figure
// that is "at least" meets a lower bound that it has reached and never an upper one.
func (t *tx) limit(ctx context.Context, a area, l Limit) (sure, maybe []ranked, err error) {
	known, least := a.figure(l.Tag, false), a.figure(l.Tag, true)
	// beyond is the first key over the value, at the first with the value.
	beyond := func(p []byte) []byte { return after(append(slices.Clip(p), a.floatID(l.Value, "")...)) }
	at := func(p []byte) []byte { return append(slices.Clip(p), a.floatID(l.Value, "")...) }

	switch l.Bound {
	case AtMost:
		if sure, err = t.figures(ctx, known, nil, beyond(known)); err == nil {
			maybe, err = t.figures(ctx, least, nil, beyond(least))
		}
	case AtLeast:
		if sure, err = t.figures(ctx, known, at(known), nil); err != nil {
			return nil, nil, err
		}
		more, err := t.figures(ctx, least, at(least), nil)
		if err != nil {
			return nil, nil, err
		}
		sure = append(sure, more...)
		slices.SortStableFunc(sure, func(x, y ranked) int { return cmp.Compare(y.by, x.by) })
		maybe, err = t.figures(ctx, least, nil, at(least))
		return sure, maybe, err
	}
	return sure, maybe, err
}

// figures reads index keys of a figure from a key on and before another.
func (t *tx) figures(ctx context.Context, prefix, from, until []byte) ([]ranked, error) {
	var out []ranked
	it := t.keys(prefix)
	defer it.Close()
	if from == nil {
		from = prefix
	}
	for it.Seek(from); it.Valid(); it.Next() {
		key := it.Item().Key()
		if until != nil && bytes.Compare(key, until) >= 0 {
			break
		}
		out = append(out, ranked{by: binary.BigEndian.Uint64(key[len(prefix):]), id: lastID(key)})
		if len(out)%1024 == 0 && ctx.Err() != nil {
			return nil, ctx.Err()
		}
	}
	return out, nil
}

// scan calls fn with every key of a prefix.
func (t *tx) scan(ctx context.Context, prefix, from []byte, fn func(key []byte)) error {
	it := t.keys(prefix)
	defer it.Close()
	if from == nil {
		from = prefix
	}
	n := 0
	for it.Seek(from); it.Valid(); it.Next() {
		if n++; n%1024 == 0 && ctx.Err() != nil {
			return ctx.Err()
		}
		fn(it.Item().Key())
	}
	return nil
}

// lastID is the id at the end of a key.
func lastID(key []byte) (r rid) {
	copy(r[:], key[max(0, len(key)-idLen):])
	return r
}

func inAll(id rid, sets []idSet) bool {
	for _, s := range sets {
		if _, ok := s[id]; !ok {
			return false
		}
	}
	return true
}
