package main

import (
	"context"
	"fmt"
	"io"
	"os"

	"pottle/store"
)

// boxCommand works with the team's saved recipes from the command line.
type boxCommand struct {
	List   boxList   `cmd:"" help:"List the saved recipes."`
	Show   boxShow   `cmd:"" help:"Print a saved recipe, its last version or another."`
	Export boxExport `cmd:"" help:"Write all recipes with all versions as JSON lines."`
	Import boxImport `cmd:"" help:"Read recipes from JSON lines."`
}

type boxList struct{ dataFlags }

// Run prints a line for each recipe.
func (c *boxList) Run(p *program) error {
	return c.withStore(func(ctx context.Context, s *store.Badger) error {
		return s.In(c.Team).EachRecipe(ctx, func(r store.Recipe) error {
			_, err := fmt.Fprintf(p.out, "%s\t%d versions\tchanged %s by %s\n", r.Name, len(r.Versions), r.ChangedAt.Format("2006-01-02"), r.ChangedBy)
			return err
		})
	})
}

type boxShow struct {
	dataFlags
	Name    string `arg:"" help:"The recipe's name."`
	Version int    `help:"The version; the last if not given." placeholder:"N"`
}

// Run prints the text of a version, as it could be pasted again.
func (c *boxShow) Run(p *program) error {
	return c.withStore(func(ctx context.Context, s *store.Badger) error {
		r, err := s.In(c.Team).RecipeNamed(ctx, c.Name)
		if err != nil {
			return err
		}
		n := c.Version
		if n == 0 {
			n = len(r.Versions)
		}
		if n < 1 || n > len(r.Versions) {
			return fmt.Errorf("%q has %d versions", r.Name, len(r.Versions))
		}
		_, err = io.WriteString(p.out, r.Versions[n-1].Text)
		return err
	})
}

type boxExport struct {
	dataFlags
	File string `arg:"" optional:"" default:"-" help:"The file to write; - for standard output."`
}

// Run writes the box.
func (c *boxExport) Run(p *program) error {
	return c.withStore(func(ctx context.Context, s *store.Badger) error {
		return p.write(c.File, func(w io.Writer) error {
			_, err := store.Export(ctx, s.In(c.Team), w, p.progress("export"))
			return err
		})
	})
}

type boxImport struct {
	dataFlags
	File string `arg:"" help:"The file to read; - for standard input."`
}

// Run reads a box and says what became of its recipes.
func (c *boxImport) Run(p *program) error {
	in := p.in
	if c.File != "-" {
		f, err := os.Open(c.File)
		if err != nil {
			return fmt.Errorf("import: %w", err)
		}
		defer f.Close()
		in = f
	}
	return c.withStore(func(ctx context.Context, s *store.Badger) error {
		done, err := store.Import(ctx, s.In(c.Team), in, c.who(), p.progress("import"))
		if err != nil {
			return err
		}
		fmt.Fprintf(p.out, "%d added, %d extended, %d the same\n", done.Added, done.Extended, done.Same)
		for _, name := range done.Renamed {
			fmt.Fprintln(p.out, "renamed:", name)
		}
		for _, why := range done.Refused {
			fmt.Fprintln(p.err, "refused:", why)
		}
		if len(done.Refused) > 0 {
			return fmt.Errorf("%d recipes were refused", len(done.Refused))
		}
		return nil
	})
}

// write gives do a file, or standard output for "-". A file that exists is not
// overwritten; one that could not be written whole is removed.
func (p *program) write(name string, do func(io.Writer) error) error {
	if name == "-" {
		return do(p.out)
	}
	f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return fmt.Errorf("write: %w", err)
	}
	err = do(f)
	if err == nil {
		err = f.Sync()
	}
	if closing := f.Close(); err == nil {
		err = closing
	}
	if err != nil {
		_ = os.Remove(name)
	}
	return err
}
