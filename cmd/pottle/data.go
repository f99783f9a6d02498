package main

import (
	"cmp"
	"context"
	"fmt"
	"os"
	"os/user"

	"golang.org/x/term"

	"pottle/store"
)

// dataFlags say where the team's memory is.
type dataFlags struct {
	Data string `help:"The directory of the team's memory." env:"POTTLE_DATA" placeholder:"DIR"`
	Key  string `help:"A file with the key, if the memory is encrypted." env:"POTTLE_KEY" placeholder:"FILE"`
	Team string `help:"The team whose memory it is." env:"POTTLE_TEAM" default:"team"`
	Who  string `help:"Who speaks, for the record of changes." env:"POTTLE_WHO" placeholder:"NAME"`
}

// open opens the store; the directory must be named.
func (d dataFlags) open() (*store.Badger, error) {
	if d.Data == "" {
		return nil, usageError{fmt.Errorf("no directory is named: give --data DIR or set POTTLE_DATA")}
	}
	var opts store.Options
	if d.Key != "" {
		key, err := store.ReadKey(d.Key)
		if err != nil {
			return nil, err
		}
		opts.Key = key
	}
	return store.Open(d.Data, opts)
}

// who is the person who speaks: as told, else the user of the machine.
func (d dataFlags) who() string {
	if d.Who != "" {
		return d.Who
	}
	if u, err := user.Current(); err == nil {
		return cmp.Or(u.Name, u.Username)
	}
	return "somebody"
}

// progress counts records on standard error, if that is a terminal.
func (p *program) progress(what string) store.Progress {
	f, ok := p.err.(*os.File)
	if !ok || !term.IsTerminal(int(f.Fd())) {
		return nil
	}
	return func(records int64) { fmt.Fprintf(p.err, "\r%s: %d records", what, records) }
}

// withStore runs do on the opened store and closes it.
func (d dataFlags) withStore(do func(context.Context, *store.Badger) error) (err error) {
	s, err := d.open()
	if err != nil {
		return err
	}
	defer func() {
		if closing := s.Close(); err == nil {
			err = closing
		}
	}()
	return do(context.Background(), s)
}
