package store

import (
	"context"
	"encoding/json"
	"fmt"
	"log/slog"
	"time"
)

// Secret is a string that no print, log or encoding shows: only the conversion
// string(s) gives it. In a field that is not exported fmt would show it as it
// is, as it calls no methods there.
type Secret string

// hidden stands for a Secret wherever it would be shown.
const hidden = "(secret)"

// Format writes "(secret)", whatever the verb.
func (Secret) Format(s fmt.State, _ rune) { _, _ = s.Write([]byte(hidden)) }

// String gives "(secret)".
func (Secret) String() string { return hidden }

// LogValue gives "(secret)".
func (Secret) LogValue() slog.Value { return slog.StringValue(hidden) }

// MarshalText gives "(secret)", for JSON too. There is no way back.
func (Secret) MarshalText() ([]byte, error) { return []byte(hidden), nil }

// access is what is kept of an Access.
type access struct {
	User   string    `json:"user"`
	Bot    string    `json:"bot"`
	Name   string    `json:"name"`
	Scopes string    `json:"scopes"`
	By     string    `json:"by"`
	When   time.Time `json:"when"`

	// Seals hold the token, each sealed with another key: one, and two while
	// RotateKey is at work.
	Seals [][]byte `json:"seals"`
}

// Access returns the access to the workspace.
func (w *workspaceBadger) Access(ctx context.Context) (Access, error) {
	var kept access
	err := w.view(ctx, func(t *tx) error {
		ok, err := t.access(w.area, &kept)
		if err == nil && !ok {
			return fault(ErrNotFound, "no access to the workspace: the app is to be installed")
		}
		return err
	})
	if err != nil {
		return Access{}, err
	}
	token, ok := w.b.opt.Key.unsealAny(w.name, kept.Seals)
	if !ok {
		return Access{}, fault(ErrKey, "the access to the workspace was sealed with another key: install again")
	}
	return Access{Token: token, User: kept.User, Bot: kept.Bot, Name: kept.Name, Scopes: kept.Scopes, By: kept.By, When: kept.When}, nil
}

// access reads one that was not withdrawn.
func (t *tx) access(a area, kept *access) (ok bool, err error) {
	value, ok, err := t.get(a.key(kindAccess))
	if err != nil || !ok || len(value) == 0 {
		return false, err
	}
	if err := json.Unmarshal(value, kept); err != nil {
		return false, &Error{Code: ErrCorrupt.Code, Message: "the access to a workspace is damaged: install again", Err: err}
	}
	return true, nil
}

// accessOver returns the prefix of an access that was withdrawn and not dropped,
// because the withdrawal was interrupted.
func (t *tx) accessOver(a area) (prefixes [][]byte, err error) {
	value, ok, err := t.get(a.key(kindAccess))
	if ok && len(value) == 0 {
		prefixes = [][]byte{a.key(kindAccess)}
	}
	return prefixes, err
}

// Grant keeps an access and ends a withdrawal.
func (w *workspaceBadger) Grant(ctx context.Context, a Access) error {
	if err := validAccess(a); err != nil {
		return err
	}
	key := w.b.opt.Key
	if key == nil {
		return fault(ErrKey, "the store has no key: an access to a workspace is only kept in an encrypted store")
	}
	return w.stay(ctx, func(t *tx) error {
		return t.write(w.area.key(kindAccess), access{
			User: a.User, Bot: a.Bot, Name: a.Name, Scopes: a.Scopes, By: a.By,
			When: t.now, Seals: [][]byte{key.seal(w.name, a.Token)},
		})
	})
}

func validAccess(a Access) error {
	for _, f := range []struct {
		what            string
		bytes, min, max int
	}{
		{"token", len(a.Token), 1, MaxToken}, {"user", len(a.User), 1, MaxName}, {"bot", len(a.Bot), 0, MaxName},
		{"workspace's name", len(a.Name), 0, MaxName}, {"scopes", len(a.Scopes), 0, MaxToken}, {"installer", len(a.By), 0, MaxName},
	} {
		if f.bytes < f.min || f.bytes > f.max {
			return fault(ErrInvalid, "the %s of an access has %d to %d bytes, not %d", f.what, f.min, f.max, f.bytes)
		}
	}
	return nil
}
