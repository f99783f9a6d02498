package store_test

import (
	"bufio"
	"encoding/json"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"pottle/store"
)

// The crash test runs this test binary as a child that writes without pause,
// says what it is about to do and what was acknowledged, and is killed at a
// random moment. Afterwards every acknowledged write must be there.

// Set in the child.
const (
	crashDir = "POTTLE_CRASH_DIR"
	crashKey = "POTTLE_CRASH_KEY" // a key file, or empty
)

func TestMain(m *testing.M) {
	if dir := os.Getenv(crashDir); dir != "" {
		crashChild(dir)
		return
	}
	if dir := os.Getenv(rotateDir); dir != "" {
		rotateChild(dir)
		return
	}
	if dir := os.Getenv(removeDir); dir != "" {
		removeChild(dir)
		return
	}
	code := m.Run()
	store.RemoveBenchDirs()
	os.Exit(code)
}

// said is one line of the child: before an operation and after it.
type said struct {
	Done     bool
	Op       string // conversation, forget, recipe, food, mark, access, withdraw
	ID       string
	Revision int
	Versions int
}

const crashThings = 4 // conversations, recipes, foods and marks each

// crashChild goes on from what the store holds until it is killed.
func crashChild(dir string) {
	check := func(err error) {
		if err != nil {
			fmt.Println("fault:", err)
			os.Exit(3)
		}
	}
	o := store.Options{Housekeeping: 5 * time.Millisecond}
	if file := os.Getenv(crashKey); file != "" {
		key, err := store.ReadKey(file)
		check(err)
		o.Key = key
	}
	b, err := store.Open(dir, o)
	check(err)
	w := b.In("T")
	tell := func(s said) {
		line, err := json.Marshal(s)
		check(err)
		_, err = os.Stdout.Write(append(line, '\n')) // unbuffered
		check(err)
	}
	for {
		n := fmt.Sprint(rand.IntN(crashThings))
		switch op := rand.IntN(24); {
		case op == 0:
			s := said{Op: "forget", ID: "c" + n}
			tell(s)
			check(w.ForgetConversation(ctx, s.ID))
			s.Done = true
			tell(s)
		case op < 10:
			c, err := w.Conversation(ctx, "c"+n)
			if errors.Is(err, store.ErrNotFound) {
				c, err = store.Conversation{ID: "c" + n}, nil
			}
			check(err)
			s := said{Op: "conversation", ID: c.ID, Revision: c.Revision + 1}
			tell(s)
			c.State = fmt.Appendf(nil, `{"revision":%d,"pad":%q}`, s.Revision, strings.Repeat("x", rand.IntN(60000)))
			_, err = w.SaveConversation(ctx, c)
			check(err)
			s.Done = true
			tell(s)
		case op < 17:
			r, err := w.RecipeNamed(ctx, "soup "+n)
			if errors.Is(err, store.ErrNotFound) {
				r, err = store.Recipe{RecipeHead: store.RecipeHead{Name: "soup " + n}}, nil
			}
			check(err)
			s := said{Op: "recipe", ID: r.Name, Revision: r.Revision + 1, Versions: len(r.Versions) + 1}
			tell(s)
			r.Versions = append(r.Versions, store.RecipeVersion{Text: fmt.Sprint("text ", s.Versions)})
			r.Figures = map[string]store.Figure{"NA": {Value: float64(s.Versions)}, "K": {Value: rand.Float64()}}
			_, err = w.SaveRecipe(ctx, r, "child")
			check(err)
			s.Done = true
			tell(s)
		case op < 20:
			f, err := w.Foods().Get(ctx, "food "+n)
			if errors.Is(err, store.ErrNotFound) {
				f, err = store.TeamFood{Name: "food " + n}, nil
			}
			check(err)
			s := said{Op: "food", ID: f.Name, Revision: f.Revision + 1}
			tell(s)
			f.Grams = float64(s.Revision)
			_, err = w.Foods().Save(ctx, f, "child")
			check(err)
			s.Done = true
			tell(s)
		case op < 22 || o.Key == nil:
			m, err := w.Mark(ctx, "m"+n)
			if errors.Is(err, store.ErrNotFound) {
				m, err = store.Mark{Conversation: "c" + n, Name: "m" + n}, nil
			}
			check(err)
			s := said{Op: "mark", ID: m.Name, Revision: number(m.Value) + 1}
			tell(s)
			m.Value = fmt.Sprint(s.Revision)
			check(w.SetMark(ctx, m))
			s.Done = true
			tell(s)
		case rand.IntN(4) == 0:
			s := said{Op: "withdraw", ID: "T"}
			tell(s)
			check(w.Withdraw(ctx))
			s.Done = true
			tell(s)
		default:
			a, err := w.Access(ctx)
			if errors.Is(err, store.ErrNotFound) {
				a, err = store.Access{User: "U"}, nil
			}
			check(err)
			s := said{Op: "access", ID: "T", Revision: number(string(a.Token)) + 1}
			tell(s)
			a.Token = store.Secret(fmt.Sprint(s.Revision))
			check(w.Grant(ctx, a))
			s.Done = true
			tell(s)
		}
	}
}

