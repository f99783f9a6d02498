package store

import (
	"context"
	"encoding/json"
	"maps"
	"slices"
	"strings"
	"time"
)

// meta gives the fields that records of a shelf have in common.
type meta struct {
	name     *string
	who      *string
	when     *time.Time
	revision *int
}

// shelf is a Shelf of a workspace.
type shelf[T any] struct {
	w     *workspaceBadger
	kind  byte
	what  string // for people and in the record of changes
	meta  func(*T) meta
	check func(*T) error // also makes the copy independent of the caller's
}

// Foods is the shelf of the team's own foods.
func (w *workspaceBadger) Foods() Shelf[TeamFood] {
	return &shelf[TeamFood]{w, kindFood, "food",
		func(f *TeamFood) meta { return meta{&f.Name, &f.Who, &f.When, &f.Revision} },
		func(f *TeamFood) error {
			f.Figures = maps.Clone(f.Figures)
			if !finite(f.Grams) || f.Grams <= 0 {
				return fault(ErrInvalid, "a serving of %q weighs %v g", f.Name, f.Grams)
			}
			for tag, v := range f.Figures {
				if err := validTagname(tag); err != nil {
					return err
				}
				if !finite(v) || v < 0 {
					return fault(ErrInvalid, "the figure of %s of %q is %v", tag, f.Name, v)
				}
			}
			return nil
		}}
}

// Words is the shelf of what the team's words mean.
func (w *workspaceBadger) Words() Shelf[TeamWord] {
	return &shelf[TeamWord]{w, kindMeaning, "word",
		func(v *TeamWord) meta { return meta{&v.Words, &v.Who, &v.When, &v.Revision} },
		func(v *TeamWord) error {
			if v.Meaning == "" {
				return fault(ErrInvalid, "%q needs a meaning", v.Words)
			}
			return nil
		}}
}

// Targets is the shelf of limits for a serving.
func (w *workspaceBadger) Targets() Shelf[Target] {
	return &shelf[Target]{w, kindTarget, "target",
		func(v *Target) meta { return meta{&v.Name, &v.Who, &v.When, &v.Revision} },
		func(v *Target) error {
			v.Limits = slices.Clone(v.Limits)
			if len(v.Limits) == 0 {
				return fault(ErrInvalid, "target %q needs a limit", v.Name)
			}
			for _, l := range v.Limits {
				if err := l.valid(); err != nil {
					return err
				}
			}
			return nil
		}}
}

func (s *shelf[T]) key(name string) []byte { return s.w.area.key(s.kind, fold(name)) }

func (s *shelf[T]) Get(ctx context.Context, name string) (T, error) {
	var v T
	err := s.w.view(ctx, func(t *tx) error { return s.get(t, name, &v) })
	return v, err
}

func (s *shelf[T]) get(t *tx, name string, v *T) error {
	ok, err := t.read(s.key(name), v)
	if err != nil || !ok {
		return orElse(err, fault(ErrNotFound, "no %s is called %q", s.what, name))
	}
	return nil
}

func (s *shelf[T]) List(ctx context.Context) ([]T, error) {
	var out []T
	err := s.w.view(ctx, func(t *tx) error {
		return t.each(s.w.area.key(s.kind), false, collect(&out))
	})
	return out, err
}

func (s *shelf[T]) Save(ctx context.Context, v T, who string) (T, error) {
	var none T
	given := s.meta(&v)
	if err := validWho(who); err != nil {
		return none, err
	}
	if err := validName("a "+s.what, *given.name); err != nil {
		return none, err
	}
	if err := s.check(&v); err != nil {
		return none, err
	}
	*given.name = strings.Join(strings.Fields(*given.name), " ")
	revision := *given.revision
	err := s.w.update(ctx, func(t *tx) error {
		action := "changed"
		var old T
		switch err := s.get(t, *given.name, &old); {
		case err != nil && Code(err) != ErrNotFound.Code:
			return err
		case err != nil && revision != 0:
			return err // removed meanwhile
		case err != nil:
			action = "saved"
		case revision == 0:
			return fault(ErrExists, "a %s is called %q already", s.what, *s.meta(&old).name)
		default:
			if err := s.at(&old, revision); err != nil {
				return err
			}
		}
		*given.who, *given.when, *given.revision = who, t.now, revision+1
		value, err := json.Marshal(v)
		if err != nil {
			return err
		}
		if len(value) > MaxShelf {
			return fault(ErrTooLarge, "%s %q has %d bytes, at most %d are kept", s.what, *given.name, len(value), MaxShelf)
		}
		if err := t.Set(s.key(*given.name), value); err != nil {
			return err
		}
		return t.record(s.w.area, Change{Who: who, Kind: s.what, Action: action, Name: *given.name})
	})
	if err != nil {
		return none, err
	}
	return v, nil
}

func (s *shelf[T]) Remove(ctx context.Context, name string, revision int, who string) error {
	if err := validWho(who); err != nil {
		return err
	}
	return s.w.update(ctx, func(t *tx) error {
		var old T
		if err := s.get(t, name, &old); err != nil {
			return err
		}
		if err := s.at(&old, revision); err != nil {
			return err
		}
		if err := t.Delete(s.key(name)); err != nil {
			return err
		}
		return t.record(s.w.area, Change{Who: who, Kind: s.what, Action: "removed", Name: *s.meta(&old).name})
	})
}

// at returns ErrConflict if the record is not at the revision.
func (s *shelf[T]) at(v *T, revision int) error {
	m := s.meta(v)
	if *m.revision == revision {
		return nil
	}
	return fault(ErrConflict, "%s %q was changed meanwhile by %s (revision %d, not %d)", s.what, *m.name, *m.who, *m.revision, revision)
}
