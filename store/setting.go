package store

import (
	"context"
	"encoding/json"
	"time"
)

// setting is what is kept of a setting.
type setting struct {
	Value string    `json:"value"`
	Who   string    `json:"who"`
	When  time.Time `json:"when"`
}

// Settings returns all settings of the workspace.
func (w *workspaceBadger) Settings(ctx context.Context) (map[string]string, error) {
	out := map[string]string{}
	prefix := w.area.key(kindSetting)
	err := w.view(ctx, func(t *tx) error {
		return t.each(prefix, false, func(key, value []byte) (bool, error) {
			var s setting
			if err := json.Unmarshal(value, &s); err != nil {
				return false, &Error{Code: ErrCorrupt.Code, Message: "a setting in the store is damaged", Err: err}
			}
			out[string(key[len(prefix):])] = s.Value
			return true, nil
		})
	})
	if err != nil {
		return nil, err
	}
	return out, nil
}

// SetSetting sets one setting, or takes it away if the value is empty.
func (w *workspaceBadger) SetSetting(ctx context.Context, key, value, who string) error {
	if err := validName("a setting", key); err != nil {
		return err
	}
	if err := validWho(who); err != nil {
		return err
	}
	if len(value) > MaxShelf {
		return fault(ErrTooLarge, "setting %q has %d bytes, at most %d are kept", key, len(value), MaxShelf)
	}
	return w.update(ctx, func(t *tx) error {
		k := w.area.key(kindSetting, key)
		c := Change{Who: who, Kind: "setting", Action: "changed", Name: key}
		var err error
		if value == "" {
			c.Action = "removed"
			err = t.Delete(k)
		} else {
			err = t.write(k, setting{Value: value, Who: who, When: t.now})
		}
		if err != nil {
			return err
		}
		return t.record(w.area, c)
	})
}
