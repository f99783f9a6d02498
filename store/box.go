package store

import (
	"bufio"
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
)

// An exported recipe box is JSON lines in UTF-8 and stays readable by later
// versions. The first line is
//
//	{"pottle":"recipe box","format":1}
//
// and each further line a recipe, by name: the object of Recipe, with id, name,
// tags, saved_by, saved_at, changed_by, changed_at, revision, count, figures
// (per serving of the last version, by INFOODS tagname: value, and at_least if
// an ingredient had no value) and versions, oldest first (text, servings, cooking,
// said, who, when). Times are RFC 3339. Deleted recipes are left out. Reading, fields
// that are not known are left aside, and only name and one version with a text
// are needed; revision and count do not count.
type boxHeader struct {
	Pottle string `json:"pottle"`
	Format int    `json:"format"`
}

var box = boxHeader{Pottle: "recipe box", Format: 1}

// maxLine is the longest line of a box, in bytes.
const maxLine = 256 << 20

// Export writes the recipe box of a workspace and returns the number of recipes.
func Export(ctx context.Context, from Workspace, w io.Writer, progress Progress) (int, error) {
	buf := bufio.NewWriterSize(w, 64<<10)
	enc := json.NewEncoder(buf)
	enc.SetEscapeHTML(false)
	if err := enc.Encode(box); err != nil {
		return 0, fmt.Errorf("export: %w", err)
	}
	n := 0
	err := from.EachRecipe(ctx, func(r Recipe) error {
		n++
		progress.at(int64(n))
		return enc.Encode(r)
	})
	if err == nil {
		err = buf.Flush()
	}
	if err != nil {
		return n, fmt.Errorf("export: %w", err)
	}
	progress.end(int64(n))
	return n, nil
}

// Imported says what became of the recipes of a box.
type Imported struct {
	Added    int // were not there
	Extended int // got versions they did not have
	Same     int // were there already, with at least these versions
	Renamed  []string
	Refused  []string // why, with the line: nothing of these was taken over
}

// Import takes over the recipes of a box, each in a step of its own: after a
// fault or an interruption those before it are there, and importing again adds
// the rest. A recipe is known by its id. One that is there and has other
// versions is refused, as is one that is deleted here; one whose name is taken
// is added as "NAME (2)". Returns ErrNewerStore for a later format and
// ErrInvalid, naming the line, for what is no box.
func Import(ctx context.Context, to Workspace, r io.Reader, who string, progress Progress) (Imported, error) {
	var done Imported
	lines := bufio.NewScanner(r)
	lines.Buffer(make([]byte, 0, 64<<10), maxLine)
	n := 0
	for lines.Scan() {
		line := bytes.TrimSpace(lines.Bytes())
		if n++; n == 1 {
			if err := readHeader(line); err != nil {
				return done, err
			}
			continue
		}
		if len(line) == 0 {
			continue
		}
		var rec Recipe
		if err := json.Unmarshal(line, &rec); err != nil {
			return done, &Error{Code: ErrInvalid.Code, Message: fmt.Sprintf("line %d is no recipe", n), Err: err}
		}
		err := done.take(ctx, to, rec, who)
		if refusable(err) {
			done.Refused = append(done.Refused, fmt.Sprintf("line %d: %s", n, Message(err)))
		} else if err != nil {
			return done, fmt.Errorf("import, line %d: %w", n, err)
		}
		progress.at(int64(n - 1))
	}
	if err := lines.Err(); err != nil {
		return done, fmt.Errorf("import, line %d: %w", n+1, err)
	}
	if n == 0 {
		return done, readHeader(nil)
	}
	progress.end(int64(n - 1))
	return done, nil
}

func readHeader(line []byte) error {
	var h boxHeader
	if err := json.Unmarshal(line, &h); err != nil || h.Pottle != box.Pottle || h.Format < 1 {
		return fault(ErrInvalid, `line 1 is not {"pottle":"recipe box","format":1}: this is no recipe box`)
	}
	if h.Format > box.Format {
		return fault(ErrNewerStore, "the recipe box has format %d, this program knows %d: update the program", h.Format, box.Format)
	}
	return nil
}

// refusable reports whether the fault is the recipe's, so that others may go on.
func refusable(err error) bool {
	for _, code := range []error{ErrInvalid, ErrTooLarge, ErrConflict, ErrExists, ErrNotFound} {
		if errors.Is(err, code) {
			return true
		}
	}
	return false
}

// take brings one recipe in.
func (done *Imported) take(ctx context.Context, to Workspace, r Recipe, who string) error {
	r.Revision = 0
	have := Recipe{}
	if r.ID != "" {
		var err error
		if have, err = to.Recipe(ctx, r.ID); err != nil && !errors.Is(err, ErrNotFound) {
			return err
		}
	}
	switch {
	case have.ID == "":
		if err := done.add(ctx, to, r, who); err != nil {
			return err
		}
		done.Added++
		return nil
	case !have.DeletedAt.IsZero():
		return fault(ErrExists, "recipe %q is deleted here: restore it first", r.Name)
	case sameBeginning(r.Versions, have.Versions) == nil: // ours has as many or more
		done.Same++
		return nil
	case sameBeginning(have.Versions, r.Versions) != nil:
		return fault(ErrConflict, "recipe %q has other versions here", r.Name)
	}
	r.Revision = have.Revision
	if err := grow(ctx, to, r, len(have.Versions), who); err != nil {
		return err
	}
	done.Extended++
	return nil
}

// add saves a new recipe, under another name if its own is taken.
func (done *Imported) add(ctx context.Context, to Workspace, r Recipe, who string) error {
	name := r.Name
	for i := 2; ; i++ {
		err := grow(ctx, to, r, 0, who)
		if err == nil && r.Name != name {
			done.Renamed = append(done.Renamed, fmt.Sprintf("%s, was %s", r.Name, name))
		}
		if !errors.Is(err, ErrExists) || i > 99 {
			return err
		}
		r.Name = fmt.Sprintf("%s (%d)", name, i)
	}
}

// grow saves a recipe of which the first have versions are there, as many
// versions at a time as one SaveRecipe takes.
func grow(ctx context.Context, to Workspace, r Recipe, have int, who string) error {
	all := r.Versions
	for {
		size, n := 0, have
		for n < len(all) && (n == have || size+len(all[n].Text)+len(all[n].Said) <= MaxSave) {
			size += len(all[n].Text) + len(all[n].Said)
			n++
		}
		r.Versions = all[:n]
		saved, err := to.SaveRecipe(ctx, r, who)
		if err != nil {
			return err
		}
		if n == len(all) {
			return nil
		}
		saved.Versions = append(saved.Versions[:n:n], all[n:]...)
		r, all, have = saved, saved.Versions, n
	}
}
