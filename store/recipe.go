package store

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"github.com/dgraph-io/badger/v4"
)

// Recipe returns a recipe with all versions.
func (w *workspaceBadger) Recipe(ctx context.Context, id string) (Recipe, error) {
	var r Recipe
	err := w.view(ctx, func(t *tx) (err error) {
		r, err = t.recipe(w.area, id)
		return err
	})
	return r, err
}

// RecipeNamed returns the recipe of a name.
func (w *workspaceBadger) RecipeNamed(ctx context.Context, name string) (Recipe, error) {
	var r Recipe
	err := w.view(ctx, func(t *tx) error {
		id, ok, err := t.get(w.area.key(kindName, fold(name)))
		if err != nil || !ok {
			return orElse(err, fault(ErrNotFound, "no recipe is called %q", name))
		}
		r, err = t.recipe(w.area, string(id))
		return err
	})
	return r, err
}

// SaveRecipe adds or changes a recipe.
func (w *workspaceBadger) SaveRecipe(ctx context.Context, r Recipe, who string) (Recipe, error) {
	r, err := clean(r, who)
	if err != nil {
		return Recipe{}, err
	}
	var saved Recipe
	err = w.update(ctx, func(t *tx) error {
		saved = r
		saved.Versions = slices.Clone(r.Versions)
		if r.Revision == 0 {
			return t.addRecipe(w.area, &saved, who)
		}
		return t.changeRecipe(w.area, &saved, who)
	})
	if err != nil {
		return Recipe{}, err
	}
	return saved, nil
}

func (t *tx) addRecipe(a area, r *Recipe, who string) error {
	if r.ID == "" {
		r.ID = newID()
	}
	// Also one deleted long ago that Tidy has not removed yet.
	if _, taken, err := t.get(a.key(kindRecipe, r.ID)); err != nil || taken {
		return orElse(err, fault(ErrExists, "a recipe with the id %q is there already", r.ID))
	}
	if err := t.nameFree(a, r.Name, r.ID); err != nil {
		return err
	}
	if r.SavedBy == "" {
		r.SavedBy = who
	}
	if r.SavedAt.IsZero() {
		r.SavedAt = t.now
	}
	if r.ChangedAt.IsZero() {
		r.ChangedAt = r.SavedAt
	}
	if r.ChangedBy == "" {
		r.ChangedBy = r.SavedBy
	}
	r.Revision = 1
	if err := t.writeVersions(a, r, 0, who); err != nil {
		return err
	}
	if err := t.writeHead(a, RecipeHead{}, r.RecipeHead); err != nil {
		return err
	}
	return t.record(a, Change{Who: who, Kind: "recipe", Action: "saved", Name: r.Name, ID: r.ID})
}

func (t *tx) changeRecipe(a area, r *Recipe, who string) error {
	old, err := t.recipe(a, r.ID)
	if err != nil {
		return err
	}
	if !old.DeletedAt.IsZero() {
		return fault(ErrNotFound, "recipe %q was deleted by %s", old.Name, old.ChangedBy)
	}
	if err := old.at(r.Revision); err != nil {
		return err
	}
	if err := sameBeginning(old.Versions, r.Versions); err != nil {
		return err
	}
	if err := t.nameFree(a, r.Name, r.ID); err != nil {
		return err
	}
	r.SavedBy, r.SavedAt, r.DeletedAt = old.SavedBy, old.SavedAt, old.DeletedAt
	r.ChangedBy, r.ChangedAt = who, t.now
	r.Revision++
	if err := t.writeVersions(a, r, len(old.Versions), who); err != nil {
		return err
	}
	if err := t.writeHead(a, old.RecipeHead, r.RecipeHead); err != nil {
		return err
	}
	c := Change{Who: who, Kind: "recipe", Action: "changed", Name: r.Name, ID: r.ID}
	if n := len(r.Versions); n > len(old.Versions) {
		c.Note = fmt.Sprintf("version %d", n)
	}
	if old.Name != r.Name {
		c.Action = "renamed"
		c.Note = strings.TrimPrefix(c.Note+", was "+old.Name, ", ")
	}
	return t.record(a, c)
}

// DeleteRecipe takes a recipe out of the box.
func (w *workspaceBadger) DeleteRecipe(ctx context.Context, id string, revision int, who string) error {
	if err := validWho(who); err != nil {
		return err
	}
	return w.update(ctx, func(t *tx) error {
		old, err := t.head(w.area, id)
		if err != nil {
			return err
		}
		if !old.DeletedAt.IsZero() {
			return fault(ErrNotFound, "recipe %q was deleted already", old.Name)
		}
		if err := old.at(revision); err != nil {
			return err
		}
		h := old
		h.DeletedAt, h.ChangedAt, h.ChangedBy = t.now, t.now, who
		h.Revision++
		if err := t.Set(w.area.key(kindDeleted, h.DeletedAt, id), nil); err != nil {
			return err
		}
		if err := t.writeHead(w.area, old, h); err != nil {
			return err
		}
		return t.record(w.area, Change{Who: who, Kind: "recipe", Action: "deleted", Name: h.Name, ID: id})
	})
}

