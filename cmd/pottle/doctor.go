package main

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"pottle/bot/slack"
	"pottle/fooddata"
	"pottle/store"
)

// doctorCommand reads the same settings as serveCommand.
type doctorCommand struct {
	Data       string   `help:"The directory of the teams' memory." env:"POTTLE_DATA" placeholder:"DIR"`
	Key        string   `help:"A file with the key, if the memory is encrypted." env:"POTTLE_KEY" placeholder:"FILE"`
	HTTP       bool     `help:"Check for HTTP; otherwise for Socket Mode if SLACK_APP_TOKEN is set, else HTTP if SLACK_SIGNING_SECRET is." name:"http" env:"POTTLE_HTTP"`
	APIURL     string   `help:"Another address of Slack's Web API, for tests." name:"slack-api-url" env:"POTTLE_SLACK_API_URL" placeholder:"URL"`
	URL        string   `help:"The public address, for many workspaces." name:"url" env:"POTTLE_URL" placeholder:"https://..."`
	Workspaces []string `help:"The workspaces that are answered, by team id." env:"POTTLE_WORKSPACES" placeholder:"T..."`
}

// Run prints a line for each check, "ok" or "fault", and under it what to do.
// It fails if there is a fault.
func (c *doctorCommand) Run(p *program) error {
	ctx := context.Background()
	cfg := slack.Config{HTTP: c.HTTP, APIURL: c.APIURL, URL: c.URL, Workspaces: c.Workspaces}
	found := append(c.slack(ctx, &cfg), c.memory(ctx, cfg)...)
	found = append(found, table())
	faults := 0
	for _, f := range found {
		verdict := "ok   "
		if f.Fault {
			verdict = "fault"
			faults++
		}
		if _, err := fmt.Fprintf(p.out, "%s  %s\n", verdict, f.Text); err != nil {
			return err
		}
		if f.Do != "" {
			fmt.Fprintf(p.out, "       %s\n", f.Do)
		}
	}
	switch faults {
	case 0:
		return nil
	case 1:
		return errors.New("1 fault")
	}
	return fmt.Errorf("%d faults", faults)
}

// slack checks the tokens and what Slack says of them.
func (c *doctorCommand) slack(ctx context.Context, cfg *slack.Config) []slack.Finding {
	if err := cfg.ReadTokens(os.Getenv); err != nil {
		return []slack.Finding{{Fault: true, Text: err.Error(), Do: "let each of SLACK_BOT_TOKEN, SLACK_APP_TOKEN, SLACK_SIGNING_SECRET and SLACK_CLIENT_SECRET hold the token, or the same name with _FILE a file that can be read"}}
	}
	if cfg.Many() || cfg.AppToken == "" && cfg.SigningSecret != "" {
		cfg.HTTP = true
	}
	return slack.Examine(ctx, *cfg)
}

// memory checks that the store opens, and the tokens that are kept in it. A
// directory that is not there is not made.
func (c *doctorCommand) memory(ctx context.Context, cfg slack.Config) []slack.Finding {
	if c.Data == "" {
		return []slack.Finding{{Fault: true, Text: "no directory for the team's memory", Do: "set POTTLE_DATA to a directory that pottle may write in, such as /var/lib/pottle"}}
	}
	var found []slack.Finding
	if cfg.Many() && c.Key == "" {
		found = append(found, slack.Finding{Fault: true, Text: "there is no key for the tokens of many workspaces", Do: "make one with \"pottle store key FILE\" and set POTTLE_KEY"})
	}
	if _, err := os.Stat(c.Data); errors.Is(err, fs.ErrNotExist) {
		if above, err := os.Stat(filepath.Dir(c.Data)); err != nil || !above.IsDir() {
			return append(found, slack.Finding{Fault: true, Text: fmt.Sprintf("there is no directory %s, nor the one above it", c.Data), Do: "make it, for the user that pottle runs as"})
		}
		return append(found, slack.Finding{Text: fmt.Sprintf("the memory in %s is new: pottle serve makes it", c.Data)})
	}
	s, err := dataFlags{Data: c.Data, Key: c.Key}.open()
	if err != nil {
		return append(found, c.closed(err))
	}
	found = append(found, slack.Finding{Text: fmt.Sprintf("the memory in %s opens", c.Data)})
	if cfg.Many() {
		found = append(found, slack.ExamineInstalled(ctx, cfg, s)...)
	}
	if err := s.Close(); err != nil {
		found = append(found, c.closed(err))
	}
	return found
}

// closed says why the store does not open.
func (c *doctorCommand) closed(err error) slack.Finding {
	switch {
	case errors.Is(err, store.ErrLocked):
		return slack.Finding{Text: fmt.Sprintf("the memory in %s is in use by another process; while pottle serve runs that is as it should be", c.Data)}
	case errors.Is(err, fs.ErrPermission):
		return slack.Finding{Fault: true, Text: err.Error(), Do: "run this as the user that pottle serve runs as, and let that user own the directory"}
	case errors.Is(err, store.ErrKey):
		return slack.Finding{Fault: true, Text: store.Message(err), Do: "set POTTLE_KEY to the file with this store's key, or leave it unset if there is none"}
	case errors.Is(err, store.ErrNoSpace):
		return slack.Finding{Fault: true, Text: store.Message(err), Do: "free some space on that disk"}
	case errors.Is(err, store.ErrNewerStore):
		return slack.Finding{Fault: true, Text: store.Message(err), Do: "run the newer pottle"}
	case errors.Is(err, store.ErrInvalid):
		return slack.Finding{Fault: true, Text: store.Message(err), Do: "name a directory that is empty or holds a store"}
	}
	return slack.Finding{Fault: true, Text: err.Error(), Do: "restore a backup into a new directory (pottle store restore), or set POTTLE_DATA to another one"}
}

// table checks the food table.
func table() slack.Finding {
	t, err := fooddata.Open()
	if err != nil {
		return slack.Finding{Fault: true, Text: err.Error(), Do: "get the program again: this copy is damaged"}
	}
	return slack.Finding{Text: fmt.Sprintf("the food table opens: %s, %d foods", t.Release(), t.Len())}
}