// number reads a number; 0 from anything else.
func number(s string) int {
	n, _ := strconv.Atoi(s)
	return n
}

// known is what the parent knows of the things of the store.
type known struct {
	keyFile string
	key     *store.Key
	acked   map[string]said // the last acknowledged word on each thing
	pending said            // what the child was at when it was killed
}

func (k *known) hear(s said) {
	if !s.Done {
		k.pending = s
		return
	}
	k.acked[s.thing()] = s
	if s.Op == "forget" {
		k.forgotten(s.ID)
	}
	k.pending = said{}
}

// forgotten says that the marks of a conversation went with it.
func (k *known) forgotten(conversation string) {
	delete(k.acked, "mark m"+conversation[1:])
}

func (s said) thing() string {
	return strings.NewReplacer("forget", "conversation", "withdraw", "access").Replace(s.Op) + " " + s.ID
}

func TestCrash(t *testing.T) {
	kills, perStore := 200, 25
	if testing.Short() {
		kills = 30
	}
	acked, mid := 0, 0
	for n := 0; n < kills; n += perStore {
		dir := t.TempDir()
		k := known{acked: map[string]said{}}
		if n/perStore%2 == 1 {
			k.encrypt(t)
		}
		for range min(perStore, kills-n) {
			acked += k.crash(t, dir)
			if k.pending.Op != "" {
				mid++
			}
			k.verify(t, dir)
			if t.Failed() {
				t.FailNow()
			}
		}
	}
	t.Logf("%d kills, %d in the middle of a write, %d acknowledged writes", kills, mid, acked)
	if acked < 3*kills { // some 20 a run, fewer under the race detector
		t.Errorf("only %d writes in %d runs: the test shows little", acked, kills)
	}
}

func (k *known) encrypt(t *testing.T) {
	t.Helper()
	var err error
	k.key, err = store.NewKey()
	ok(t, err)
	k.keyFile = filepath.Join(t.TempDir(), "key")
	ok(t, k.key.WriteFile(k.keyFile))
}

// crash runs a child, kills it and returns the number of acknowledged writes.
func (k *known) crash(t *testing.T, dir string) (acked int) {
	t.Helper()
	child := exec.Command(os.Args[0])
	child.Env = append(os.Environ(), crashDir+"="+dir, crashKey+"="+k.keyFile)
	out, err := child.StdoutPipe()
	ok(t, err)
	child.Stderr = os.Stderr
	ok(t, child.Start())
	lines := bufio.NewScanner(out)
	var timer *time.Timer
	kill := func(after time.Duration) { timer = time.AfterFunc(after, func() { _ = child.Process.Kill() }) }
	early := rand.IntN(10) == 0
	if early { // also while it opens the store
		kill(time.Duration(rand.IntN(30)) * time.Millisecond)
	}
	k.pending = said{}
	for lines.Scan() {
		if timer == nil {
			kill(time.Duration(rand.IntN(80_000)) * time.Microsecond)
		}
		var s said
		if err := json.Unmarshal(lines.Bytes(), &s); err != nil {
			if strings.HasPrefix(lines.Text(), "fault:") {
				t.Errorf("child: %s", lines.Text())
			}
			continue // a line cut off by the kill
		}
		if k.hear(s); s.Done {
			acked++
		}
	}
	_ = child.Wait()
	if timer != nil {
		timer.Stop()
	}
	return acked
}

// verify opens the store and compares it with what was said.
func (k *known) verify(t *testing.T, dir string) {
	t.Helper()
	b, err := store.Open(dir, store.Options{Housekeeping: -1, Key: k.key})
	if err != nil {
		t.Fatalf("open after a kill: %v", err)
	}
	defer func() {
		if err := b.Close(); err != nil {
			t.Errorf("close: %v", err)
		}
	}()
	rep, err := b.Check(ctx, nil)
	ok(t, err)
	for _, f := range rep.Faults {
		// A forgetting that was interrupted may leave half of a conversation;
		// the other half is out of reach, and forgetting it again removes both.
		if k.pending.Op != "forget" {
			t.Errorf("fault: %s (pending %+v)", f, k.pending)
		}
	}
	w := b.In("T")
	for i := range crashThings {
		k.conversation(t, w, fmt.Sprint("c", i))
		k.recipe(t, w, fmt.Sprint("soup ", i))
		k.food(t, w, fmt.Sprint("food ", i))
		k.mark(t, w, fmt.Sprint("m", i))
	}
	k.access(t, w)
}

