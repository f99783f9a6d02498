package storetest

import (
	"errors"
	"strings"
	"testing"
	"time"

	"pottle/store"
)

// granted gives a workspace an access and reports whether it was kept. A store
// without a key keeps none.
func granted(t *testing.T, w store.Workspace, a store.Access) bool {
	t.Helper()
	err := w.Grant(ctx, a)
	if errors.Is(err, store.ErrKey) {
		wantError(t, second(w.Access(ctx)), store.ErrNotFound, "no access")
		return false
	}
	ok(t, err)
	return true
}

func noAccess(t *testing.T, w store.Workspace) {
	t.Helper()
	a, err := w.Access(ctx)
	wantError(t, err, store.ErrNotFound, "no access")
	equal(t, "access beside an error", a, store.Access{})
}

func accesses(t *testing.T, f *fixture) {
	noAccess(t, f.w)
	a := store.Access{Token: "xoxb-1", User: "U1", Bot: "B1", Name: "Clinic", Scopes: "chat:write,im:history", By: "U2"}
	if !granted(t, f.w, a) {
		equal(t, "workspaces", len(must[[]string](t)(f.s.Workspaces(ctx))), 0)
		return
	}
	a.When = f.clock
	equal(t, "access", must[store.Access](t)(f.w.Access(ctx)), a)
	noAccess(t, f.s.In("T10"))

	f.pass(time.Hour)
	a = store.Access{Token: "xoxb-\x00\xff2", User: "U3", When: time.Unix(1, 0)}
	ok(t, f.w.Grant(ctx, a))
	a.When = f.clock // not the caller's
	equal(t, "replaced", must[store.Access](t)(f.w.Access(ctx)), a)

	long, longer := strings.Repeat("x", store.MaxName), strings.Repeat("y", store.MaxToken)
	full := store.Access{Token: store.Secret(longer), User: long, Bot: long, Name: long, Scopes: longer, By: long}
	for part, change := range map[string]func(*store.Access){
		"token":  func(a *store.Access) { a.Token = "" },
		"user":   func(a *store.Access) { a.User = "" },
		"the to": func(a *store.Access) { a.Token += "y" },
		"the us": func(a *store.Access) { a.User += "x" },
		"bot":    func(a *store.Access) { a.Bot += "x" },
		"name":   func(a *store.Access) { a.Name += "x" },
		"scopes": func(a *store.Access) { a.Scopes += "y" },
		"instal": func(a *store.Access) { a.By += "x" },
	} {
		bad := full
		change(&bad)
		wantError(t, f.w.Grant(ctx, bad), store.ErrInvalid, part)
	}
	equal(t, "after refusals", must[store.Access](t)(f.w.Access(ctx)), a)
	ok(t, f.w.Grant(ctx, full))
	full.When = f.clock
	equal(t, "the longest", must[store.Access](t)(f.w.Access(ctx)), full)
	equal(t, "workspaces", strings.Join(must[[]string](t)(f.s.Workspaces(ctx)), " "), "T1")
	wantError(t, f.s.In("").Grant(ctx, full), store.ErrInvalid, "workspace")
	wantError(t, second(f.s.In("").Access(ctx)), store.ErrInvalid, "workspace")
}

func leaving(t *testing.T, f *fixture) {
	left := func() time.Time { t.Helper(); return must[time.Time](t)(f.w.Left(ctx)) }
	for _, call := range []func() error{func() error { return f.w.Withdraw(ctx) }, func() error { return f.w.Stay(ctx) }} {
		ok(t, call())
		equal(t, "never there", left(), time.Time{})
		equal(t, "workspaces", len(must[[]string](t)(f.s.Workspaces(ctx))), 0)
	}

	r := must[store.Recipe](t)(f.w.SaveRecipe(ctx, soup("soup"), "Ann"))
	other := f.s.In("T10")
	a := store.Access{Token: "xoxb-1", User: "U1"}
	ok(t, other.SetSetting(ctx, "setting", "T10", "Ann"))
	keeps := granted(t, other, a) && granted(t, f.w, a)
	equal(t, "not left", left(), time.Time{})

	first := f.clock
	ok(t, f.w.Withdraw(ctx))
	noAccess(t, f.w)
	equal(t, "left", left(), first)
	f.pass(time.Hour)
	ok(t, f.w.Withdraw(ctx))
	equal(t, "left for the first time", left(), first)
	equal(t, "another left", must[time.Time](t)(other.Left(ctx)), time.Time{})
	if keeps {
		equal(t, "another's token", must[store.Access](t)(other.Access(ctx)).Token, "xoxb-1")
	}
	must[store.Recipe](t)(f.w.Recipe(ctx, r.ID)) // for KeepLeft

	ok(t, f.w.Stay(ctx))
	equal(t, "stays", left(), time.Time{})
	noAccess(t, f.w) // a withdrawn token does not come back
	ok(t, f.w.Stay(ctx))
	ok(t, f.w.Withdraw(ctx))
	equal(t, "left again", left(), f.clock)
	if keeps {
		ok(t, f.w.Grant(ctx, store.Access{Token: "xoxb-2", User: "U1"}))
		equal(t, "installed again", left(), time.Time{})
		equal(t, "token", must[store.Access](t)(f.w.Access(ctx)).Token, "xoxb-2")
	}
	none := f.s.In("")
	wantError(t, none.Withdraw(ctx), store.ErrInvalid, "workspace")
	wantError(t, none.Stay(ctx), store.ErrInvalid, "workspace")
	wantError(t, second(none.Left(ctx)), store.ErrInvalid, "workspace")
}