// RestoreRecipe brings a deleted recipe back.
func (w *workspaceBadger) RestoreRecipe(ctx context.Context, id, as, who string) (Recipe, error) {
	if err := validWho(who); err != nil {
		return Recipe{}, err
	}
	if as != "" {
		if err := validName("a recipe", as); err != nil {
			return Recipe{}, err
		}
	}
	var r Recipe
	err := w.update(ctx, func(t *tx) (err error) {
		if r, err = t.recipe(w.area, id); err != nil {
			return err
		}
		if r.DeletedAt.IsZero() || t.now.Sub(r.DeletedAt) >= KeepDeleted {
			return fault(ErrNotFound, "no deleted recipe with the id %q", id)
		}
		old := r.RecipeHead
		c := Change{Who: who, Kind: "recipe", Action: "restored", ID: id}
		if as != "" && as != r.Name {
			c.Note = "was " + r.Name
			r.Name = as
		}
		c.Name = r.Name
		if err := t.nameFree(w.area, r.Name, id); err != nil {
			return err
		}
		if err := t.Delete(w.area.key(kindDeleted, old.DeletedAt, id)); err != nil {
			return err
		}
		r.DeletedAt, r.ChangedAt, r.ChangedBy = noTime, t.now, who
		r.Revision++
		if err := t.writeHead(w.area, old, r.RecipeHead); err != nil {
			return err
		}
		return t.record(w.area, c)
	})
	if err != nil {
		return Recipe{}, err
	}
	return r, nil
}

// DeletedRecipes lists what can be restored.
func (w *workspaceBadger) DeletedRecipes(ctx context.Context) ([]RecipeHead, error) {
	var out []RecipeHead
	err := w.view(ctx, func(t *tx) error {
		prefix := w.area.key(kindDeleted)
		return t.each(prefix, true, func(key, _ []byte) (bool, error) {
			if t.now.Sub(seconds(key[len(prefix):])) >= KeepDeleted {
				return false, nil
			}
			h, err := t.head(w.area, string(key[len(key)-idLen:]))
			out = append(out, h)
			return true, err
		})
	})
	return out, err
}

// EachRecipe calls fn with every recipe by name.
func (w *workspaceBadger) EachRecipe(ctx context.Context, fn func(Recipe) error) error {
	var theirs error
	err := w.view(ctx, func(t *tx) error {
		return t.each(w.area.key(kindName), false, func(_, id []byte) (bool, error) {
			if err := ctx.Err(); err != nil {
				return false, err
			}
			r, err := t.recipe(w.area, string(id))
			if err != nil {
				return false, err
			}
			theirs = fn(r)
			return theirs == nil, nil
		})
	})
	return orElse(err, theirs)
}

// RecipeChanges returns who changed a recipe when.
func (w *workspaceBadger) RecipeChanges(ctx context.Context, id string) ([]Change, error) {
	var out []Change
	err := w.view(ctx, func(t *tx) error {
		if _, err := t.head(w.area, id); err != nil {
			return err
		}
		return t.each(w.area.key(kindHistory, id), false, collect(&out))
	})
	return out, err
}

// at returns ErrConflict if the recipe is not at the revision.
func (h RecipeHead) at(revision int) error {
	if h.Revision == revision {
		return nil
	}
	return fault(ErrConflict, "recipe %q was changed meanwhile by %s (revision %d, not %d)", h.Name, h.ChangedBy, h.Revision, revision)
}

// head reads a recipe's head, deleted or not.
func (t *tx) head(a area, id string) (RecipeHead, error) {
	var h RecipeHead
	if !validID(id) {
		return h, fault(ErrNotFound, "no recipe has the id %q", id)
	}
	ok, err := t.read(a.key(kindRecipe, id), &h)
	if err != nil || !ok {
		return h, orElse(err, fault(ErrNotFound, "no recipe has the id %q", id))
	}
	if !h.DeletedAt.IsZero() && t.now.Sub(h.DeletedAt) >= KeepDeleted {
		return RecipeHead{}, fault(ErrNotFound, "no recipe has the id %q", id)
	}
	return h, nil
}

func (t *tx) recipe(a area, id string) (Recipe, error) {
	h, err := t.head(a, id)
	if err != nil {
		return Recipe{}, err
	}
	r := Recipe{RecipeHead: h, Versions: make([]RecipeVersion, h.Count)}
	for i := range r.Versions {
		ok, err := t.read(a.key(kindVersion, id, uint32(i+1)), &r.Versions[i])
		if err != nil || !ok {
			return Recipe{}, orElse(err, fault(ErrCorrupt, "version %d of recipe %q is lost: run a check of the store", i+1, h.Name))
		}
	}
	return r, nil
}

// nameFree returns ErrExists if another recipe has the name.
func (t *tx) nameFree(a area, name, id string) error {
	holder, ok, err := t.get(a.key(kindName, fold(name)))
	if err != nil {
		return err
	}
	if ok && string(holder) != id {
		return fault(ErrExists, "another recipe is called %q", name)
	}
	return nil
}

// writeVersions keeps the versions from index have on and fills them in.
func (t *tx) writeVersions(a area, r *Recipe, have int, who string) error {
	size := 0
	for i := have; i < len(r.Versions); i++ {
		v := &r.Versions[i]
		if size += len(v.Text) + len(v.Said); size > MaxSave {
			return fault(ErrTooLarge, "the new versions have more than %d bytes: save them a few at a time", MaxSave)
		}
		if v.Who == "" {
			v.Who = who
		}
		if v.When.IsZero() {
			v.When = t.now
		}
		if err := t.write(a.key(kindVersion, r.ID, uint32(i+1)), v); err != nil {
			return err
		}
	}
	r.Count = len(r.Versions)
	return nil
}

// writeHead keeps a head and brings its index keys from old to h.
func (t *tx) writeHead(a area, old, h RecipeHead) error {
	have := indexKeys(a, old)
	for _, e := range indexKeys(a, h) {
		k := string(e.Key)
		i := slices.IndexFunc(have, func(o *badger.Entry) bool { return string(o.Key) == k })
		if i >= 0 {
			have = slices.Delete(have, i, i+1)
			continue
		}
		if err := t.SetEntry(e); err != nil {
			return err
		}
	}
	for _, e := range have {
		if err := t.Delete(e.Key); err != nil {
			return err
		}
	}
	return t.write(a.key(kindRecipe, h.ID), h)
}