// allowed returns the revisions that may be there: the acknowledged one, and
// the one that was being written.
func (k *known) allowed(op, id string) (last said, revisions []int) {
	last = k.acked[op+" "+id]
	revisions = []int{last.Revision}
	if k.pending.thing() == op+" "+id && k.pending.Op == op {
		revisions = append(revisions, k.pending.Revision)
	}
	return last, revisions
}

func oneOf(n int, list []int) bool {
	for _, x := range list {
		if x == n {
			return true
		}
	}
	return false
}

func (k *known) conversation(t *testing.T, w store.Workspace, id string) {
	t.Helper()
	c, err := w.Conversation(ctx, id)
	if err != nil && !errors.Is(err, store.ErrNotFound) {
		t.Fatal(err)
	}
	last, revisions := k.allowed("conversation", id)
	if k.pending.Op == "forget" && k.pending.ID == id {
		if c.Revision > last.Revision {
			t.Errorf("%s is at %d, never said", id, c.Revision)
		}
		// Half forgotten: forget it, so that the child begins anew.
		ok(t, w.ForgetConversation(ctx, id))
		k.acked["conversation "+id] = said{Op: "forget", ID: id}
		k.forgotten(id)
		return
	}
	if !oneOf(c.Revision, revisions) {
		t.Errorf("%s is at revision %d, allowed %v (last %+v)", id, c.Revision, revisions, last)
	}
	if c.Revision > 0 && !strings.HasPrefix(string(c.State), fmt.Sprintf(`{"revision":%d,`, c.Revision)) {
		t.Errorf("%s: the state of another revision: %.40s", id, c.State)
	}
	if c.Revision > 0 {
		k.acked["conversation "+id] = said{Op: "conversation", ID: id, Revision: c.Revision}
	}
}

func (k *known) recipe(t *testing.T, w store.Workspace, name string) {
	t.Helper()
	r, err := w.RecipeNamed(ctx, name)
	if err != nil && !errors.Is(err, store.ErrNotFound) {
		t.Fatal(err)
	}
	last, revisions := k.allowed("recipe", name)
	if !oneOf(r.Revision, revisions) {
		t.Errorf("%s is at revision %d, allowed %v (last %+v)", name, r.Revision, revisions, last)
	}
	if len(r.Versions) != r.Revision {
		t.Errorf("%s has %d versions at revision %d", name, len(r.Versions), r.Revision)
	}
	for i, v := range r.Versions {
		if v.Text != fmt.Sprint("text ", i+1) {
			t.Errorf("%s: version %d is %q", name, i+1, v.Text)
		}
	}
	if r.Revision > 0 {
		k.acked["recipe "+name] = said{Op: "recipe", ID: name, Revision: r.Revision, Versions: len(r.Versions)}
	}
}

func (k *known) food(t *testing.T, w store.Workspace, name string) {
	t.Helper()
	f, err := w.Foods().Get(ctx, name)
	if err != nil && !errors.Is(err, store.ErrNotFound) {
		t.Fatal(err)
	}
	last, revisions := k.allowed("food", name)
	if !oneOf(f.Revision, revisions) || f.Grams != float64(f.Revision) {
		t.Errorf("%s is at revision %d with %v g, allowed %v (last %+v)", name, f.Revision, f.Grams, revisions, last)
	}
	if f.Revision > 0 {
		k.acked["food "+name] = said{Op: "food", ID: name, Revision: f.Revision}
	}
}

func (k *known) mark(t *testing.T, w store.Workspace, name string) {
	t.Helper()
	m, err := w.Mark(ctx, name)
	if err != nil && !errors.Is(err, store.ErrNotFound) {
		t.Fatal(err)
	}
	revision := number(m.Value)
	if last, revisions := k.allowed("mark", name); !oneOf(revision, revisions) {
		t.Errorf("%s is at revision %d, allowed %v (last %+v)", name, revision, revisions, last)
	}
	if revision > 0 {
		k.acked["mark "+name] = said{Op: "mark", ID: name, Revision: revision}
	}
}

// access looks at the access and at whether the workspace left: both change in
// one transaction.
func (k *known) access(t *testing.T, w store.Workspace) {
	t.Helper()
	a, err := w.Access(ctx)
	if err != nil && !errors.Is(err, store.ErrNotFound) {
		t.Fatal(err)
	}
	left, err := w.Left(ctx)
	ok(t, err)
	revision := number(string(a.Token))
	last, revisions := k.allowed("access", "T")
	if k.pending.Op == "withdraw" {
		revisions = append(revisions, 0)
	}
	if !oneOf(revision, revisions) {
		t.Errorf("the access is at revision %d, allowed %v (last %+v)", revision, revisions, last)
	}
	if revision > 0 && !left.IsZero() || revision == 0 && last.Revision > 0 && left.IsZero() {
		t.Errorf("the access is at revision %d and the workspace left at %v", revision, left)
	}
	if k.acked["access T"] = (said{Op: "access", ID: "T", Revision: revision}); revision == 0 {
		delete(k.acked, "access T")
	}
}
