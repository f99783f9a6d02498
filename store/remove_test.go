package store_test

import (
	"bufio"
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"strings"
	"testing"
	"time"

	"pottle/store"
)

// removeDir is set in a child that fills a workspace, has it leave and removes
// it, again and again, until it is killed.
const removeDir = "POTTLE_REMOVE_DIR"

const removeTalks, removeRecipes = 12, 6

func removeChild(dir string) {
	check := func(err error) {
		if err != nil {
			fmt.Println("fault:", err)
			os.Exit(3)
		}
	}
	var ahead time.Duration
	b, err := store.Open(dir, store.Options{Housekeeping: -1, Now: func() time.Time { return time.Now().Add(ahead) }})
	check(err)
	// What the parent found is removed first.
	names, err := b.Workspaces(ctx)
	check(err)
	for {
		w := b.In("LEAVING")
		if len(names) < 2 {
			for i := range removeTalks {
				state := json.RawMessage(`"` + strings.Repeat("Quittenbrot ", 40000) + `"`)
				_, err := w.SaveConversation(ctx, store.Conversation{ID: fmt.Sprint(i), State: state})
				check(err)
			}
			for i := range removeRecipes {
				_, err := w.SaveRecipe(ctx, recipe(fmt.Sprint("soup ", i)), "child")
				check(err)
			}
		}
		names = nil
		check(w.Withdraw(ctx))
		fmt.Println("left")
		ahead = store.KeepLeft + time.Hour
		check(b.Tidy(ctx))
		ahead = 0
		fmt.Println("removed")
	}
}

// TestRemoveKilled kills a process that removes a workspace, at random moments
// of the removal: the workspace is there as it was or gone from the files.
func TestRemoveKilled(t *testing.T) {
	kills := 15
	if testing.Short() {
		kills = 6
	}
	dir := t.TempDir()
	b := mustOpen(t, dir, store.Options{Housekeeping: -1})
	ok(t, b.In("STAYING").SetSetting(ctx, "a", "kept", "Ann"))
	ok(t, b.Close())
	there, finished := 0, 0
	for range kills {
		child := exec.Command(os.Args[0])
		child.Env = append(os.Environ(), removeDir+"="+dir)
		child.Stderr = os.Stderr
		out, err := child.StdoutPipe()
		ok(t, err)
		ok(t, child.Start())
		last := ""
		for lines := bufio.NewScanner(out); lines.Scan(); {
			if strings.HasPrefix(lines.Text(), "fault:") {
				t.Errorf("child: %s", lines.Text())
			}
			if last == "" && lines.Text() == "left" {
				time.AfterFunc(time.Duration(rand.IntN(60_000))*time.Microsecond, func() { _ = child.Process.Kill() })
			}
			last = lines.Text()
		}
		_ = child.Wait()

		b := mustOpen(t, dir, store.Options{Housekeeping: -1})
		r := clean(t, b)
		left, err := b.In("LEAVING").Left(ctx)
		ok(t, err)
		switch {
		case !left.IsZero():
			if there++; r.Conversations != removeTalks || r.Recipes != removeRecipes {
				t.Errorf("part of it is gone: %+v", r)
			}
		case last == "left" || r.Workspaces == 1:
			if last == "left" {
				finished++
			}
			for _, text := range []string{"LEAVING", "Quittenbrot"} {
				if hits := grep(t, dir, text); len(hits) > 0 {
					t.Errorf("after %q: %q is still in %q", last, text, hits)
				}
			}
		default: // it was being filled again
			ok(t, b.In("LEAVING").Withdraw(ctx))
			ok(t, b.Close())
			b = mustOpen(t, dir, store.Options{Housekeeping: -1, Now: func() time.Time { return time.Now().Add(store.KeepLeft) }})
			ok(t, b.Tidy(ctx))
		}
		if s, err := b.In("STAYING").Settings(ctx); err != nil || s["a"] != "kept" {
			t.Errorf("settings of another: %v, %v", s, err)
		}
		ok(t, b.Close())
		if t.Failed() {
			t.FailNow()
		}
	}
	t.Logf("%d kills; it was there %d times; its removal was interrupted %d times", kills, there, finished)
	if finished == 0 {
		t.Error("the removal was never interrupted: the test shows little")
	}
}
